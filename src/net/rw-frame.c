/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "rw-path.h"

/* Bytes. IEEE 802.3 clauses 3 and 4 (from memory): preamble with start delimiter, gap, header with check sequence. */
#define PREAMBLE 8
#define GAP 12
#define ETHERNET 18
#define MIN_PAYLOAD 46
/* RFC 791 5, RFC 768, RFC 3550 5.1: IPv4, UDP and RTP headers without options. */
#define HEADERS (20 + 8 + 12)

/* Samples of one channel in a packet: AES67 7.2 gives the count at 48 kHz, and 44.1 kHz keeps it. */
static guint
samples_per_packet (int sample_rate_hz, int packet_time_us)
{
  double base = sample_rate_hz % 44100 == 0 ? sample_rate_hz / 44100 * 48000.0 : sample_rate_hz;
  double exact_us = packet_time_us == 333 ? 1000.0 / 3 : packet_time_us;

  return (guint) lround (base * exact_us / 1e6);
}

/**
 * rw_payload_bytes:
 *
 * Returns: bytes of samples in one packet; the parameters are those of rw_frame_of()
 */
guint
rw_payload_bytes (int sample_rate_hz, int word_bits, int packet_time_us, guint channels)
{
  return samples_per_packet (sample_rate_hz, packet_time_us) * channels * (guint) word_bits / 8;
}

/**
 * rw_frame_of:
 * @sample_rate_hz: of the stream
 * @word_bits: 16, 24 or 32
 * @packet_time_us: as the file has it: 333 stands for 333⅓
 * @channels: in one packet
 *
 * Returns: the frame that carries one packet, untagged, over IPv4, and how long the packet really lasts
 */
RwFrame
rw_frame_of (int sample_rate_hz, int word_bits, int packet_time_us, guint channels)
{
  guint payload = rw_payload_bytes (sample_rate_hz, word_bits, packet_time_us, channels);

  return (RwFrame){ .packet_time_ns = samples_per_packet (sample_rate_hz, packet_time_us) * 1e9 / sample_rate_hz,
                    .frame_bytes = ETHERNET + MAX (MIN_PAYLOAD, HEADERS + payload) };
}

/**
 * rw_frame_bits:
 *
 * Returns: bits that pass before a frame of @frame_bytes is whole at the far end: with its preamble
 */
guint
rw_frame_bits (guint frame_bytes)
{
  return (frame_bytes + PREAMBLE) * 8;
}

/**
 * rw_frame_slot_bits:
 *
 * Returns: bits after which the next frame may start: with preamble and gap
 */
guint
rw_frame_slot_bits (guint frame_bytes)
{
  return (frame_bytes + PREAMBLE + GAP) * 8;
}

/**
 * rw_frame_mbps:
 *
 * Returns: what a stream of such frames takes of a link, in Mb/s, gaps and preambles included
 */
double
rw_frame_mbps (RwFrame frame)
{
  return rw_frame_slot_bits (frame.frame_bytes) / frame.packet_time_ns * 1e3;
}
