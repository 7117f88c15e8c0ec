/* SPDX-License-Identifier: MIT */
#include "rw-print.h"

#include <glib/gi18n-lib.h>
#include "rw-papers-worker.h"

#define SETTINGS_GROUP "print"
#define PAGE_GROUP "page"
#define LEAST_SIDE 140.0 /* mm: below it the frame and its title block leave no room */

typedef struct
{
  GtkPrintOperation *operation;
  RwRig *rig;
  RwPapersOptions options;
  RwStock *stock;
  RwRig *since;         /* (nullable) */
  RwSettings *settings; /* (nullable) */
  RwPapersWorker *worker;
  RwPaper paper;        /* as the page was set up */
  GtkPageSetup *page;   /* (nullable) */
  RwPapersOutline *outline;
  GCancellable *cancellable;
  GtkPrintContext *context; /* (nullable) (not owned): while a sheet is drawn */
  char *problem;
  gboolean ended;
  guint tasks;          /* that the worker still owes */
  RwPrintDone done;
  gpointer user_data;
} Print;

static void
print_free (Print *print)
{
  g_object_unref (print->operation);
  g_object_unref (print->rig);
  g_object_unref (print->worker);
  g_object_unref (print->cancellable);
  g_clear_object (&print->page);
  rw_stock_free (print->stock);
  g_clear_object (&print->since);
  rw_papers_outline_free (print->outline);
  g_free (print->problem);
  g_free (print);
}

static void
free_if_over (Print *print)
{
  if (print->ended && print->tasks == 0)
    print_free (print);
}

static void
fail (Print *print, const char *problem)
{
  g_free (print->problem);
  print->problem = g_strdup (problem);
  gtk_print_operation_cancel (print->operation);
}

/* The page as it was set up, upright, is the paper of the pack. */
static gboolean
take_paper (Print *print, GtkPrintContext *context)
{
  GtkPageSetup *page = gtk_print_context_get_page_setup (context);
  GtkPaperSize *size = gtk_page_setup_get_paper_size (page);
  GtkPageOrientation orientation = gtk_page_setup_get_orientation (page);
  g_autoptr (GError) error = NULL;

  print->paper = (RwPaper) { "printer", "printer", gtk_paper_size_get_width (size, GTK_UNIT_MM), gtk_paper_size_get_height (size, GTK_UNIT_MM) };
  print->options.paper = &print->paper;
  print->options.portrait = orientation == GTK_PAGE_ORIENTATION_PORTRAIT || orientation == GTK_PAGE_ORIENTATION_REVERSE_PORTRAIT;
  g_set_object (&print->page, page);
  if (MIN (print->paper.width_mm, print->paper.height_mm) < LEAST_SIDE)
    {
      g_autofree char *text = g_strdup_printf (_("The printer’s paper of %.0f × %.0f mm is too small: take A5 or larger"),
                                               print->paper.width_mm, print->paper.height_mm);
      fail (print, text);
    }
  else if ((print->options.sections >> RW_PAPERS_LABELS & 1)
           && !rw_label_grid_check (&print->options.labels, rw_papers_label_paper (&print->options), &error))
    fail (print, error->message);
  return print->problem == NULL;
}

static void
laid_out (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Print *print = user_data;

  print->tasks--;
  print->outline = rw_papers_worker_lay_out_finish (RW_PAPERS_WORKER (source), result, NULL);
  if (!print->ended && print->outline != NULL && print->outline->n_pages == 0)
    fail (print, _("There is nothing to print in the sections that were chosen"));
  free_if_over (print);
}

static void
begin_print (GtkPrintOperation *operation, GtkPrintContext *context, gpointer user_data)
{
  Print *print = user_data;

  if (!take_paper (print, context))
    return;
  print->tasks++;
  rw_papers_worker_lay_out (print->worker, print->rig, &print->options, print->cancellable, laid_out, print);
}

/* Asked again and again, whenever there is nothing else to do, until the number of pages is known. */
static gboolean
paginate (GtkPrintOperation *operation, GtkPrintContext *context, gpointer user_data)
{
  Print *print = user_data;

  if (print->problem != NULL)
    return TRUE;
  if (print->outline == NULL || print->outline->n_pages == 0)
    {
      g_usleep (5000); /* the thread lays out meanwhile */
      return FALSE;
    }
  gtk_print_operation_set_n_pages (operation, (int) print->outline->n_pages);
  return TRUE;
}

/* Sheets of labels lie upright, and may have another size than the rest. */
static void
set_up_page (GtkPrintOperation *operation, GtkPrintContext *context, int page, GtkPageSetup *setup, gpointer user_data)
{
  Print *print = user_data;
  double width, height;
  gboolean portrait;
  GtkPaperSize *size;

  if (print->outline == NULL || (guint) page >= print->outline->n_pages)
    return;
  width = print->outline->sizes[page].width;
  height = print->outline->sizes[page].height;
  portrait = width <= height;
  if (portrait == print->options.portrait && MIN (width, height) == MIN (print->paper.width_mm, print->paper.height_mm))
    return;
  size = MIN (width, height) == MIN (print->paper.width_mm, print->paper.height_mm)
    ? gtk_paper_size_copy (gtk_page_setup_get_paper_size (setup))
    : gtk_paper_size_new_custom ("labels", _("Labels"), MIN (width, height), MAX (width, height), GTK_UNIT_MM);
  gtk_page_setup_set_paper_size (setup, size);
  gtk_page_setup_set_orientation (setup, portrait ? GTK_PAGE_ORIENTATION_PORTRAIT : GTK_PAGE_ORIENTATION_LANDSCAPE);
  gtk_paper_size_free (size);
}

static void
sheet_drawn (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Print *print = user_data;
  cairo_surface_t *sheet = rw_papers_worker_draw_finish (RW_PAPERS_WORKER (source), result, NULL);

  print->tasks--;
  if (!print->ended && print->context != NULL)
    {
      cairo_t *cr = gtk_print_context_get_cairo_context (print->context);

      if (sheet != NULL)
        {
          cairo_set_source_surface (cr, sheet, 0, 0);
          cairo_paint (cr);
        }
      print->context = NULL;
      gtk_print_operation_draw_page_finish (print->operation);
    }
  g_clear_pointer (&sheet, cairo_surface_destroy);
  free_if_over (print);
}

static void
draw_page (GtkPrintOperation *operation, GtkPrintContext *context, int page, gpointer user_data)
{
  Print *print = user_data;

  print->context = context;
  print->tasks++;
  gtk_print_operation_set_defer_drawing (operation);
  rw_papers_worker_draw (print->worker, (guint) page, 0, print->cancellable, sheet_drawn, print);
}

static void
remember (Print *print)
{
  GKeyFile *keys;

  if (print->settings == NULL)
    return;
  keys = rw_settings_key_file (print->settings);
  if (gtk_print_operation_get_print_settings (print->operation) != NULL)
    gtk_print_settings_to_key_file (gtk_print_operation_get_print_settings (print->operation), keys, SETTINGS_GROUP);
  if (print->page != NULL)
    gtk_page_setup_to_key_file (print->page, keys, PAGE_GROUP);
}

static void
over (GtkPrintOperation *operation, GtkPrintOperationResult result, gpointer user_data)
{
  Print *print = user_data;
  g_autoptr (GError) error = NULL;

  if (print->ended)
    return;
  print->ended = TRUE;
  g_cancellable_cancel (print->cancellable);
  if (result == GTK_PRINT_OPERATION_RESULT_ERROR && print->problem == NULL)
    {
      gtk_print_operation_get_error (operation, &error);
      /* Translators: the system's reason. */
      print->problem = g_strdup_printf (_("It was not printed: %s"), error != NULL ? error->message : _("no reason was given"));
    }
  if (result == GTK_PRINT_OPERATION_RESULT_APPLY && print->problem == NULL)
    remember (print);
  if (print->done != NULL)
    print->done (result == GTK_PRINT_OPERATION_RESULT_APPLY && print->problem == NULL, print->problem, print->user_data);
  free_if_over (print);
}

/* By the name that printers know, where there is one. */
static GtkPaperSize *
size_of (const RwPaper *paper)
{
  GList *all = gtk_paper_size_get_paper_sizes (FALSE);
  GtkPaperSize *size = NULL;

  for (GList *l = all; l != NULL && size == NULL; l = l->next)
    if (ABS (gtk_paper_size_get_width (l->data, GTK_UNIT_MM) - paper->width_mm) < 0.5
        && ABS (gtk_paper_size_get_height (l->data, GTK_UNIT_MM) - paper->height_mm) < 0.5)
      size = gtk_paper_size_copy (l->data);
  g_list_free_full (all, (GDestroyNotify) gtk_paper_size_free);
  return size != NULL ? size : gtk_paper_size_new_custom (paper->name, _(paper->label), paper->width_mm, paper->height_mm, GTK_UNIT_MM);
}

/* The page that was asked for; without a paper in @options that of last time. */
static GtkPageSetup *
page_for (const RwPapersOptions *options, RwSettings *settings)
{
  GtkPageSetup *page = NULL;
  GtkPaperSize *size;

  if (options->paper == NULL && settings != NULL)
    page = gtk_page_setup_new_from_key_file (rw_settings_key_file (settings), PAGE_GROUP, NULL);
  if (page != NULL)
    return page;
  page = gtk_page_setup_new ();
  size = options->paper != NULL ? size_of (options->paper) : gtk_paper_size_new (NULL);
  gtk_page_setup_set_paper_size (page, size);
  gtk_paper_size_free (size);
  gtk_page_setup_set_orientation (page, options->portrait ? GTK_PAGE_ORIENTATION_PORTRAIT : GTK_PAGE_ORIENTATION_LANDSCAPE);
  return page;
}

static void
set_up (Print *print, const RwPapersOptions *options, const char *file)
{
  GtkPrintOperation *operation = print->operation;
  g_autoptr (GtkPageSetup) page = page_for (options, print->settings);
  g_autoptr (GtkPrintSettings) kept = print->settings != NULL
    ? gtk_print_settings_new_from_key_file (rw_settings_key_file (print->settings), SETTINGS_GROUP, NULL) : NULL;
  g_autofree char *title = rw_rig_title (print->rig);

  if (kept != NULL)
    gtk_print_operation_set_print_settings (operation, kept);
  gtk_print_operation_set_default_page_setup (operation, page);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_show_progress (operation, file == NULL);
  gtk_print_operation_set_allow_async (operation, TRUE);
  gtk_print_operation_set_job_name (operation, title);
  if (file != NULL)
    gtk_print_operation_set_export_filename (operation, file);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin_print), print);
  g_signal_connect (operation, "paginate", G_CALLBACK (paginate), print);
  g_signal_connect (operation, "request-page-setup", G_CALLBACK (set_up_page), print);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page), print);
  g_signal_connect (operation, "done", G_CALLBACK (over), print);
}

void
rw_print (GtkWindow *parent, RwRig *rig, const RwPapersOptions *options, RwSettings *settings, const char *file,
          RwPrintDone done, gpointer user_data)
{
  Print *print = g_new0 (Print, 1);

  print->operation = gtk_print_operation_new ();
  print->rig = rw_rig_copy (rig);
  print->options = *options;
  print->options.stock = print->stock = options->stock != NULL ? rw_stock_copy (options->stock) : NULL;
  print->since = options->since != NULL ? g_object_ref ((gpointer) options->since) : NULL;
  print->settings = settings;
  print->worker = rw_papers_worker_new ();
  print->cancellable = g_cancellable_new ();
  print->done = done;
  print->user_data = user_data;
  set_up (print, options, file);
  gtk_print_operation_run (print->operation, file != NULL ? GTK_PRINT_OPERATION_ACTION_EXPORT : GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG,
                           parent, NULL);
}
