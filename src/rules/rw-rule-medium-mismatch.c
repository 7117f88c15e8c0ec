/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>
#include <net/rw-reach.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

static gboolean
takes (const RwPort *port, int medium)
{
  return port->medium == RW_MEDIUM_CAGE || port->medium == medium;
}

static const RwPort *
port_at (const RwNet *net, guint cable, guint end)
{
  return net->ports[net->cables[cable].port[end]].port;
}

/* As they stand within a sentence. */
static const char *
say_medium (int medium)
{
  static const char *const words[] = { N_("copper"), N_("multimode fibre"), N_("singlemode fibre") };

  return _(words[medium]);
}

static void
say_ports (RwFinding *finding, const RwNet *net, guint index, const gboolean *wrong)
{
  const RwCable *cable = net->cables[index].cable;
  g_autofree char *title = rw_words_net_cable (net, index);
  guint end = wrong[0] ? 0 : 1;
  const RwPort *port = port_at (net, index, end);

  /* Translators: a cable, "copper" or a kind of fibre, a port, a device, what the port takes */
  rw_finding_set_message (finding, _("Cable %s is %s, but port %s of %s takes %s: the plug does not fit, and nothing passes"),
                          title, say_medium (cable->medium),
                          port->name, rw_net_device_title (net, rw_net_cable_device (net, index, end)),
                          say_medium (port->medium));
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint index, const gboolean *wrong)
{
  const RwCable *cable = net->cables[index].cable;
  g_autofree char *title = rw_words_net_cable (net, index);
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  guint before = RW_NONE;

  for (guint end = 0; end < 2; end++)
    if (wrong[end])
      {
        guint device = rw_net_cable_device (net, index, end);

        if (device != before)
          rw_finding_add_devices (finding, net, &device, 1);
        rw_finding_add_net_port (finding, net, net->cables[index].port[end]);
        before = device;
      }
  rw_finding_add_cables (finding, net, &index, 1);
  if (wrong[0] || wrong[1])
    say_ports (finding, net, index, wrong);
  else
    /* Translators: a cable, "copper" or a kind of fibre, a grade ("OM3") */
    rw_finding_set_message (finding, _("Cable %s is %s, but its grade is %s: there is no such cable to be had"),
                            title, say_medium (cable->medium),
                            rw_words_of_field (&rw_cable_table, RW_CABLE_GRADE, cable->grade));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_cables; i++)
    {
      const RwRun *run = &net->cables[i].run;
      gboolean wrong[] = { !takes (port_at (net, i, 0), run->medium), !takes (port_at (net, i, 1), run->medium) };

      if (wrong[0] || wrong[1] || !rw_grade_is_of (run->grade, run->medium))
        report (rule, net, findings, i, wrong);
    }
}

/* The one medium that both ports take; -1 where there is none, or several. */
static int
only_medium (const RwNet *net, guint cable)
{
  int from = port_at (net, cable, 0)->medium, to = port_at (net, cable, 1)->medium;

  if (from == RW_MEDIUM_CAGE && to == RW_MEDIUM_CAGE)
    return net->cables[cable].cable->medium;
  if (from == RW_MEDIUM_CAGE || from == to)
    return to;
  return to == RW_MEDIUM_CAGE ? from : -1;
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  const RwCable *cable = rw_rig_cable (rig, finding->cables[0]);
  int medium = only_medium (net, rw_net_find_cable (net, finding->cables[0]));

  if (medium < 0)
    return;
  rw_fix_set_grade (rig, finding->cables[0], medium,
                    cable->grade >= 0 && rw_grade_is_of (cable->grade, medium) ? cable->grade : -1, fixes);
}

const RwRule rw_rule_medium_mismatch = {
  .code = "medium-mismatch",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Cable that does not fit"),
  .why = N_("Copper goes into copper ports, multimode fibre meets multimode, singlemode meets singlemode; only a cage takes "
            "what its module takes. A cable of another kind cannot be plugged, or brings no light."),
  .remedy = N_("Choose the cable that both ports take, or put a converter in between."),
  .check = check,
  .fix = fix,
};
