/* SPDX-License-Identifier: MIT */
/*
 * Damaged files by the thousand, rigs, tables and journals: each is refused with one error, or read as a whole; see
 * fuzz.h.
 */
#include <file/rw-file.h>
#include <file/rw-journal-line.h>
#include <rig/rw-compare.h>
#include <string.h>

#include "fuzz.h"
#include "random-rig.h"

#define N_DAMAGED 20000
#define N_DAMAGED_TABLES 3000
#define N_DAMAGED_JOURNALS 800
#define N_RANDOM 40

typedef void (*Target) (const guint8 *data, gsize size);

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

static const char *const json_pieces[] = {
  "{", "}", "[", "]", ",", ":", "\"", "\\", "null", "true", "0", "-1", "1e999", "1.5", "2147483648", "\"\\u0000\"",
  "\\ud800", "\xff", "\"id\":", "\"at\": [1, 2],", "\"x\": {\"y\": [1, \"z\"]},",
  "\"port_vlans\": {\"1\": 2},", "\n", "[[[[", NULL,
};

static const char *const table_pieces[] = {
  ",", ";", "\t", "\"", "\"\"", "\r\n", "\r", "\n", "\xef\xbb\xbf", "\xff\xfe", "\xfe\xff", "\xfc", "\xc3", "2147483648",
  "-1", "48V", "1e9", "R 1", "Phantom", "Strip", " ", ",,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,", NULL,
};

static void
insert_piece (GRand *rand, GString *text, const char *const *pieces)
{
  const char *piece = pieces[pick (rand, g_strv_length ((char **) pieces))];
  gsize zero = pick (rand, 20) == 0; /* now and then its end goes in, too: a byte that stands in no text */

  g_string_insert_len (text, (gssize) pick (rand, text->len + 1), piece, (gssize) (strlen (piece) + zero));
}

static void
damage (GRand *rand, GString *text, const char *const *pieces)
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
      insert_piece (rand, text, pieces);
    }
}

static void
feed (Target target, const char *data, gsize length)
{
  g_autofree guint8 *exact = g_memdup2 (data, length); /* so that a sanitizer sees a step beyond the end */

  target (exact, length);
}

static void
feed_damaged (Target target, const GPtrArray *texts, guint n, const char *const *pieces)
{
  GRand *rand = g_rand_new_with_seed (20310614);

  for (guint i = 0; i < n; i++)
    {
      GBytes *bytes = g_ptr_array_index (texts, pick (rand, texts->len));
      g_autoptr (GString) text = g_string_new_len (g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes));
      for (gsize k = 1 + pick (rand, 4); k > 0; k--)
        damage (rand, text, pieces);
      feed (target, text->str, text->len);
    }
  g_rand_free (rand);
}

static void
test_corpus (void)
{
  g_autoptr (GPtrArray) texts = load_corpus ();

  for (guint i = 0; i < texts->len; i++)
    {
      gsize length;
      const char *data = g_bytes_get_data (g_ptr_array_index (texts, i), &length);
      feed (fuzz_rig, data, length);
    }
}

static void
test_damaged (void)
{
  g_autoptr (GPtrArray) texts = load_corpus ();

  add_random_rigs (texts);
  feed_damaged (fuzz_rig, texts, N_DAMAGED, json_pieces);
}

/* One list in every encoding that the reader tells apart. */
static GPtrArray *
make_tables (void)
{
  static const char *const lists[] = {
    "Ch,Instrument,Mic,48V,Gain,HPF,Rack,Send,Stand\r\n1,\"Kick, in\",dynamic,,30,80,Rack 1,1,\"low \"\"boom\"\"\"\r\n"
    "2,Flügel,condenser,x,12.5,,Rack 1,2,\r\n",
    "Kanal;Name;Phantom;Verstärkung;Bühne\n12;Gesang;ja;3,5;Bühne links\n;;;;\n13;Chor;nein;-3;\n",
    "Bus\tName\tTo\tReceive\r1\tMix, left\tOuts\t1\r2\t\t\t\r",
    "1,2,3\n", "\n\n", "",
  };
  static const char *const encodings[] = { "UTF-8", "UTF-16LE", "UTF-16BE", "ISO-8859-1", "UTF-16" };
  GPtrArray *texts = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    for (guint j = 0; j < G_N_ELEMENTS (encodings); j++)
      {
        gsize length;
        char *bytes = g_convert (lists[i], -1, encodings[j], "UTF-8", NULL, &length, NULL);
        g_assert_nonnull (bytes);
        g_ptr_array_add (texts, g_bytes_new_take (bytes, length));
      }
  return texts;
}

static void
test_damaged_tables (void)
{
  g_autoptr (GPtrArray) texts = make_tables ();

  for (guint i = 0; i < texts->len; i++)
    {
      gsize length;
      const char *data = g_bytes_get_data (g_ptr_array_index (texts, i), &length);
      feed (fuzz_csv, data, length);
    }
  feed_damaged (fuzz_csv, texts, N_DAMAGED_TABLES, table_pieces);
}

/* Far more of everything than a list of lines has; quickly refused or taken. */
static void
test_large_tables (void)
{
  static const struct { const char *piece; guint n; } cases[] = {
    { ",", 100000 }, { "a;", 100000 }, { "\"", 100000 }, { "\"\"", 100001 },
    { "\r", 200000 }, { "x\n", 100001 }, { "é\t", 100000 }, { "a,b,c\n", 100000 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      for (guint k = 0; k < cases[i].n; k++)
        g_string_append (text, cases[i].piece);
      feed (fuzz_csv, text->str, text->len);
    }
}

/* What leads from one rig to another and a third, as a crash would leave it. */
static GPtrArray *
make_journals (void)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);

  for (guint i = 0; i < N_RANDOM; i++)
    {
      RandomRig want = random_rig_any (i, 5);
      g_autoptr (RwRig) from = fuzz_some_rig ();
      g_autoptr (RwRig) to = random_rig_new (&want);
      g_autoptr (RwChange) there = rw_compare (from, to, "Change");
      g_autoptr (RwChange) back = rw_change_invert (there);
      g_autoptr (GString) text = rw_journal_line_head (i % 2 ? "/tmp/show.rig" : NULL, "00");
      const RwChange *steps[] = { there, back, there };

      for (guint k = 0; k < G_N_ELEMENTS (steps); k++)
        {
          g_autoptr (GString) line = rw_journal_line_change (steps[k]);
          g_string_append_printf (text, "\n%s", line->str);
        }
      g_string_append_c (text, '\n');
      g_ptr_array_add (texts, g_bytes_new (text->str, text->len));
    }
  return texts;
}

static void
test_damaged_journals (void)
{
  g_autoptr (GPtrArray) texts = make_journals ();

  feed_damaged (fuzz_journal, texts, N_DAMAGED_JOURNALS, json_pieces);
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
  g_test_add_func ("/file/fuzz/damaged-tables", test_damaged_tables);
  g_test_add_func ("/file/fuzz/large-tables", test_large_tables);
  g_test_add_func ("/file/fuzz/damaged-journals", test_damaged_journals);
  return g_test_run ();
}
