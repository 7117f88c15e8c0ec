/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-finding.h"

G_BEGIN_DECLS

RwFinding *rw_finding_new (const RwRule *rule, RwSeverity severity);
guint rw_finding_hash (gconstpointer key);

G_END_DECLS
