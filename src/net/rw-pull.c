/* SPDX-License-Identifier: MIT */
#include "rw-pull.h"

#include <string.h>

#define EPSILON 1e-9
#define MOST_WORK 20000000 /* pairs that are looked at before the best so far is taken: a fraction of a second */

/*
 * One cable a need. A set of needs can be served exactly if for every length no more of them are that long or longer
 * than there are cables that long or longer (P. Hall, 1935). So the needs that can be served together are the
 * independent sets of a transversal matroid, and so are the cables that can be used together; and any largest set of
 * the one can be served by any largest set of the other (N. S. Mendelsohn and A. L. Dulmage, 1958). Hence the least
 * waste is the shortest largest set of cables less the longest largest set of needs, and the greedy way finds both
 * (J. Edmonds, 1971).
 *
 * Two cables a need, where none in stock is long enough: finding pairs without waste is numerical three-dimensional
 * matching, which is NP-hard in the strong sense (M. R. Garey and D. S. Johnson, 1979), so these few are found by
 * branch and bound over the lengths.
 */
typedef struct
{
  const RwStockLength *stock;
  const RwPullNeed *needs;
  guint n_stock, n_needs;
  guint *order;        /* stock from the shortest to the longest */
  guint *singles;      /* needs for one cable, longest first */
  guint n_singles;
  guint *joins;        /* needs for two cables, longest first */
  guint n_joins;
  int *left;           /* of each length, RW_PULL_ANY stays */
  RwPullChoice *trial; /* of all needs */
  guint n_trials;
  guint64 work;        /* pairs that were looked at */
  gboolean stopped;
  RwPull *best;
} Search;

static int
compare_stock (gconstpointer a, gconstpointer b, gpointer data)
{
  const RwStockLength *stock = data;
  guint i = *(const guint *) a, j = *(const guint *) b;

  if (stock[i].length_m != stock[j].length_m)
    return stock[i].length_m < stock[j].length_m ? -1 : 1;
  return i < j ? -1 : i > j;
}

static int
compare_needs (gconstpointer a, gconstpointer b, gpointer data)
{
  const RwPullNeed *needs = data;
  guint i = *(const guint *) a, j = *(const guint *) b;

  if (needs[i].length_m != needs[j].length_m)
    return needs[i].length_m > needs[j].length_m ? -1 : 1;
  return i < j ? -1 : i > j;
}

static guint
available (const Search *s, guint stock)
{
  return s->left[stock] == RW_PULL_ANY ? s->n_needs : (guint) s->left[stock];
}

static gboolean
long_enough (double cable, double need)
{
  return cable >= need - EPSILON;
}

/* The longest needs that can be served together, longest first. */
static guint
choose_needs (const Search *s, guint *chosen)
{
  guint n = 0, at = s->n_stock, supply = 0;

  for (guint i = 0; i < s->n_singles; i++)
    {
      double length = s->needs[s->singles[i]].length_m;

      while (at > 0 && long_enough (s->stock[s->order[at - 1]].length_m, length))
        supply += available (s, s->order[--at]);
      if (n < supply)
        chosen[n++] = s->singles[i];
    }
  return n;
}

/* The shortest cables that can all be used, shortest first; as many as there are needs that can be served. */
static guint
choose_cables (const Search *s, guint *chosen)
{
  guint n = 0, at = s->n_singles;

  for (guint i = 0; i < s->n_stock; i++)
    {
      guint stock = s->order[i], here = available (s, stock);

      while (at > 0 && long_enough (s->stock[stock].length_m, s->needs[s->singles[at - 1]].length_m))
        at--;
      for (; here > 0 && n < s->n_singles - at; here--)
        chosen[n++] = stock;
    }
  return n;
}

/* Gives the singles of the trial their cables out of what is left. */
static void
serve_singles (Search *s, guint *n_met, double *waste_m)
{
  g_autofree guint *needs = g_new (guint, s->n_singles + 1);
  g_autofree guint *cables = g_new (guint, s->n_singles + 1);
  guint n = choose_needs (s, needs), n_cables = choose_cables (s, cables);

  g_assert (n == n_cables);
  for (guint i = 0; i < s->n_singles; i++)
    s->trial[s->singles[i]] = (RwPullChoice) { RW_PULL_NONE, RW_PULL_NONE };
  for (guint i = 0; i < n; i++)
    {
      guint cable = cables[n - 1 - i];

      s->trial[needs[i]].first = cable;
      *waste_m += s->stock[cable].length_m - s->needs[needs[i]].length_m;
    }
  *n_met += n;
}

static void
weigh_trial (Search *s, guint n_met, double waste_m)
{
  RwPull *best = s->best;

  s->n_trials++;
  serve_singles (s, &n_met, &waste_m);
  if (n_met < best->n_met || (n_met == best->n_met && waste_m >= best->waste_m - EPSILON))
    return;
  best->n_met = n_met;
  best->waste_m = waste_m;
  memcpy (best->choices, s->trial, s->n_needs * sizeof *s->trial);
}

typedef struct { guint first, second; double waste_m; } Pair;

static int
compare_pairs (gconstpointer a, gconstpointer b)
{
  const Pair *p = a, *q = b;

  if (p->waste_m != q->waste_m)
    return p->waste_m < q->waste_m ? -1 : 1;
  return p->first != q->first ? (p->first < q->first ? -1 : 1) : p->second < q->second ? -1 : p->second > q->second;
}

/* All pairs of lengths that serve @need, the least wasteful first. */
static GArray *
pairs_for (const Search *s, const RwPullNeed *need)
{
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (Pair));

  for (guint i = 0; i < s->n_stock; i++)
    for (guint j = i; j < s->n_stock; j++)
      {
        double sum = s->stock[i].length_m + s->stock[j].length_m;
        Pair pair = { i, j, sum - need->length_m };

        if (s->left[i] != 0 && s->left[j] != 0 && long_enough (sum, need->length_m) && sum <= need->reach_m + EPSILON)
          g_array_append_val (pairs, pair);
      }
  g_array_sort (pairs, compare_pairs);
  return pairs;
}

static gboolean
take (Search *s, guint stock)
{
  if (s->left[stock] == 0)
    return FALSE;
  if (s->left[stock] != RW_PULL_ANY)
    s->left[stock]--;
  return TRUE;
}

static void
put_back (Search *s, guint stock)
{
  if (s->left[stock] != RW_PULL_ANY)
    s->left[stock]++;
}

/* No way of going on serves more needs than all that are still to come. */
static gboolean
hopeless (const Search *s, guint join, guint n_met, double waste_m)
{
  guint most = n_met + (s->n_joins - join) + s->n_singles;

  return most < s->best->n_met || (most == s->best->n_met && waste_m >= s->best->waste_m - EPSILON);
}

static void join_from (Search *s, guint join, guint n_met, double waste_m);

/* Takes @pair for @join and goes on. TRUE: no other pair has to be tried, as this one wastes least and takes nothing
 * from any other need. */
static gboolean
try_pair (Search *s, guint join, const Pair *pair, guint n_met, double waste_m)
{
  gboolean endless = s->left[pair->first] == RW_PULL_ANY && s->left[pair->second] == RW_PULL_ANY;

  if (!take (s, pair->first))
    return FALSE;
  if (!take (s, pair->second))
    {
      put_back (s, pair->first);
      return FALSE;
    }
  s->trial[s->joins[join]] = (RwPullChoice) { pair->first, pair->second };
  join_from (s, join + 1, n_met + 1, waste_m + pair->waste_m);
  put_back (s, pair->first);
  put_back (s, pair->second);
  return endless;
}

static void
join_from (Search *s, guint join, guint n_met, double waste_m)
{
  g_autoptr (GArray) pairs = NULL;
  gboolean done = FALSE;

  if (s->n_trials > 0 && hopeless (s, join, n_met, waste_m))
    return;
  if (join == s->n_joins)
    {
      weigh_trial (s, n_met, waste_m);
      return;
    }
  s->work += (guint64) s->n_stock * (s->n_stock + 1) / 2 + s->n_singles;
  pairs = pairs_for (s, &s->needs[s->joins[join]]);
  for (guint i = 0; i < pairs->len && !done; i++)
    {
      if (s->n_trials > 0 && s->work >= MOST_WORK)
        {
          s->stopped = TRUE;
          return;
        }
      done = try_pair (s, join, &g_array_index (pairs, Pair, i), n_met, waste_m);
    }
  if (done)
    return;
  s->trial[s->joins[join]] = (RwPullChoice) { RW_PULL_NONE, RW_PULL_NONE };
  join_from (s, join + 1, n_met, waste_m);
}

static void
part_needs (Search *s)
{
  double longest = 0;

  for (guint i = 0; i < s->n_stock; i++)
    if (s->left[i] != 0)
      longest = MAX (longest, s->stock[i].length_m);
  for (guint i = 0; i < s->n_needs; i++)
    if (long_enough (longest, s->needs[i].length_m))
      s->singles[s->n_singles++] = i;
    else
      s->joins[s->n_joins++] = i;
  g_qsort_with_data (s->singles, (int) s->n_singles, sizeof (guint), compare_needs, (gpointer) s->needs);
  g_qsort_with_data (s->joins, (int) s->n_joins, sizeof (guint), compare_needs, (gpointer) s->needs);
}

/**
 * rw_pull_new: gives each need a whole cable from the stock, so that first as many needs as can be are served and
 * then the waste is the least that can be. Two are joined only where the stock holds none that is long enough, and
 * where both together stay within the need's reach. (transfer full).
 */
RwPull *
rw_pull_new (const RwStockLength *stock, guint n_stock, const RwPullNeed *needs, guint n_needs)
{
  g_autofree guint *order = g_new (guint, n_stock + 1);
  g_autofree int *left = g_new (int, n_stock + 1);
  g_autofree guint *singles = g_new (guint, n_needs + 1);
  g_autofree guint *joins = g_new (guint, n_needs + 1);
  g_autofree RwPullChoice *trial = g_new (RwPullChoice, n_needs + 1);
  RwPull *pull = g_new0 (RwPull, 1);
  Search s = { .stock = stock, .needs = needs, .n_stock = n_stock, .n_needs = n_needs, .order = order, .left = left,
               .singles = singles, .joins = joins, .trial = trial, .best = pull };

  pull->choices = g_new (RwPullChoice, n_needs + 1);
  pull->n_needs = n_needs;
  pull->waste_m = G_MAXDOUBLE;
  for (guint i = 0; i < n_stock; i++)
    {
      order[i] = i;
      left[i] = stock[i].count;
    }
  g_qsort_with_data (order, (int) n_stock, sizeof (guint), compare_stock, (gpointer) stock);
  part_needs (&s);
  join_from (&s, 0, 0, 0);
  pull->exact = !s.stopped;
  return pull;
}

void
rw_pull_free (RwPull *pull)
{
  if (pull == NULL)
    return;
  g_free (pull->choices);
  g_free (pull);
}
