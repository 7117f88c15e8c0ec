/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-path.h"

G_BEGIN_DECLS

/* AES67 8.1 and 7.1: a receiver must take up to 8 channels in a stream (from memory). */
#define RW_STREAM_CHANNELS 8
/* ST 2110-10:2022 6.3: 1460 bytes of UDP less its header and RTP's. */
#define RW_STREAM_PAYLOAD_BYTES 1440

/* Channels that travel together from one talker. */
typedef struct
{
  guint talker;      /* device */
  RwSlice listeners; /* devices, in file order; one unless @multicast */
  RwSlice sends;     /* numbers of the talker's sends, ascending */
  gboolean multicast;
  guint32 group;     /* multicast: IPv4 address, host order; else 0 */
  RwFrame frame;
  double mbps;       /* on the wire, untagged, gaps and preambles included */
} RwStream;

typedef struct
{
  guint n_streams;
  RwStream *streams; /* by talker, unicast first, then by listeners and sends */
  guint *row_stream; /* by patch row in file order; RW_NONE = it makes no stream (no such channel, too big, to itself) */
  guint *listeners;   /* the arrays behind the slices */
  guint *sends;
  guint n_sends;
} RwStreams;

RwStreams *rw_streams_new (const RwRig *rig, const RwNet *net);
void rw_streams_free (RwStreams *streams);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwStreams, rw_streams_free)
guint rw_stream_max_channels (int sample_rate_hz, int word_bits, int packet_time_us);

G_END_DECLS
