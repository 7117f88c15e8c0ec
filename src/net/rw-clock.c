/* SPDX-License-Identifier: MIT */
#include "rw-clock.h"

#include <glib/gi18n-lib.h>

/* IEEE 1588-2008 7.6.2.4 and table 5: 255 is a clock that only follows. */
#define CLASS_FOLLOWS_ONLY 255

static int
compare_numbers (gint64 a, gint64 b)
{
  return (a > b) - (a < b);
}

/* An identity that is not given is the last; given ones compare as the hex numbers that they are. */
static int
compare_identities (const char *a, const char *b)
{
  gboolean has_a = a != NULL && *a != '\0', has_b = b != NULL && *b != '\0';

  if (!has_a || !has_b)
    return compare_numbers (has_b, has_a);
  return g_ascii_strcasecmp (a, b);
}

/**
 * rw_clock_compare:
 * @a: a clock
 * @b: another
 * @order: (out): less than 0 where @a leads, more where @b does, 0 where nothing sets them apart
 *
 * The data set comparison between two clocks that are their own grandmasters: IEEE 1588-2008 9.3.4,
 * figure 27. The lower value wins each step.
 *
 * Returns: the attribute that decided; RW_CLOCK_BY_IDENTITY also where even that is equal or not given
 */
RwClockDecision
rw_clock_compare (const RwClock *a, const RwClock *b, int *order)
{
  const gint64 steps[][2] = {
    { a->priority1, b->priority1 }, { a->clock_class, b->clock_class }, { a->accuracy, b->accuracy },
    { a->variance, b->variance },   { a->priority2, b->priority2 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      *order = compare_numbers (steps[i][0], steps[i][1]);
      if (*order != 0)
        return RW_CLOCK_BY_PRIORITY1 + i;
    }
  *order = compare_identities (a->identity, b->identity);
  return RW_CLOCK_BY_IDENTITY;
}

/**
 * rw_clock_decision_label:
 *
 * Returns: (transfer none): what a person calls the attribute
 */
const char *
rw_clock_decision_label (RwClockDecision decision)
{
  static const char *const labels[] = { N_("nothing"),  N_("priority 1"), N_("class"),   N_("accuracy"),
                                        N_("variance"), N_("priority 2"), N_("identity") };

  return _(labels[decision]);
}

/* One host that votes in one network. */
typedef struct
{
  guint device;
  int domain;
} Vote;

static int
compare_votes (gconstpointer a, gconstpointer b)
{
  const Vote *v = a, *w = b;
  int by_domain = compare_numbers (v->domain, w->domain);

  return by_domain != 0 ? by_domain : compare_numbers (v->device, w->device);
}

/* A network's nodes stand by device; only where domains differ is there anything to sort. */
static void
collect_votes (const RwNet *net, guint network, GArray *votes)
{
  RwSlice nodes = net->networks[network].nodes;
  gboolean mixed = FALSE;

  g_array_set_size (votes, 0);
  for (guint i = 0; i < nodes.n; i++)
    {
      guint device = net->nodes[nodes.v[i]].device;
      Vote vote = { device, net->devices[device].clock_domain };
      /* where the planes are joined, a redundant device is there twice */
      if (!net->nodes[nodes.v[i]].host || (votes->len > 0 && g_array_index (votes, Vote, votes->len - 1).device == device))
        continue;
      mixed = mixed || (votes->len > 0 && vote.domain != g_array_index (votes, Vote, 0).domain);
      g_array_append_val (votes, vote);
    }
  if (mixed)
    g_array_sort (votes, compare_votes);
}

/* What is compared before the identity, as one number: the lower leads. Each attribute has the bytes that the
 * standard gives it (IEEE 1588-2008 7.6.2 and 7.6.3). */
static guint64
data_set (const RwClock *clock)
{
  return (guint64) clock->priority1 << 40 | (guint64) clock->clock_class << 32 | (guint64) clock->accuracy << 24
         | (guint64) clock->variance << 8 | (guint64) clock->priority2;
}

typedef struct
{
  guint64 data_set;
  const char *identity;
  guint device;
} Candidate;

static int
compare_candidates (gconstpointer a, gconstpointer b, gpointer data)
{
  const Candidate *x = a, *y = b;
  int by_identity = compare_identities (x->identity, y->identity);

  return by_identity != 0 ? by_identity : compare_numbers (x->device, y->device);
}

/* Candidates of one data set stand in file order: identities, where there are any, come before that. */
static void
sort_by_identity (Candidate *candidates, guint n)
{
  for (guint i = 0; i < n; i++)
    if (candidates[i].identity != NULL)
      {
        g_qsort_with_data (candidates, (gint) n, sizeof (Candidate), compare_candidates, NULL);
        return;
      }
}

/* Keeps the order of those that agree in the byte at @shift. */
static void
sort_by_byte (const Candidate *from, Candidate *to, guint n, guint shift)
{
  guint start[256 + 1] = { 0 };

  for (guint i = 0; i < n; i++)
    start[(from[i].data_set >> shift & 0xff) + 1]++;
  for (guint i = 0; i < 256; i++)
    start[i + 1] += start[i];
  for (guint i = 0; i < n; i++)
    to[start[from[i].data_set >> shift & 0xff]++] = from[i];
}

/* Byte by byte, the last first: most clocks are as they left the factory, and most bytes need no sorting. */
static Candidate *
sort_candidates (Candidate *candidates, Candidate *spare, guint n)
{
  guint64 differ = 0;

  for (guint i = 1; i < n; i++)
    differ |= candidates[i].data_set ^ candidates[0].data_set;
  for (guint shift = 0; shift < 64; shift += 8)
    if ((differ >> shift & 0xff) != 0)
      {
        Candidate *sorted = spare;

        sort_by_byte (candidates, sorted, n, shift);
        spare = candidates;
        candidates = sorted;
      }
  for (guint from = 0, to; from < n; from = to)
    {
      for (to = from + 1; to < n && candidates[to].data_set == candidates[from].data_set; to++)
        ;
      sort_by_identity (candidates + from, to - from);
    }
  return candidates;
}

static void
elect (RwClocks *clocks, const RwNet *net, guint network, const Vote *votes, guint n, Candidate *room)
{
  RwClockGroup *group = &clocks->groups[clocks->n_groups++];
  guint *voters = clocks->indices + clocks->n_indices, *order = voters + n;
  const Candidate *sorted;
  guint n_order = 0;
  int sign;

  for (guint i = 0; i < n; i++)
    {
      const RwClock *clock = &net->devices[votes[i].device].device->clock;

      voters[i] = votes[i].device;
      if (clock->clock_class != CLASS_FOLLOWS_ONLY)
        room[n_order++] = (Candidate){ data_set (clock), clock->identity, voters[i] };
    }
  sorted = sort_candidates (room, room + n, n_order);
  for (guint i = 0; i < n_order; i++)
    order[i] = sorted[i].device;
  clocks->n_indices += n + n_order;
  *group = (RwClockGroup){ .network = network, .domain = votes[0].domain, .voters = { voters, n },
                           .order = { order, n_order } };
  if (n_order > 1)
    group->decided = rw_clock_compare (&net->devices[order[0]].device->clock, &net->devices[order[1]].device->clock, &sign);
}

/* How good a source of the clock a network is for a device that votes in it. */
static guint
source_rank (const RwNet *net, guint device, guint network)
{
  const RwNetDevice *d = &net->devices[device];

  if (net->networks[network].links.n == 0)
    return 0;
  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if (net->nodes[i].network == network && net->nodes[i].side == RW_SIDE_PRIMARY)
      return 2;
  return 1;
}

static void
follow (RwClocks *clocks, const RwNet *net, guint index)
{
  const RwClockGroup *group = &clocks->groups[index];

  for (guint i = 0; i < group->voters.n; i++)
    {
      guint device = group->voters.v[i], present = clocks->group[device];
      if (present != RW_NONE
          && source_rank (net, device, clocks->groups[present].network) >= source_rank (net, device, group->network))
        continue;
      clocks->group[device] = index;
      clocks->leader[device] = group->order.n > 0 ? group->order.v[0] : RW_NONE;
    }
}

/**
 * rw_clocks_new:
 * @net: a net
 *
 * Elects a leader in each network and clock domain. Controllers, racks and endpoints vote with each of
 * their interfaces; a redundant device follows the leader of its primary network where that is cabled.
 *
 * Returns: (transfer full): the elections
 */
RwClocks *
rw_clocks_new (const RwNet *net)
{
  RwClocks *clocks = g_new0 (RwClocks, 1);
  g_autoptr (GArray) votes = g_array_new (FALSE, FALSE, sizeof (Vote));
  g_autofree Candidate *room = g_new (Candidate, 2 * net->n_nodes);

  clocks->n_devices = net->n_devices;
  clocks->leader = g_new (guint, net->n_devices);
  clocks->group = g_new (guint, net->n_devices);
  clocks->indices = g_new (guint, 2 * net->n_nodes); /* each host votes once, and may lead once */
  clocks->groups = g_new (RwClockGroup, net->n_nodes);
  for (guint i = 0; i < net->n_devices; i++)
    clocks->leader[i] = clocks->group[i] = RW_NONE;
  for (guint i = 0; i < net->n_networks; i++)
    {
      collect_votes (net, i, votes);
      for (guint start = 0, end; start < votes->len; start = end)
        {
          for (end = start + 1; end < votes->len
                                && g_array_index (votes, Vote, end).domain == g_array_index (votes, Vote, start).domain; end++)
            ;
          elect (clocks, net, i, &g_array_index (votes, Vote, start), end - start, room);
          follow (clocks, net, clocks->n_groups - 1);
        }
    }
  return clocks;
}

void
rw_clocks_free (RwClocks *clocks)
{
  g_free (clocks->indices);
  g_free (clocks->groups);
  g_free (clocks->leader);
  g_free (clocks->group);
  g_free (clocks);
}

/**
 * rw_clocks_network_leader:
 * @clocks: the elections
 * @network: index of a network
 * @domain: the clock domain that matters most: the system's
 *
 * Returns: the device that leads there in @domain, else in the first domain that has a leader; RW_NONE
 */
guint
rw_clocks_network_leader (const RwClocks *clocks, guint network, int domain)
{
  guint leader = RW_NONE;

  for (guint i = 0; i < clocks->n_groups; i++)
    {
      const RwClockGroup *group = &clocks->groups[i];
      if (group->network != network || group->order.n == 0)
        continue;
      if (group->domain == domain)
        return group->order.v[0];
      if (leader == RW_NONE)
        leader = group->order.v[0];
    }
  return leader;
}
