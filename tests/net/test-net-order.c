/* SPDX-License-Identifier: MIT */
/* Numbers, labels and addresses for a whole rig at once. */
#include <net/rw-address-plan.h>
#include <net/rw-number.h>
#include <net/rw-relabel.h>
#include <rig/rw-edit.h>
#include <rig/rw-error.h>
#include <string.h>

#include "net-assert.h"

#define CHAIN \
  "console A ctrl=1 at=[100,100]; rack B at=[300,100]; rack C at=[0,200]; rack D at=[200,102]\n" \
  "D.p-A.s; C.p-D.s; A.p-B.s"

static void
assert_order (const char *text, RwOrder order, const char *expected)
{
  g_autoptr (RwNet) net = net_of (text);
  g_autoptr (GArray) devices = rw_net_order (net, order);

  g_assert_cmpuint (devices->len, ==, net->n_devices);
  net_assert_devices (net, ((RwSlice) { (guint *) (gpointer) devices->data, devices->len }), expected);
}

static void
test_order (void)
{
  /* the primary port comes first, so the arm of B is counted first */
  assert_order (CHAIN, RW_ORDER_CHAIN, "A B D C");
  assert_order (CHAIN, RW_ORDER_PLACE, "A D B C");
  assert_order ("rack A at=[0,0]; rack B at=[9,0]; A.p-B.p", RW_ORDER_CHAIN, "A B");
  assert_order ("rack A; console B ctrl=2; console C ctrl=1; B.p-A.p", RW_ORDER_CHAIN, "C A B");
}

/* The change is undoable: forth and back gives the rig that was. */
static void
assert_reversible (RwRig *rig, RwChange *change)
{
  g_autoptr (RwRig) before = rw_rig_copy (rig);
  g_autoptr (RwChange) back = rw_change_invert (change);

  g_assert_true (rw_rig_apply (rig, back, NULL));
  g_assert_true (rw_rig_apply (rig, change, NULL));
  for (guint t = 0; t < RW_N_ITEM_TYPES; t++)
    for (guint i = 0; i < rw_rig_n (before, t); i++)
      g_assert_true (rw_item_equal (rw_rig_items (rig, t)[i], rw_rig_items (before, t)[i]));
}

static RwRig *
numbered (const char *text, RwNumberOptions options, GError **error)
{
  RwRig *rig = rw_test_rig (text);
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwChange) change = rw_number_units (rig, net, &options, error);

  if (change == NULL)
    {
      g_object_unref (rig);
      return NULL;
    }
  g_assert_true (rw_rig_apply (rig, change, NULL));
  assert_reversible (rig, change);
  return rig;
}

static void
assert_unit (const RwRig *rig, const char *device, int unit_id)
{
  g_assert_true (rw_item_has (rw_rig_device (rig, device), RW_DEVICE_UNIT_ID));
  g_assert_cmpint (rw_rig_device (rig, device)->unit_id, ==, unit_id);
}

static void
test_number (void)
{
  g_autoptr (RwRig) chain = numbered (CHAIN, (RwNumberOptions) { RW_ORDER_CHAIN, 1, FALSE, NULL }, NULL);
  g_autoptr (RwRig) place = numbered (CHAIN, (RwNumberOptions) { RW_ORDER_PLACE, 5, FALSE, NULL }, NULL);

  assert_unit (chain, "B", 1);
  assert_unit (chain, "D", 2);
  assert_unit (chain, "C", 3);
  g_assert_false (rw_item_has (rw_rig_device (chain, "A"), RW_DEVICE_UNIT_ID));
  assert_unit (place, "D", 5);
  assert_unit (place, "B", 6);
  assert_unit (place, "C", 7);
}

static void
test_number_keeps (void)
{
  const char *text = "rack A id=2; rack B; speaker C id=1; rack D; speaker E";
  const char *const some[] = { "D", "E", NULL };
  g_autoptr (RwRig) kept = numbered (text, (RwNumberOptions) { RW_ORDER_PLACE, 1, TRUE, NULL }, NULL);
  g_autoptr (RwRig) chosen = numbered (text, (RwNumberOptions) { RW_ORDER_PLACE, 1, FALSE, some }, NULL);

  assert_unit (kept, "A", 2);
  assert_unit (kept, "C", 1);
  assert_unit (kept, "B", 3);
  assert_unit (kept, "D", 4);
  assert_unit (chosen, "D", 3);
  g_assert_false (rw_item_has (rw_rig_device (chosen, "B"), RW_DEVICE_UNIT_ID));
  g_assert_false (rw_item_has (rw_rig_device (chosen, "E"), RW_DEVICE_UNIT_ID));
}

static void
test_number_refuses (void)
{
  g_autoptr (GError) full = NULL, none = NULL;

  g_assert_null (numbered (CHAIN, (RwNumberOptions) { RW_ORDER_CHAIN, 98, FALSE, NULL }, &full));
  g_assert_error (full, RW_RIG_ERROR, RW_RIG_ERROR_RANGE);
  g_assert_nonnull (strstr (full->message, "100"));
  g_assert_null (numbered ("switch A", (RwNumberOptions) { RW_ORDER_CHAIN, 1, FALSE, NULL }, &none));
  g_assert_error (none, RW_RIG_ERROR, RW_RIG_ERROR_RANGE);
}

static RwRig *
labelled (const char *text, RwRelabelOptions options, guint n_repeats, GError **error)
{
  RwRig *rig = rw_test_rig (text);
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwChange) change = rw_relabel_cables (rig, net, &options, error);

  if (change == NULL)
    {
      g_object_unref (rig);
      return NULL;
    }
  g_assert_cmpuint (rw_relabel_n_repeats (rig, change), ==, n_repeats);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  assert_reversible (rig, change);
  return rig;
}

#define REDUNDANT \
  "console A name='Desk' mode=redundant; rack B name='Rack é' mode=redundant; rack C mode=chain\n" \
  "A.p-B.p; A.s-B.s; C.a-A.a label='N07'"

static void
test_relabel (void)
{
  const char *const some[] = { "c2", NULL };
  g_autoptr (RwRig) all = labelled (REDUNDANT, (RwRelabelOptions) { "{plane}##: {from} {from port} > { to } #", 9, NULL }, 0, NULL);
  g_autoptr (RwRig) one = labelled (REDUNDANT, (RwRelabelOptions) { "N##", 7, some }, 1, NULL);
  g_autoptr (RwRig) same = labelled (REDUNDANT, (RwRelabelOptions) { "{to port}é", 1, NULL }, 0, NULL);

  g_assert_cmpstr (rw_rig_cable (all, "c1")->label, ==, "P09: Desk primary > Rack é 9");
  g_assert_cmpstr (rw_rig_cable (all, "c2")->label, ==, "S10: Desk secondary > Rack é 10");
  g_assert_cmpstr (rw_rig_cable (all, "c3")->label, ==, "11: C aux > Desk 11");
  g_assert_null (rw_rig_cable (one, "c1")->label);
  g_assert_cmpstr (rw_rig_cable (one, "c2")->label, ==, "N07");
  g_assert_cmpstr (rw_rig_cable (same, "c3")->label, ==, "auxé");
}

static void
test_relabel_refuses (void)
{
  static const char *const bad[] = { "", "  ", "N{", "{from", "{colour}", "{}" };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (labelled (REDUNDANT, (RwRelabelOptions) { bad[i], 1, NULL }, 0, &error));
      g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE);
    }
}

static void
test_address (void)
{
  static const char *const bad[] = { "", "10.0.0", "10.0.0.256/8", "10.0.0.1.2", "10.00.0.1", "10.0.0.1/0", "10.0.0.1/33",
                                     "10.0.0.1/", "0x0a.0.0.1", "10.0.0.-1", "10 .0.0.1", "10.0.0.1/24 x" };
  /* RFC 1918 section 3: first and last of each range, and their neighbours outside */
  static const struct { const char *text; gboolean is_private; } ranges[] = {
    { "10.0.0.0/8", TRUE }, { "10.255.255.255", TRUE }, { "11.0.0.0", FALSE }, { "9.255.255.255", FALSE },
    { "172.16.0.0/12", TRUE }, { "172.31.255.255", TRUE }, { "172.32.0.0", FALSE }, { "172.15.255.255", FALSE },
    { "192.168.0.0/16", TRUE }, { "192.168.255.255", TRUE }, { "192.169.0.0", FALSE }, { "10.0.0.1/7", FALSE },
  };
  RwAddress a, b;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (rw_address_parse (bad[i], &a));
  for (guint i = 0; i < G_N_ELEMENTS (ranges); i++)
    {
      g_autofree char *text = NULL;

      g_assert_true (rw_address_parse (ranges[i].text, &a));
      g_assert_cmpint (rw_address_is_private (a), ==, ranges[i].is_private);
      text = rw_address_format (a);
      g_assert_cmpstr (text, ==, ranges[i].text);
    }
  g_assert_true (rw_address_parse ("169.254.7.1", &a) && rw_address_is_link_local (a));
  g_assert_true (rw_address_parse ("169.253.7.1", &a) && !rw_address_is_link_local (a));
  g_assert_true (rw_address_parse ("10.0.0.200/25", &a) && rw_address_parse (" 10.0.0.1/24 ", &b));
  g_assert_true (rw_address_overlap (a, b));
  g_assert_true (rw_address_parse ("10.0.0.1/25", &b) && !rw_address_overlap (a, b));
}

static void
give_addresses (RwRig *rig, const char *device, const char *primary, const char *secondary)
{
  GVariantDict dict;
  g_autoptr (RwEdit) edit = rw_edit_new (rig, "");
  g_autoptr (RwChange) change = NULL;

  g_variant_dict_init (&dict, NULL);
  g_variant_dict_insert (&dict, "primary", "s", primary);
  if (secondary != NULL)
    g_variant_dict_insert (&dict, "secondary", "s", secondary);
  g_assert_true (rw_edit_set (edit, device, RW_DEVICE_ADDRESSES, g_variant_dict_end (&dict), NULL));
  change = rw_edit_finish (g_steal_pointer (&edit));
  g_assert_true (rw_rig_apply (rig, change, NULL));
}

static RwRig *
addressed (const char *primary, const char *secondary, gboolean keep, GError **error)
{
  RwRig *rig = rw_test_rig ("rack A mode=redundant; rack B mode=chain; switch S; computer C");
  g_autoptr (RwNet) net = NULL;
  RwAddressOptions options = { { primary, secondary }, keep, RW_ORDER_PLACE };
  g_autoptr (RwChange) change = NULL;

  give_addresses (rig, "A", "10.0.10.2/24", "169.254.3.4/16");
  give_addresses (rig, "B", "10.0.10.2/24", NULL);
  net = rw_net_new (rig);
  change = rw_address_fill_in (rig, net, &options, error);

  if (change == NULL)
    {
      g_object_unref (rig);
      return NULL;
    }
  g_assert_true (rw_rig_apply (rig, change, NULL));
  assert_reversible (rig, change);
  return rig;
}

static void
test_address_plan (void)
{
  g_autoptr (RwRig) kept = addressed (rw_address_usual[0], rw_address_usual[1], TRUE, NULL);
  g_autoptr (RwRig) anew = addressed ("192.168.0.0/29", "172.16.0.9/16", FALSE, NULL);

  g_assert_cmpstr (rw_rig_device (kept, "A")->addresses.primary, ==, "10.0.10.2/24");
  g_assert_cmpstr (rw_rig_device (kept, "A")->addresses.secondary, ==, "10.0.20.1/24");
  g_assert_cmpstr (rw_rig_device (kept, "B")->addresses.primary, ==, "10.0.10.1/24");
  g_assert_null (rw_rig_device (kept, "B")->addresses.secondary);
  g_assert_null (rw_rig_device (kept, "S")->addresses.primary);
  g_assert_cmpstr (rw_rig_device (kept, "C")->addresses.primary, ==, "10.0.10.3/24");
  g_assert_cmpstr (rw_rig_device (anew, "A")->addresses.primary, ==, "192.168.0.1/29");
  g_assert_cmpstr (rw_rig_device (anew, "A")->addresses.secondary, ==, "172.16.0.9/16");
  g_assert_cmpstr (rw_rig_device (anew, "C")->addresses.primary, ==, "192.168.0.3/29");
}

/* What the rig has already speaks for where to begin: good addresses can then stay. */
static void
test_address_suggest (void)
{
  static const struct { const char *a, *a2, *b, *c, *first[2]; } cases[] = {
    { "169.254.1.1/16", "ask Ines", "8.8.8.8/24", "10.0.0.1", { "10.0.10.1/24", "10.0.20.1/24" } },
    { "10.10.0.46/24", "10.20.0.46/24", "192.168.1.1/24", "10.10.0.7/24", { "10.10.0.1/24", "10.20.0.1/24" } },
    { "192.168.1.9/24", NULL, "10.10.0.7/24", NULL, { "192.168.1.1/24", "10.0.20.1/24" } }, /* the first of several */
    { "10.3.0.7/8", "172.20.0.1/12", NULL, NULL, { "10.0.0.1/8", "172.16.0.1/12" } },
    { "10.3.0.7/8", NULL, NULL, NULL, { "10.0.0.1/8", "172.16.20.1/24" } },
    { "10.3.0.7/24", "10.3.0.8/24", NULL, NULL, { "10.3.0.1/24", "10.0.20.1/24" } }, /* planes that overlap */
    { "10.0.10.1/31", "10.0.0.0/8", NULL, NULL, { "172.16.20.1/24", "10.0.0.1/8" } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (RwRig) rig = rw_test_rig ("rack A mode=redundant; rack B mode=chain; switch S; computer C");
      g_autoptr (RwNet) net = NULL;
      g_auto (GStrv) first = NULL;

      give_addresses (rig, "A", cases[i].a, cases[i].a2);
      if (cases[i].b != NULL)
        give_addresses (rig, "B", cases[i].b, NULL);
      if (cases[i].c != NULL)
        give_addresses (rig, "C", cases[i].c, NULL);
      net = rw_net_new (rig);
      first = rw_address_suggest (net);
      g_assert_cmpstr (first[0], ==, cases[i].first[0]);
      g_assert_cmpstr (first[1], ==, cases[i].first[1]);
    }
}

static void
test_address_plan_refuses (void)
{
  static const char *const bad[][2] = {
    { "10.0.0.1", "10.0.1.1/24" },           /* no subnet */
    { "169.254.1.1/16", "10.0.1.1/24" },     /* link-local, not for setting by hand: RFC 3927 1.6 */
    { "8.8.8.1/24", "10.0.1.1/24" },         /* not private */
    { "10.0.0.1/16", "10.0.1.1/24" },        /* one in the other */
    { "10.0.0.1/30", "10.0.1.1/24" },        /* two addresses for three devices */
    { "10.0.0.253/24", "10.0.1.1/24" },      /* .255 is no host's */
  };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (addressed (bad[i][0], bad[i][1], FALSE, &error));
      g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/order/order", test_order);
  g_test_add_func ("/order/number", test_number);
  g_test_add_func ("/order/number-keeps", test_number_keeps);
  g_test_add_func ("/order/number-refuses", test_number_refuses);
  g_test_add_func ("/order/relabel", test_relabel);
  g_test_add_func ("/order/relabel-refuses", test_relabel_refuses);
  g_test_add_func ("/order/address", test_address);
  g_test_add_func ("/order/address-plan", test_address_plan);
  g_test_add_func ("/order/address-suggest", test_address_suggest);
  g_test_add_func ("/order/address-plan-refuses", test_address_plan_refuses);
  return g_test_run ();
}
