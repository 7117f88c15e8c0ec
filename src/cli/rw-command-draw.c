/* SPDX-License-Identifier: MIT */
#include "rw-cli.h"

#include <glib/gi18n-lib.h>
#include <paper/rw-sheet.h>

#define USUAL_DPI 150

/* The words of the command line. */
typedef struct
{
  char *output;
  char *paper;
  char *units;
  char *scale;
  char *lens;
  char *from;
  char **fail;
  char *since;
  double dpi;
  gboolean portrait;
  gboolean mono;
  gboolean no_balloons;
  char **rigs;
} Words;

static void
words_clear (Words *words)
{
  g_free (words->output);
  g_free (words->paper);
  g_free (words->units);
  g_free (words->scale);
  g_free (words->lens);
  g_free (words->from);
  g_strfreev (words->fail);
  g_free (words->since);
  g_strfreev (words->rigs);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Words, words_clear)

static gboolean
choose_lens (const Words *words, RwSheetOptions *options)
{
  if (!rw_cli_choose_lens ("draw", words->lens, RW_N_LENSES, &options->lens))
    return FALSE;
  if (words->fail == NULL || options->lens == RW_LENS_FAILURE)
    return TRUE;
  rw_cli_error (_("draw: --fail says what has failed in the Failure lens: give --lens failure too"));
  return FALSE;
}

/* What is named is looked up before anything is drawn, so that a slip of the pen is told. */
static gboolean
find_named (const Words *words, const RwRig *rig, RwSheetOptions *options, GPtrArray *failed)
{
  for (guint i = 0; words->fail != NULL && words->fail[i] != NULL; i++)
    {
      const char *id = rw_cli_find (rig, words->rigs[0], "--fail", words->fail[i], TRUE);

      if (id == NULL)
        return FALSE;
      g_ptr_array_add (failed, (gpointer) id);
    }
  g_ptr_array_add (failed, NULL);
  options->fail = (const char *const *) failed->pdata;
  if (words->from != NULL)
    options->from = rw_cli_find (rig, words->rigs[0], "--from", words->from, FALSE);
  return words->from == NULL || options->from != NULL;
}

static gboolean
check_words (const Words *words)
{
  if (words->rigs == NULL || words->rigs[1] != NULL)
    rw_cli_error (_("draw: name one rig (see “rigwright-cli draw --help”)"));
  else if (words->output == NULL)
    rw_cli_error (_("draw: name the file to write with --output (see “rigwright-cli draw --help”)"));
  else
    return TRUE;
  return FALSE;
}

static int
draw (const Words *words)
{
  RwSheetOptions options;
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwRig) since = NULL;
  g_autoptr (GPtrArray) failed = g_ptr_array_new ();

  rw_sheet_options_init (&options);
  options.portrait = words->portrait;
  options.mono = words->mono;
  options.balloons = !words->no_balloons;
  if (!check_words (words) || !rw_cli_choose_paper ("draw", words->paper, &options.paper)
      || !rw_cli_choose_scale ("draw", words->scale, &options.scale) || !choose_lens (words, &options) || !rw_cli_choose_units ("draw", words->units, FALSE))
    return RW_EXIT_FAILED;
  rig = rw_cli_read_rig (words->rigs[0], &error);
  if (rig != NULL && !find_named (words, rig, &options, failed))
    return RW_EXIT_FAILED;
  if (rig != NULL && words->since != NULL)
    {
      options.since = since = rw_cli_read_since (rig, words->rigs[0], words->since);
      if (since == NULL)
        return RW_EXIT_FAILED;
    }
  if (rig != NULL && rw_export_plan (rig, words->output, &options, words->dpi, &error))
    return RW_EXIT_OK;
  rw_cli_error ("%s", error->message);
  return RW_EXIT_FAILED;
}

static int
run (const RwCommand *command, char **words)
{
  g_auto (Words) w = { .dpi = USUAL_DPI };
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &w.output, N_("Write this file: .pdf, .png or .svg"), N_("FILE") },
    RW_CLI_UNITS_ENTRY (&w.units),
    { "paper", 0, 0, G_OPTION_ARG_STRING, &w.paper, N_("Size of the paper (a3)"), N_("PAPER") },
    { "portrait", 0, 0, G_OPTION_ARG_NONE, &w.portrait, N_("Paper upright"), NULL },
    { "scale", 0, 0, G_OPTION_ARG_STRING, &w.scale, N_("Scale of the drawing, such as 1:2 (fit)"), N_("SCALE") },
    { "lens", 0, 0, G_OPTION_ARG_STRING, &w.lens, N_("Way of looking: wiring, planes, hops, load or failure (wiring)"), N_("LENS") },
    { "from", 0, 0, G_OPTION_ARG_FILENAME, &w.from, N_("Device that hops are counted from, by ID or name (the clock leader)"), N_("DEVICE") },
    { "fail", 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &w.fail, N_("Device or cable that has failed, by ID, name or label; may be given again"), N_("DEVICE|CABLE") },
    { "since", 0, 0, G_OPTION_ARG_FILENAME, &w.since, N_("Draw clouds round what changed since this revision or file"), N_("LETTER|FILE") },
    { "dpi", 0, 0, G_OPTION_ARG_DOUBLE, &w.dpi, N_("Dots an inch of a PNG, 36 to 1200 (150)"), N_("N") },
    { "mono", 0, 0, G_OPTION_ARG_NONE, &w.mono, N_("Black and white"), NULL },
    { "no-balloons", 0, 0, G_OPTION_ARG_NONE, &w.no_balloons, N_("Leave out the findings’ balloons"), NULL },
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &w.rigs, NULL, NULL },
    { NULL },
  };
  int status;

  if (!rw_cli_parse (command, entries, &words, &status))
    return status;
  return draw (&w);
}

const RwCommand rw_command_draw = {
  .name = "draw",
  .arguments = N_("RIG"),
  .summary = N_("Write the cable plan of a rig as PDF, PNG or SVG"),
  .description = N_("PDF holds the drawing, the cable list and the findings; PNG and SVG hold the drawing.\n"
                    "Papers: a5 to a0, letter, legal, tabloid, ansi-c, ansi-d, ansi-e.\n"
                    "A RIG of “-” is read from standard input.\n"
                    "Exit status: 0 written, 2 a rig that cannot be read, a file that cannot be written or wrong usage."),
  .run = run,
};
