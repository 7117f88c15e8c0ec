/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "rw-path.h"

/* Bytes. IEEE 802.3 clauses 3 and 4 (from memory): preamble with start delimiter, gap, header with check sequence. */
#define PREAMBLE 8
#define GAP 12
#define ETHERNET 18
#define MAX_FRAME 1518
#define MIN_PAYLOAD 46
/* RFC 791 5, RFC 768, RFC 3550 5.1: IPv4, UDP and RTP headers without options. */
#define HEADERS (20 + 8 + 12)

/* Planning values: the delay limit of copper (TIA-568, from memory) and n = 1.468 of glass, in ns for a metre. */
#define COPPER_NS_PER_M 5.4
#define FIBRE_NS_PER_M 4.9

/* Samples of one channel in a packet: AES67 7.2 gives the count at 48 kHz, and 44.1 kHz keeps it. */
static guint
samples_per_packet (int sample_rate_hz, int packet_time_us)
{
  double base = sample_rate_hz % 44100 == 0 ? sample_rate_hz / 44100 * 48000.0 : sample_rate_hz;
  double exact_us = packet_time_us == 333 ? 1000.0 / 3 : packet_time_us;

  return (guint) lround (base * exact_us / 1e6);
}

/**
 * rw_frame_of:
 * @sample_rate_hz: of the stream
 * @word_bits: 16, 24 or 32
 * @packet_time_us: as the file has it: 333 stands for 333⅓
 * @channels: in one packet
 *
 * Returns: the frame that carries one packet, untagged, over IPv4, and how long it really lasts
 */
RwFrame
rw_frame_of (int sample_rate_hz, int word_bits, int packet_time_us, guint channels)
{
  guint samples = samples_per_packet (sample_rate_hz, packet_time_us);
  guint payload = samples * channels * (guint) word_bits / 8;

  return (RwFrame){ .packet_time_ns = samples * 1e9 / sample_rate_hz,
                    .frame_bytes = ETHERNET + MAX (MIN_PAYLOAD, HEADERS + payload) };
}

/**
 * rw_link_mbps:
 *
 * Returns: the speed at which the link runs: that of its slower port, in Mb/s
 */
guint
rw_link_mbps (const RwNet *net, guint link)
{
  const RwNetCable *cable = &net->cables[net->links[link].cable];

  return (guint) MIN (net->ports[cable->port[0]].port->speed_mbps, net->ports[cable->port[1]].port->speed_mbps);
}

static double
cable_ns (const RwNet *net, guint link)
{
  const RwCable *cable = net->cables[net->links[link].cable].cable;

  return cable->length_m * (cable->medium == RW_MEDIUM_COPPER ? COPPER_NS_PER_M : FIBRE_NS_PER_M);
}

static double
bridge_ns (const RwNet *net, guint node)
{
  return net->nodes[node].kind == RW_NODE_BRIDGE ? net->devices[net->nodes[node].device].part->fabric_ns : 0;
}

/**
 * rw_delay_ns:
 * @net: the net
 * @from: node of the talker
 * @links: (element-type guint): the way, as rw_paths_find() gives it
 * @frame: what is sent
 * @busy_ns: (nullable): by link and direction (2 × link, + 1 for to → from): how long all other media frames
 *   that share the egress take, in ns
 *
 * The planning delay: one packet time at the talker; for each port that the frame leaves by its own
 * serialisation, one full-size frame that is already on the port, and the other media frames once; for each
 * bridge its forwarding delay; and the cables. It is a planning figure, not a proven bound: bunched packets can
 * take longer. A length that is not known yet counts as none.
 *
 * Returns: nanoseconds
 */
double
rw_delay_ns (const RwNet *net, guint from, const GArray *links, RwFrame frame, const double *busy_ns)
{
  double sum = frame.packet_time_ns + bridge_ns (net, from);
  guint node = from;

  for (guint i = 0; i < links->len; i++)
    {
      guint link = g_array_index (links, guint, i);
      double bit_ns = 1e3 / rw_link_mbps (net, link);
      guint direction = net->links[link].node[0] == node ? 0 : 1;

      sum += (frame.frame_bytes + PREAMBLE) * 8 * bit_ns + (MAX_FRAME + PREAMBLE + GAP) * 8 * bit_ns;
      sum += cable_ns (net, link) + (busy_ns != NULL ? busy_ns[2 * link + direction] : 0);
      node = rw_net_other_node (net, link, node);
      sum += bridge_ns (net, node);
    }
  return sum;
}
