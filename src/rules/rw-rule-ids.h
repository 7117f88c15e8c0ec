/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rule.h"

G_BEGIN_DECLS

/* What the rules on unit IDs and controller IDs share; @field is RW_DEVICE_UNIT_ID or RW_DEVICE_CONTROLLER_ID. */
int rw_ids_of (const RwDevice *device, guint field);
int rw_ids_max (const RwRig *rig, guint field);

/* @names: of the @n devices that use @id, as a list */
typedef char *(*RwIdsClashFunc) (const char *names, guint n, int id);
/* Which of two formats with the same arguments speaks of @n devices. */
const char *rw_ids_two_or_more (guint n, const char *two, const char *more) G_GNUC_FORMAT (2) G_GNUC_FORMAT (3);
void rw_ids_check_clashes (const RwRule *rule, const RwNet *net, RwFindings *findings, guint field,
                           RwIdsClashFunc message);

/* The IDs of a rig that are still to be had: for fixes. */
typedef struct
{
  int max;
  int next;
  gboolean *taken; /* by ID, 1 … max */
} RwIdsFree;
void rw_ids_free_init (RwIdsFree *ids, const RwRig *rig, guint field);
int rw_ids_free_take (RwIdsFree *ids);
void rw_ids_free_clear (RwIdsFree *ids);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (RwIdsFree, rw_ids_free_clear)

G_END_DECLS
