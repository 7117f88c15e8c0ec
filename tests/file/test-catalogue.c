/* SPDX-License-Identifier: MIT */
/* The part catalogue, from a data folder of the test's own. */
#include <file/rw-data-dir.h>
#include <file/rw-file.h>

static void
use_data (const char *name)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "file", name, NULL);

  g_setenv ("RIGWRIGHT_DATADIR", folder, TRUE);
}

static void
test_loads (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = NULL;

  use_data ("data");
  rig = rw_catalogue_load (&error);
  g_assert_no_error (error);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PART), ==, 2);
  g_assert_cmpstr (rw_rig_items (rig, RW_ITEM_PART)[0]->key, ==, "rack-32");
  g_assert_cmpint (rw_rig_part (rig, "rack-32")->preamps, ==, 32);
}

static void
test_only_parts (void)
{
  g_autoptr (GError) error = NULL;

  use_data ("data-bad");
  g_assert_null (rw_catalogue_load (&error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_STRUCTURE);
  g_assert_true (g_str_has_suffix (error->message, "parts.rig: devices: must be absent; a catalogue holds only parts"));
}

static void
test_missing (void)
{
  g_autoptr (GError) error = NULL;

  use_data ("data-none");
  g_assert_null (rw_catalogue_load (&error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_IO);
}

static void
test_installed (void)
{
  g_autofree char *path = NULL;
  g_autofree char *relative = NULL;

  g_setenv ("RIGWRIGHT_DATADIR", "/some/where", TRUE);
  path = rw_data_path ("catalogue/parts.rig");
  g_assert_cmpstr (path, ==, "/some/where/catalogue/parts.rig");
  g_setenv ("RIGWRIGHT_DATADIR", "", TRUE);
  relative = rw_data_path ("style.css");
  g_assert_true (g_str_has_suffix (relative, "/share/rigwright/style.css"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/file/catalogue/loads", test_loads);
  g_test_add_func ("/file/catalogue/only-parts", test_only_parts);
  g_test_add_func ("/file/catalogue/missing", test_missing);
  g_test_add_func ("/file/catalogue/installed", test_installed);
  return g_test_run ();
}
