/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-item.h"

G_BEGIN_DECLS

#define RW_SHOW_KEY "/show"
#define RW_SYSTEM_KEY "/system"

enum
{
  RW_SHOW_TITLE,
  RW_SHOW_VENUE,
  RW_SHOW_DATE,
  RW_SHOW_DRAWN_BY,
  RW_SHOW_REVISION,
  RW_SHOW_NOTES,
  RW_SHOW_N_FIELDS
};

/* What the drawing is of. All text, NULL when absent. */
struct _RwShow
{
  RwItem item;
  char *title;
  char *venue;
  char *date; /* YYYY-MM-DD is meant; any text opens */
  char *drawn_by;
  char *revision;
  char *notes;
};

enum
{
  RW_SYSTEM_SAMPLE_RATE_HZ,
  RW_SYSTEM_WORD_BITS,
  RW_SYSTEM_PACKET_TIME_US,
  RW_SYSTEM_RECEIVE_LATENCY_US,
  RW_SYSTEM_LINK_CEILING_PERCENT,
  RW_SYSTEM_UNIT_ID_MAX,
  RW_SYSTEM_CONTROLLER_ID_MAX,
  RW_SYSTEM_CLOCK_DOMAIN,
  RW_SYSTEM_MULTICAST,
  RW_SYSTEM_N_FIELDS
};

/* What holds for the whole rig, unless a device says otherwise. */
struct _RwSystem
{
  RwItem item;
  int sample_rate_hz;
  int word_bits;
  int packet_time_us;
  int receive_latency_us;
  int link_ceiling_percent;
  int unit_id_max;
  int controller_id_max;
  int clock_domain;
  gboolean multicast;
};

extern const RwTable rw_show_table;
extern const RwTable rw_system_table;
extern const int rw_sample_rates_hz[];
extern const int rw_word_bits[];

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwShow, rw_item_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwSystem, rw_item_unref)

G_END_DECLS
