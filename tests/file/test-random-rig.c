/* SPDX-License-Identifier: MIT */
/* Rigs of chance: written, read by us and by json-glib, and written again. */
#include <file/rw-file.h>
#include <string.h>

#include "random-rig.h"
#include "referee.h"

#define N_RIGS 300

static void
test_round_trip (void)
{
  for (guint seed = 1; seed <= N_RIGS; seed++)
    {
      RandomRig want = random_rig_any (seed, 40);
      g_autoptr (RwRig) rig = random_rig_new (&want);
      g_autoptr (GString) first = rw_file_write_bytes (rig);
      g_autoptr (GError) error = NULL;
      g_autoptr (RwRig) back = rw_file_read_bytes (first->str, first->len, "random", &error);
      g_autoptr (GString) second = NULL;

      g_assert_no_error (error);
      second = rw_file_write_bytes (back);
      g_assert_cmpstr (first->str, ==, second->str);
    }
}

/* The items that come back are those that were written, not only their text. */
static void
test_items (void)
{
  for (guint seed = 1; seed <= 60; seed++)
    {
      RandomRig want = random_rig_any (seed, 40);
      g_autoptr (RwRig) rig = random_rig_new (&want);
      g_autoptr (GString) text = rw_file_write_bytes (rig);
      g_autoptr (RwRig) back = rw_file_read_bytes (text->str, text->len, "random", NULL);

      for (RwItemType type = 0; type < RW_N_ITEM_TYPES; type++)
        {
          g_assert_cmpuint (rw_rig_n (rig, type), ==, rw_rig_n (back, type));
          for (guint i = 0; i < rw_rig_n (rig, type); i++)
            g_assert_true (rw_item_equal (rw_rig_items (rig, type)[i], rw_rig_items (back, type)[i]));
        }
    }
}

/* A field's value as the document holds it, made JSON by json-glib, against what json-glib finds in our text. */
static void
check_field (const RwItem *item, guint field, JsonObject *object)
{
  const char *name = rw_item_table (item)->fields[field].name;
  g_autoptr (GVariant) value = rw_item_get (item, field);
  g_autoptr (JsonNode) node = value != NULL ? json_gvariant_serialize (value) : NULL;

  g_assert_true (json_object_has_member (object, name) == (node != NULL));
  if (node != NULL && !referee_equal (node, json_object_get_member (object, name)))
    g_error ("%s: %s differs", item->key, name);
}

static void
check_item (const RwItem *item, JsonNode *node)
{
  JsonObject *object = json_node_get_object (node);
  guint members = 0;

  for (guint i = 0; i < rw_item_table (item)->n_fields; i++)
    {
      check_field (item, i, object);
      members += rw_item_has (item, i);
    }
  g_assert_cmpuint (json_object_get_size (object), ==, members);
}

static void
test_against_json_glib (void)
{
  for (guint seed = 1; seed <= 40; seed++)
    {
      RandomRig want = { .seed = seed, .devices = 30, .cables = 30, .rows = 30, .inside = 30, .channels = 30, .sets = 3, .revisions = 3,
                         .forwards_percent = 30, .vlans = TRUE, .odd = TRUE };
      g_autoptr (RwRig) rig = random_rig_new (&want);
      g_autoptr (GString) text = rw_file_write_bytes (rig);
      g_autoptr (JsonNode) root = referee_parse (text->str, text->len);

      for (RwItemType type = RW_ITEM_PART; type < RW_N_ITEM_TYPES; type++)
        {
          JsonArray *list = json_object_get_array_member (json_node_get_object (root), rw_item_type_member (type));
          g_assert_cmpuint (json_array_get_length (list), ==, rw_rig_n (rig, type));
          for (guint i = 0; i < rw_rig_n (rig, type); i++)
            check_item (rw_rig_items (rig, type)[i], json_array_get_element (list, i));
        }
    }
}

/* Every item alone, as the crash journal and the comparison hold it. */
static void
test_item_json (void)
{
  RandomRig want = { .seed = 7, .devices = 60, .cables = 60, .rows = 60, .inside = 30, .channels = 60, .sets = 3, .revisions = 3,
                     .forwards_percent = 30, .vlans = TRUE, .extras = TRUE, .odd = TRUE };
  g_autoptr (RwRig) rig = random_rig_new (&want);

  for (RwItemType type = 0; type < RW_N_ITEM_TYPES; type++)
    {
      g_assert_cmpuint (rw_rig_n (rig, type), >, 0);
      for (guint i = 0; i < rw_rig_n (rig, type); i++)
        {
          RwItem *item = rw_rig_items (rig, type)[i];
          g_autofree char *json = rw_file_item_json (item);
          g_autoptr (GError) error = NULL;
          g_autoptr (RwItem) back = rw_file_item_from_json (type, json, &error);
          g_assert_no_error (error);
          g_assert_true (rw_item_equal (item, back));
          g_assert_null (strchr (json, '\n'));
        }
    }
}

/* The generator's own promises, which tests of other layers build on. */
static void
test_generator (void)
{
  RandomRig want = { .seed = 3, .devices = 500, .cables = 600, .rows = 800, .channels = 100, .forwards_percent = 20,
                     .joined = TRUE };
  g_autoptr (RwRig) rig = random_rig_new (&want);
  g_autoptr (RwRig) again = random_rig_new (&want);
  g_autoptr (GString) text = rw_file_write_bytes (rig);
  g_autoptr (GString) same = rw_file_write_bytes (again);

  g_assert_cmpstr (text->str, ==, same->str);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_DEVICE), ==, want.devices);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_CABLE), ==, want.cables);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PATCH), ==, want.rows);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/file/random/generator", test_generator);
  g_test_add_func ("/file/random/round-trip", test_round_trip);
  g_test_add_func ("/file/random/items", test_items);
  g_test_add_func ("/file/random/against-json-glib", test_against_json_glib);
  g_test_add_func ("/file/random/item-json", test_item_json);
  return g_test_run ();
}
