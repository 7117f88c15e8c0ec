/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rule.h"

G_BEGIN_DECLS

/* "loop" and "loop-held" tell of the same closing cables: those that nothing opens, and the others. */
void rw_loops_check (const RwRule *rule, const RwNet *net, RwFindings *findings, gboolean held,
                     char *(*message) (const RwNet *net, const RwLoop *loop));

G_END_DECLS
