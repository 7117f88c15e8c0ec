/* SPDX-License-Identifier: MIT */
#include "rw-words.h"

#include <glib/gi18n-lib.h>
#include <net/rw-forecast.h>
#include <rig/rw-line.h>

static const struct { const char *icon, *css_class; } severities[] = {
  [RW_SEVERITY_ERROR] = { "rw-error-symbolic", "rw-error" },
  [RW_SEVERITY_WARNING] = { "rw-warning-symbolic", "rw-warning" },
  [RW_SEVERITY_NOTE] = { "rw-note-symbolic", "rw-note" },
};

const char *
rw_words_severity_icon (RwSeverity severity)
{
  return severities[severity].icon;
}

const char *
rw_words_severity_class (RwSeverity severity)
{
  return severities[severity].css_class;
}

static const char *
word_label (const RwField *field, int index)
{
  return field->word_labels != NULL ? _(field->word_labels[index]) : field->words[index];
}

char *
rw_words_port (const RwPort *port)
{
  /* Translators: the side of a port, its medium, its speed. */
  return g_strdup_printf (_("%s, %s, %d Mb/s"), word_label (&rw_port_table.fields[RW_PORT_SIDE], port->side),
                          word_label (&rw_port_table.fields[RW_PORT_MEDIUM], port->medium), port->speed_mbps);
}

char *
rw_words_end (const RwNet *net, guint port)
{
  const RwNetPort *p = &net->ports[port];

  return g_strdup_printf ("%s · %s", rw_device_title (net->devices[p->device].device), p->port->name);
}

char *
rw_words_cable (const RwNet *net, guint cable)
{
  g_autofree char *from = rw_words_end (net, net->cables[cable].port[0]);
  g_autofree char *to = rw_words_end (net, net->cables[cable].port[1]);

  return g_strdup_printf ("%s → %s", from, to);
}

static void
add_count (GString *text, char *count)
{
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append (text, count);
  g_free (count);
}

char *
rw_words_counts (const RwFindings *findings)
{
  GString *text = g_string_new (NULL);
  guint errors = rw_findings_count (findings, RW_SEVERITY_ERROR);
  guint warnings = rw_findings_count (findings, RW_SEVERITY_WARNING);
  guint notes = rw_findings_count (findings, RW_SEVERITY_NOTE);

  if (errors > 0)
    add_count (text, g_strdup_printf (ngettext ("%u error", "%u errors", errors), errors));
  if (warnings > 0)
    add_count (text, g_strdup_printf (ngettext ("%u warning", "%u warnings", warnings), warnings));
  if (notes > 0)
    add_count (text, g_strdup_printf (ngettext ("%u note", "%u notes", notes), notes));
  if (text->len == 0)
    g_string_append (text, _("nothing to mend"));
  return g_string_free (text, FALSE);
}

char *
rw_words_selection (guint devices, guint cables)
{
  GString *text = g_string_new (NULL);

  if (devices > 0)
    add_count (text, g_strdup_printf (ngettext ("%u device", "%u devices", devices), devices));
  if (cables > 0)
    add_count (text, g_strdup_printf (ngettext ("%u cable", "%u cables", cables), cables));
  return g_string_free (text, FALSE);
}

static guint
count_lines (const RwPatchSet *set)
{
  guint n = 0;

  for (RwLineSide side = 0; side < RW_N_LINE_SIDES; side++)
    if (set->scope == RW_SCOPE_ALL || (set->scope == RW_SCOPE_INPUTS) == (side == RW_LINE_INPUT))
      {
        g_autoptr (RwLines) lines = rw_lines_new (set->state, side, FALSE);
        n += rw_lines_n (lines);
      }
  return n;
}

char *
rw_words_set (const RwPatchSet *set)
{
  const char *scope = _(rw_set_table.fields[RW_SET_SCOPE].word_labels[set->scope]);
  guint n = count_lines (set);
  g_autofree char *lines = g_strdup_printf (ngettext ("%u line", "%u lines", n), n);

  if (set->device == NULL)
    return g_strdup_printf ("%s, %s", scope, lines);
  /* Translators: "Inputs", a console, "24 lines". */
  return g_strdup_printf (_("%s of %s, %s"), scope, rw_device_title (rw_rig_device (set->state, set->device)), lines);
}

const char *
rw_words_phantom_caution (void)
{
  return _("Phantom power puts 48 V on the socket: mute first, and never into ribbon or line sources that are not rated for it. Local rules come first.");
}

char *
rw_words_safe_latency (const RwNet *net, const char *const *keys)
{
  const RwArrival *arrivals = rw_net_forecast (net)->arrivals;
  gboolean all = g_str_equal (keys[0], RW_SYSTEM_KEY);
  guint n_asked = all ? net->n_devices : g_strv_length ((char **) keys), worst = RW_NONE, n = 0;
  int us;

  for (guint i = 0; i < n_asked; i++)
    {
      guint device = all ? i : rw_net_find_device (net, keys[i]);

      if (device == RW_NONE || arrivals[device].talker == RW_NONE)
        continue;
      n++;
      if (worst == RW_NONE || arrivals[device].delay_ns > arrivals[worst].delay_ns)
        worst = device;
    }
  if (n == 0)
    return NULL;
  us = rw_arrival_safe_us (&arrivals[worst]);
  if (n == 1)
    /* Translators: a time in µs, a device, a time in µs. */
    return g_strdup_printf (_("Smallest safe: %d µs. What %s sends takes up to %.0f µs by plan; packets that bunch can take longer."),
                            us, rw_device_title (net->devices[arrivals[worst].talker].device), arrivals[worst].delay_ns / 1e3);
  /* Translators: a time in µs, a device, a time in µs, the device that receives it. */
  return g_strdup_printf (_("Smallest safe for all: %d µs. What %s sends takes up to %.0f µs to %s by plan; packets that bunch can "
                            "take longer."),
                          us, rw_device_title (net->devices[arrivals[worst].talker].device), arrivals[worst].delay_ns / 1e3,
                          rw_device_title (net->devices[worst].device));
}
