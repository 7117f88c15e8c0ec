/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

/*
 * Sends frames over a rig, hop by hop from port to port. It knows what a port does with a tag and
 * where the cable leads, and nothing of nodes and networks: an independent judge of them.
 */
typedef struct _Flooder Flooder;

Flooder *flooder_new (const RwRig *rig);
void flooder_free (Flooder *flooder);
/* Which devices' hosts hear an untagged broadcast that device @from's host sends, by place in the file. */
gboolean *flooder_send (const Flooder *flooder, guint from);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Flooder, flooder_free)

G_END_DECLS
