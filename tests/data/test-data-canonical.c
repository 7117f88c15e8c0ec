/* SPDX-License-Identifier: MIT */
/* What the program brings opens, and is in canonical form: read and written again it is the same bytes. */
#include <file/rw-file.h>
#include <string.h>

#include "data-files.h"

static void
test_canonical (gconstpointer path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (GString) written = NULL;
  g_autofree char *bytes = NULL;

  g_file_get_contents (path, &bytes, NULL, &error);
  g_assert_no_error (error);
  rig = rw_file_read (path, &error);
  g_assert_no_error (error);
  written = rw_file_write_bytes (rig);
  g_assert_cmpstr (bytes, ==, written->str);
}

/* Whoever opens an example sees what it is about. */
static void
test_named (gconstpointer path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_file_read (path, &error);

  g_assert_no_error (error);
  g_assert_nonnull (rw_rig_show (rig)->title);
  g_assert_nonnull (rw_rig_show (rig)->notes);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i];

      g_assert_nonnull (device->name);
    }
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    {
      const RwCable *cable = (const RwCable *) rw_rig_items (rig, RW_ITEM_CABLE)[i];

      g_assert_nonnull (cable->label);
      if (!g_str_has_suffix (path, "/trip-no-length.rig"))
        g_assert_cmpfloat (cable->length_m, >, 0);
    }
}

/* An example holds each part as the catalogue has it, so that it looks like what the shelf gives. */
static void
test_parts (gconstpointer path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_file_read (path, &error);
  g_autoptr (RwRig) catalogue = NULL;

  g_assert_no_error (error);
  catalogue = rw_catalogue_load (&error);
  g_assert_no_error (error);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_PART); i++)
    {
      const RwItem *part = rw_rig_items (rig, RW_ITEM_PART)[i];
      const RwItem *ours = rw_rig_find (catalogue, rw_item_key (part));

      if (ours == NULL && strstr (path, "/trip-") != NULL)
        continue; /* old and odd equipment, which the shelf does not offer */
      g_assert_nonnull (ours);
      g_assert_true (rw_item_equal (part, ours));
    }
}

/* The shelf has something of every kind, for every port layout and from small to large. */
static void
test_catalogue (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) catalogue = rw_catalogue_load (&error);
  guint kinds[RW_N_PART_KINDS] = { 0 }, single = 0, aux = 0, cages = 0, plain = 0, tree = 0;

  g_assert_no_error (error);
  g_assert_cmpuint (rw_rig_n (catalogue, RW_ITEM_PART), >=, 25);
  for (guint i = 0; i < rw_rig_n (catalogue, RW_ITEM_PART); i++)
    {
      const RwPart *part = (const RwPart *) rw_rig_items (catalogue, RW_ITEM_PART)[i];

      g_assert_nonnull (part->name);
      kinds[part->kind]++;
      single += rw_part_find_side (part, RW_SIDE_PRIMARY) >= 0 && rw_part_find_side (part, RW_SIDE_SECONDARY) < 0;
      aux += rw_part_find_side (part, RW_SIDE_AUX) >= 0;
      plain += part->kind == RW_PART_SWITCH && !part->spanning_tree;
      tree += part->kind == RW_PART_SWITCH && part->spanning_tree;
      for (guint j = 0; j < rw_part_n_ports (part); j++)
        cages += rw_part_port (part, j)->medium == RW_MEDIUM_CAGE;
      g_assert_cmpint (part->preamps, <=, part->sends);
    }
  for (guint kind = 0; kind < RW_N_PART_KINDS; kind++)
    g_assert_cmpuint (kinds[kind], >=, 2);
  g_assert_cmpuint (MIN (MIN (single, aux), MIN (cages, MIN (plain, tree))), >=, 2);
}

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) examples = NULL;
  g_autofree char *catalogue = NULL;

  g_test_init (&argc, &argv, NULL);
  examples = data_examples ();
  catalogue = g_test_build_filename (G_TEST_DIST, "..", "data", "catalogue", "parts.rig", NULL);
  g_test_add_func ("/data/catalogue", test_catalogue);
  g_test_add_data_func ("/data/canonical/parts", catalogue, test_canonical);
  data_add_tests ("/data/canonical", examples, test_canonical);
  data_add_tests ("/data/named", examples, test_named);
  data_add_tests ("/data/parts", examples, test_parts);
  return g_test_run ();
}
