/* SPDX-License-Identifier: MIT */
#include "rw-rule-addresses.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

static void
check_side (const RwRule *rule, const RwNet *net, RwFindings *findings, guint device, RwSide side)
{
  const RwAddresses *addresses = &net->devices[device].device->addresses;
  RwAddressUse use = { .device = device, .side = side };
  RwFinding *finding;
  gboolean reserved;

  use.text = side == RW_SIDE_SECONDARY ? addresses->secondary : addresses->primary;
  if (use.text == NULL || !rw_address_parse (use.text, &use.address) || !rw_address_is_link_local (use.address))
    return;
  reserved = rw_address_is_reserved (use.address);
  finding = rw_findings_begin (findings, rule, reserved ? RW_SEVERITY_ERROR : RW_SEVERITY_WARNING);
  rw_finding_add_address (finding, net, &use);
  if (reserved)
    /* Translators: a device, an address */
    rw_finding_set_message (finding, _("%s has the address %s, which is reserved: no device may use it"),
                            rw_net_device_title (net, device), use.text);
  else
    /* Translators: a device, an address */
    rw_finding_set_message (finding, _("%s has the address %s set by hand: other devices take such addresses by themselves, "
                                       "and one may take this"), rw_net_device_title (net, device), use.text);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_devices; i++)
    {
      rw_net_fetch_ahead (net, i, G_STRUCT_OFFSET (RwDevice, addresses));
      check_side (rule, net, findings, i, RW_SIDE_PRIMARY);
      check_side (rule, net, findings, i, RW_SIDE_SECONDARY);
    }
}

/* Without an address of its own the device takes one by itself. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  const RwDevice *device = rw_rig_device (rig, finding->devices[0]);
  const char *texts[] = { device->addresses.primary, device->addresses.secondary };

  for (guint side = 0; side < 2; side++)
    {
      RwAddress address;

      if (texts[side] != NULL && rw_address_parse (texts[side], &address) && rw_address_is_link_local (address))
        rw_fix_clear_address (rig, device, side, fixes);
    }
}

const RwRule rw_rule_address_link_local = {
  .code = "address-link-local",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Link-local address set by hand"),
  .why = N_("Addresses from 169.254 are those that devices take by themselves when nobody gives them one. One that is set by "
            "hand is not defended, and clashes sooner or later."),
  .remedy = N_("Leave the address empty, or take one from a private range."),
  .check = check,
  .fix = fix,
};
