/* SPDX-License-Identifier: MIT */
#include "rw-whole-cost.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <rig/rw-length.h>

static void
add_line (GString *text, guint n, char *line)
{
  if (n > 0)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
  g_free (line);
}

/* rw_whole_cost_text: what a rewiring would cost, a line each; what costs nothing is left out. (transfer full). */
char *
rw_whole_cost_text (const RwRewireCost *c)
{
  GString *text = g_string_new (NULL);
  double unit = rw_length_units () == RW_UNITS_FEET ? RW_METRES_A_FOOT : 1;
  g_autofree char *length = rw_length_text (round (c->metres / unit) * unit);

  add_line (text, c->n_removed, g_strdup_printf (ngettext ("%u cable goes", "%u cables go", c->n_removed), c->n_removed));
  add_line (text, c->n_kept, g_strdup_printf (ngettext ("%u cable stays", "%u cables stay", c->n_kept), c->n_kept));
  add_line (text, c->n_new, g_strdup_printf (ngettext ("%u new cable", "%u new cables", c->n_new), c->n_new));
  add_line (text, c->metres > 0, g_strdup_printf (_("At most %s of cable, laid along the present ways"), length));
  add_line (text, c->n_unmeasured, g_strdup_printf (ngettext ("%u new cable of which no way of known length tells how long it is",
                                                              "%u new cables of which no way of known length tells how long they are",
                                                              c->n_unmeasured), c->n_unmeasured));
  add_line (text, c->n_switches, g_strdup_printf (ngettext ("%u new switch", "%u new switches", c->n_switches), c->n_switches));
  add_line (text, c->n_switch_ports, g_strdup_printf (ngettext ("%u switch port in use", "%u switch ports in use",
                                                                c->n_switch_ports), c->n_switch_ports));
  add_line (text, c->n_idle, g_strdup_printf (ngettext ("%u switch or converter stays on the sheet without a cable",
                                                        "%u switches and converters stay on the sheet without a cable",
                                                        c->n_idle), c->n_idle));
  add_line (text, c->n_mismatched, g_strdup_printf (ngettext ("%u new cable joins copper and fibre and needs a converter",
                                                              "%u new cables join copper and fibre and need converters",
                                                              c->n_mismatched), c->n_mismatched));
  return g_string_free (text, FALSE);
}
