/* SPDX-License-Identifier: MIT */
#include "rw-import-dialog.h"

#include <glib/gi18n-lib.h>

#include "rw-remark-list.h"
#include "rw-words.h"

#define SHOWN_ROWS 8
#define TABLE_HEIGHT 250 /* px: of so many rows under what their columns mean */

struct _RwImportDialog
{
  GtkWindow parent_instance;
  RwDocument *document;
  RwLineImport *import;
  GPtrArray *meanings; /* of GtkDropDown, by column of the table */
  GPtrArray *devices[2]; /* of char *, ids; by row of the drop-down from 1: of the stage, consoles */
  char *name;          /* of the file */
  GtkWidget *origin, *side, *heading, *device[2], *table, *caution, *remarks, *take;
  RwChange *change;    /* (nullable): what would be done */
  guint n_lines;       /* of the table, that it takes */
  gboolean busy;
};

G_DEFINE_FINAL_TYPE (RwImportDialog, rw_import_dialog, GTK_TYPE_WINDOW)

static guint taken_signal;

const char *
rw_import_dialog_get_remarks (RwImportDialog *dialog)
{
  return rw_remark_list_get_text (RW_REMARK_LIST (dialog->remarks));
}

GtkWidget *
rw_import_dialog_get_meaning (RwImportDialog *dialog, guint column)
{
  return g_ptr_array_index (dialog->meanings, column);
}

/* Columns as the drop-downs list them: the first stands for none. */
static guint
row_of_column (RwLineImport *import, int column)
{
  guint n;
  const RwLineColumn *ours = rw_line_columns (import->side, &n);

  for (guint i = 0; i < n; i++)
    if ((int) ours[i] == column)
      return i + 1;
  return 0;
}

static void
show_caution (RwImportDialog *dialog)
{
  gboolean powers = rw_change_turns_phantom_on (dialog->change);

  gtk_label_set_text (GTK_LABEL (dialog->caution), powers ? rw_words_phantom_caution () : "");
  gtk_widget_set_visible (dialog->caution, powers);
}

static const char *
separator_word (char separator)
{
  return separator == ';' ? _("semicolons") : separator == '\t' ? _("tabs") : _("commas");
}

/* Where it comes from; the heading is no row of it. */
static void
show_origin (RwImportDialog *dialog)
{
  const RwCsv *csv = dialog->import->csv;
  guint n = csv->rows->len - (dialog->import->heading && csv->rows->len > 0);
  /* Translators: a file's name, how many rows it has, what parts its fields, an encoding's name. */
  g_autofree char *text = g_strdup_printf (ngettext ("%s: %u row, parted by %s, %s", "%s: %u rows, parted by %s, %s", n),
                                           dialog->name, n, separator_word (csv->separator), csv->encoding);

  gtk_label_set_text (GTK_LABEL (dialog->origin), text);
}

/* (transfer full): what the button would do, and why it does nothing. */
static char *
summary_of (RwImportDialog *dialog, guint n_remarks)
{
  guint n = dialog->n_lines;

  if (rw_change_n (dialog->change) == 0)
    return g_strdup (n_remarks == 0 ? _("All of it is in the rig already: nothing would change.")
                                    : _("Nothing would change in the rig:"));
  if (n_remarks == 0)
    return g_strdup_printf (ngettext ("%u line is understood whole.", "%u lines are understood whole.", n), n);
  return g_strdup_printf (ngettext ("%u line will be read. Not all of it is understood:",
                                    "%u lines will be read. Not all of it is understood:", n), n);
}

/* Tries the import on the rig as it is and says what would come of it. */
static void
try_out (RwImportDialog *dialog)
{
  g_autoptr (GPtrArray) remarks = NULL;
  g_autofree char *summary = NULL;

  g_clear_pointer (&dialog->change, rw_change_unref);
  dialog->change = rw_line_import_change (dialog->import, rw_document_rig (dialog->document), &remarks, &dialog->n_lines);
  summary = summary_of (dialog, remarks->len);
  show_origin (dialog);
  rw_remark_list_show (RW_REMARK_LIST (dialog->remarks), summary, remarks);
  show_caution (dialog);
  gtk_widget_set_sensitive (dialog->take, rw_change_n (dialog->change) > 0);
}

static void
show_meanings (RwImportDialog *dialog)
{
  dialog->busy = TRUE;
  for (guint i = 0; i < dialog->meanings->len; i++)
    gtk_drop_down_set_selected (g_ptr_array_index (dialog->meanings, i),
                                row_of_column (dialog->import, dialog->import->columns[i]));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (dialog->heading), dialog->import->heading);
  dialog->busy = FALSE;
}

static void
meaning_chosen (GObject *drop, GParamSpec *pspec, gpointer user_data)
{
  RwImportDialog *dialog = user_data;
  guint n, at = 0, chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (drop));
  const RwLineColumn *ours = rw_line_columns (dialog->import->side, &n);

  if (dialog->busy || !g_ptr_array_find (dialog->meanings, drop, &at))
    return;
  rw_line_import_set_column (dialog->import, at, chosen >= 1 && chosen <= n ? (int) ours[chosen - 1] : -1);
  show_meanings (dialog);
  try_out (dialog);
}

static GtkWidget *
make_meaning (RwImportDialog *dialog)
{
  GtkStringList *list = gtk_string_list_new (NULL);
  GtkWidget *drop;
  guint n;
  const RwLineColumn *ours = rw_line_columns (dialog->import->side, &n);

  gtk_string_list_append (list, _("Not used"));
  for (guint i = 0; i < n; i++)
    gtk_string_list_append (list, rw_line_column_title (dialog->import->side, ours[i]));
  drop = gtk_drop_down_new (G_LIST_MODEL (list), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (drop), GTK_ACCESSIBLE_PROPERTY_LABEL, _("What the column means"), -1);
  g_signal_connect (drop, "notify::selected", G_CALLBACK (meaning_chosen), dialog);
  return drop;
}

static GtkWidget *
make_cell (const char *text, gboolean heading)
{
  GtkWidget *label = gtk_label_new (text != NULL ? text : "");

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 18);
  gtk_label_set_single_line_mode (GTK_LABEL (label), TRUE);
  if (heading)
    gtk_widget_add_css_class (label, "rw-panel-title");
  return label;
}

/* The first rows of the table, under what each of its columns means. */
static void
show_table (RwImportDialog *dialog)
{
  GtkWidget *child;

  g_ptr_array_set_size (dialog->meanings, 0);
  while ((child = gtk_widget_get_first_child (dialog->table)) != NULL)
    gtk_grid_remove (GTK_GRID (dialog->table), child);
  for (guint column = 0; column < dialog->import->n_columns; column++)
    {
      GtkWidget *drop = make_meaning (dialog);
      g_ptr_array_add (dialog->meanings, drop);
      gtk_grid_attach (GTK_GRID (dialog->table), drop, (int) column, 0, 1, 1);
      for (guint row = 0; row < MIN (dialog->import->csv->rows->len, SHOWN_ROWS); row++)
        gtk_grid_attach (GTK_GRID (dialog->table), make_cell (rw_csv_get (dialog->import->csv, row, column), row == 0 && dialog->import->heading),
                         (int) column, (int) row + 1, 1, 1);
    }
  show_meanings (dialog);
}

static void
side_chosen (GObject *drop, GParamSpec *pspec, gpointer user_data)
{
  RwImportDialog *dialog = user_data;

  rw_line_import_set_side (dialog->import, gtk_drop_down_get_selected (GTK_DROP_DOWN (drop)));
  show_table (dialog);
  try_out (dialog);
}

static void
heading_toggled (GtkCheckButton *button, gpointer user_data)
{
  RwImportDialog *dialog = user_data;

  if (dialog->busy)
    return;
  dialog->import->heading = gtk_check_button_get_active (button);
  show_table (dialog);
  try_out (dialog);
}

static void
device_chosen (GObject *drop, GParamSpec *pspec, gpointer user_data)
{
  RwImportDialog *dialog = user_data;
  gboolean console = GTK_WIDGET (drop) == dialog->device[1];
  GPtrArray *devices = dialog->devices[console];
  char **place = console ? &dialog->import->console : &dialog->import->device;
  guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (drop));

  g_clear_pointer (place, g_free);
  if (chosen >= 1 && chosen <= devices->len)
    *place = g_strdup (g_ptr_array_index (devices, chosen - 1));
  try_out (dialog);
}

void
rw_import_dialog_set_device (RwImportDialog *dialog, gboolean console, const char *title)
{
  GListModel *list;

  g_return_if_fail (RW_IS_IMPORT_DIALOG (dialog));
  list = gtk_drop_down_get_model (GTK_DROP_DOWN (dialog->device[console != FALSE]));
  for (guint i = 0; i < g_list_model_get_n_items (list); i++)
    {
      g_autoptr (GtkStringObject) item = g_list_model_get_item (list, i);
      if (g_strcmp0 (gtk_string_object_get_string (item), title) == 0 || (title == NULL && i == 0))
        gtk_drop_down_set_selected (GTK_DROP_DOWN (dialog->device[console != FALSE]), i);
    }
}

void
rw_import_dialog_accept (RwImportDialog *dialog)
{
  g_autoptr (GError) error = NULL;

  g_return_if_fail (RW_IS_IMPORT_DIALOG (dialog));
  if (rw_document_do (dialog->document, dialog->change, &error))
    {
      g_signal_emit (dialog, taken_signal, 0, dialog->n_lines);
      gtk_window_close (GTK_WINDOW (dialog));
    }
  else
    rw_remark_list_set_title (RW_REMARK_LIST (dialog->remarks), error->message);
}

static void
take_clicked (GtkButton *button, gpointer user_data)
{
  rw_import_dialog_accept (user_data);
}

static void
cancel_clicked (GtkButton *button, gpointer user_data)
{
  gtk_window_close (user_data);
}

/* --- What it is made of --- */

static void
add_row (GtkWidget *box, const char *label, GtkWidget *control)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *caption = gtk_label_new (label);

  gtk_box_append (GTK_BOX (row), caption);
  gtk_box_append (GTK_BOX (row), control);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (control), GTK_ACCESSIBLE_RELATION_LABELLED_BY, caption, NULL, -1);
  gtk_box_append (GTK_BOX (box), row);
}

static GtkWidget *
make_devices (RwImportDialog *dialog, gboolean consoles)
{
  const RwRig *rig = rw_document_rig (dialog->document);
  GtkStringList *list = gtk_string_list_new (NULL);
  GtkWidget *drop;

  gtk_string_list_append (list, _("None"));
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i];
      const RwPart *part = rw_rig_part_of (rig, device);

      if (rw_device_is_console (rig, device) != consoles || (!consoles && part->sends == 0 && part->receives == 0))
        continue;
      gtk_string_list_append (list, rw_device_title (device));
      g_ptr_array_add (dialog->devices[consoles], g_strdup (rw_item_key (device)));
    }
  drop = gtk_drop_down_new (G_LIST_MODEL (list), NULL);
  g_signal_connect (drop, "notify::selected", G_CALLBACK (device_chosen), dialog);
  return drop;
}

static GtkWidget *
make_options (RwImportDialog *dialog)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 14);

  dialog->side = gtk_drop_down_new_from_strings ((const char *const[]) { _("Inputs"), _("Outputs"), NULL });
  gtk_drop_down_set_selected (GTK_DROP_DOWN (dialog->side), dialog->import->side);
  g_signal_connect (dialog->side, "notify::selected", G_CALLBACK (side_chosen), dialog);
  dialog->heading = gtk_check_button_new_with_label (_("The first row names the columns"));
  g_signal_connect (dialog->heading, "toggled", G_CALLBACK (heading_toggled), dialog);
  for (guint i = 0; i < G_N_ELEMENTS (dialog->device); i++)
    dialog->device[i] = make_devices (dialog, i == 1);
  add_row (box, _("A list of"), dialog->side);
  add_row (box, _("Where none is named: device"), dialog->device[0]);
  add_row (box, _("Console"), dialog->device[1]);
  gtk_box_append (GTK_BOX (box), dialog->heading);
  return box;
}

static GtkWidget *
make_origin (void)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_MIDDLE);
  gtk_widget_add_css_class (label, "rw-heading");
  return label;
}

/* As high as the rows that it shows: what is left of the dialog goes to the remarks. */
static GtkWidget *
make_scroll (GtkWidget *table)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), table);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroll), TABLE_HEIGHT);
  return scroll;
}

static GtkWidget *
make_caution (void)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  return label;
}

static GtkWidget *
make_buttons (RwImportDialog *dialog)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *cancel = gtk_button_new_with_mnemonic (_("_Cancel"));

  dialog->take = gtk_button_new_with_mnemonic (_("_Import"));
  gtk_widget_add_css_class (dialog->take, "suggested-action");
  g_signal_connect (cancel, "clicked", G_CALLBACK (cancel_clicked), dialog);
  g_signal_connect (dialog->take, "clicked", G_CALLBACK (take_clicked), dialog);
  gtk_widget_set_halign (row, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (row), cancel);
  gtk_box_append (GTK_BOX (row), dialog->take);
  return row;
}

static void
make_content (RwImportDialog *dialog)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);

  dialog->table = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (dialog->table), 10);
  gtk_grid_set_row_spacing (GTK_GRID (dialog->table), 4);
  gtk_widget_add_css_class (dialog->table, "rw-import-table");
  dialog->caution = make_caution ();
  dialog->remarks = rw_remark_list_new ();
  gtk_widget_add_css_class (box, "rw-dialog-body");
  dialog->origin = make_origin ();
  gtk_box_append (GTK_BOX (box), dialog->origin);
  gtk_box_append (GTK_BOX (box), make_options (dialog));
  gtk_box_append (GTK_BOX (box), make_scroll (dialog->table));
  gtk_box_append (GTK_BOX (box), dialog->caution);
  gtk_box_append (GTK_BOX (box), dialog->remarks);
  gtk_box_append (GTK_BOX (box), make_buttons (dialog));
  gtk_window_set_child (GTK_WINDOW (dialog), box);
}

static gboolean
escaped (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

GtkWidget *
rw_import_dialog_new (GtkWindow *parent, RwDocument *document, RwLineImport *import, const char *name)
{
  RwImportDialog *dialog = g_object_new (RW_TYPE_IMPORT_DIALOG, NULL);

  dialog->document = g_object_ref (document);
  dialog->import = import;
  dialog->name = g_strdup (name);
  gtk_window_set_title (GTK_WINDOW (dialog), _("Import lines"));
  gtk_window_set_transient_for (GTK_WINDOW (dialog), parent);
  gtk_window_set_modal (GTK_WINDOW (dialog), TRUE);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (dialog), TRUE);
  gtk_window_set_default_size (GTK_WINDOW (dialog), 1000, 620);
  make_content (dialog);
  gtk_window_set_default_widget (GTK_WINDOW (dialog), dialog->take);
  show_table (dialog);
  try_out (dialog);
  return GTK_WIDGET (dialog);
}

static void
rw_import_dialog_finalize (GObject *object)
{
  RwImportDialog *dialog = RW_IMPORT_DIALOG (object);

  g_clear_pointer (&dialog->change, rw_change_unref);
  g_clear_pointer (&dialog->import, rw_line_import_free);
  g_clear_object (&dialog->document);
  g_free (dialog->name);
  g_ptr_array_unref (dialog->meanings);
  for (guint i = 0; i < G_N_ELEMENTS (dialog->devices); i++)
    g_ptr_array_unref (dialog->devices[i]);
  G_OBJECT_CLASS (rw_import_dialog_parent_class)->finalize (object);
}

static void
rw_import_dialog_class_init (RwImportDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_import_dialog_finalize;
  taken_signal = g_signal_new ("taken", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                               G_TYPE_UINT);
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, escaped, NULL);
}

static void
rw_import_dialog_init (RwImportDialog *dialog)
{
  dialog->meanings = g_ptr_array_new ();
  for (guint i = 0; i < G_N_ELEMENTS (dialog->devices); i++)
    dialog->devices[i] = g_ptr_array_new_with_free_func (g_free);
}
