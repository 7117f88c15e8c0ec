/* SPDX-License-Identifier: MIT */
#include "rw-cli.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <paper/rw-papers.h>

/* Nothing fails in the papers, so the Failure lens, which is the last, would look like Wiring. */
#define N_LENSES RW_LENS_FAILURE

/* The words of the command line. */
typedef struct
{
  char *output;
  char *csv;
  char *sheets;
  char *paper;
  char *units;
  char *scale;
  char *lens;
  char *labels;
  char *stock;
  char *since;
  char **only;
  double spares;
  gboolean portrait;
  gboolean mono;
  char **rigs;
} Words;

static void
words_clear (Words *words)
{
  g_free (words->output);
  g_free (words->csv);
  g_free (words->sheets);
  g_free (words->paper);
  g_free (words->units);
  g_free (words->scale);
  g_free (words->lens);
  g_free (words->labels);
  g_free (words->stock);
  g_free (words->since);
  g_strfreev (words->only);
  g_strfreev (words->rigs);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Words, words_clear)

static char *
list_sections (void)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", rw_papers_section_name (i));
  return g_string_free (names, FALSE);
}

static gboolean
choose_section (const char *name, guint *sections)
{
  int section = rw_papers_section_find (name);
  g_autofree char *names = NULL;

  if (section >= 0)
    {
      *sections |= 1u << section;
      return TRUE;
    }
  names = list_sections ();
  /* Translators: what was typed, and the names that there are */
  rw_cli_error (_("papers: there is no section “%s”: take some of %s"), name, names);
  return FALSE;
}

/* "--only plan --only cables" and "--only plan,cables" are the same. */
static gboolean
choose_sections (char *const *only, RwPapersOptions *options)
{
  if (only == NULL)
    return TRUE;
  options->sections = 0;
  for (; *only != NULL; only++)
    {
      g_auto (GStrv) names = g_strsplit (*only, ",", -1);

      for (guint i = 0; names[i] != NULL; i++)
        if (!choose_section (g_strstrip (names[i]), &options->sections))
          return FALSE;
    }
  return TRUE;
}

static gboolean
choose_labels (const Words *words, RwPapersOptions *options)
{
  g_autoptr (GError) error = NULL;

  if (words->labels == NULL
      || (rw_label_grid_parse (words->labels, &options->labels, &error)
          && rw_label_grid_check (&options->labels, rw_papers_label_paper (options), &error)))
    return TRUE;
  rw_cli_error ("papers: %s", error->message);
  return FALSE;
}

/* (transfer full) (nullable): NULL was told of. */
static RwStock *
choose_stock (const Words *words)
{
  g_autoptr (GError) error = NULL;
  RwStock *stock = words->stock != NULL ? rw_stock_parse (words->stock, &error) : rw_stock_new ();

  if (stock == NULL)
    rw_cli_error ("papers: %s", error->message);
  else if (!(words->spares >= 0 && words->spares <= 1000))
    {
      rw_cli_error (_("papers: %g %% of spares is out of range: 0 to 1000"), words->spares);
      g_clear_pointer (&stock, rw_stock_free);
    }
  else
    stock->spares_percent = words->spares;
  return stock;
}

static gboolean
check_words (const Words *words)
{
  if (words->rigs == NULL || words->rigs[1] != NULL)
    rw_cli_error (_("papers: name one rig (see “rigwright-cli papers --help”)"));
  else if (words->output == NULL && words->csv == NULL && words->sheets == NULL)
    rw_cli_error (_("papers: name the PDF with --output, a folder with --csv or --sheets, or several of them (see “rigwright-cli papers --help”)"));
  else
    return TRUE;
  return FALSE;
}

static gboolean
write_pdfs (const Words *words, const RwRig *rig, const RwPapersOptions *options, GError **error)
{
  g_autoptr (RwPapers) papers = NULL;

  if (words->output == NULL && words->sheets == NULL)
    return TRUE;
  papers = rw_papers_new (rig, options);
  if (rw_papers_scale (papers) > 0 && rw_papers_scale (papers) < options->scale)
    {
      /* Translators: what was typed */
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_ARGUMENT, _("papers: at the scale %s the drawing needs too many sheets: take a smaller one"), words->scale);
      return FALSE;
    }
  return (words->output == NULL || rw_papers_write_pdf (papers, words->output, NULL, NULL, error))
         && (words->sheets == NULL || rw_papers_write_sheets (papers, words->sheets, NULL, NULL, error));
}

static int
write_papers (const Words *words, RwPapersOptions *options)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_cli_read_rig (words->rigs[0], &error);
  g_autoptr (RwRig) since = NULL;

  if (rig != NULL && words->since != NULL)
    {
      options->since = since = rw_cli_read_since (rig, words->rigs[0], words->since);
      if (since == NULL)
        return RW_EXIT_FAILED;
    }
  if (rig != NULL && write_pdfs (words, rig, options, &error)
      && (words->csv == NULL || rw_papers_write_csv (rig, words->csv, options, &error)))
    return RW_EXIT_OK;
  rw_cli_error ("%s", error->message);
  return RW_EXIT_FAILED;
}

static int
papers (const Words *words)
{
  RwPapersOptions options;
  g_autoptr (RwStock) stock = NULL;

  rw_papers_options_init (&options);
  options.portrait = words->portrait;
  options.mono = words->mono;
  if (!check_words (words) || !choose_sections (words->only, &options) || !rw_cli_choose_paper ("papers", words->paper, &options.paper)
      || !rw_cli_choose_scale ("papers", words->scale, &options.scale)
      || !rw_cli_choose_lens ("papers", words->lens, N_LENSES, &options.lens) || !choose_labels (words, &options)
      || !rw_cli_choose_units ("papers", words->units, FALSE))
    return RW_EXIT_FAILED;
  options.stock = stock = choose_stock (words);
  return stock != NULL ? write_papers (words, &options) : RW_EXIT_FAILED;
}

static int
run (const RwCommand *command, char **words)
{
  g_auto (Words) w = { .spares = 10 };
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &w.output, N_("Write this PDF"), N_("FILE") },
    { "csv", 0, 0, G_OPTION_ARG_FILENAME, &w.csv, N_("Write the tables as CSV into this folder"), N_("FOLDER") },
    { "sheets", 0, 0, G_OPTION_ARG_FILENAME, &w.sheets, N_("Write each sheet as a PDF of its own into this folder"), N_("FOLDER") },
    { "only", 0, 0, G_OPTION_ARG_STRING_ARRAY, &w.only, N_("Only this section; may be given several times"), N_("SECTION") },
    RW_CLI_UNITS_ENTRY (&w.units),
    { "paper", 0, 0, G_OPTION_ARG_STRING, &w.paper, N_("Size of the paper (a4)"), N_("PAPER") },
    { "portrait", 0, 0, G_OPTION_ARG_NONE, &w.portrait, N_("Paper upright"), NULL },
    { "scale", 0, 0, G_OPTION_ARG_STRING, &w.scale, N_("Scale of the drawing, such as 1:2 (fit: as large as can be read)"), N_("SCALE") },
    { "lens", 0, 0, G_OPTION_ARG_STRING, &w.lens, N_("The drawing’s way of looking: wiring, planes, hops or load (wiring)"), N_("LENS") },
    { "mono", 0, 0, G_OPTION_ARG_NONE, &w.mono, N_("Black and white"), NULL },
    { "labels", 0, 0, G_OPTION_ARG_STRING, &w.labels, N_("Sheet of labels, such as 8x3,top=12,left=8,gap-x=2.5,first=1"), N_("GRID") },
    { "stock", 0, 0, G_OPTION_ARG_STRING, &w.stock, N_("Cables in stock, such as copper:5x20,10x12,multimode:100x4"), N_("STOCK") },
    { "spares", 0, 0, G_OPTION_ARG_DOUBLE, &w.spares, N_("Spare cables, in percent (10)"), N_("N") },
    { "since", 0, 0, G_OPTION_ARG_FILENAME, &w.since, N_("Draw clouds round what changed since this revision or file"), N_("LETTER|FILE") },
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &w.rigs, NULL, NULL },
    { NULL },
  };
  int status;

  if (!rw_cli_parse (command, entries, &words, &status))
    return status;
  return papers (&w);
}

const RwCommand rw_command_papers = {
  .name = "papers",
  .arguments = N_("RIG"),
  .summary = N_("Write the papers of a rig as one PDF, or its tables as CSV"),
  .description = N_("Sections: cover, plan, equipment, network, cables, pull, ports, lines, cards, labels, proving, findings, revisions.\n"
                    "Papers: a5 to a0, letter, legal, tabloid, ansi-c, ansi-d, ansi-e.\n"
                    "A RIG of “-” is read from standard input.\n"
                    "Exit status: 0 written, 2 a rig that cannot be read, a file that cannot be written or wrong usage."),
  .run = run,
};
