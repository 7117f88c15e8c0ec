/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-state.h>
#include <rules/rw-rule.h>

G_BEGIN_DECLS

/* The words by which the window speaks of things; all (transfer full) unless const. */
const char *rw_words_severity_icon (RwSeverity severity); /* an icon's name */
const char *rw_words_severity_class (RwSeverity severity); /* a CSS class */
char *rw_words_port (const RwPort *port);                 /* "primary, copper, 1000 Mb/s" */
char *rw_words_end (const RwNet *net, guint port);        /* "Stage left · Primary" */
char *rw_words_cable (const RwNet *net, guint cable);     /* "Stage left · Primary → Desk · Secondary" */
char *rw_words_counts (const RwFindings *findings);       /* "2 errors, 1 note"; "nothing to mend" */
char *rw_words_set (const RwPatchSet *set);               /* "Inputs of FOH desk, 24 lines" */
const char *rw_words_phantom_caution (void);
/* The smallest receive latency that is safe for all devices of @keys (the system's stands for all there are), and what
 * asks for it; (transfer full) (nullable): nothing reaches them over the network. */
char *rw_words_safe_latency (const RwNet *net, const char *const *keys);
char *rw_words_selection (guint devices, guint cables);   /* "3 devices, 2 cables" */

G_END_DECLS
