/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-item.h"

G_BEGIN_DECLS

typedef enum
{
  RW_PART_CONTROLLER, /* console */
  RW_PART_RACK,       /* I/O rack */
  RW_PART_ENDPOINT,   /* loudspeaker, amplifier, computer, receiver … */
  RW_PART_SWITCH,
  RW_PART_CONVERTER,  /* copper–fibre */
} RwPartKind;
#define RW_N_PART_KINDS (RW_PART_CONVERTER + 1)

typedef enum
{
  RW_SIDE_PRIMARY,
  RW_SIDE_SECONDARY,
  RW_SIDE_NETWORK, /* on switches and converters */
  RW_SIDE_AUX,     /* apart from the audio network, never bridged */
} RwSide;

typedef enum
{
  RW_MEDIUM_COPPER,
  RW_MEDIUM_MULTIMODE,
  RW_MEDIUM_SINGLEMODE,
  RW_MEDIUM_CAGE, /* takes any; ports only */
} RwMedium;

enum
{
  RW_PORT_NAME,
  RW_PORT_SIDE,
  RW_PORT_MEDIUM,
  RW_PORT_SPEED_MBPS,
  RW_PORT_N_FIELDS
};

struct _RwPort
{
  RwRecord record;
  char *name; /* unique in its part */
  int side;   /* RwSide */
  int medium; /* RwMedium */
  int speed_mbps;
};

enum
{
  RW_PART_ID,
  RW_PART_NAME,
  RW_PART_KIND,
  RW_PART_PORTS,
  RW_PART_SENDS,
  RW_PART_RECEIVES,
  RW_PART_PREAMPS,
  RW_PART_STRIPS,
  RW_PART_BUSES,
  RW_PART_LOCAL_INPUTS,
  RW_PART_LOCAL_OUTPUTS,
  RW_PART_SPANNING_TREE,
  RW_PART_SNOOPING,
  RW_PART_FABRIC_NS,
  RW_PART_WATTS,
  RW_PART_POE_SUPPLY_W,
  RW_PART_POE_DRAW_W,
  RW_PART_RACK_UNITS,
  RW_PART_N_FIELDS
};

/* A type of device. */
struct _RwPart
{
  RwItem item;
  char *name;
  int kind;        /* RwPartKind */
  RwRecords ports; /* of RwPort */
  int sends;       /* network channels out of the device */
  int receives;    /* network channels into it */
  int preamps;     /* the first so many sends have a remote preamp */
  int strips;
  int buses;
  int local_inputs;
  int local_outputs;
  gboolean spanning_tree;
  gboolean snooping;
  int fabric_ns;
  double watts;
  double poe_supply_w;
  double poe_draw_w;
  double rack_units;
};

extern const RwTable rw_part_table;
extern const RwTable rw_port_table;
extern const char *const rw_media_words[];       /* of cables: no cage */
extern const char *const rw_media_word_labels[];

guint rw_part_n_ports (const RwPart *part);
const RwPort *rw_part_port (const RwPart *part, guint index);
int rw_part_find_port (const RwPart *part, const char *name);
int rw_part_find_side (const RwPart *part, RwSide side);
const char *rw_part_kind_heading (RwPartKind kind);
gboolean rw_part_forwards (const RwPart *part);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwPart, rw_item_unref)

G_END_DECLS
