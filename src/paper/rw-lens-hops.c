/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-hops.h>

#include "rw-lens-private.h"

/* Both distances of a redundant device where they differ: "3/4". */
static char *
badge_text (guint primary, guint secondary)
{
  if (primary == RW_NONE && secondary == RW_NONE)
    return g_strdup ("–");
  if (primary == secondary)
    return g_strdup_printf ("%u", primary);
  if (primary == RW_NONE)
    return g_strdup_printf ("–/%u", secondary);
  if (secondary == RW_NONE)
    return g_strdup_printf ("%u/–", primary);
  return g_strdup_printf ("%u/%u", primary, secondary);
}

static gboolean
is_counted (const RwNetDevice *device)
{
  return device->n_nodes > 0;
}

/* Sets badges; @nearest: by device, the lower of its distances. */
static guint
fill_badges (RwLens *lens, const guint *hops, guint *nearest)
{
  const RwNet *net = lens->net;
  guint farthest = RW_NONE;

  for (guint i = 0; i < net->n_devices; i++)
    {
      guint primary = rw_net_device_hops (net, hops, i, RW_SIDE_PRIMARY);
      guint secondary = rw_net_device_hops (net, hops, i, RW_SIDE_SECONDARY);

      if (!is_counted (&net->devices[i]))
        continue;
      if (i == lens->from)
        primary = secondary = 0;
      nearest[i] = MIN (primary, secondary);
      lens->badges[i] = badge_text (primary, secondary);
      if (nearest[i] != RW_NONE && (farthest == RW_NONE || nearest[i] > nearest[farthest]))
        farthest = i;
    }
  return farthest;
}

static void
add_badge_sample (RwLens *lens, const char *mark, double depth, const char *text)
{
  rw_lens_add_sample (lens, (RwLensSample) { .is_badge = TRUE, .mark = g_strdup (mark), .depth = depth, .text = g_strdup (text) });
}

static void
explain (RwLens *lens, const guint *nearest, guint farthest)
{
  const RwNet *net = lens->net;
  g_autofree char *last = NULL, *number = NULL;
  gboolean lost = FALSE, twofold = FALSE;

  add_badge_sample (lens, "0", 0, _("Where the counting starts"));
  if (nearest[farthest] > 1)
    add_badge_sample (lens, "1", 1.0 / nearest[farthest], _("Bridges that a frame passes"));
  number = g_strdup_printf ("%u", nearest[farthest]);
  /* Translators: in a legend; a device */
  last = g_strdup_printf (_("Farthest: %s"), rw_device_title (net->devices[farthest].device));
  if (farthest != lens->from)
    add_badge_sample (lens, number, 1, last);
  for (guint i = 0; i < net->n_devices; i++)
    {
      lost |= is_counted (&net->devices[i]) && nearest[i] == RW_NONE;
      twofold |= lens->badges[i] != NULL && g_utf8_strchr (lens->badges[i], -1, '/') != NULL;
    }
  if (twofold)
    add_badge_sample (lens, "1/2", -1, _("On the primary / the secondary network"));
  if (lost)
    add_badge_sample (lens, "–", -1, _("No frame gets there"));
}

void
rw_lens_fill_hops (RwLens *lens)
{
  const RwNet *net = lens->net;
  g_autofree guint *hops = NULL, *nearest = NULL;
  guint farthest;

  if (lens->from == RW_NONE)
    lens->from = rw_net_lead_device (net);
  if (lens->from == RW_NONE)
    return;
  /* Translators: over a legend; a device */
  lens->heading = g_strdup_printf (_("Hops from %s"), rw_device_title (net->devices[lens->from].device));
  lens->badges = g_new0 (char *, net->n_devices + 1);
  lens->depths = g_new (double, net->n_devices + 1);
  nearest = g_new (guint, net->n_devices + 1);
  for (guint i = 0; i < net->n_devices; i++)
    nearest[i] = RW_NONE;
  hops = rw_net_hops_from (net, lens->from);
  farthest = fill_badges (lens, hops, nearest);
  for (guint i = 0; i < net->n_devices; i++)
    lens->depths[i] = nearest[i] == RW_NONE ? -1 : nearest[i] / (double) MAX (nearest[farthest], 1);
  explain (lens, nearest, farthest);
}
