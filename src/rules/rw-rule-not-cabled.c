/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autoptr (GArray) loose = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree char *names = NULL;
  const guint *devices;
  RwFinding *finding;

  for (guint i = 0; i < net->n_devices; i++)
    if (!net->devices[i].forwards && rw_net_device_cable_ends (net, i) == 0)
      g_array_append_val (loose, i);
  if (loose->len == 0)
    return;
  devices = (const guint *) (gpointer) loose->data;
  names = rw_words_devices (net, devices, loose->len);
  finding = rw_findings_begin (findings, rule, rule->severity);
  rw_finding_add_devices (finding, net, devices, loose->len);
  /* Translators: a list of devices */
  rw_finding_set_message (finding, ngettext ("%s has no cable: it takes no part in the system",
                                             "%s have no cable: they take no part in the system", loose->len),
                          names);
}

const RwRule rw_rule_not_cabled = {
  .code = "not-cabled",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Device without a cable"),
  .why = N_("A device on the drawing that no cable reaches is either not finished or not needed. On the day somebody "
            "will carry it in, plug it into the mains and wonder why it is silent."),
  .remedy = N_("Cable the device, or take it off the drawing."),
  .check = check,
};
