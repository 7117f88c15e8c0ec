/* SPDX-License-Identifier: MIT */
/* Streams, the load that they put on cables, and delay under load. */
#include <math.h>
#include <net/rw-forecast.h>
#include <net/rw-rows.h>
#include <random-rig.h>
#include <rig/rw-edit.h>

#include "item-hand.h"
#include "net-assert.h"

typedef struct
{
  RwRig *rig;
  RwNet *net;
  RwPaths *paths;
  RwLca *lca;
  RwStreams *streams;
  RwLoads *loads;
  RwDelays *delays;
} Plan;

static void
plan_open (Plan *plan, RwRig *rig)
{
  plan->rig = rig;
  plan->net = rw_net_new (rig);
  plan->paths = rw_paths_new (plan->net);
  plan->lca = rw_lca_new (plan->paths->n_nodes, plan->paths->parent, plan->paths->depth, plan->paths->order);
  plan->streams = rw_streams_new (rig, plan->net);
  plan->loads = rw_loads_new (plan->net, plan->paths, plan->lca, plan->streams);
  plan->delays = rw_delays_new (plan->net, plan->paths, plan->loads);
}

static void
plan_close (Plan *plan)
{
  rw_delays_free (plan->delays);
  rw_loads_free (plan->loads);
  rw_streams_free (plan->streams);
  rw_lca_free (plan->lca);
  rw_paths_free (plan->paths);
  rw_net_unref (plan->net);
  g_object_unref (plan->rig);
}

static void
set (RwRig *rig, const char *key, guint field, GVariant *value)
{
  RwEdit *edit = rw_edit_new (rig, "");

  g_assert_true (rw_edit_set (edit, key, field, value, NULL));
  test_rig_apply (rig, edit);
}

static void
test_up_to_eight_channels (void)
{
  Plan plan;
  RwRig *rig = rw_test_rig ("console A; rack B; A.s-B.p");

  rw_test_rig_patch (rig, "B", 1, "A", 1, 16);
  rw_test_rig_patch (rig, "B", 16, "A", 20, 1); /* the same send again: it travels once */
  plan_open (&plan, rig);
  g_assert_cmpuint (plan.streams->n_streams, ==, 2);
  g_assert_cmpuint (plan.streams->streams[0].sends.n, ==, 8);
  g_assert_cmpuint (plan.streams->streams[1].sends.n, ==, 8);
  g_assert_cmpuint (plan.streams->row_stream[0], ==, 0);
  g_assert_cmpuint (plan.streams->row_stream[8], ==, 1);
  g_assert_cmpuint (plan.streams->row_stream[16], ==, 1);
  g_assert_cmpuint (plan.loads->loads[1].n_streams, ==, 2); /* B is at the cable's to */
  g_assert_cmpuint (plan.loads->loads[0].n_streams, ==, 0);
  plan_close (&plan);
}

static void
test_rows_that_make_no_stream (void)
{
  Plan plan;
  RwRig *rig = rw_test_rig ("console A; rack B; A.s-B.p");

  rw_test_rig_patch (rig, "B", 0, "A", 1, 1);
  rw_test_rig_patch (rig, "B", 4096, "A", 1, 1);
  rw_test_rig_patch (rig, "B", 1, "A", 4096, 1);
  rw_test_rig_patch (rig, "B", 1, "B", 1, 1);
  plan_open (&plan, rig);
  g_assert_cmpuint (plan.streams->n_streams, ==, 0);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpuint (plan.streams->row_stream[i], ==, RW_NONE);
  plan_close (&plan);
}

/* How many channels one packet holds: 1440 bytes of payload, AES67 packet times; the 8 is AES67's too. */
static void
test_most_channels (void)
{
  static const struct { int hz, bits, us; guint most; } cases[] = {
    { 48000, 24, 125, 8 }, { 48000, 24, 1000, 8 }, { 48000, 16, 4000, 3 }, { 48000, 24, 4000, 2 }, { 48000, 32, 1000, 7 },
    { 48000, 32, 4000, 1 }, { 96000, 24, 1000, 5 }, { 96000, 16, 1000, 7 }, { 96000, 24, 4000, 1 }, { 96000, 32, 4000, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpuint (rw_stream_max_channels (cases[i].hz, cases[i].bits, cases[i].us), ==, cases[i].most);
}

/* Rates on the wire by arithmetic from the header sizes of RFC 791, 768, 3550 and IEEE 802.3. */
static void
test_rates (void)
{
  static const struct { int hz, bits, us; guint channels; double mbps; } cases[] = {
    { 48000, 24, 1000, 8, 9.840 }, { 48000, 24, 125, 1, 6.144 }, { 48000, 24, 125, 8, 14.208 },
    { 48000, 16, 250, 2, 4.032 },  { 96000, 24, 125, 8, 23.424 }, { 96000, 32, 250, 8, 27.072 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpfloat_with_epsilon (
      rw_frame_mbps (rw_frame_of (cases[i].hz, cases[i].bits, cases[i].us, cases[i].channels)), cases[i].mbps, 1e-9);
}

/* Both a tag's 4 bytes (1234 for 1230) and both planes of redundant devices. */
static void
test_tags_and_planes (void)
{
  Plan plan;
  RwRig *rig = rw_test_rig ("console A mode=redundant; rack B mode=redundant; switch S p1=10 p8=[10]; switch T p1=10 p8=[10];"
                            "A.p-S.p1; S.p8-T.p8; T.p1-B.p; A.s-B.s");

  set (rig, RW_SYSTEM_KEY, RW_SYSTEM_PACKET_TIME_US, g_variant_new_int32 (1000));
  rw_test_rig_patch (rig, "A", 1, "B", 1, 8);
  plan_open (&plan, rig);
  g_assert_cmpuint (plan.streams->n_streams, ==, 1);
  g_assert_cmpfloat_with_epsilon (plan.loads->loads[0].mbps, 9.840, 1e-9);
  g_assert_cmpfloat_with_epsilon (plan.loads->loads[2].mbps, 9.872, 1e-9); /* the trunk */
  g_assert_cmpfloat_with_epsilon (plan.loads->loads[4].mbps, 9.840, 1e-9);
  g_assert_cmpfloat_with_epsilon (plan.loads->loads[6].mbps, 9.840, 1e-9); /* the other plane */
  g_assert_cmpfloat_with_epsilon (rw_load_percent (plan.net, plan.loads, 1, 0), 0.9872, 1e-9);
  plan_close (&plan);
}

/* A send that two devices want goes out once; without multicast, twice. */
static void
test_multicast (void)
{
  Plan plan;
  RwRig *rig = rw_test_rig ("console A; rack B; rack C; switch S; A.p-S.p1; B.p-S.p2; C.p-S.p3");

  rw_test_rig_patch (rig, "B", 1, "A", 1, 4);
  rw_test_rig_patch (rig, "B", 1, "C", 1, 2);
  plan_open (&plan, g_object_ref (rig));
  g_assert_cmpuint (plan.streams->n_streams, ==, 2); /* sends 3, 4 to A; 1, 2 to A and C */
  g_assert_cmpuint (plan.streams->streams[1].multicast, ==, TRUE);
  g_assert_cmpuint (plan.streams->streams[1].listeners.n, ==, 2);
  g_assert_cmphex (plan.streams->streams[1].group, ==, 239u << 24 | 192u << 16 | 1u << 8 | 1u);
  g_assert_cmpuint (plan.loads->loads[2].n_streams, ==, 2); /* out of B */
  plan_close (&plan);
  set (rig, RW_SYSTEM_KEY, RW_SYSTEM_MULTICAST, g_variant_new_boolean (FALSE));
  plan_open (&plan, rig);
  g_assert_cmpuint (plan.streams->n_streams, ==, 2); /* 1–4 to A; 1, 2 to C */
  g_assert_cmpuint (plan.loads->loads[2].n_streams, ==, 2);
  g_assert_cmpuint (plan.loads->loads[5].n_streams, ==, 1); /* into C */
  plan_close (&plan);
}

/* Group addresses keep to the organisation-local scope and off every block that is reserved or flooded. */
static void
test_groups (void)
{
  Plan plan;
  RwRig *rig = rw_test_rig ("console A; rack B; rack C; rack D; switch S; A.p-S.p1; B.p-S.p2; C.p-S.p3; D.p-S.p4");
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);

  for (guint i = 1; i <= 4; i++)
    for (guint j = 0; j < 3; j++)
      {
        g_autofree char *to = g_strdup_printf ("%c", "ACD"[j]);
        if (i & (1u << j) || i == 4)
          rw_test_rig_patch (rig, "B", (int) i, to, (int) i, 1);
      }
  plan_open (&plan, rig);
  for (guint i = 0; i < plan.streams->n_streams; i++)
    {
      guint32 group = plan.streams->streams[i].group;
      if (!plan.streams->streams[i].multicast)
        continue;
      g_assert_cmpuint (group >> 18, ==, (239u << 24 | 192u << 16) >> 18);      /* RFC 2365 6: 239.192.0.0/14 */
      g_assert_cmpuint (group >> 8, !=, (239u << 16 | 195u << 8 | 255u));        /* RFC 2365 9: top block */
      g_assert_cmpuint (group & 0x7fff00, !=, 0);                                /* RFC 1112 6.4: as 224.0.0.x */
      g_assert_true (g_hash_table_add (seen, GUINT_TO_POINTER (group)));
    }
  g_assert_cmpuint (g_hash_table_size (seen), >=, 1);
  plan_close (&plan);
}

/* Common practice: a console and two racks in a chain are safe at 250 µs with 125 µs packets and up to 8 streams. */
static void
test_small_chain_is_safe_at_250_us (void)
{
  Plan plan;
  RwRig *rig = rw_test_rig ("console A; rack B; rack C; A.s-B.p length_m=90; B.s-C.p length_m=90");
  double worst = 0;

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_PART); i++)
    set (rig, rw_item_key (rw_rig_items (rig, RW_ITEM_PART)[i]), RW_PART_RECEIVES, g_variant_new_int32 (32));
  rw_test_rig_patch (rig, "B", 1, "A", 1, 16);
  rw_test_rig_patch (rig, "C", 1, "A", 17, 16);
  rw_test_rig_patch (rig, "A", 1, "B", 1, 16);
  rw_test_rig_patch (rig, "A", 17, "C", 1, 16);
  plan_open (&plan, rig);
  g_assert_cmpuint (plan.streams->n_streams, ==, 8);
  for (guint i = 0; i < rw_net_rows (plan.net)->n; i++)
    worst = MAX (worst, rw_delay_loaded_ns (plan.paths, plan.lca, plan.delays, plan.net->devices[rw_net_rows (plan.net)->from[i]].first_node,
                                            plan.net->devices[rw_net_rows (plan.net)->to[i]].first_node, 125000));
  g_assert_cmpfloat (worst, <, 250000);
  g_assert_cmpfloat (worst, >, 125000);
  plan_close (&plan);
}

/* Two streams of 8 channels share the egress: the other one waits in front. */
static void
test_delay_under_load (void)
{
  Plan plan;
  RwRig *rig = rw_test_rig ("computer A; computer B; A.p-B.p length_m=100");
  double alone = 125000 + 12304 + 540; /* packet, a full-size frame, the cable */
  double frame = (202 + 8) * 8;        /* 144 bytes of samples are a frame of 202 */
  double gap = 12 * 8;                 /* after each frame that goes before */

  rw_test_rig_patch (rig, "A", 1, "B", 1, 16);
  if (plan_open (&plan, rig), plan.streams->n_streams == 0)
    g_error ("the computer of the test has too few channels");
  g_assert_cmpfloat_with_epsilon (
    rw_delay_loaded_ns (plan.paths, plan.lca, plan.delays, plan.net->devices[0].first_node, plan.net->devices[1].first_node, 125000),
    alone + frame + (frame + gap) * (plan.streams->n_streams - 1), 0.01);
  plan_close (&plan);
}

/* The same way as above: 141.3 µs, so two packets of 125 µs would do; nothing arrives at the talker. And what a rack alone
 * puts on 20 m of a chain: packet, own frame (84 bytes with its preamble), full-size frame, cable, two internal bridges. */
static void
test_arrivals (void)
{
  Plan plan;
  RwRig *rig = rw_test_rig ("computer A; computer B; A.p-B.p length_m=100");
  const RwArrival *arrivals;

  rw_test_rig_patch (rig, "A", 1, "B", 1, 16);
  plan_open (&plan, rig);
  arrivals = rw_net_forecast (plan.net)->arrivals;
  g_assert_cmpuint (arrivals[1].talker, ==, 0);
  g_assert_cmpfloat_with_epsilon (arrivals[1].delay_ns, 125000 + 12304 + 540 + 1680 + 1680 + 96, 0.01);
  g_assert_cmpint (rw_arrival_safe_us (&arrivals[1]), ==, 250);
  g_assert_cmpuint (arrivals[0].talker, ==, RW_NONE);
  g_assert_cmpint (rw_arrival_safe_us (&arrivals[0]), ==, 0);
  plan_close (&plan);

  rig = rw_test_rig ("console A; rack B; A.s-B.p length_m=20");
  rw_test_rig_patch (rig, "B", 1, "A", 1, 1);
  plan_open (&plan, rig);
  arrivals = rw_net_forecast (plan.net)->arrivals;
  g_assert_cmpfloat_with_epsilon (arrivals[0].delay_ns, 125000 + 672 + 12304 + 108 + 2 * 2000, 0.01);
  plan_close (&plan);
}

/* What takes 230 µs is within a tenth of 250: that is too near. Of many packets one more is less than a tenth. */
static void
test_safe_is_a_tenth_away (void)
{
  const RwArrival near = { 0, 230000, 125000 }, enough = { 0, 224000, 125000 }, odd = { 0, 400000, 1000000 / 3.0 };
  const RwArrival many = { 0, 2200000, 125000 };

  g_assert_cmpint (rw_arrival_safe_us (&near), ==, 375);
  g_assert_cmpint (rw_arrival_safe_us (&enough), ==, 250);
  g_assert_cmpint (rw_arrival_safe_us (&odd), ==, 667);
  g_assert_cmpint (rw_arrival_safe_us (&many), ==, 2500);
}

/* ---- against a plain way of doing it: every stream on its own, every node asked ---- */

typedef struct { const Plan *plan; const RwStream *stream; gboolean *wanted; double *mbps; guint *streams; } Plain;

static gboolean
wanted_behind (const Plain *p, guint node, guint came_from)
{
  const RwNet *net = p->plan->net;

  if (p->wanted[node])
    return TRUE;
  for (guint i = net->adjacency_start[node]; i < net->adjacency_start[node + 1]; i++)
    {
      guint other = rw_net_other_node (net, net->adjacency[i], node);
      if (p->plan->paths->active[net->adjacency[i]] && other != came_from && wanted_behind (p, other, node))
        return TRUE;
    }
  return FALSE;
}

/* A port opposite a blocked one sends what is flooded all the same; of a switch's link to itself the one end does. */
static gboolean
faces_blocked (const RwNet *net, guint link, guint *slot, guint node)
{
  const guint *port = net->cables[net->links[link].cable].port;
  const RwTreeRole *roles = rw_net_tree (net)->roles;

  for (guint end = 0; end < 2; end++)
    if (net->links[link].node[end] == node && roles[port[end]] != RW_TREE_ROLE_BLOCKED
        && roles[port[1 - end]] == RW_TREE_ROLE_BLOCKED)
      {
        *slot = 2 * net->links[link].cable + end;
        return TRUE;
      }
  return FALSE;
}

static void
spread (const Plain *p, guint node, guint came_from)
{
  const RwNet *net = p->plan->net;
  const RwNetDevice *device = &net->devices[net->nodes[node].device];
  gboolean picky = !p->stream->multicast
                   || (net->nodes[node].kind == RW_NODE_BRIDGE && device->part->kind == RW_PART_SWITCH
                       && device->part->snooping && rw_network_prunes (net, net->nodes[node].network));

  for (guint i = net->adjacency_start[node]; i < net->adjacency_start[node + 1]; i++)
    {
      guint link = net->adjacency[i], other = rw_net_other_node (net, link, node);
      guint slot = 2 * net->links[link].cable + (net->links[link].node[0] == node ? 0 : 1);
      gboolean active = p->plan->paths->active[link];
      if (active ? other == came_from || (picky && !wanted_behind (p, other, node)) : picky || !faces_blocked (net, link, &slot, node))
        continue;
      p->mbps[slot] += p->stream->mbps + (net->links[link].tag != 0 ? 32e3 / p->stream->frame.packet_time_ns : 0);
      p->streams[slot]++;
      if (active && net->nodes[other].kind == RW_NODE_BRIDGE)
        spread (p, other, node);
    }
}

static void
spread_from (Plain *p, guint from)
{
  const RwNet *net = p->plan->net;
  gboolean heard = FALSE;

  for (guint i = 0; i < net->n_nodes; i++)
    p->wanted[i] = FALSE;
  for (guint i = 0; i < p->stream->listeners.n; i++)
    {
      guint to = rw_net_host_node (net, p->stream->listeners.v[i], net->nodes[from].network);
      if (to != RW_NONE)
        p->wanted[to] = heard = TRUE;
    }
  for (guint i = 0; p->stream->multicast && i < net->n_nodes; i++)
    if (net->nodes[i].kind == RW_NODE_BRIDGE && net->devices[net->nodes[i].device].device->querier)
      p->wanted[i] = TRUE;
  if (heard)
    spread (p, from, RW_NONE);
}

static void
check_loads (const Plan *plan)
{
  g_autofree double *mbps = g_new0 (double, 2 * plan->net->n_cables + 1);
  g_autofree guint *streams = g_new0 (guint, 2 * plan->net->n_cables + 1);
  g_autofree gboolean *wanted = g_new0 (gboolean, plan->net->n_nodes + 1);

  for (guint s = 0; s < plan->streams->n_streams; s++)
    {
      Plain plain = { plan, &plan->streams->streams[s], wanted, mbps, streams };
      const RwNetDevice *talker = &plan->net->devices[plain.stream->talker];
      for (guint n = talker->first_node; n < talker->first_node + talker->n_nodes; n++)
        if (plan->net->nodes[n].host)
          spread_from (&plain, n);
    }
  for (guint i = 0; i < 2 * plan->net->n_cables; i++)
    {
      g_assert_cmpuint (plan->loads->loads[i].n_streams, ==, streams[i]);
      g_assert_cmpfloat_with_epsilon (plan->loads->loads[i].mbps, mbps[i], 1e-6);
    }
}

static void
shuffle_snooping (RwRig *rig, GRand *rand)
{
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_PART); i++)
    set (rig, rw_item_key (rw_rig_items (rig, RW_ITEM_PART)[i]), RW_PART_SNOOPING, g_variant_new_boolean (g_rand_boolean (rand)));
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    set (rig, rw_item_key (rw_rig_items (rig, RW_ITEM_DEVICE)[i]), RW_DEVICE_QUERIER, g_variant_new_boolean (g_rand_int_range (rand, 0, 6) == 0));
}

static void
test_random_loads (void)
{
  guint routed = 0, multicast = 0;

  for (guint seed = 0; seed < 600; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      RandomRig want = { .seed = seed, .devices = 4 + seed % 17, .cables = 5 + seed % 19, .rows = 40, .forwards_percent = seed % 70,
                         .joined = seed % 3 != 0, .vlans = seed % 4 == 0 };
      RwRig *rig = random_rig_new (&want);
      Plan plan;

      shuffle_snooping (rig, rand);
      plan_open (&plan, rig);
      check_loads (&plan);
      for (guint i = 0; i < plan.streams->n_streams; i++)
        multicast += plan.streams->streams[i].multicast;
      for (guint i = 0; i < 2 * plan.net->n_cables; i++)
        routed += plan.loads->loads[i].n_streams;
      plan_close (&plan);
    }
  g_assert_cmpuint (routed, >, 5000); /* the rigs are worth the trouble */
  g_assert_cmpuint (multicast, >, 300);
}

/* The sums along the tree against adding up link by link. */
static void
test_random_delays (void)
{
  guint ways = 0;

  for (guint seed = 0; seed < 200; seed++)
    {
      RandomRig want = { .seed = seed, .devices = 12, .cables = 14, .rows = 30, .forwards_percent = 40, .joined = TRUE, .vlans = seed % 2 };
      g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));
      Plan plan;

      plan_open (&plan, random_rig_new (&want));
      for (guint r = 0; r < rw_net_rows (plan.net)->n; r++)
        {
          const RwNetDevice *talker = &plan.net->devices[rw_net_rows (plan.net)->from[r]];
          const RwStream *stream = plan.streams->row_stream[r] != RW_NONE ? &plan.streams->streams[plan.streams->row_stream[r]] : NULL;
          guint from = talker->first_node, to;
          double sum;
          if (stream == NULL || talker->n_nodes == 0 || !plan.net->nodes[from].host)
            continue;
          to = rw_net_host_node (plan.net, rw_net_rows (plan.net)->to[r], plan.net->nodes[from].network);
          if (to == RW_NONE || !rw_paths_find (plan.net, plan.paths, from, to, links))
            continue;
          sum = rw_delay_alone_ns (plan.net, from, links, stream->frame);
          for (guint i = 0, node = from; i < links->len; i++)
            {
              guint link = g_array_index (links, guint, i);
              guint slot = 2 * plan.net->links[link].cable + (plan.net->links[link].node[0] == node ? 0 : 1);
              double own = rw_frame_slot_bits (stream->frame.frame_bytes + (plan.net->links[link].tag != 0 ? 4 : 0)) * 1e3
                           / plan.net->cables[plan.net->links[link].cable].run.mbps;
              sum += plan.loads->loads[slot].burst_ns - own; /* all others */
              node = rw_net_other_node (plan.net, link, node);
            }
          g_assert_cmpfloat_with_epsilon (
            rw_delay_loaded_ns (plan.paths, plan.lca, plan.delays, from, to, stream->frame.packet_time_ns), sum, 0.01);
          ways++;
        }
      plan_close (&plan);
    }
  g_assert_cmpuint (ways, >, 500);
}

static void
test_random_ancestors (void)
{
  for (guint seed = 0; seed < 200; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      guint n = (guint) g_rand_int_range (rand, 1, 60);
      g_autofree guint *parent = g_new (guint, n);
      g_autofree guint *depth = g_new (guint, n);
      g_autofree guint *order = g_new (guint, n);
      g_autoptr (RwLca) lca = NULL;

      for (guint i = 0; i < n; i++)
        {
          gboolean root = i == 0 || g_rand_int_range (rand, 0, 15) == 0;
          parent[i] = root ? G_MAXUINT : (guint) g_rand_int_range (rand, 0, (gint32) i);
          depth[i] = root ? 0 : depth[parent[i]] + 1;
          order[i] = i;
        }
      lca = rw_lca_new (n, parent, depth, order);
      for (guint a = 0; a < n; a++)
        for (guint b = 0; b < n; b++)
          {
            guint up = a, down = b;
            while (up != down && up != G_MAXUINT && down != G_MAXUINT)
              if (depth[up] >= depth[down])
                up = parent[up];
              else
                down = parent[down];
            g_assert_cmpuint (rw_lca_find (lca, a, b), ==, up == down ? up : G_MAXUINT);
            g_assert_cmpint (rw_lca_is_above (lca, a, b), ==, rw_lca_find (lca, a, b) == a);
          }
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/stream/up-to-eight-channels", test_up_to_eight_channels);
  g_test_add_func ("/net/stream/rows-without", test_rows_that_make_no_stream);
  g_test_add_func ("/net/stream/most-channels", test_most_channels);
  g_test_add_func ("/net/stream/rates", test_rates);
  g_test_add_func ("/net/stream/multicast", test_multicast);
  g_test_add_func ("/net/stream/groups", test_groups);
  g_test_add_func ("/net/load/tags-and-planes", test_tags_and_planes);
  g_test_add_func ("/net/load/random", test_random_loads);
  g_test_add_func ("/net/delay/small-chain-is-safe", test_small_chain_is_safe_at_250_us);
  g_test_add_func ("/net/delay/under-load", test_delay_under_load);
  g_test_add_func ("/net/delay/arrivals", test_arrivals);
  g_test_add_func ("/net/delay/safe-is-a-tenth-away", test_safe_is_a_tenth_away);
  g_test_add_func ("/net/delay/random", test_random_delays);
  g_test_add_func ("/net/lca/random", test_random_ancestors);
  return g_test_run ();
}
