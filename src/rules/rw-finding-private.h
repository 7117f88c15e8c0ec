/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-finding.h"

G_BEGIN_DECLS

RwFinding *rw_finding_new (const RwRule *rule, RwSeverity severity);
void rw_finding_add_subjects (const RwFinding *finding, GHashTable *subjects);
gboolean rw_finding_is_within (const RwFinding *finding, GHashTable *subjects);

G_END_DECLS
