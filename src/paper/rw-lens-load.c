/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-forecast.h>

#include "rw-lens-private.h"

/* The most of each step below the ceiling, percent: most links of most rigs carry little, and the few that carry all of it
 * should stand out. */
static const int limits[] = { [RW_FLOW_LOW] = 5, [RW_FLOW_MEDIUM] = 25 };

static RwFlowStep
step_of (double percent, int ceiling)
{
  if (percent > 100)
    return RW_FLOW_OVER_SPEED;
  if (percent > ceiling)
    return RW_FLOW_OVER_CEILING;
  return percent > limits[RW_FLOW_MEDIUM] ? RW_FLOW_HIGH : percent > limits[RW_FLOW_LOW] ? RW_FLOW_MEDIUM : RW_FLOW_LOW;
}

static RwLensFlow
flow_of (const RwNet *net, guint cable)
{
  const RwForecast *forecast = rw_net_forecast (net);
  RwLensFlow flow = { .step = RW_FLOW_LOW };

  for (guint i = 0; i < 2; i++)
    {
      flow.mbps[i] = forecast->loads->loads[2 * cable + i].mbps;
      flow.percent[i] = rw_load_percent (net, forecast->loads, cable, i);
    }
  flow.step = step_of (MAX (flow.percent[0], flow.percent[1]), forecast->link_ceiling_percent);
  return flow;
}

/* Two digits at most where there is something before the point. */
static char *
number_text (double number)
{
  if (number < 0.05)
    return g_strdup ("<0.1");
  return number < 9.95 ? g_strdup_printf ("%.1f", number) : g_strdup_printf ("%.0f", number);
}

/**
 * rw_lens_flow_text:
 * @flow: a flow
 * @direction: 0 = from → to
 * @detailed: with Mb/s
 *
 * Returns: (transfer full): "12 %", "12 % · 118 Mb/s"
 */
char *
rw_lens_flow_text (const RwLensFlow *flow, guint direction, gboolean detailed)
{
  g_autofree char *percent = number_text (flow->percent[direction]);
  g_autofree char *mbps = number_text (flow->mbps[direction]);

  if (detailed)
    /* Translators: a load in percent, the same in Mb/s */
    return g_strdup_printf (_("%s %% · %s Mb/s"), percent, mbps);
  /* Translators: a load in percent */
  return g_strdup_printf (_("%s %%"), percent);
}

static char *
step_text (RwFlowStep step, int ceiling)
{
  switch (step)
    {
    case RW_FLOW_OVER_SPEED:
      return g_strdup (_("Over 100 %: frames are lost"));
    case RW_FLOW_OVER_CEILING:
      /* Translators: in a legend; a percentage that a person has set */
      return g_strdup_printf (_("Over the ceiling of %d %%"), ceiling);
    case RW_FLOW_LOW:
    case RW_FLOW_MEDIUM:
    case RW_FLOW_HIGH:
    default:
      /* Translators: in a legend; how full cables of this line are */
      return g_strdup_printf (_("Up to %d %% in the fuller direction"), step < RW_FLOW_HIGH ? MIN (limits[step], ceiling) : ceiling);
    }
}

static void
explain (RwLens *lens, const gboolean *occurs, gboolean has_quiet)
{
  int ceiling = rw_net_forecast (lens->net)->link_ceiling_percent;
  RwLensFlow example = { .mbps = { 120, 0 }, .percent = { 12, 0 } };

  for (guint i = 0; i < RW_N_FLOW_STEPS; i++)
    if (occurs[i])
      rw_lens_add_sample (lens, (RwLensSample) { .style = RW_LINE_LOAD + (RwLineStyle) i, .text = step_text ((RwFlowStep) i, ceiling) });
  if (lens->samples->len > 0)
    rw_lens_add_sample (lens, (RwLensSample) { .is_flow = TRUE, .flow = example, .style = RW_LINE_LOAD,
                                               .text = g_strdup (_("Load that way, of the link’s speed")) });
  if (has_quiet)
    rw_lens_add_sample (lens, (RwLensSample) { .style = RW_LINE_QUIET, .text = g_strdup (_("No stream passes")) });
}

void
rw_lens_fill_load (RwLens *lens)
{
  const RwNet *net = lens->net;
  gboolean occurs[RW_N_FLOW_STEPS] = { FALSE }, has_quiet = FALSE;

  lens->heading = g_strdup (_("Load: planning figures, all streams of the patch at once"));
  lens->styles = g_new0 (RwLineStyle, net->n_cables + 1);
  lens->flows = g_new0 (RwLensFlow, net->n_cables + 1);
  for (guint i = 0; i < net->n_cables; i++)
    {
      lens->flows[i] = flow_of (net, i);
      if (rw_lens_cable_flow (lens, i) != NULL)
        {
          lens->styles[i] = RW_LINE_LOAD + (RwLineStyle) lens->flows[i].step;
          occurs[lens->flows[i].step] = TRUE;
          continue;
        }
      lens->styles[i] = net->cables[i].audio ? RW_LINE_QUIET : RW_LINE_AUX;
      has_quiet |= net->cables[i].audio;
    }
  explain (lens, occurs, has_quiet);
}
