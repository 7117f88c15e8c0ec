/* SPDX-License-Identifier: MIT */
/* Saving: what stays as it was, and what a save that cannot succeed leaves behind. Needs root: it mounts a
 * small disk and becomes somebody who may not write. */
#include <errno.h>
#include <file/rw-file.h>
#include <file/rw-save.h>
#include <glib/gstdio.h>
#include <rig/rw-state.h>
#include <sched.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define NOBODY 65534

typedef struct
{
  char *folder;
  char *path; /* FOLDER/show.rig */
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  if (geteuid () != 0)
    g_error ("this test must run as root");
  fixture->folder = g_dir_make_tmp ("rw-save-XXXXXX", NULL);
  g_chmod (fixture->folder, 0755);
  fixture->path = g_build_filename (fixture->folder, "show.rig", NULL);
}

static void
empty_folder (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      if (g_unlink (path) != 0)
        g_rmdir (path);
    }
  g_dir_close (dir);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  empty_folder (fixture->folder);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
  g_free (fixture->path);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
put (const char *path, const char *text, int mode)
{
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  g_assert_cmpint (g_chmod (path, mode), ==, 0);
}

static void
assert_holds (const char *path, const char *text)
{
  g_autofree char *found = NULL;

  g_assert_true (g_file_get_contents (path, &found, NULL, NULL));
  g_assert_cmpstr (found, ==, text);
}

static int
mode_of (const char *path)
{
  struct stat info;

  g_assert_cmpint (g_lstat (path, &info), ==, 0);
  return (int) (info.st_mode & 07777);
}

static void
save (const char *path, const char *text)
{
  g_autoptr (GError) error = NULL;

  rw_save_bytes (path, text, strlen (text), &error);
  g_assert_no_error (error);
}

/* The message names the file and the system's reason. */
static void
assert_not_saved (const char *path, const char *text, gsize length, const char *reason)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *start = g_strdup_printf ("%s: not saved: ", path);

  g_assert_false (rw_save_bytes (path, text, length, &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_IO);
  g_assert_true (g_str_has_prefix (error->message, start));
  if (strstr (error->message, reason) == NULL)
    g_error ("expected “%s” in “%s”", reason, error->message);
}

static void
test_new (Fixture *fixture, gconstpointer data)
{
  mode_t old = umask (027);

  save (fixture->path, "new");
  umask (old);
  assert_holds (fixture->path, "new");
  g_assert_cmpint (mode_of (fixture->path), ==, 0640);
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
}

static void
test_keeps_permissions (Fixture *fixture, gconstpointer data)
{
  struct stat info;

  put (fixture->path, "old", 0604);
  g_assert_cmpint (chown (fixture->path, NOBODY, NOBODY), ==, 0);
  save (fixture->path, "new");
  assert_holds (fixture->path, "new");
  g_assert_cmpint (mode_of (fixture->path), ==, 0604);
  g_assert_cmpint (g_stat (fixture->path, &info), ==, 0);
  g_assert_cmpuint (info.st_uid, ==, NOBODY);
  g_assert_cmpuint (info.st_gid, ==, NOBODY);
}

static void
test_links (Fixture *fixture, gconstpointer data)
{
  g_autofree char *one = g_build_filename (fixture->folder, "one.rig", NULL);
  g_autofree char *two = g_build_filename (fixture->folder, "two.rig", NULL);

  g_assert_cmpint (symlink ("show.rig", one), ==, 0);
  g_assert_cmpint (symlink (one, two), ==, 0);
  save (two, "made through links"); /* which lead to nothing as yet */
  assert_holds (fixture->path, "made through links");
  save (two, "written through links");
  assert_holds (fixture->path, "written through links");
  g_assert_true (g_file_test (one, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_test (two, G_FILE_TEST_IS_SYMLINK));
  g_assert_false (g_file_test (fixture->path, G_FILE_TEST_IS_SYMLINK));
  g_assert_cmpuint (count_files (fixture->folder), ==, 3);
}

static void
test_links_in_a_circle (Fixture *fixture, gconstpointer data)
{
  g_assert_cmpint (symlink ("show.rig", fixture->path), ==, 0);
  assert_not_saved (fixture->path, "new", 3, g_strerror (ELOOP));
}

static void
test_no_regular_file (Fixture *fixture, gconstpointer data)
{
  assert_not_saved (fixture->folder, "new", 3, "regular file");
  g_assert_cmpint (mkfifo (fixture->path, 0600), ==, 0);
  assert_not_saved (fixture->path, "new", 3, "regular file");
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
}

static void
test_no_folder (Fixture *fixture, gconstpointer data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "none", "show.rig", NULL);

  assert_not_saved (path, "new", 3, g_strerror (ENOENT));
}

static void
test_long_name (Fixture *fixture, gconstpointer data)
{
  g_autofree char *name = g_strnfill (255, 'x');
  g_autofree char *path = g_build_filename (fixture->folder, name, NULL);

  save (path, "new");
  assert_holds (path, "new");
}

static void
wait_for (pid_t child)
{
  int status;

  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
}

/* In a process of its own, since there is no way back. */
static void
assert_not_saved_as_nobody (const char *path)
{
  pid_t child = fork ();

  if (child == 0)
    {
      g_assert_cmpint (setresgid (NOBODY, NOBODY, NOBODY), ==, 0);
      g_assert_cmpint (setresuid (NOBODY, NOBODY, NOBODY), ==, 0);
      assert_not_saved (path, "new", 3, g_strerror (EACCES));
      _exit (0);
    }
  wait_for (child);
}

static void
test_folder_may_not_be_written (Fixture *fixture, gconstpointer data)
{
  put (fixture->path, "old", 0666);
  assert_not_saved_as_nobody (fixture->path);
  assert_holds (fixture->path, "old");
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
}

static void
test_file_may_not_be_written (Fixture *fixture, gconstpointer data)
{
  put (fixture->path, "old", 0444);
  g_chmod (fixture->folder, 0777);
  assert_not_saved_as_nobody (fixture->path);
  assert_holds (fixture->path, "old");
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
}

/* A disk of 64 KiB, of which the old file takes a part and the new one would take more than there is. */
static void
fill_disk (Fixture *fixture)
{
  g_autofree char *old = g_strnfill (20000, 'o');
  g_autofree char *large = g_strnfill (200000, 'n');

  g_assert_cmpint (unshare (CLONE_NEWNS), ==, 0);
  g_assert_cmpint (mount ("none", "/", NULL, MS_REC | MS_PRIVATE, NULL), ==, 0);
  g_assert_cmpint (mount ("none", fixture->folder, "tmpfs", 0, "size=64k"), ==, 0);
  put (fixture->path, old, 0600);
  assert_not_saved (fixture->path, large, 200000, g_strerror (ENOSPC));
  assert_holds (fixture->path, old);
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
  save (fixture->path, "small");
  assert_holds (fixture->path, "small");
}

static void
test_full_disk (Fixture *fixture, gconstpointer data)
{
  pid_t child = fork ();

  if (child == 0)
    {
      fill_disk (fixture);
      _exit (0);
    }
  wait_for (child);
}

static void
test_rig (Fixture *fixture, gconstpointer data)
{
  g_autoptr (RwRig) rig = rw_rig_new ();
  g_autoptr (RwRig) back = NULL;
  g_autoptr (GError) error = NULL;

  rw_file_write (rig, fixture->path, &error);
  g_assert_no_error (error);
  assert_holds (fixture->path, "{\n  \"rigwright\": 1\n}\n");
  back = rw_file_read (fixture->path, &error);
  g_assert_no_error (error);
}

/* A rig as deep as a file may be, with a copy of itself inside: it could not be opened again. */
static void
test_too_deep (Fixture *fixture, gconstpointer data)
{
  g_autofree char *open = g_strnfill (62, '['), *close = g_strnfill (62, ']');
  g_autofree char *text = g_strconcat ("{\"rigwright\": 1, \"x\": ", open, close, "}", NULL);
  g_autoptr (RwRig) rig = rw_file_read_bytes (text, strlen (text), NULL, NULL);
  g_autoptr (RwItem) revision = rw_revision_new ("r", "A", NULL, NULL, NULL, rig);
  g_autoptr (GError) error = NULL;

  g_assert_true (rw_file_write (rig, fixture->path, NULL));
  g_assert_true (rw_rig_append (rig, revision, NULL));
  g_assert_false (rw_file_write (rig, fixture->path, &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_LIMIT);
  g_assert_true (g_str_has_prefix (error->message, fixture->path));
  g_object_unref (rw_file_read (fixture->path, NULL)); /* the old file is as it was */
}

static void
add (const char *path, void (*test) (Fixture *, gconstpointer))
{
  g_test_add (path, Fixture, NULL, set_up, test, tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("/file/save/new", test_new);
  add ("/file/save/keeps-permissions", test_keeps_permissions);
  add ("/file/save/links", test_links);
  add ("/file/save/links-in-a-circle", test_links_in_a_circle);
  add ("/file/save/no-regular-file", test_no_regular_file);
  add ("/file/save/no-folder", test_no_folder);
  add ("/file/save/long-name", test_long_name);
  add ("/file/save/folder-may-not-be-written", test_folder_may_not_be_written);
  add ("/file/save/file-may-not-be-written", test_file_may_not_be_written);
  add ("/file/save/full-disk", test_full_disk);
  add ("/file/save/rig", test_rig);
  add ("/file/save/too-deep", test_too_deep);
  return g_test_run ();
}
