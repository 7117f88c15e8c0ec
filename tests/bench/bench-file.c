/* SPDX-License-Identifier: MIT */
/*
 * Reading and writing a large rig: 10,000 devices, 12,000 cables, 50,000 patch rows. The time to read is set
 * against json-glib's bare parse of the same bytes in the same run, as the ratio of medians of interleaved
 * rounds; memory is the highest that a process of its own ever held, which only reads.
 */
#include <file/rw-file.h>
#include <json-glib/json-glib.h>
#include <string.h>
#include <unistd.h>

#include "bench-time.h"
#include "random-rig.h"

#define ROUNDS 9

typedef enum { READ, PARSE, WRITE, N_WORKS } Work;

static RwRig *
read_rig (const GString *text)
{
  g_autoptr (GError) error = NULL;
  RwRig *rig = rw_file_read_bytes (text->str, text->len, "bench", &error);

  g_assert_no_error (error);
  return rig;
}

static JsonParser *
parse (const GString *text)
{
  JsonParser *parser = json_parser_new ();

  g_assert_true (json_parser_load_from_data (parser, text->str, (gssize) text->len, NULL));
  return parser;
}

/* In milliseconds; what was made is freed outside the time, as each side's own affair. */
static double
time_of (Work work, const GString *text, RwRig *rig)
{
  double start = bench_now_ms ();
  GObject *made = NULL;
  GString *written = NULL;
  double time;

  if (work == READ)
    made = G_OBJECT (read_rig (text));
  else if (work == PARSE)
    made = G_OBJECT (parse (text));
  else
    written = rw_file_write_bytes (rig);
  time = bench_now_ms () - start;
  g_clear_object (&made);
  if (written != NULL)
    g_string_free (written, TRUE);
  return time;
}

static void
measure_times (const GString *text)
{
  g_autoptr (RwRig) rig = read_rig (text);
  double times[N_WORKS][ROUNDS];
  double medians[N_WORKS];

  for (guint round = 0; round < ROUNDS; round++)
    for (Work work = 0; work < N_WORKS; work++)
      times[work][round] = time_of (work, text, rig);
  for (Work work = 0; work < N_WORKS; work++)
    medians[work] = bench_median (times[work], ROUNDS);
  g_print ("file: %.1f MB\n", (double) text->len / 1e6);
  g_print ("read: %.1f ms, json-glib's bare parse: %.1f ms, ratio %.2f (must be at most 1.6)\n", medians[READ],
           medians[PARSE], medians[READ] / medians[PARSE]);
  g_print ("write: %.1f ms, ratio to that parse %.2f\n", medians[WRITE], medians[WRITE] / medians[PARSE]);
}

/* The highest resident set of this program image (proc(5)); that of getrusage() goes back to before exec(). */
static long
peak_kib (void)
{
  g_autofree char *status = NULL;
  const char *line;

  g_assert_true (g_file_get_contents ("/proc/self/status", &status, NULL, NULL));
  line = strstr (status, "VmHWM:");
  g_assert_nonnull (line);
  return atol (line + strlen ("VmHWM:"));
}

/* Runs this program again, since a child of fork() begins with all that its parent held. */
static void
measure_memory (const char *self, const char *path)
{
  g_autofree char *out = NULL;
  const char *argv[] = { self, path, NULL };
  g_autoptr (GError) error = NULL;

  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &out, NULL, NULL, &error);
  g_assert_no_error (error);
  g_print ("%s", out);
}

static int
only_read (const char *path)
{
  g_autoptr (GError) error = NULL;
  long before = peak_kib ();
  g_autoptr (RwRig) rig = rw_file_read (path, &error);

  g_assert_no_error (error);
  g_print ("peak memory of a process that reads it: %.1f MiB, of which %.1f before (a check must stay under 120)\n",
           (double) peak_kib () / 1024, (double) before / 1024);
  return 0;
}

int
main (int argc, char **argv)
{
  RandomRig want = { .seed = 10000, .devices = 10000, .cables = 12000, .rows = 50000, .channels = 5000,
                     .forwards_percent = 20, .joined = TRUE, .vlans = TRUE };
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (GString) text = NULL;
  g_autofree char *path = NULL;
  int fd;

  if (argc > 1)
    return only_read (argv[1]);
  rig = random_rig_new (&want);
  text = rw_file_write_bytes (rig);
  fd = g_file_open_tmp ("rw-bench-XXXXXX.rig", &path, NULL);
  close (fd);
  g_assert_true (g_file_set_contents (path, text->str, (gssize) text->len, NULL));
  measure_times (text);
  measure_memory (argv[0], path);
  unlink (path);
  return 0;
}
