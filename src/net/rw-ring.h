/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

guint *rw_rings_new (const RwNet *net);

G_END_DECLS
