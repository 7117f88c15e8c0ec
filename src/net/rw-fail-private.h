/* SPDX-License-Identifier: MIT */
/* What the two that fail several things at once share: what is lost, and what becomes of each. */
#pragma once

#include "rw-survival.h"
#include "rw-union.h"

G_BEGIN_DECLS

guint *rw_fail_join (const RwNet *net, const RwFailed *failed, const gboolean *active);
gboolean rw_fail_meets (const RwNet *net, guint *sets, guint from, guint to);
gboolean *rw_fail_controllers (const RwNet *net, guint *sets, const RwFailed *failed);

G_END_DECLS
