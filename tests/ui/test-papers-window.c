/* SPDX-License-Identifier: MIT */
/* The papers as a person chooses, looks at, writes and prints them. What is written is read back by poppler's programs. */
#include "rig-builder.h"
#include "window-hand.h"

#include <glib/gstdio.h>
#include <math.h>
#include <rig/rw-length.h>
#include <string.h>
#include <ui/rw-papers-dialog.h>
#include <ui/rw-print.h>

static const char stage[] = "console desk ctrl=1 name=FOH at=[20,60]\n"
                            "rack left id=1 name='Stage left' at=[110,60]\n"
                            "rack right id=2 name='Stage right' at=[200,60]\n"
                            "switch sw name='Switch' at=[110,160]\n"
                            "desk.s-left.p length_m=20 label=N1\n"
                            "left.s-right.p length_m=30 label=N2\n";

static gboolean
is_shown (gpointer data)
{
  return !rw_papers_dialog_is_laying_out (data) && rw_page_view_is_settled (rw_papers_dialog_view (data));
}

static gboolean
is_laid_out (gpointer data)
{
  return !rw_papers_dialog_is_laying_out (data);
}

static gboolean
is_written (gpointer data)
{
  return !rw_papers_dialog_is_writing (data);
}

static RwPapersDialog *
open_dialog (Hand *hand)
{
  RwPapersDialog *dialog;

  gtk_widget_activate_action (GTK_WIDGET (hand->window), "win.papers", NULL);
  dialog = RW_PAPERS_DIALOG (hand->window->papers_dialog);
  g_assert_nonnull (dialog);
  hand_settle ();
  hand_wait (is_shown, dialog);
  return dialog;
}

/* A thread that still lays out keeps the dialog for so long. */
static gboolean
is_gone (gpointer window)
{
  return RW_WINDOW (window)->papers_dialog == NULL;
}

static void
close_dialog (Hand *hand)
{
  gtk_window_close (hand->window->papers_dialog);
  hand_wait (is_gone, hand->window);
}

static void
begin (Hand *hand)
{
  g_autoptr (RwRig) rig = rw_test_rig (stage);

  hand_begin (hand);
  hand_open (hand, rig);
}

/* A demo with many sheets. */
static void
begin_large (Hand *hand)
{
  g_autofree char *path = g_build_filename (g_getenv ("RIGWRIGHT_DATADIR"), "examples", "festival-60.rig", NULL);

  hand_begin (hand);
  g_assert_true (rw_window_load_example (hand->window, path));
  hand_settle ();
}

/* "297 x 210" mm of each page, as pdfinfo says. (transfer full) */
static GPtrArray *
page_sizes (const char *path)
{
  const char *argv[] = { "pdfinfo", "-f", "1", "-l", "9999", path, NULL };
  GPtrArray *sizes = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  int status;

  g_assert_true (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &text, NULL, &status, NULL));
  g_assert_cmpint (status, ==, 0);
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      const char *size = strstr (lines[i], " size:");
      double w, h;

      if (g_str_has_prefix (lines[i], "Page ") && size != NULL && sscanf (size, " size: %lf x %lf pts", &w, &h) == 2)
        g_ptr_array_add (sizes, g_strdup_printf ("%.0f x %.0f", w * 25.4 / 72, h * 25.4 / 72));
    }
  return sizes;
}

static int
by_text (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* All words that pdftotext reads, sorted: its order depends on the last digit of a place. (transfer full) */
static char *
words_of (const char *path)
{
  const char *argv[] = { "pdftotext", path, "-", NULL };
  g_autofree char *text = NULL;
  g_auto (GStrv) words = NULL;
  int status;

  g_assert_true (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &text, NULL, &status, NULL));
  g_assert_cmpint (status, ==, 0);
  g_assert_nonnull (strstr (text, "Stage left"));
  words = g_strsplit_set (text, " \n\f", -1);
  qsort (words, g_strv_length (words), sizeof *words, by_text);
  return g_strjoinv (" ", words);
}

static guint
n_files (const char *folder, const char *suffix)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    n += g_str_has_suffix (name, suffix);
  return n;
}

static void
test_choose (void)
{
  Hand hand;
  RwPapersDialog *dialog;
  guint all, labels;

  begin (&hand);
  dialog = open_dialog (&hand);
  all = rw_papers_dialog_outline (dialog)->n_pages;
  labels = rw_papers_dialog_outline (dialog)->pages[RW_PAPERS_LABELS];
  g_assert_cmpuint (labels, ==, 1);
  rw_papers_choices_tick (rw_papers_dialog_choices (dialog), RW_PAPERS_LABELS, FALSE);
  g_assert_null (rw_papers_dialog_outline (dialog));
  hand_wait (is_shown, dialog);
  g_assert_cmpuint (rw_papers_dialog_outline (dialog)->n_pages, ==, all - labels);
  g_assert_cmpuint (rw_papers_dialog_outline (dialog)->pages[RW_PAPERS_LABELS], ==, 0);
  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    rw_papers_choices_tick (rw_papers_dialog_choices (dialog), i, FALSE);
  hand_wait (is_laid_out, dialog);
  g_assert_cmpuint (rw_papers_dialog_outline (dialog)->n_pages, ==, 0);
  close_dialog (&hand);
  hand_end (&hand);
}

/* The shape of what is shown is that of the paper, and its page the one that was asked for. */
static void
test_leaf (void)
{
  Hand hand;
  RwPapersDialog *dialog;
  cairo_surface_t *picture;

  begin (&hand);
  dialog = open_dialog (&hand);
  rw_papers_choices_set_paper (rw_papers_dialog_choices (dialog), "a4", TRUE, FALSE);
  hand_wait (is_shown, dialog);
  picture = rw_page_view_get_picture (rw_papers_dialog_view (dialog));
  g_assert_cmpfloat_with_epsilon ((double) cairo_image_surface_get_height (picture) / cairo_image_surface_get_width (picture), sqrt (2), 0.01);
  rw_page_view_go (rw_papers_dialog_view (dialog), 3);
  g_assert_false (rw_page_view_is_settled (rw_papers_dialog_view (dialog)));
  hand_wait (is_shown, dialog);
  g_assert_cmpuint (rw_page_view_get_page (rw_papers_dialog_view (dialog)), ==, 3);
  rw_page_view_go (rw_papers_dialog_view (dialog), 9999);
  g_assert_cmpuint (rw_page_view_get_page (rw_papers_dialog_view (dialog)), ==, 3);
  close_dialog (&hand);
  hand_end (&hand);
}

static void
write_and_wait (RwPapersDialog *dialog, RwPapersForm form, const char *path)
{
  rw_papers_dialog_write (dialog, form, path);
  hand_wait (is_written, dialog);
  g_assert_cmpstr (rw_papers_dialog_problem (dialog), ==, "");
  g_assert_nonnull (strstr (rw_papers_dialog_remark (dialog), path));
}

static void
test_write (void)
{
  Hand hand;
  RwPapersDialog *dialog;
  g_autofree char *pdf = NULL;
  g_autofree char *sheets = NULL;
  g_autofree char *tables = NULL;
  g_autofree char *cover = NULL;
  g_autofree char *cables = NULL;
  g_autoptr (GPtrArray) sizes = NULL;
  g_autoptr (GPtrArray) alone = NULL;
  guint n;

  begin (&hand);
  pdf = g_build_filename (hand.folder, "papers.pdf", NULL);
  sheets = g_build_filename (hand.folder, "sheets", NULL);
  tables = g_build_filename (hand.folder, "tables", NULL);
  dialog = open_dialog (&hand);
  n = rw_papers_dialog_outline (dialog)->n_pages;
  write_and_wait (dialog, RW_PAPERS_AS_PDF, pdf);
  sizes = page_sizes (pdf);
  g_assert_cmpuint (sizes->len, ==, n);
  for (guint i = 0; i < n; i++)
    g_assert_cmpfloat_with_epsilon (g_ascii_strtod (sizes->pdata[i], NULL), rw_papers_dialog_outline (dialog)->sizes[i].width, 0.6);
  write_and_wait (dialog, RW_PAPERS_AS_SHEETS, sheets);
  g_assert_cmpuint (n_files (sheets, ".pdf"), ==, n);
  cover = g_build_filename (sheets, "01 Cover.pdf", NULL);
  alone = page_sizes (cover);
  g_assert_cmpuint (alone->len, ==, 1);
  g_assert_cmpstr (alone->pdata[0], ==, "297 x 210");
  write_and_wait (dialog, RW_PAPERS_AS_TABLES, tables);
  cables = g_build_filename (tables, "cables.csv", NULL);
  g_assert_true (g_file_test (cables, G_FILE_TEST_IS_REGULAR));
  close_dialog (&hand);
  hand_end (&hand);
}

/* What cannot be written is told in one line, and the window stays. */
static void
test_not_written (void)
{
  static const RwPapersForm forms[] = { RW_PAPERS_AS_PDF, RW_PAPERS_AS_SHEETS, RW_PAPERS_AS_TABLES };
  Hand hand;
  RwPapersDialog *dialog;
  g_autofree char *path = NULL;

  begin (&hand);
  /* below a file there is no folder, whoever asks */
  path = g_build_filename (hand.folder, "test.rig", "papers.pdf", NULL);
  dialog = open_dialog (&hand);
  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      rw_papers_dialog_write (dialog, forms[i], path);
      hand_wait (is_written, dialog);
      g_assert_nonnull (strstr (rw_papers_dialog_problem (dialog), "papers.pdf"));
      g_assert_null (strchr (rw_papers_dialog_problem (dialog), '\n'));
      g_assert_cmpstr (rw_papers_dialog_remark (dialog), ==, "");
    }
  close_dialog (&hand);
  hand_end (&hand);
}

static gboolean
has_begun (gpointer data)
{
  return rw_papers_dialog_n_drawn (data) > 0;
}

static void
test_stop (void)
{
  static const RwPapersForm forms[] = { RW_PAPERS_AS_PDF, RW_PAPERS_AS_SHEETS };
  Hand hand;
  RwPapersDialog *dialog;

  begin_large (&hand);
  dialog = open_dialog (&hand);
  g_assert_cmpuint (rw_papers_dialog_outline (dialog)->n_pages, >, 50);
  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      g_autofree char *path = g_build_filename (hand.folder, "stopped.pdf", NULL);

      rw_papers_dialog_write (dialog, forms[i], path);
      hand_wait (has_begun, dialog);
      rw_papers_dialog_stop (dialog);
      hand_wait (is_written, dialog);
      g_assert_cmpstr (rw_papers_dialog_problem (dialog), ==, "");
      g_assert_nonnull (strstr (rw_papers_dialog_remark (dialog), "nothing was written"));
      g_assert_cmpuint (n_files (path, ".pdf"), ==, 0);
      g_assert_false (g_file_test (path, G_FILE_TEST_IS_REGULAR));
    }
  close_dialog (&hand);
  hand_end (&hand);
}

/* What was chosen is there again, in the next window and in the next run. */
static void
test_remembered (void)
{
  Hand hand;
  RwPapersDialog *dialog;
  RwPapersOptions options;
  RwLabelGrid grid = { .rows = 12, .columns = 4, .top = 9, .right = 7, .bottom = 9, .left = 7.5, .gap_x = 1.5, .gap_y = 2, .first = 5 };
  g_autoptr (RwStock) stock = NULL;
  g_autofree char *text = NULL;
  g_autofree char *grid_text = NULL;
  g_autofree char *names = NULL;

  begin (&hand);
  dialog = open_dialog (&hand);
  rw_papers_choices_set_paper (rw_papers_dialog_choices (dialog), "a3", TRUE, TRUE);
  rw_papers_choices_tick (rw_papers_dialog_choices (dialog), RW_PAPERS_PROVING, FALSE);
  rw_label_choices_set (rw_papers_choices_labels (rw_papers_dialog_choices (dialog)), &grid);
  rw_label_choices_keep (rw_papers_choices_labels (rw_papers_dialog_choices (dialog)), "Van labels");
  rw_stock_choices_type (rw_papers_choices_stock (rw_papers_dialog_choices (dialog)), RW_MEDIUM_COPPER, "5, 20 × 12; 30");
  rw_stock_choices_type (rw_papers_choices_stock (rw_papers_dialog_choices (dialog)), RW_MEDIUM_SINGLEMODE, "");
  close_dialog (&hand);
  dialog = open_dialog (&hand);
  g_assert_true (rw_papers_choices_get (rw_papers_dialog_choices (dialog), &options, &stock, NULL));
  g_assert_cmpstr (options.paper->name, ==, "a3");
  g_assert_true (options.portrait && options.mono);
  g_assert_cmphex (options.sections, ==, RW_PAPERS_ALL & ~(1u << RW_PAPERS_PROVING));
  grid_text = rw_label_grid_text (&options.labels);
  g_assert_cmpstr (grid_text, ==, "12x4,top=9,right=7,bottom=9,left=7.5,gap-x=1.5,gap-y=2,first=1");
  names = rw_label_choices_names (rw_papers_choices_labels (rw_papers_dialog_choices (dialog)));
  g_assert_cmpstr (names, ==, "Van labels\n");
  text = rw_stock_text (stock);
  g_assert_true (g_str_has_prefix (text, "copper:5,20x12,30,multimode:"));
  g_assert_null (strstr (text, "singlemode"));
  close_dialog (&hand);
  hand_end (&hand);
}

/* Stock is typed in the unit that the person chose, and kept in metres: what feet do not tell exactly stays so. */
static void
test_stock_in_feet (void)
{
  Hand hand;
  RwPapersDialog *dialog;
  RwPapersOptions options;

  begin (&hand);
  rw_settings_set_string (rw_application_get_settings (hand.application), "papers-stock", "copper:3,15.24x4,2.5908x2");
  rw_length_set_units (RW_UNITS_FEET);
  dialog = open_dialog (&hand);
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (RwStock) stock = NULL;
      g_autofree char *text = NULL;

      g_assert_true (rw_papers_choices_get (rw_papers_dialog_choices (dialog), &options, &stock, NULL));
      text = rw_stock_text (stock);
      g_assert_cmpstr (text, ==, i == 0 ? "copper:3,15.24x4,2.5908x2" : "copper:7.62,15.24x4,5x2");
      rw_stock_choices_type (rw_papers_choices_stock (rw_papers_dialog_choices (dialog)), RW_MEDIUM_COPPER, "25, 50' × 4, 5 m × 2");
    }
  close_dialog (&hand);
  rw_length_set_units (RW_UNITS_METRES);
  hand_end (&hand);
}

/* Nothing fails in the papers: the lens for it is not offered, nor taken from what was chosen once. */
static void
test_no_failure_lens (void)
{
  Hand hand;
  RwPapersDialog *dialog;
  RwPapersOptions options;
  RwStock *stock = NULL;

  begin (&hand);
  rw_settings_set_string (rw_application_get_settings (hand.application), "papers-lens", "failure");
  dialog = open_dialog (&hand);
  g_assert_true (rw_papers_choices_get (rw_papers_dialog_choices (dialog), &options, &stock, NULL));
  g_assert_cmpint (options.lens, ==, RW_LENS_WIRING);
  rw_stock_free (stock);
  g_assert_false (rw_papers_choices_set_lens (rw_papers_dialog_choices (dialog), RW_LENS_FAILURE));
  g_assert_true (rw_papers_choices_set_lens (rw_papers_dialog_choices (dialog), RW_LENS_LOAD));
  g_assert_true (rw_papers_choices_get (rw_papers_dialog_choices (dialog), &options, &stock, NULL));
  g_assert_cmpint (options.lens, ==, RW_LENS_LOAD);
  rw_stock_free (stock);
  close_dialog (&hand);
  hand_end (&hand);
}

/* Nothing is laid out or written from what cannot be read; the message says what would be right. */
static void
test_wrong_words (void)
{
  Hand hand;
  RwPapersDialog *dialog;
  RwLabelGrid grid = { .rows = 80, .columns = 3, .first = 1 };

  begin (&hand);
  dialog = open_dialog (&hand);
  rw_stock_choices_type (rw_papers_choices_stock (rw_papers_dialog_choices (dialog)), RW_MEDIUM_COPPER, "5, ten");
  g_assert_nonnull (strstr (rw_papers_dialog_problem (dialog), "“ten”"));
  g_assert_null (rw_papers_dialog_outline (dialog));
  rw_stock_choices_type (rw_papers_choices_stock (rw_papers_dialog_choices (dialog)), RW_MEDIUM_COPPER, "5, 10");
  g_assert_cmpstr (rw_papers_dialog_problem (dialog), ==, "");
  rw_label_choices_set (rw_papers_choices_labels (rw_papers_dialog_choices (dialog)), &grid);
  g_assert_nonnull (strstr (rw_papers_dialog_problem (dialog), "too small"));
  rw_papers_choices_tick (rw_papers_dialog_choices (dialog), RW_PAPERS_LABELS, FALSE);
  g_assert_cmpstr (rw_papers_dialog_problem (dialog), ==, "");
  hand_wait (is_shown, dialog);
  close_dialog (&hand);
  hand_end (&hand);
}

typedef struct { gboolean over, good; char *problem; } Printed;

static void
printed (gboolean good, const char *problem, gpointer user_data)
{
  Printed *done = user_data;

  done->over = TRUE;
  done->good = good;
  done->problem = g_strdup (problem);
}

static gboolean
is_printed (gpointer data)
{
  return ((Printed *) data)->over;
}

static gboolean
is_file (gpointer data)
{
  return g_file_test (data, G_FILE_TEST_IS_REGULAR);
}

/* The toolkit's own printing, into a file: as many pages as were laid out, each on its paper. */
static void
test_print (void)
{
  Hand hand;
  Printed done = { 0 };
  RwPapersOptions options;
  g_autofree char *path = NULL;
  g_autoptr (GPtrArray) sizes = NULL;
  g_autoptr (RwPapers) papers = NULL;
  g_autofree char *written = NULL;
  g_autofree char *words = NULL;
  g_autofree char *written_words = NULL;

  begin (&hand);
  path = g_build_filename (hand.folder, "printed.pdf", NULL);
  rw_papers_options_init (&options);
  papers = rw_papers_new (rw_document_rig (hand.window->document), &options);
  rw_print (GTK_WINDOW (hand.window), rw_document_rig (hand.window->document), &options, NULL, path, printed, &done);
  hand_wait (is_printed, &done);
  g_assert_cmpstr (done.problem, ==, NULL);
  g_assert_true (done.good);
  sizes = page_sizes (path);
  g_assert_cmpuint (sizes->len, ==, rw_papers_n_pages (papers));
  written = g_build_filename (hand.folder, "written.pdf", NULL);
  g_assert_true (rw_papers_write_pdf (papers, written, NULL, NULL, NULL));
  words = words_of (path);
  written_words = words_of (written);
  g_assert_true (g_str_equal (words, written_words));
  for (guint i = 0; i < sizes->len; i++)
    {
      double width, height;

      rw_papers_page_size (papers, i, &width, &height);
      g_test_message ("%u: %s", i + 1, (char *) sizes->pdata[i]);
      g_assert_cmpfloat_with_epsilon (g_ascii_strtod (sizes->pdata[i], NULL), width, 1);
    }
  hand_end (&hand);
}

static void
test_print_plan (void)
{
  Hand hand;
  g_autofree char *path = NULL;

  begin (&hand);
  path = g_build_filename (hand.folder, "plan.pdf", NULL);
  rw_window_print_plan (hand.window, path);
  hand_wait (is_file, path);
  hand_settle ();
  hand_end (&hand);
}

static void
test_not_printed (void)
{
  static const RwPaper card = { "card", "Card", 74, 105 };
  Hand hand;
  Printed done = { 0 };
  RwPapersOptions options;
  g_autofree char *path = NULL;

  begin (&hand);
  path = g_build_filename (hand.folder, "printed.pdf", NULL);
  rw_papers_options_init (&options);
  options.paper = &card;
  rw_print (GTK_WINDOW (hand.window), rw_document_rig (hand.window->document), &options, NULL, path, printed, &done);
  hand_wait (is_printed, &done);
  g_assert_false (done.good);
  g_assert_nonnull (strstr (done.problem, "74 × 105"));
  g_free (done.problem);
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/papers-window/choose", test_choose);
  g_test_add_func ("/papers-window/leaf", test_leaf);
  g_test_add_func ("/papers-window/write", test_write);
  g_test_add_func ("/papers-window/not-written", test_not_written);
  g_test_add_func ("/papers-window/stop", test_stop);
  g_test_add_func ("/papers-window/remembered", test_remembered);
  g_test_add_func ("/papers-window/stock-in-feet", test_stock_in_feet);
  g_test_add_func ("/papers-window/no-failure-lens", test_no_failure_lens);
  g_test_add_func ("/papers-window/wrong-words", test_wrong_words);
  g_test_add_func ("/papers-window/print", test_print);
  g_test_add_func ("/papers-window/print-plan", test_print_plan);
  g_test_add_func ("/papers-window/not-printed", test_not_printed);
  return g_test_run ();
}
