/* SPDX-License-Identifier: MIT */
#include "rw-stream.h"

#include "rw-rows.h"

/* One send on its way to one device, however many of its receives it feeds. */
typedef struct
{
  guint talker, send, listener;
  guint row;
} Wish;

/* One send with all who want it; several sends with the same listeners can share a stream. */
typedef struct
{
  guint talker, send;
  const guint *listeners;
  guint n;
  guint first_wish, n_wishes;
} Offer;

/**
 * rw_stream_max_channels:
 * @sample_rate_hz: of the talker
 * @word_bits: of the talker
 * @packet_time_us: of the system
 *
 * Returns: how many channels one packet holds, at most %RW_STREAM_CHANNELS; 0 where not even one fits
 */
guint
rw_stream_max_channels (int sample_rate_hz, int word_bits, int packet_time_us)
{
  guint fit = RW_STREAM_PAYLOAD_BYTES / rw_payload_bytes (sample_rate_hz, word_bits, packet_time_us, 1);

  return MIN (fit, RW_STREAM_CHANNELS);
}

static int
compare_wishes (gconstpointer a, gconstpointer b, gpointer data)
{
  const Wish *v = a, *w = b;

  if (v->send != w->send)
    return v->send < w->send ? -1 : 1;
  if (v->listener != w->listener)
    return v->listener < w->listener ? -1 : 1;
  return (v->row > w->row) - (v->row < w->row);
}

static gboolean
read_wish (const RwNet *net, guint row, Wish *wish)
{
  const RwRows *rows = rw_net_rows (net);

  *wish = (Wish){ rows->from[row], (guint) rows->send[row], rows->to[row], row };
  return wish->talker != wish->listener && rows->send[row] >= 1
         && rows->send[row] <= net->devices[wish->talker].part->sends && rows->receive[row] >= 1
         && rows->receive[row] <= net->devices[wish->listener].part->receives;
}

/* Rows mostly stand in the order of their channels: what is sorted is left alone. */
static void
sort_run (gpointer run, guint n, gsize size, GCompareDataFunc compare)
{
  for (guint i = 1; i < n; i++)
    if (compare ((char *) run + (i - 1) * size, (char *) run + i * size, NULL) > 0)
      {
        g_qsort_with_data (run, (gint) n, size, compare, NULL);
        return;
      }
}

/* By talker, which needs no comparing, then each talker's few. */
static GArray *
collect_wishes (const RwNet *net)
{
  const RwRows *rows = rw_net_rows (net);
  g_autofree guint *start = g_new0 (guint, net->n_devices + 1);
  GArray *wishes;
  Wish wish;

  for (guint i = 0; i < rows->n; i++)
    if (read_wish (net, i, &wish))
      start[wish.talker + 1]++;
  for (guint i = 0; i < net->n_devices; i++)
    start[i + 1] += start[i];
  wishes = g_array_sized_new (FALSE, FALSE, sizeof (Wish), start[net->n_devices]);
  g_array_set_size (wishes, start[net->n_devices]);
  for (guint i = 0; i < rows->n; i++)
    if (read_wish (net, i, &wish))
      g_array_index (wishes, Wish, start[wish.talker]++) = wish;
  for (guint i = 0, first = 0; i < net->n_devices; first = start[i++])
    if (start[i] > first)
      sort_run (&g_array_index (wishes, Wish, first), start[i] - first, sizeof (Wish), compare_wishes);
  return wishes;
}

/* Wishes are sorted: those of one send stand together, a listener that is named twice counts once. */
static GArray *
collect_offers (const GArray *wishes, gboolean multicast, guint *listeners)
{
  GArray *offers = g_array_sized_new (FALSE, FALSE, sizeof (Offer), wishes->len);
  const Wish *w = (const Wish *) (gpointer) wishes->data;
  guint n_listeners = 0, n_offers = 0;

  /* each wish may be an offer of its own */
  g_array_set_size (offers, wishes->len);
  for (guint i = 0; i < wishes->len; i++)
    {
      gboolean same_send = i > 0 && w[i].talker == w[i - 1].talker && w[i].send == w[i - 1].send;
      gboolean same_listener = same_send && w[i].listener == w[i - 1].listener;
      Offer *last;

      if (!same_listener && !(same_send && multicast))
        g_array_index (offers, Offer, n_offers++) = (Offer){ w[i].talker, w[i].send, &listeners[n_listeners], 0, i, 0 };
      last = &g_array_index (offers, Offer, n_offers - 1);
      last->n_wishes++;
      if (same_listener)
        continue;
      listeners[n_listeners++] = w[i].listener;
      last->n++;
    }
  g_array_set_size (offers, n_offers);
  return offers;
}

static int
compare_listeners (const Offer *o, const Offer *p)
{
  if ((o->n > 1) != (p->n > 1))
    return o->n > 1 ? 1 : -1;
  for (guint i = 0; i < MIN (o->n, p->n); i++)
    if (o->listeners[i] != p->listeners[i])
      return o->listeners[i] < p->listeners[i] ? -1 : 1;
  return (o->n > p->n) - (o->n < p->n);
}

static int
compare_offers (gconstpointer a, gconstpointer b, gpointer data)
{
  const Offer *o = a, *p = b;
  int by_listeners = compare_listeners (o, p);

  return by_listeners != 0 ? by_listeners : (o->send > p->send) - (o->send < p->send);
}

/* Those of one talker stand together; each talker's so that what can share a stream does too. */
static void
sort_offers (GArray *offers)
{
  Offer *o = (Offer *) (gpointer) offers->data;

  for (guint start = 0, end; start < offers->len; start = end)
    {
      for (end = start + 1; end < offers->len && o[end].talker == o[start].talker; end++)
        ;
      sort_run (o + start, end - start, sizeof (Offer), compare_offers);
    }
}

/*
 * Groups are counted up from 239.192.1.1, in the organisation-local scope (RFC 2365 6), which keeps clear of
 * its reserved top block (RFC 2365 9), of x.x.0.x and of every address that shares its hardware address with
 * a group that is flooded everywhere (RFC 1112 6.4: the second octet with or without its top bit).
 */
static guint32
group_address (guint index)
{
  const guint hosts = 254, subnets = 254;
  guint host = index % hosts + 1, subnet = index / hosts % subnets + 1, block = index / hosts / subnets % 3;

  return 239u << 24 | (192 + block) << 16 | subnet << 8 | host;
}

static void
assign_rows (RwStreams *streams, const GArray *wishes, const Offer *offer)
{
  for (guint i = 0; i < offer->n_wishes; i++)
    streams->row_stream[g_array_index (wishes, Wish, offer->first_wish + i).row] = streams->n_streams - 1;
}

static void
add_stream (RwStreams *streams, const RwRig *rig, const RwNet *net, const GArray *wishes, const Offer *offers,
            guint n, guint *n_groups)
{
  const RwNetDevice *talker = &net->devices[offers->talker];
  RwStream *stream = &streams->streams[streams->n_streams++];
  guint *sends = streams->sends + streams->n_sends;

  streams->n_sends += n;
  for (guint i = 0; i < n; i++)
    {
      sends[i] = offers[i].send;
      assign_rows (streams, wishes, &offers[i]);
    }
  *stream = (RwStream){
    .talker = offers->talker,
    .sends = { sends, n },
    .listeners = { offers->listeners, offers->n },
    .multicast = offers->n > 1,
    .frame = rw_frame_of (talker->sample_rate_hz, talker->word_bits, rw_rig_system (rig)->packet_time_us, n),
  };
  stream->mbps = rw_frame_mbps (stream->frame);
  if (stream->multicast)
    stream->group = group_address ((*n_groups)++);
}

static void
bundle (RwStreams *streams, const RwRig *rig, const RwNet *net, const GArray *wishes, const GArray *offers)
{
  const Offer *o = (const Offer *) (gpointer) offers->data;
  guint n_groups = 0;

  streams->streams = g_new (RwStream, offers->len);
  for (guint start = 0, end; start < offers->len; start = end)
    {
      const RwNetDevice *talker = &net->devices[o[start].talker];
      guint most = rw_stream_max_channels (talker->sample_rate_hz, talker->word_bits, rw_rig_system (rig)->packet_time_us);
      for (end = start + 1; end < offers->len && end - start < most && o[end].talker == o[start].talker
                            && compare_listeners (&o[end], &o[start]) == 0; end++)
        ;
      if (most > 0)
        add_stream (streams, rig, net, wishes, &o[start], end - start, &n_groups);
    }
  streams->streams = g_renew (RwStream, streams->streams, streams->n_streams);
}

/**
 * rw_streams_new:
 * @rig: a rig
 * @net: its net
 *
 * Bundles the patch into streams: what goes from one device to the same listeners travels together, up to
 * %RW_STREAM_CHANNELS channels and %RW_STREAM_PAYLOAD_BYTES. A send that several devices want is multicast
 * where the system says so, else each gets a stream of its own.
 *
 * Returns: (transfer full): the streams, n log n in the rows
 */
RwStreams *
rw_streams_new (const RwRig *rig, const RwNet *net)
{
  RwStreams *streams = g_new0 (RwStreams, 1);
  g_autoptr (GArray) wishes = NULL;
  g_autoptr (GArray) offers = NULL;

  streams->row_stream = g_new (guint, rw_net_rows (net)->n);
  for (guint i = 0; i < rw_net_rows (net)->n; i++)
    streams->row_stream[i] = RW_NONE;
  wishes = collect_wishes (net);
  streams->listeners = g_new (guint, wishes->len);
  streams->sends = g_new (guint, wishes->len);
  offers = collect_offers (wishes, rw_rig_system (rig)->multicast, streams->listeners);
  sort_offers (offers);
  bundle (streams, rig, net, wishes, offers);
  return streams;
}

void
rw_streams_free (RwStreams *streams)
{
  g_free (streams->listeners);
  g_free (streams->sends);
  g_free (streams->streams);
  g_free (streams->row_stream);
  g_free (streams);
}
