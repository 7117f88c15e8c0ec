/* SPDX-License-Identifier: MIT */
#include <rig/rw-clip.h>
#include <rig/rw-compare.h>
#include <rig/rw-error.h>
#include <rig/rw-history.h>
#include <rig/rw-rig-named.h>
#include <rig/rw-state.h>

#include "item-hand.h"

static RwItem *
device_new (const char *id)
{
  RwItem *device = test_item_new (RW_ITEM_DEVICE, id);

  test_item_set (device, RW_DEVICE_PART, g_variant_new_string ("rack"));
  return rw_item_seal (device);
}

static RwItem *
cable_new (const char *id, const char *from, const char *to)
{
  RwItem *cable = test_item_new (RW_ITEM_CABLE, id);

  test_item_set (cable, RW_CABLE_FROM, g_variant_new ("(ss)", from, "S"));
  test_item_set (cable, RW_CABLE_TO, g_variant_new ("(ss)", to, "P"));
  return rw_item_seal (cable);
}

static RwItem *
channel_new (const char *device, int number)
{
  RwItem *channel = test_item_new (RW_ITEM_CHANNEL, device);

  test_item_set (channel, RW_CHANNEL_SIDE, g_variant_new_string ("send"));
  test_item_set (channel, RW_CHANNEL_NUMBER, g_variant_new_int32 (number));
  return rw_item_seal (channel);
}

static RwRig *
small_rig (void)
{
  RwRig *rig = rw_rig_new ();
  RwItem *part = test_item_new (RW_ITEM_PART, "rack");
  RwItem *items[] = { part, device_new ("a"), device_new ("b"), device_new ("c"), cable_new ("ab", "a", "b"),
                      cable_new ("bc", "b", "c"), channel_new ("b", 1) };

  test_item_set (part, RW_PART_KIND, g_variant_new_string ("rack"));
  test_item_set (part, RW_PART_PORTS,
                 g_variant_new_parsed ("[{'name': <'P'>, 'side': <'primary'>}, {'name': <'S'>, 'side': <'secondary'>}]"));
  for (guint i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_assert_true (rw_rig_append (rig, items[i], NULL));
      rw_item_unref (items[i]);
    }
  return rig;
}

/* Everything that a file would show of the rig, by identity of the items' values and their order. */
static void
assert_same (const RwRig *a, const RwRig *b)
{
  for (guint t = 0; t < RW_N_ITEM_TYPES; t++)
    {
      g_assert_cmpuint (rw_rig_n (a, t), ==, rw_rig_n (b, t));
      for (guint i = 0; i < rw_rig_n (a, t); i++)
        {
          RwItem *item = rw_rig_items (a, t)[i];
          g_assert_true (rw_item_equal (item, rw_rig_items (b, t)[i]));
          g_assert_true (rw_rig_find (a, item->key) == item);
          g_assert_cmpint (rw_rig_index (a, item->key), ==, i);
        }
    }
}

static void
assert_not_named (const RwRig *rig, const char *text, gboolean cables, const char *ids)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (rw_rig_find_named (rig, text, cables, &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_REFERENCE);
  g_assert_nonnull (strstr (error->message, text));
  g_assert_true (ids == NULL || g_str_has_suffix (error->message, ids));
}

static void
test_named (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  RwEdit *edit = rw_edit_new (rig, "");

  rw_edit_set (edit, "a", RW_DEVICE_NAME, g_variant_new_string ("Größe"), NULL);
  rw_edit_set (edit, "b", RW_DEVICE_NAME, g_variant_new_string ("a"), NULL);
  rw_edit_set (edit, "c", RW_DEVICE_NAME, g_variant_new_string ("N1"), NULL);
  rw_edit_set (edit, "ab", RW_CABLE_LABEL, g_variant_new_string ("n1"), NULL);
  rw_edit_set (edit, "bc", RW_CABLE_LABEL, g_variant_new_string (""), NULL);
  test_rig_apply (rig, edit);
  g_assert_true (rw_rig_find_named (rig, "a", FALSE, NULL) == rw_rig_find (rig, "a"));
  g_assert_true (rw_rig_find_named (rig, " GRÖSSE", TRUE, NULL) == rw_rig_find (rig, "a"));
  g_assert_true (rw_rig_find_named (rig, "A", FALSE, NULL) == rw_rig_find (rig, "b"));
  g_assert_true (rw_rig_find_named (rig, "N1", FALSE, NULL) == rw_rig_find (rig, "c"));
  g_assert_true (rw_rig_find_named (rig, "ab", TRUE, NULL) == rw_rig_find (rig, "ab"));
  assert_not_named (rig, "N1", TRUE, " c, ab");
  assert_not_named (rig, "ab", FALSE, NULL);
  assert_not_named (rig, "rack", TRUE, NULL);
  assert_not_named (rig, "", TRUE, NULL);
}

static char *
order (const RwRig *rig, RwItemType type)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rw_rig_n (rig, type); i++)
    g_string_append_printf (text, "%s ", rw_item_key (rw_rig_items (rig, type)[i]));
  return g_string_free (text, FALSE);
}

static void
assert_order (const RwRig *rig, const char *expected)
{
  g_autofree char *text = order (rig, RW_ITEM_DEVICE);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_places (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  RwEdit *edit = rw_edit_new (rig, "");

  rw_edit_insert_after (edit, device_new ("x"), "a");
  rw_edit_insert_after (edit, device_new ("y"), "x");
  rw_edit_insert_after (edit, device_new ("z"), NULL);
  rw_edit_insert_after (edit, device_new ("a"), "c");
  rw_edit_put (edit, device_new ("w"));
  test_rig_apply (rig, edit);
  assert_order (rig, "z x y b c a w ");

  edit = rw_edit_new (rig, "");
  rw_edit_insert_after (edit, rw_item_ref (rw_edit_find (edit, "x")), "w");
  rw_edit_insert_after (edit, rw_item_ref (rw_edit_find (edit, "y")), "x");
  test_rig_apply (rig, edit);
  assert_order (rig, "z b c a w x y ");

  edit = rw_edit_new (rig, "");
  rw_edit_remove (edit, "w");
  rw_edit_remove (edit, "z");
  rw_edit_remove (edit, "y");
  rw_edit_put (edit, device_new ("y"));
  test_rig_apply (rig, edit);
  assert_order (rig, "b c a x y ");
}

static void
test_remove_device (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwRig) first = rw_rig_copy (rig);
  g_autoptr (RwHistory) history = rw_history_new (rig);
  RwEdit *edit = rw_edit_new (rig, "Delete b");
  g_autoptr (RwChange) change = NULL;

  rw_edit_remove_device (edit, "b");
  change = rw_edit_finish (edit);
  g_assert_cmpuint (rw_change_n (change), ==, 4); /* the device, two cables, one channel */
  g_assert_true (rw_history_do (history, change, NULL));
  assert_order (rig, "a c ");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_CABLE), ==, 0);
  g_assert_cmpstr (rw_history_undo_name (history), ==, "Delete b");
  g_assert_true (rw_history_undo (history));
  assert_same (rig, first);
  g_assert_false (rw_history_undo (history));
}

static void
test_refused_whole (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwRig) first = rw_rig_copy (rig);
  g_autoptr (GError) error = NULL;
  RwEdit *edit = rw_edit_new (rig, "");
  g_autoptr (RwChange) dangling = NULL;
  g_autoptr (RwChange) stale = NULL;
  g_autoptr (RwChange) nowhere = NULL;
  g_autoptr (RwChange) circle = NULL;
  g_autoptr (RwItem) x = device_new ("x");
  g_autoptr (RwItem) y = device_new ("y");

  rw_edit_remove (edit, "b");
  rw_edit_put (edit, device_new ("x"));
  dangling = rw_edit_finish (edit);
  g_assert_false (rw_rig_apply (rig, dangling, &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_REFERENCE);
  assert_same (rig, first);
  g_clear_error (&error);

  stale = rw_change_new ("");
  rw_change_add (stale, RW_ITEM_DEVICE, "x", x, NULL, NULL, NULL);
  g_assert_false (rw_rig_apply (rig, stale, &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_STALE);
  assert_same (rig, first);
  g_clear_error (&error);

  nowhere = rw_change_new ("");
  rw_change_add (nowhere, RW_ITEM_DEVICE, "x", NULL, NULL, x, "ab"); /* a cable's key is no place for a device */
  g_assert_false (rw_rig_apply (rig, nowhere, &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_STALE);
  assert_same (rig, first);
  g_clear_error (&error);

  circle = rw_change_new ("");
  rw_change_add (circle, RW_ITEM_CABLE, "ab", rw_rig_find (rig, "ab"), NULL, NULL, NULL); /* must stay */
  rw_change_add (circle, RW_ITEM_DEVICE, "x", NULL, NULL, x, "y");
  rw_change_add (circle, RW_ITEM_DEVICE, "y", NULL, NULL, y, "x");
  g_assert_false (rw_rig_apply (rig, circle, &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_STALE);
  assert_same (rig, first);
}

/* Stores what the rig is, or renames or takes away the first of what was stored. */
static void
random_stored (RwEdit *edit, const RwRig *rig, GRand *rand, const char *fresh)
{
  const char *set = rw_edit_first (edit, RW_ITEM_SET);

  if (g_rand_boolean (rand))
    rw_edit_put (edit, g_rand_boolean (rand) ? rw_set_new (fresh, "Now", RW_SCOPE_ALL, NULL, NULL, rig)
                                             : rw_revision_new (fresh, "A", NULL, "Ada", NULL, rig));
  else if (set != NULL && g_rand_boolean (rand))
    g_assert_true (rw_edit_set (edit, set, RW_SET_NAME, g_variant_new_string (fresh), NULL));
  else if (set != NULL)
    rw_edit_remove (edit, set);
}

/* Makes a change of 1 to 6 random steps on the devices. */
static RwChange *
random_change (RwRig *rig, GRand *rand)
{
  RwEdit *edit = rw_edit_new (rig, "random");
  int steps = g_rand_int_range (rand, 1, 7);

  for (int s = 0; s < steps; s++)
    {
      g_autofree char *fresh = rw_edit_fresh_id (edit, "n");
      g_autoptr (GPtrArray) keys = g_ptr_array_new ();
      const char *one, *other;

      for (const char *k = rw_edit_first (edit, RW_ITEM_DEVICE); k != NULL; k = rw_edit_next (edit, RW_ITEM_DEVICE, k))
        g_ptr_array_add (keys, (gpointer) k);
      one = keys->len > 0 ? g_ptr_array_index (keys, g_rand_int_range (rand, 0, (gint32) keys->len)) : NULL;
      other = keys->len > 0 ? g_ptr_array_index (keys, g_rand_int_range (rand, 0, (gint32) keys->len)) : NULL;
      switch (g_rand_int_range (rand, 0, 7))
        {
        case 0:
          rw_edit_put (edit, device_new (fresh));
          break;
        case 1:
          rw_edit_insert_after (edit, device_new (fresh), g_rand_boolean (rand) ? one : NULL);
          break;
        case 2:
          if (one != NULL)
            rw_edit_remove_device (edit, one);
          break;
        case 3:
          if (one != NULL && one != other)
            rw_edit_insert_after (edit, rw_item_ref (rw_edit_find (edit, one)), other);
          break;
        case 4:
          if (one != NULL && other != NULL)
            rw_edit_put (edit, cable_new (fresh, one, other));
          break;
        case 5:
          random_stored (edit, rig, rand, fresh);
          break;
        default:
          if (one != NULL)
            g_assert_true (rw_edit_set (edit, one, RW_DEVICE_UNIT_ID, g_variant_new_int32 (s), NULL));
          break;
        }
    }
  return rw_edit_finish (edit);
}

static void
test_random_undo (void)
{
  for (guint seed = 0; seed < 400; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (RwRig) rig = small_rig ();
      g_autoptr (RwHistory) history = rw_history_new (rig);
      g_autoptr (GPtrArray) states = g_ptr_array_new_with_free_func (g_object_unref);
      guint done = 0;

      g_ptr_array_add (states, rw_rig_copy (rig));
      for (guint i = 0; i < 30; i++)
        {
          g_autoptr (GError) error = NULL;
          g_autoptr (RwChange) change = random_change (rig, rand);
          rw_history_do (history, change, &error);
          g_assert_no_error (error);
          if (rw_change_n (change) == 0)
            continue;
          g_ptr_array_add (states, rw_rig_copy (rig));
          done++;
        }
      for (guint i = done; i > 0; i--)
        {
          g_assert_true (rw_history_undo (history));
          assert_same (rig, g_ptr_array_index (states, i - 1));
        }
      g_assert_false (rw_history_undo (history));
      for (guint i = 0; i < done; i++)
        {
          g_assert_true (rw_history_redo (history));
          assert_same (rig, g_ptr_array_index (states, i + 1));
        }
      g_assert_false (rw_history_redo (history));
    }
}

static void
test_key_of_a_channel_follows_its_number (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  RwEdit *edit = rw_edit_new (rig, "");

  g_assert_true (rw_edit_set (edit, "/channel/b/send/1", RW_CHANNEL_NUMBER, g_variant_new_int32 (9), NULL));
  test_rig_apply (rig, edit);
  g_assert_null (rw_rig_find (rig, "/channel/b/send/1"));
  g_assert_nonnull (rw_rig_find (rig, "/channel/b/send/9"));
}

static void
on_changed (RwRig *rig, RwChange *change, guint *count)
{
  *count += rw_change_n (change);
}

static void
test_signal (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  guint64 serial = rw_rig_serial (rig);
  guint count = 0;
  RwEdit *edit = rw_edit_new (rig, "");

  g_signal_connect (rig, "changed", G_CALLBACK (on_changed), &count);
  test_rig_apply (rig, edit); /* nothing in it: no signal */
  g_assert_cmpuint (count, ==, 0);
  edit = rw_edit_new (rig, "");
  rw_edit_put (edit, device_new ("x"));
  test_rig_apply (rig, edit);
  g_assert_cmpuint (count, ==, 1);
  g_assert_cmpuint (rw_rig_serial (rig), >, serial);
}

static void
test_append_twice (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwItem) again = device_new ("ab"); /* ids are unique over the whole file */
  g_autoptr (GError) error = NULL;

  g_assert_false (rw_rig_append (rig, again, &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_ID);
}

/* The change between any two states leads from one to the other. */
static void
test_compare (void)
{
  for (guint seed = 0; seed < 400; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (RwRig) rig = small_rig ();
      g_autoptr (RwRig) older = NULL;
      g_autoptr (RwChange) change = NULL;
      g_autoptr (RwChange) nothing = NULL;
      g_autoptr (GError) error = NULL;

      for (guint i = 0; i < 20; i++)
        {
          g_autoptr (RwChange) step = random_change (rig, rand);
          g_assert_true (rw_rig_apply (rig, step, NULL));
          if (i == seed % 20)
            older = rw_rig_copy (rig);
        }
      change = rw_compare (older, rig, "");
      rw_rig_apply (older, change, &error);
      g_assert_no_error (error);
      assert_same (older, rig);
      nothing = rw_compare (older, rig, "");
      g_assert_cmpuint (rw_change_n (nothing), ==, 0);
    }
}

/* One device that moves in its list is one change, not a change of all that it passes. */
static void
test_compare_is_small (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwRig) older = rw_rig_copy (rig);
  g_autoptr (RwChange) change = NULL;
  RwEdit *edit = rw_edit_new (rig, "");

  rw_edit_insert_after (edit, rw_item_ref (rw_rig_find (rig, "c")), NULL);
  test_rig_apply (rig, edit);
  assert_order (rig, "c a b ");
  change = rw_compare (older, rig, "");
  g_assert_cmpuint (rw_change_n (change), ==, 1);
  g_assert_cmpstr (rw_change_entry (change, 0)->key, ==, "c");
}

static void
test_compare_across_types (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwRig) other = rw_rig_new ();
  g_autoptr (RwItem) part = test_item_new (RW_ITEM_PART, "a");
  g_autoptr (RwChange) change = NULL;
  g_autoptr (GError) error = NULL;

  /* "a" is a device here and a part there */
  g_assert_true (rw_rig_append (other, part, NULL));
  change = rw_compare (rig, other, "");
  rw_rig_apply (rig, change, &error);
  g_assert_no_error (error);
  assert_same (rig, other);
}

static void
test_clip (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwRig) first = rw_rig_copy (rig);
  const char *const keys[] = { "a", "b", NULL };
  g_autoptr (RwRig) clip = rw_clip_new (rig, keys);
  g_autoptr (GPtrArray) pasted = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autoptr (RwChange) change = NULL;
  const RwCable *cable;

  g_assert_cmpuint (rw_rig_n (clip, RW_ITEM_PART), ==, 1);
  g_assert_cmpuint (rw_rig_n (clip, RW_ITEM_DEVICE), ==, 2);
  g_assert_cmpuint (rw_rig_n (clip, RW_ITEM_CABLE), ==, 1); /* ab; bc has one end outside */
  g_assert_cmpuint (rw_rig_n (clip, RW_ITEM_CHANNEL), ==, 1);
  change = rw_clip_paste (rig, clip, "Paste 2 Devices", 10, -5, pasted);
  g_assert_true (rw_history_do (history, change, NULL));
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PART), ==, 1);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_CHANNEL), ==, 2);
  g_assert_cmpuint (pasted->len, ==, 3);
  g_assert_cmpfloat (rw_rig_device (rig, g_ptr_array_index (pasted, 0))->at.x, ==, 10);
  g_assert_cmpfloat (rw_rig_device (rig, g_ptr_array_index (pasted, 0))->at.y, ==, -5);
  cable = rw_rig_cable (rig, g_ptr_array_index (pasted, 2));
  g_assert_cmpstr (cable->from.device, ==, g_ptr_array_index (pasted, 0));
  g_assert_cmpstr (cable->to.device, ==, g_ptr_array_index (pasted, 1));
  g_assert_true (rw_history_undo (history));
  assert_same (rig, first);
}

static void
test_clip_of_another_rig (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwRig) other = small_rig ();
  const char *const keys[] = { "a", NULL };
  g_autoptr (RwRig) clip = NULL;
  g_autoptr (RwChange) change = NULL;
  RwEdit *edit = rw_edit_new (other, "");

  /* the same part id means another part there: it comes along under a fresh id */
  g_assert_true (rw_edit_set (edit, "rack", RW_PART_SENDS, g_variant_new_int32 (32), NULL));
  test_rig_apply (other, edit);
  clip = rw_clip_new (other, keys);
  change = rw_clip_paste (rig, clip, "", 0, 0, NULL);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PART), ==, 2);
  g_assert_cmpint (rw_rig_part_of (rig, rw_rig_device (rig, "a-1"))->sends, ==, 32);
}

static void
test_clip_delete (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  const char *const keys[] = { "ab", "a", "gone", "bc", NULL };
  g_autoptr (RwChange) change = rw_clip_delete (rig, keys, "");

  g_assert_true (rw_rig_apply (rig, change, NULL));
  assert_order (rig, "b c ");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_CABLE), ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rig/edit/named", test_named);
  g_test_add_func ("/rig/edit/places", test_places);
  g_test_add_func ("/rig/edit/remove-device", test_remove_device);
  g_test_add_func ("/rig/edit/refused-whole", test_refused_whole);
  g_test_add_func ("/rig/edit/random-undo", test_random_undo);
  g_test_add_func ("/rig/edit/channel-key", test_key_of_a_channel_follows_its_number);
  g_test_add_func ("/rig/edit/signal", test_signal);
  g_test_add_func ("/rig/compare/random", test_compare);
  g_test_add_func ("/rig/compare/is-small", test_compare_is_small);
  g_test_add_func ("/rig/compare/across-types", test_compare_across_types);
  g_test_add_func ("/rig/edit/clip", test_clip);
  g_test_add_func ("/rig/edit/clip-of-another-rig", test_clip_of_another_rig);
  g_test_add_func ("/rig/edit/clip-delete", test_clip_delete);
  g_test_add_func ("/rig/edit/append-twice", test_append_twice);
  return g_test_run ();
}
