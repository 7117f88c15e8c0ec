/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <net/rw-pull.h>

/* Every way of serving the needs, one after the other: the meaning of the pull list written down as plainly as can be. */
typedef struct
{
  const RwStockLength *stock;
  guint n_stock;
  const RwPullNeed *needs;
  guint n_needs;
  int left[8];
  double longest;
  guint best_met;
  double best_waste;
} Brute;

static void
brute_from (Brute *b, guint need, guint met, double waste)
{
  const RwPullNeed *n = &b->needs[need];

  if (need == b->n_needs)
    {
      if (met > b->best_met || (met == b->best_met && waste < b->best_waste))
        {
          b->best_met = met;
          b->best_waste = waste;
        }
      return;
    }
  brute_from (b, need + 1, met, waste);
  for (guint i = 0; i < b->n_stock; i++)
    {
      if (b->left[i] == 0)
        continue;
      b->left[i]--;
      if (b->stock[i].length_m >= n->length_m)
        brute_from (b, need + 1, met + 1, waste + b->stock[i].length_m - n->length_m);
      for (guint j = i; j < b->n_stock && b->longest < n->length_m; j++)
        {
          double sum = b->stock[i].length_m + b->stock[j].length_m;

          if (b->left[j] == 0 || sum < n->length_m || sum > n->reach_m)
            continue;
          b->left[j]--;
          brute_from (b, need + 1, met + 1, waste + sum - n->length_m);
          b->left[j]++;
        }
      b->left[i]++;
    }
}

static Brute
brute (const RwStockLength *stock, guint n_stock, const RwPullNeed *needs, guint n_needs)
{
  Brute b = { .stock = stock, .n_stock = n_stock, .needs = needs, .n_needs = n_needs, .best_waste = 0 };

  for (guint i = 0; i < n_stock; i++)
    {
      b.left[i] = stock[i].count == RW_PULL_ANY ? 2 * (int) n_needs : stock[i].count;
      if (b.left[i] > 0)
        b.longest = MAX (b.longest, stock[i].length_m);
    }
  brute_from (&b, 0, 0, 0);
  return b;
}

/* That the choices themselves are allowed and come to what is claimed. */
static void
check_choices (const RwPull *pull, const RwStockLength *stock, guint n_stock, const RwPullNeed *needs)
{
  g_autofree int *used = g_new0 (int, n_stock + 1);
  guint met = 0;
  double waste = 0;

  for (guint i = 0; i < pull->n_needs; i++)
    {
      const RwPullChoice *c = &pull->choices[i];
      double sum = 0;

      if (c->first == RW_PULL_NONE)
        continue;
      met++;
      used[c->first]++;
      sum = stock[c->first].length_m;
      if (c->second != RW_PULL_NONE)
        {
          used[c->second]++;
          sum += stock[c->second].length_m;
          g_assert_cmpfloat (sum, <=, needs[i].reach_m + 1e-6);
        }
      g_assert_cmpfloat (sum, >=, needs[i].length_m - 1e-6);
      waste += sum - needs[i].length_m;
    }
  for (guint i = 0; i < n_stock; i++)
    g_assert_true (stock[i].count == RW_PULL_ANY || used[i] <= stock[i].count);
  g_assert_cmpuint (met, ==, pull->n_met);
  g_assert_cmpfloat_with_epsilon (waste, pull->waste_m, 1e-6);
}

static void
test_brute_force (void)
{
  guint joined = 0, unmet = 0;

  for (guint round = 0; round < 4000; round++)
    {
      RwStockLength stock[5];
      RwPullNeed needs[6];
      guint n_stock = (guint) g_test_rand_int_range (0, 5), n_needs = (guint) g_test_rand_int_range (0, 6);
      gboolean endless = round % 7 == 0;

      for (guint i = 0; i < n_stock; i++)
        stock[i] = (RwStockLength) { g_test_rand_int_range (1, 40) / 2.0, endless && i == 0 ? RW_PULL_ANY : g_test_rand_int_range (0, 4) };
      for (guint i = 0; i < n_needs; i++)
        needs[i] = (RwPullNeed) { g_test_rand_int_range (1, 60) / 2.0, g_test_rand_int_range (0, 4) == 0 ? 0 : 35 };

      g_autoptr (RwPull) pull = rw_pull_new (stock, n_stock, needs, n_needs);
      Brute b = brute (stock, n_stock, needs, n_needs);

      g_assert_true (pull->exact);
      check_choices (pull, stock, n_stock, needs);
      g_assert_cmpuint (pull->n_met, ==, b.best_met);
      g_assert_cmpfloat_with_epsilon (pull->waste_m, b.best_waste, 1e-6);
      unmet += n_needs - pull->n_met;
      for (guint i = 0; i < n_needs; i++)
        joined += pull->choices[i].second != RW_PULL_NONE;
    }
  /* the cases are of all kinds */
  g_assert_cmpuint (joined, >, 200);
  g_assert_cmpuint (unmet, >, 200);
}

/* Taking the nearest length for each in turn would waste 8 + 5 m or leave one out; the pair 10 → 9, 15 → 12 wastes 4. */
static void
test_not_one_by_one (void)
{
  const RwStockLength stock[] = { { 20, 1 }, { 10, 1 }, { 15, 1 } };
  const RwPullNeed needs[] = { { 9, 100 }, { 12, 100 } };
  g_autoptr (RwPull) pull = rw_pull_new (stock, G_N_ELEMENTS (stock), needs, G_N_ELEMENTS (needs));

  g_assert_cmpuint (pull->choices[0].first, ==, 1);
  g_assert_cmpuint (pull->choices[1].first, ==, 2);
  g_assert_cmpfloat_with_epsilon (pull->waste_m, 4, 1e-9);
}

static void
test_join_only_where_needed (void)
{
  const RwStockLength stock[] = { { 50, 3 }, { 30, 2 } };
  const RwPullNeed needs[] = { { 45, 100 }, { 70, 100 }, { 95, 90 } };
  g_autoptr (RwPull) pull = rw_pull_new (stock, G_N_ELEMENTS (stock), needs, G_N_ELEMENTS (needs));

  g_assert_cmpuint (pull->choices[0].first, ==, 0);
  g_assert_cmpuint (pull->choices[0].second, ==, RW_PULL_NONE);
  g_assert_cmpuint (pull->choices[1].first, ==, 0);
  g_assert_cmpuint (pull->choices[1].second, ==, 1);
  g_assert_cmpuint (pull->choices[2].first, ==, RW_PULL_NONE);
}

/* So many joins that not every way can be tried: the work ends, and all that can be served are. */
static void
test_many_joins (void)
{
  RwStockLength stock[48];
  RwPullNeed needs[24];
  g_autoptr (RwPull) pull = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (stock); i++)
    stock[i] = (RwStockLength) { 40 + i * 0.37, 1 };
  for (guint i = 0; i < G_N_ELEMENTS (needs); i++)
    needs[i] = (RwPullNeed) { 60 + i * 0.71, 1000 };
  pull = rw_pull_new (stock, G_N_ELEMENTS (stock), needs, G_N_ELEMENTS (needs));
  g_assert_false (pull->exact);
  g_assert_cmpuint (pull->n_met, ==, G_N_ELEMENTS (needs));
}

static void
test_nothing (void)
{
  const RwPullNeed need = { 5, 100 };
  const RwStockLength stock = { 5, 0 };
  g_autoptr (RwPull) empty = rw_pull_new (NULL, 0, NULL, 0);
  g_autoptr (RwPull) no_stock = rw_pull_new (NULL, 0, &need, 1);
  g_autoptr (RwPull) all_gone = rw_pull_new (&stock, 1, &need, 1);

  g_assert_cmpuint (empty->n_met, ==, 0);
  g_assert_cmpfloat (empty->waste_m, ==, 0);
  g_assert_cmpuint (no_stock->n_met, ==, 0);
  g_assert_cmpuint (all_gone->choices[0].first, ==, RW_PULL_NONE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/pull/brute-force", test_brute_force);
  g_test_add_func ("/net/pull/not-one-by-one", test_not_one_by_one);
  g_test_add_func ("/net/pull/join-only-where-needed", test_join_only_where_needed);
  g_test_add_func ("/net/pull/many-joins", test_many_joins);
  g_test_add_func ("/net/pull/nothing", test_nothing);
  return g_test_run ();
}
