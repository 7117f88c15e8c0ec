/* SPDX-License-Identifier: MIT */
/* Damaged rig files, 20,000 of them: each is refused with one error, or is a rig that round-trips. */
#include <file/rw-file.h>
#include <string.h>

#include "fuzz-rig.h"
#include "random-rig.h"

#define N_DAMAGED 20000
#define N_RANDOM 40

static GPtrArray *
load_corpus (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "file", "corpus", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  GPtrArray *texts = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      char *text;
      gsize length;
      g_assert_true (g_file_get_contents (path, &text, &length, NULL));
      g_ptr_array_add (texts, g_bytes_new_take (text, length));
    }
  g_assert_cmpuint (texts->len, >, 200);
  return texts;
}

static void
add_random_rigs (GPtrArray *texts)
{
  for (guint i = 0; i < N_RANDOM; i++)
    {
      RandomRig want = random_rig_any (i, 6);
      g_autoptr (RwRig) rig = random_rig_new (&want);
      g_autoptr (GString) text = rw_file_write_bytes (rig);
      g_ptr_array_add (texts, g_bytes_new (text->str, text->len));
    }
}

static gsize
pick (GRand *rand, gsize n)
{
  return (gsize) g_rand_int_range (rand, 0, (gint32) n);
}

static void
insert_piece (GRand *rand, GString *text)
{
  static const char *const pieces[] = {
    "{", "}", "[", "]", ",", ":", "\"", "\\", "null", "true", "0", "-1", "1e999", "1.5", "2147483648", "\"\\u0000\"",
    "\\ud800", "\xff", "\"id\":", "\"at\": [1, 2],", "\"x\": {\"y\": [1, \"z\"]},",
    "\"port_vlans\": {\"1\": 2},", "\n", "[[[[",
  };
  const char *piece = pieces[pick (rand, G_N_ELEMENTS (pieces))];

  g_string_insert (text, (gssize) pick (rand, text->len + 1), piece);
}

static void
damage (GRand *rand, GString *text)
{
  gsize at = pick (rand, text->len + 1);
  gsize n = pick (rand, MIN (40, text->len - at + 1));
  g_autofree char *some = g_strndup (text->str + at, n);

  switch (pick (rand, 5))
    {
    case 0:
      if (at < text->len)
        text->str[at] = (char) (text->str[at] ^ (1 << pick (rand, 8)));
      break;
    case 1:
      g_string_erase (text, (gssize) at, (gssize) n);
      break;
    case 2:
      g_string_insert (text, (gssize) pick (rand, text->len + 1), some);
      break;
    case 3:
      g_string_truncate (text, at);
      break;
    default:
      insert_piece (rand, text);
    }
}

static void
feed (const char *data, gsize length)
{
  g_autofree guint8 *exact = g_memdup2 (data, length); /* so that a sanitizer sees a step beyond the end */

  LLVMFuzzerTestOneInput (exact, length);
}

static void
test_corpus (void)
{
  g_autoptr (GPtrArray) texts = load_corpus ();

  for (guint i = 0; i < texts->len; i++)
    {
      gsize length;
      const char *data = g_bytes_get_data (g_ptr_array_index (texts, i), &length);
      feed (data, length);
    }
}

static void
test_damaged (void)
{
  g_autoptr (GPtrArray) texts = load_corpus ();
  GRand *rand = g_rand_new_with_seed (20310614);

  add_random_rigs (texts);
  for (guint i = 0; i < N_DAMAGED; i++)
    {
      GBytes *bytes = g_ptr_array_index (texts, pick (rand, texts->len));
      g_autoptr (GString) text = g_string_new_len (g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes));
      for (gsize n = 1 + pick (rand, 4); n > 0; n--)
        damage (rand, text);
      feed (text->str, text->len);
    }
  g_rand_free (rand);
}

/* Every file cut off at every byte. */
static void
test_cut_off (void)
{
  RandomRig want = { .seed = 5, .devices = 4, .cables = 4, .rows = 3, .inside = 2, .channels = 2, .vlans = TRUE,
                     .extras = TRUE, .odd = TRUE };
  g_autoptr (RwRig) rig = random_rig_new (&want);
  g_autoptr (GString) text = rw_file_write_bytes (rig);

  for (gsize length = 0; length + 1 < text->len; length++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_null (rw_file_read_bytes (text->str, length, "FILE", &error));
      g_assert_nonnull (error);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/file/fuzz/corpus", test_corpus);
  g_test_add_func ("/file/fuzz/damaged", test_damaged);
  g_test_add_func ("/file/fuzz/cut-off", test_cut_off);
  return g_test_run ();
}
