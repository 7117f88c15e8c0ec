/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-document.h"

G_BEGIN_DECLS

/**
 * RwWiring: which ports a new cable would best join, and which are already spoken for by cables that
 * a gesture has not yet drawn. Indices are those of the document's net.
 */
typedef struct
{
  const RwNet *net;
  guint8 *taken; /* by port: a cable of the rig or of this gesture is in it */
} RwWiring;

void rw_wiring_init (RwWiring *wiring, const RwNet *net);
void rw_wiring_clear (RwWiring *wiring);
gboolean rw_wiring_is_free (const RwWiring *wiring, guint port);
gboolean rw_wiring_fits (const RwWiring *wiring, guint port_a, guint port_b);
int rw_wiring_score (const RwWiring *wiring, guint from, guint to);
gboolean rw_wiring_choose (const RwWiring *wiring, guint from_device, guint from_port, guint to_device, guint *from,
                           guint *to);
gboolean rw_wiring_are_joined (const RwWiring *wiring, guint a, guint b);
gboolean rw_wiring_passes_on (const RwWiring *wiring, guint device);
void rw_wiring_draw (RwWiring *wiring, RwEdit *edit, guint from, guint to);
void rw_wiring_replug (RwWiring *wiring, RwEdit *edit, guint cable, guint end, guint to);

G_END_DECLS
