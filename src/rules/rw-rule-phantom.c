/* SPDX-License-Identifier: MIT */
#include "rw-rule-phantom.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

/**
 * rw_phantom_harms: whether 48 V may damage what is plugged in. @source: an RwSource.
 * Common practice: ribbon, line and radio outputs may be damaged; a passive DI's transformer keeps it away.
 */
gboolean
rw_phantom_harms (int source)
{
  return source == RW_SOURCE_RIBBON || source == RW_SOURCE_LINE || source == RW_SOURCE_RADIO;
}

/**
 * rw_phantom_suits: whether nothing is to be said against it on what is plugged in; TRUE as well where that is not known.
 * @source: an RwSource.
 */
gboolean
rw_phantom_suits (int source)
{
  return !rw_phantom_harms (source) && source != RW_SOURCE_DI_PASSIVE;
}

/* "Kick in (Stage left, send 1)", or without its name. (transfer full). */
char *
rw_phantom_line (const RwNet *net, guint device, const RwChannel *channel)
{
  const char *title = rw_net_device_title (net, device);

  if (channel->name == NULL || *channel->name == '\0')
    /* Translators: the number of a send, a device */
    return g_strdup_printf (_("Send %d of %s"), channel->number, title);
  /* Translators: the name of a line, a device, the number of a send */
  return g_strdup_printf (_("%s (%s, send %d)"), channel->name, title, channel->number);
}

gboolean
rw_channel_has_preamp (const RwNet *net, guint device, int number)
{
  return number >= 1 && number <= net->devices[device].part->preamps;
}

void
rw_finding_about_channel (RwFinding *finding, const RwChannel *channel)
{
  rw_finding_add_device (finding, channel->device);
  rw_finding_add_channel (finding, rw_item_key (channel));
}

void
rw_phantom_propose (const RwFinding *finding, const RwRig *rig, gboolean on, GPtrArray *fixes)
{
  const RwChannel *channel = (const RwChannel *) rw_rig_find (rig, finding->channels[0]);

  if (channel != NULL)
    rw_fix_set_phantom (rig, channel, on, fixes);
}
