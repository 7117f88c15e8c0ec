/* SPDX-License-Identifier: MIT */
/* The line list below the sheet, and what it lights up there. */
#include "rw-window-private.h"

#include <file/rw-save.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "rw-import-dialog.h"
#include "rw-line-way.h"
#include "rw-sets-dialog.h"

#define SHARE 0.45   /* of the window's height, when it is opened for the first time */
#define SHEET_PX 120 /* so much of the sheet stays in sight when it opens */

static void
way_changed (RwLineView *lines, gpointer user_data)
{
  RwWindow *window = user_data;
  const RwLine *line = gtk_widget_get_visible (GTK_WIDGET (lines)) ? rw_line_view_get_line (lines) : NULL;
  g_autoptr (RwLineWay) way = NULL;

  if (line == NULL)
    {
      rw_canvas_set_way (window->canvas, NULL, NULL);
      return;
    }
  rw_findings_view_select (window->findings, -1);
  way = rw_line_way_new (window->document, line);
  rw_canvas_set_way (window->canvas, way->devices, way->cables);
}

static void
closed (RwLineView *lines, gpointer user_data)
{
  g_object_set (user_data, "lines-shown", FALSE, NULL);
}

static int
height_of (GtkWidget *widget)
{
  return gtk_widget_get_height (widget);
}

/* As high as it was when it was closed, unless the window is now too low for that. */
static void
divide (RwWindow *window)
{
  int height = height_of (window->lines_paned), wanted = window->lines_height;

  if (wanted <= 0 || wanted > height - SHEET_PX)
    wanted = (int) (height * SHARE);
  if (height > 0)
    gtk_paned_set_position (GTK_PANED (window->lines_paned), height - wanted);
}

/* Where the panel beside the sheet is divided while it has its whole height. A pixel is lost in GTK's own sums each time. */
static void
remember_panels (RwWindow *window)
{
  int at = gtk_paned_get_position (GTK_PANED (window->findings_paned));

  if (ABS (at - window->findings_at) > 2)
    window->findings_at = at;
}

/* Both parts of the panel grow in proportion, from a place to which the list has pushed their border. */
static void
restore_panels (RwWindow *window)
{
  double now = height_of (window->findings_paned), then = height_of (window->lines_paned);

  if (now > 0 && window->findings_at > 0)
    gtk_paned_set_position (GTK_PANED (window->findings_paned), (int) (window->findings_at * now / then + 0.5));
}

/* The height of the list, for the next time; 0 = it was not opened yet. */
int
rw_window_lines_height (RwWindow *window)
{
  if (gtk_widget_get_visible (GTK_WIDGET (window->lines)) && height_of (GTK_WIDGET (window->lines)) > 0)
    window->lines_height = height_of (window->lines_paned) - gtk_paned_get_position (GTK_PANED (window->lines_paned));
  return window->lines_height;
}

/* Shows or hides the list; the keyboard goes with it. */
void
rw_window_lines_show (RwWindow *window, gboolean shown)
{
  GtkWidget *lines = GTK_WIDGET (window->lines);

  if (gtk_widget_get_visible (lines) == shown)
    return;
  if (shown)
    remember_panels (window);
  else
    {
      rw_line_view_choose_none (window->lines);
      rw_window_lines_height (window);
      restore_panels (window);
    }
  gtk_widget_set_visible (lines, shown);
  if (!shown)
    {
      gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
      return;
    }
  divide (window);
  rw_line_view_focus (window->lines);
}

/* --- Tables from outside, and to there --- */

static void
lines_taken (GtkWidget *dialog, guint n, gpointer user_data)
{
  g_autofree char *text = g_strdup_printf (ngettext ("✓ %u line imported", "✓ %u lines imported", n), n);

  rw_window_tell (user_data, text);
}

void
rw_window_lines_import (RwWindow *window, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_filename_display_basename (path);
  RwCsv *csv = rw_csv_read (path, &error);
  GtkWidget *dialog;

  rw_window_settle (window);
  if (csv != NULL && csv->rows->len == 0)
    {
      g_set_error (&error, RW_CSV_ERROR, RW_CSV_ERROR_BINARY, _("%s: there is nothing in it"), name);
      g_clear_pointer (&csv, rw_csv_free);
    }
  if (csv == NULL)
    {
      rw_window_show_message (window, error->message);
      return;
    }
  rw_window_show_message (window, NULL);
  dialog = rw_import_dialog_new (GTK_WINDOW (window), window->document,
                                 rw_line_import_new (csv, rw_line_view_get_side (window->lines)), name);
  g_signal_connect (dialog, "taken", G_CALLBACK (lines_taken), window);
  g_set_weak_pointer (&window->import_dialog, GTK_WINDOW (dialog));
  gtk_window_present (GTK_WINDOW (dialog));
}

void
rw_window_lines_export (RwWindow *window, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  rw_window_settle (window);
  text = rw_line_view_csv_text (window->lines);
  if (rw_save_bytes (path, text, strlen (text), &error))
    rw_window_tell_written (window, path);
  else
    rw_window_show_message (window, error->message);
}

static void
path_chosen (GtkNativeDialog *chooser, int response, gpointer user_data)
{
  g_autoptr (RwWindow) window = user_data;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    {
      if (gtk_file_chooser_get_action (GTK_FILE_CHOOSER (chooser)) == GTK_FILE_CHOOSER_ACTION_SAVE)
        rw_window_lines_export (window, path);
      else
        rw_window_lines_import (window, path);
    }
  g_object_unref (chooser);
}

static void
choose_path (RwWindow *window, const char *title, GtkFileChooserAction action, const char *accept)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (title, GTK_WINDOW (window), action, accept, _("_Cancel"));
  g_autoptr (GtkFileFilter) tables = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  gtk_file_filter_set_name (tables, _("Tables of text"));
  gtk_file_filter_add_suffix (tables, "csv");
  gtk_file_filter_add_suffix (tables, "tsv");
  gtk_file_filter_add_suffix (tables, "txt");
  gtk_file_filter_set_name (all, _("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), tables);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), all);
  if (action == GTK_FILE_CHOOSER_ACTION_SAVE)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), _("lines.csv"));
  g_signal_connect (chooser, "response", G_CALLBACK (path_chosen), g_object_ref (window));
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
import_asked (RwLineView *lines, gpointer user_data)
{
  choose_path (user_data, _("Import lines"), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Open"));
}

static void
export_asked (RwLineView *lines, gpointer user_data)
{
  choose_path (user_data, _("Export lines"), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"));
}

/* Offers first to store what the list shows. */
void
rw_window_lines_show_sets (RwWindow *window)
{
  gboolean input = rw_line_view_get_side (window->lines) == RW_LINE_INPUT;
  GtkWidget *dialog;

  rw_window_settle (window);
  dialog = rw_sets_dialog_new (GTK_WINDOW (window), window->document, input ? RW_SCOPE_INPUTS : RW_SCOPE_OUTPUTS);
  g_set_weak_pointer (&window->sets_dialog, GTK_WINDOW (dialog));
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
sets_asked (RwLineView *lines, gpointer user_data)
{
  rw_window_lines_show_sets (user_data);
}

void
rw_window_lines_init (RwWindow *window)
{
  g_signal_connect (window->lines, "import", G_CALLBACK (import_asked), window);
  g_signal_connect (window->lines, "export", G_CALLBACK (export_asked), window);
  g_signal_connect (window->lines, "sets", G_CALLBACK (sets_asked), window);
  g_signal_connect (window->lines, "way", G_CALLBACK (way_changed), window);
  g_signal_connect (window->lines, "close", G_CALLBACK (closed), window);
}
