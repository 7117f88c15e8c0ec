/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-failure-list.h"
#include "rw-lens-private.h"

#define FAILED_SIGN "×"

/* rw_lens_outcome: (nullable): what becomes of everything; of the Failure lens only. */
const RwOutcome *
rw_lens_outcome (const RwLens *lens)
{
  return lens != NULL ? lens->outcome : NULL;
}

RwFate
rw_lens_device_fate (const RwLens *lens, guint device)
{
  return lens != NULL && lens->outcome != NULL ? lens->outcome->devices[device] : RW_FATE_NONE;
}

gboolean
rw_lens_cable_failed (const RwLens *lens, guint cable)
{
  return lens != NULL && lens->failed != NULL && lens->failed->cable[cable];
}

/**
 * rw_lens_cable_held:
 * @usual: as it is while nothing has failed
 *
 * Returns: at which end the link is held open once the spanning tree has formed anew
 */
RwHeld
rw_lens_cable_held (const RwLens *lens, guint cable, RwHeld usual)
{
  return lens != NULL && lens->outcome != NULL ? rw_scene_held (lens->net, lens->outcome->tree, cable) : usual;
}

/* A cable at a failed device is dead, but not at fault. */
RwLineStyle
rw_lens_failure_style (const RwLens *lens, guint cable, RwLineStyle usual)
{
  const RwNet *net = lens->net;

  if (lens->failed->cable[cable])
    return RW_LINE_FAILED;
  for (guint end = 0; end < 2; end++)
    if (lens->failed->device[net->ports[net->cables[cable].port[end]].device])
      return RW_LINE_QUIET;
  return usual;
}

/* (transfer full) (nullable) */
static char *
badge_text (RwFate fate, RwPlanes planes)
{
  switch (fate)
    {
    case RW_FATE_FAILED:
      return g_strdup (FAILED_SIGN);
    case RW_FATE_LOST:
      /* Translators: on a device that has lost every controller; short */
      return g_strdup (_("silent"));
    case RW_FATE_CUT_OFF:
      /* Translators: on a device that reaches nothing of what it worked with; short */
      return g_strdup (_("cut off"));
    case RW_FATE_NO_LINE:
      /* Translators: on a device all of whose lines are lost; short */
      return g_strdup (_("no line"));
    case RW_FATE_GAP:
      /* Translators: on a device that plays again after a gap; short */
      return g_strdup (_("gap"));
    case RW_FATE_OTHER_PLANE:
      return g_strdup (planes & RW_PLANE_SECONDARY ? "S" : "P");
    case RW_FATE_NONE:
    case RW_FATE_UNTOUCHED:
    default:
      return NULL;
    }
}

static void
add_badge_sample (RwLens *lens, const char *mark, const char *text)
{
  rw_lens_add_sample (lens, (RwLensSample) { .is_badge = TRUE, .mark = g_strdup (mark), .depth = -1, .text = g_strdup (text) });
}

static void
explain (RwLens *lens, gboolean on_primary, gboolean on_secondary)
{
  const RwOutcome *outcome = lens->outcome;

  if (lens->net->n_devices == 0)
    return;
  rw_lens_add_sample (lens, (RwLensSample) { .style = RW_LINE_FAILED, .mark = g_strdup (FAILED_SIGN), .text = g_strdup (_("Failed")) });
  if (outcome->device_counts[RW_FATE_LOST] > 0)
    add_badge_sample (lens, _("silent"), _("Reaches no controller any more"));
  if (outcome->device_counts[RW_FATE_CUT_OFF] > 0)
    add_badge_sample (lens, _("cut off"), _("Cut off from the rest of the network"));
  if (outcome->device_counts[RW_FATE_NO_LINE] > 0)
    add_badge_sample (lens, _("no line"), _("All its lines are lost"));
  if (outcome->device_counts[RW_FATE_GAP] > 0)
    add_badge_sample (lens, _("gap"), _("Silent until spanning tree has formed anew: 30–50 s"));
  if (on_primary)
    add_badge_sample (lens, "P", _("Plays on over the primary network"));
  if (on_secondary)
    add_badge_sample (lens, "S", _("Plays on over the secondary network"));
}

static char *
heading_of (const RwOutcome *outcome, gboolean any)
{
  g_autofree char *costs = any ? rw_failure_costs (outcome, outcome->row_counts, ", ") : NULL;

  /* Translators: over a legend; “2 devices silent, 12 lines lost” */
  return any ? g_strdup_printf (_("Failure: %s"), costs) : g_strdup (_("Failure: nothing has failed"));
}

void
rw_lens_fill_failure (RwLens *lens)
{
  const RwNet *net = lens->net;
  gboolean any = FALSE, on_primary = FALSE, on_secondary = FALSE;

  lens->outcome = rw_outcome_new (net, lens->failed);
  lens->badges = g_new0 (char *, net->n_devices + 1);
  lens->marks = g_new0 (char *, net->n_cables + 1);
  for (guint i = 0; i < net->n_devices; i++)
    {
      gboolean other = lens->outcome->devices[i] == RW_FATE_OTHER_PLANE;
      gboolean secondary = (lens->outcome->planes[i] & RW_PLANE_SECONDARY) != 0;

      lens->badges[i] = badge_text (lens->outcome->devices[i], lens->outcome->planes[i]);
      on_primary |= other && !secondary;
      on_secondary |= other && secondary;
      any |= lens->failed->device[i];
    }
  for (guint i = 0; i < net->n_cables; i++)
    {
      any |= lens->failed->cable[i];
      lens->marks[i] = lens->failed->cable[i] ? g_strdup (FAILED_SIGN) : NULL;
    }
  lens->heading = heading_of (lens->outcome, any);
  explain (lens, on_primary, on_secondary);
}
