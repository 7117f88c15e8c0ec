/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-part.h"

G_BEGIN_DECLS

typedef enum
{
  RW_MODE_CHAIN,     /* primary and secondary are two ports of one internal bridge */
  RW_MODE_REDUNDANT, /* two separate network interfaces */
  RW_MODE_SINGLE,    /* only the primary is used */
} RwMode;

enum
{
  RW_CLOCK_PRIORITY1,
  RW_CLOCK_CLASS,
  RW_CLOCK_ACCURACY,
  RW_CLOCK_VARIANCE,
  RW_CLOCK_PRIORITY2,
  RW_CLOCK_IDENTITY,
  RW_CLOCK_DOMAIN,
  RW_CLOCK_REFERENCE,
  RW_CLOCK_N_FIELDS
};

/* IEEE 1588-2008 data set attributes; the lower value wins each comparison. */
typedef struct
{
  RwRecord record;
  int priority1;
  int clock_class;
  int accuracy;
  int variance;
  int priority2;
  char *identity;      /* 16 hex digits; NULL = last in its group, ties by file order */
  int domain;          /* absent = the system's */
  gboolean reference;  /* meant to lead */
} RwClock;

enum
{
  RW_ADDRESSES_PRIMARY,
  RW_ADDRESSES_SECONDARY,
  RW_ADDRESSES_N_FIELDS
};

typedef struct
{
  RwRecord record;
  char *primary;   /* "10.0.0.5/24" is meant; any text opens */
  char *secondary;
} RwAddresses;

enum
{
  RW_DEVICE_ID,
  RW_DEVICE_PART,
  RW_DEVICE_NAME,
  RW_DEVICE_AT,
  RW_DEVICE_MODE,
  RW_DEVICE_UNIT_ID,
  RW_DEVICE_CONTROLLER_ID,
  RW_DEVICE_CLOCK,
  RW_DEVICE_MAC,
  RW_DEVICE_QUERIER,
  RW_DEVICE_SAMPLE_RATE_HZ,
  RW_DEVICE_WORD_BITS,
  RW_DEVICE_RECEIVE_LATENCY_US,
  RW_DEVICE_BRIDGE_PRIORITY,
  RW_DEVICE_PORT_VLANS,
  RW_DEVICE_ADDRESSES,
  RW_DEVICE_GAIN_COMPENSATION,
  RW_DEVICE_LOCATION,
  RW_DEVICE_NOTES,
  RW_DEVICE_N_FIELDS
};

struct _RwDevice
{
  RwItem item;
  char *part;
  char *name;
  RwPoint at; /* of its top left corner */
  int mode;   /* RwMode as written; ask rw_device_mode() for the one that holds */
  int unit_id;       /* meaningful only where rw_item_has (d, RW_DEVICE_UNIT_ID) */
  int controller_id; /* likewise */
  RwClock clock;
  char *mac;
  gboolean querier;
  int sample_rate_hz;     /* absent = the system's; likewise the next two */
  int word_bits;
  int receive_latency_us;
  int bridge_priority;
  RwVlans port_vlans;
  RwAddresses addresses;
  gboolean gain_compensation;
  char *location;
  char *notes;
};

extern const RwTable rw_device_table;
extern const RwTable rw_clock_table;
extern const RwTable rw_addresses_table;

RwMode rw_device_mode (const RwDevice *device, const RwPart *part);
const char *rw_device_title (const RwDevice *device);
const RwPortVlans *rw_device_port_vlans (const RwDevice *device, const char *port);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwDevice, rw_item_unref)

G_END_DECLS
