/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-state.h"

G_BEGIN_DECLS

char *rw_revision_next_letter (const RwRig *rig);
char *rw_revision_letter_after (const char *letter);
const RwRevision *rw_revision_find (const RwRig *rig, const char *letter);
const RwRevision *rw_revision_last (const RwRig *rig);
RwChange *rw_revision_issue (const RwRig *rig, const char *letter, const char *date, const char *by, const char *what, GError **error);
RwChange *rw_revision_forget (const RwRig *rig, const char *id);

G_END_DECLS
