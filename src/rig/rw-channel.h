/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-change.h"

G_BEGIN_DECLS

typedef enum
{
  RW_CHANNEL_SEND,
  RW_CHANNEL_RECEIVE,
  RW_CHANNEL_STRIP,
  RW_CHANNEL_BUS,
} RwChannelSide;

typedef enum
{
  RW_SOURCE_UNKNOWN = -1,
  RW_SOURCE_CONDENSER,
  RW_SOURCE_DYNAMIC,
  RW_SOURCE_RIBBON,
  RW_SOURCE_DI_ACTIVE,
  RW_SOURCE_DI_PASSIVE,
  RW_SOURCE_LINE,
  RW_SOURCE_RADIO,
} RwSource;

enum
{
  RW_CHANNEL_DEVICE,
  RW_CHANNEL_SIDE,
  RW_CHANNEL_NUMBER,
  RW_CHANNEL_NAME,
  RW_CHANNEL_PHANTOM,
  RW_CHANNEL_SOURCE,
  RW_CHANNEL_GAIN_DB,
  RW_CHANNEL_HIGH_PASS_HZ,
  RW_CHANNEL_STAND,
  RW_CHANNEL_NOTES,
  RW_CHANNEL_N_FIELDS
};

/* What is known of one channel of one device; at most one for each (device, side, number). */
struct _RwChannel
{
  RwItem item;
  char *device;
  int side;   /* RwChannelSide */
  int number; /* from 1 */
  char *name;
  gboolean phantom;
  int source; /* RwSource */
  double gain_db;
  double high_pass_hz;
  char *stand;
  char *notes;
};

extern const RwTable rw_channel_table;

char *rw_channel_key (const char *device, RwChannelSide side, int number);
gboolean rw_change_turns_phantom_on (const RwChange *change);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwChannel, rw_item_unref)

G_END_DECLS
