/* SPDX-License-Identifier: MIT */
/*
 * How long the net of a rig takes to work out, for three sizes and shapes, as medians of processor time and
 * as growth from one size to the next; and its components and cuts against igraph on the same graph.
 */
#include <igraph.h>
#include <net/rw-net-private.h>
#include <rig-builder.h>

#include "bench-time.h"

#define ROUNDS 21

typedef void (*Job) (gconstpointer data);

static double
median_ms (Job job, gconstpointer data)
{
  double times[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++)
    {
      double start = bench_now_ms ();

      job (data);
      times[i] = bench_now_ms () - start;
    }
  return bench_median (times, ROUNDS);
}

/* Switches cabled at random, six cables to five of them: thousands of loops. */
static char *
random_switches (guint n)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (n);
  GString *text = g_string_new (NULL);
  g_autofree guint *used = g_new0 (guint, n);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "switch D%u ports=12\n", i);
  for (guint i = 0; i < n + n / 5; i++)
    {
      guint a = g_rand_int_range (rand, 0, n), b = g_rand_int_range (rand, 0, n);
      guint port_a = ++used[a], port_b = ++used[b];

      g_string_append_printf (text, "D%u.p%u-D%u.p%u\n", a, port_a, b, port_b);
    }
  return g_string_free (text, FALSE);
}

/* Two planes of switches, six to a ring of trunks, with redundant racks at each. */
static char *
two_planes (guint n)
{
  GString *text = g_string_new (NULL);
  guint n_pairs = n / 12;

  for (guint i = 0; i < n_pairs; i++)
    for (guint plane = 0; plane < 2; plane++)
      g_string_append_printf (text, "switch %c%u ports=24 stp p1=[10,20] p2=[10,20] p3=[10,20]\n",
                              'A' + plane, i);
  for (guint i = 0; i < n - 2 * n_pairs; i++)
    g_string_append_printf (text, "rack R%u mode=redundant\n", i);
  for (guint i = 0; i < n_pairs; i++)
    for (guint plane = 0; plane < 2; plane++)
      {
        guint ring = i / 6 * 6, next = i % 6 == 5 || i + 1 == n_pairs ? ring : i + 1;

        if (next != i)
          g_string_append_printf (text, "%c%u.p1-%c%u.p2\n", 'A' + plane, i, 'A' + plane, next);
      }
  for (guint i = 0; i < n - 2 * n_pairs; i++)
    g_string_append_printf (text, "R%u.p-A%u.p%u; R%u.s-B%u.p%u\n", i, i % n_pairs, 4 + i / n_pairs,
                            i, i % n_pairs, 4 + i / n_pairs);
  return g_string_free (text, FALSE);
}

static char *
one_chain (guint n)
{
  GString *text = g_string_new ("rack D0\n");

  for (guint i = 1; i < n; i++)
    g_string_append_printf (text, "rack D%u; D%u.s-D%u.p\n", i, i - 1, i);
  g_string_append_printf (text, "D%u.s-D0.p\n", n - 1);
  return g_string_free (text, FALSE);
}

static void
make_net (gconstpointer rig)
{
  rw_net_unref (rw_net_new (rig));
}

static void
find_parts (gconstpointer data)
{
  const RwNet *net = data;
  g_autofree guint *numbers = g_new (guint, net->n_nodes);

  rw_net_find_components (net, numbers);
  for (guint k = 0; k < net->n_networks; k++)
    {
      RwCuts cuts;

      rw_net_cuts (net, k, &cuts);
      rw_cuts_clear (&cuts);
    }
}

static void
find_parts_with_igraph (gconstpointer data)
{
  const igraph_t *graph = data;
  igraph_vector_int_t a, b;
  igraph_integer_t n;

  igraph_vector_int_init (&a, 0);
  igraph_vector_int_init (&b, 0);
  igraph_connected_components (graph, &a, &b, &n, IGRAPH_WEAK);
  igraph_bridges (graph, &a);
  igraph_articulation_points (graph, &a);
  igraph_vector_int_destroy (&a);
  igraph_vector_int_destroy (&b);
}

static void
report_growth (const char *name, char *(*make) (guint n))
{
  static const guint sizes[] = { 200, 1000, 10000 };
  double before = 0;

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *text = make (sizes[i]);
      g_autoptr (RwRig) rig = rw_test_rig (text);
      g_autoptr (RwNet) net = rw_net_new (rig);
      double ms = median_ms (make_net, rig);

      g_print ("%-10s %5u devices %5u cables %5u loops: %8.3f ms", name, net->n_devices, net->n_cables,
               net->n_loops, ms);
      if (i > 0)
        g_print (", %5.1f times that of 1/%u", ms / before, sizes[i] / sizes[i - 1]);
      g_print ("\n");
      before = ms;
    }
}

static void
report_against_igraph (void)
{
  g_autofree char *text = random_switches (10000);
  g_autoptr (RwRig) rig = rw_test_rig (text);
  g_autoptr (RwNet) net = rw_net_new (rig);
  igraph_vector_int_t edges;
  igraph_t graph;
  double ours, theirs;

  igraph_vector_int_init (&edges, 0);
  for (guint l = 0; l < net->n_links; l++)
    for (guint end = 0; end < 2; end++)
      igraph_vector_int_push_back (&edges, net->links[l].node[end]);
  igraph_create (&graph, &edges, net->n_nodes, IGRAPH_UNDIRECTED);
  ours = median_ms (find_parts, net);
  theirs = median_ms (find_parts_with_igraph, &graph);
  g_print ("components and cuts of %u nodes, %u links: %.3f ms, igraph %.3f ms: %.1f times as fast\n",
           net->n_nodes, net->n_links, ours, theirs, theirs / ours);
  igraph_destroy (&graph);
  igraph_vector_int_destroy (&edges);
}

int
main (void)
{
  report_growth ("random", random_switches);
  report_growth ("two planes", two_planes);
  report_growth ("one chain", one_chain);
  report_against_igraph ();
  return EXIT_SUCCESS;
}
