/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/* The kinds of item that a rig holds, in the order in which a file lists them. */
typedef enum
{
  RW_ITEM_SHOW,
  RW_ITEM_SYSTEM,
  RW_ITEM_PART,
  RW_ITEM_DEVICE,
  RW_ITEM_CABLE,
  RW_ITEM_PATCH,
  RW_ITEM_INSIDE,
  RW_ITEM_CHANNEL,
  RW_ITEM_SET,
  RW_ITEM_REVISION,
} RwItemType;
#define RW_N_ITEM_TYPES (RW_ITEM_REVISION + 1)
/* The types before this describe the rig itself; a stored state holds them and no others. */
#define RW_N_STATE_TYPES (RW_ITEM_CHANNEL + 1)

typedef struct _RwField RwField;
typedef struct _RwTable RwTable;
typedef struct _RwRecord RwRecord;
typedef struct _RwItem RwItem;
typedef struct _RwShow RwShow;
typedef struct _RwSystem RwSystem;
typedef struct _RwPart RwPart;
typedef struct _RwPort RwPort;
typedef struct _RwDevice RwDevice;
typedef struct _RwCable RwCable;
typedef struct _RwPatchRow RwPatchRow;
typedef struct _RwInsideRow RwInsideRow;
typedef struct _RwChannel RwChannel;
typedef struct _RwPatchSet RwPatchSet;
typedef struct _RwRevision RwRevision;
typedef struct _RwChange RwChange;
typedef struct _RwEdit RwEdit;
typedef struct _RwHistory RwHistory;
typedef struct _RwRig RwRig;

G_END_DECLS
