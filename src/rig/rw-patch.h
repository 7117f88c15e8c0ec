/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-item.h"

G_BEGIN_DECLS

enum
{
  RW_PATCH_ID,
  RW_PATCH_FROM,
  RW_PATCH_TO,
  RW_PATCH_N_FIELDS
};

/* Over the network: a send of one device to a receive of another. */
struct _RwPatchRow
{
  RwItem item;
  RwSlot from;
  RwSlot to;
};

typedef enum { RW_INSIDE_RECEIVE, RW_INSIDE_LOCAL, RW_INSIDE_BUS } RwInsideFrom;
typedef enum { RW_INSIDE_TO_STRIP, RW_INSIDE_TO_SEND, RW_INSIDE_TO_LOCAL } RwInsideTo;

enum
{
  RW_INSIDE_ID,
  RW_INSIDE_DEVICE,
  RW_INSIDE_FROM,
  RW_INSIDE_TO,
  RW_INSIDE_N_FIELDS
};

/* Inside a device: receive or local → strip; bus → send or local. */
struct _RwInsideRow
{
  RwItem item;
  char *device;
  RwPlace from; /* kind: RwInsideFrom */
  RwPlace to;   /* kind: RwInsideTo */
};

extern const RwTable rw_patch_table;
extern const RwTable rw_inside_table;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwPatchRow, rw_item_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwInsideRow, rw_item_unref)

G_END_DECLS
