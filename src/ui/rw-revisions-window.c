/* SPDX-License-Identifier: MIT */
#include "rw-revisions-window.h"

#include <file/rw-file.h>
#include <glib/gi18n-lib.h>
#include <rig/rw-revision.h>
#include "rw-form.h"
#include "rw-issue-dialog.h"
#include "rw-weak.h"

/* A state that can be chosen. */
typedef struct
{
  RwRig *state; /* (nullable): NULL = the rig as it is now */
  char *id;     /* (nullable): of a revision */
  char *title, *detail;
} Choice;

struct _RwRevisionsWindow
{
  GtkWindow parent_instance;
  RwDocument *document;
  GPtrArray *choices;   /* of Choice: what can be compared: revisions, the opened file, now */
  Choice *opened;       /* (nullable): a file */
  RwComparison *comparison; /* (nullable) */
  GCancellable *job;    /* (nullable): while it runs */
  GtkWidget *older, *newer, *detail, *remark, *list, *delete, *spinner;
  GtkStringList *lines;
  GtkSingleSelection *selection;
  RwCompareView *view;
  GtkFileChooserNative *chooser;
  gboolean listing;
};

G_DEFINE_FINAL_TYPE (RwRevisionsWindow, rw_revisions_window, GTK_TYPE_WINDOW)

static void
choice_free (gpointer data)
{
  Choice *choice = data;

  if (choice == NULL)
    return;
  g_clear_object (&choice->state);
  g_free (choice->id);
  g_free (choice->title);
  g_free (choice->detail);
  g_free (choice);
}

static Choice *
choice_new (RwRig *state, const char *id, char *title, char *detail)
{
  Choice *choice = g_new0 (Choice, 1);

  choice->state = state != NULL ? g_object_ref (state) : NULL;
  choice->id = g_strdup (id);
  choice->title = title;
  choice->detail = detail;
  return choice;
}

/* "2031-06-01, Ada: for the venue", of what there is. */
static char *
detail_of (const RwRevision *revision)
{
  GString *text = g_string_new (revision->date);

  if (revision->by != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", revision->by);
  if (revision->what != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? ": " : "", revision->what);
  return g_string_free (text, FALSE);
}

static void
list_choices (RwRevisionsWindow *window)
{
  RwRig *rig = rw_document_rig (window->document);

  g_ptr_array_set_size (window->choices, 0);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_REVISION); i++)
    {
      const RwRevision *revision = (const RwRevision *) rw_rig_items (rig, RW_ITEM_REVISION)[i];

      /* Translators: the letter of a revision. */
      g_ptr_array_add (window->choices, choice_new (revision->state, rw_item_key ((gconstpointer) revision),
                                                    g_strdup_printf (_("Revision %s"), rw_revision_title (revision)), detail_of (revision)));
    }
  if (window->opened != NULL)
    g_ptr_array_add (window->choices, choice_new (window->opened->state, NULL, g_strdup (window->opened->title), g_strdup (window->opened->detail)));
  g_ptr_array_add (window->choices, choice_new (NULL, NULL, g_strdup (_("As it is now")), g_strdup ("")));
}

static const Choice *
chosen (RwRevisionsWindow *window, GtkWidget *drop)
{
  guint at = rw_form_chosen (drop);

  return at < window->choices->len ? window->choices->pdata[at] : NULL;
}

static void
show_comparison (RwRevisionsWindow *window)
{
  const GPtrArray *differences = window->comparison->differences;
  g_autoptr (GPtrArray) texts = g_ptr_array_new ();
  g_autofree char *count = NULL;

  for (guint i = 0; i < differences->len; i++)
    g_ptr_array_add (texts, ((RwDifference *) differences->pdata[i])->message);
  g_ptr_array_add (texts, NULL);
  window->listing = TRUE;
  gtk_string_list_splice (window->lines, 0, g_list_model_get_n_items (G_LIST_MODEL (window->lines)), (const char *const *) texts->pdata);
  gtk_single_selection_set_selected (window->selection, GTK_INVALID_LIST_POSITION);
  window->listing = FALSE;
  count = differences->len == 0 ? g_strdup (_("Nothing differs."))
    : g_strdup_printf (ngettext ("%u difference:", "%u differences:", differences->len), differences->len);
  rw_form_set_note (window->remark, count);
  rw_compare_view_set (window->view, window->comparison->scene, window->comparison->clouds);
}

static void
compared (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (RwRevisionsWindow) window = rw_weak_take (user_data);
  RwComparison *comparison = rw_compare_job_finish (result, NULL);

  if (comparison == NULL || window == NULL || window->view == NULL)
    {
      rw_comparison_free (comparison);
      return;
    }
  g_clear_object (&window->job);
  gtk_spinner_set_spinning (GTK_SPINNER (window->spinner), FALSE);
  rw_comparison_free (window->comparison);
  window->comparison = comparison;
  show_comparison (window);
}

static void
compare (RwRevisionsWindow *window)
{
  const Choice *older = chosen (window, window->older), *newer = chosen (window, window->newer);
  g_autoptr (RwRig) now = rw_rig_snapshot (rw_document_rig (window->document));

  if (window->job != NULL)
    g_cancellable_cancel (window->job);
  g_clear_object (&window->job);
  if (older == NULL || newer == NULL)
    return;
  gtk_widget_set_sensitive (window->delete, older->id != NULL);
  rw_form_set_note (window->detail, older->detail);
  window->job = g_cancellable_new ();
  gtk_spinner_set_spinning (GTK_SPINNER (window->spinner), TRUE);
  rw_compare_job_start (older->state != NULL ? older->state : now, newer->state != NULL ? newer->state : now, window->job, compared,
                        rw_weak_new (window));
}

static void
choice_changed (GObject *object, GParamSpec *pspec, gpointer user_data)
{
  RwRevisionsWindow *window = user_data;

  if (!window->listing)
    compare (window);
}

static void
fill_drop (RwRevisionsWindow *window, GtkWidget *drop, guint at)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < window->choices->len; i++)
    gtk_string_list_append (names, ((Choice *) window->choices->pdata[i])->title);
  gtk_drop_down_set_model (GTK_DROP_DOWN (drop), G_LIST_MODEL (names));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), at);
}

/* The last issue against now, which is what is asked for mostly. */
static void
begin_anew (RwRevisionsWindow *window)
{
  guint n;

  list_choices (window);
  n = window->choices->len;
  window->listing = TRUE;
  fill_drop (window, window->older, n > 1 ? n - 2 : 0);
  fill_drop (window, window->newer, n - 1);
  window->listing = FALSE;
  compare (window);
}

static void
document_changed (RwRevisionsWindow *window)
{
  begin_anew (window);
}

static guint
find_choice (RwRevisionsWindow *window, const char *letter)
{
  const RwRevision *revision = letter != NULL ? rw_revision_find (rw_document_rig (window->document), letter) : NULL;

  for (guint i = 0; revision != NULL && i < window->choices->len; i++)
    if (g_strcmp0 (((Choice *) window->choices->pdata[i])->id, rw_item_key ((gconstpointer) revision)) == 0)
      return i;
  return window->choices->len - 1;
}

void
rw_revisions_window_compare (RwRevisionsWindow *window, const char *older, const char *newer)
{
  g_return_if_fail (RW_IS_REVISIONS_WINDOW (window));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (window->older), find_choice (window, older));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (window->newer), find_choice (window, newer));
}

/* Another file becomes the older state. */
gboolean
rw_revisions_window_open (RwRevisionsWindow *window, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_file_read (path, &error);

  g_return_val_if_fail (RW_IS_REVISIONS_WINDOW (window), FALSE);
  if (rig == NULL)
    {
      rw_form_set_note (window->remark, error->message);
      return FALSE;
    }
  choice_free (window->opened);
  {
    g_autoptr (RwRig) state = rw_rig_snapshot (rig);

    window->opened = choice_new (state, NULL, g_filename_display_basename (path), g_filename_display_name (path));
  }
  begin_anew (window);
  return TRUE;
}

static void
file_chosen (GtkNativeDialog *chooser, int response, gpointer user_data)
{
  RwRevisionsWindow *window = user_data;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    rw_revisions_window_open (window, path);
  g_clear_object (&window->chooser);
}

static void
file_clicked (GtkButton *button, gpointer user_data)
{
  RwRevisionsWindow *window = user_data;

  g_clear_object (&window->chooser);
  window->chooser = gtk_file_chooser_native_new (_("Compare with a file"), GTK_WINDOW (window), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Compare"), _("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (window->chooser), TRUE);
  g_signal_connect (window->chooser, "response", G_CALLBACK (file_chosen), window);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (window->chooser));
}

static void
issue_clicked (GtkButton *button, gpointer user_data)
{
  RwRevisionsWindow *window = user_data;

  gtk_window_present (GTK_WINDOW (rw_issue_dialog_new (GTK_WINDOW (window), window->document)));
}

static void
delete_clicked (GtkButton *button, gpointer user_data)
{
  RwRevisionsWindow *window = user_data;
  const Choice *choice = chosen (window, window->older);
  g_autoptr (RwChange) change = NULL;

  if (choice == NULL || choice->id == NULL)
    return;
  change = rw_revision_forget (rw_document_rig (window->document), choice->id);
  rw_document_do (window->document, change, NULL);
}

static void
whole_clicked (GtkButton *button, gpointer user_data)
{
  RwRevisionsWindow *window = user_data;

  gtk_single_selection_set_selected (window->selection, GTK_INVALID_LIST_POSITION);
  rw_compare_view_show (window->view, (RwRect) { 0 });
}

static void
line_chosen (GObject *object, GParamSpec *pspec, gpointer user_data)
{
  RwRevisionsWindow *window = user_data;
  guint at = gtk_single_selection_get_selected (window->selection);

  if (window->listing || window->comparison == NULL || at >= window->comparison->differences->len)
    return;
  rw_compare_view_show (window->view, rw_clouds_place (window->comparison->scene, window->comparison->older,
                                                       window->comparison->differences->pdata[at]));
}

void
rw_revisions_window_choose_line (RwRevisionsWindow *window, guint line)
{
  gtk_single_selection_set_selected (window->selection, line);
}

static gboolean
escaped (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static void
rw_revisions_window_dispose (GObject *object)
{
  RwRevisionsWindow *window = RW_REVISIONS_WINDOW (object);

  if (window->job != NULL)
    g_cancellable_cancel (window->job);
  g_clear_object (&window->job);
  if (window->document != NULL)
    g_signal_handlers_disconnect_by_data (rw_document_rig (window->document), window);
  g_clear_object (&window->document);
  g_clear_object (&window->chooser);
  g_clear_pointer (&window->comparison, rw_comparison_free);
  window->view = NULL;
  G_OBJECT_CLASS (rw_revisions_window_parent_class)->dispose (object);
}

static void
rw_revisions_window_finalize (GObject *object)
{
  RwRevisionsWindow *window = RW_REVISIONS_WINDOW (object);

  g_ptr_array_unref (window->choices);
  choice_free (window->opened);
  G_OBJECT_CLASS (rw_revisions_window_parent_class)->finalize (object);
}

static void
rw_revisions_window_class_init (RwRevisionsWindowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_revisions_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = rw_revisions_window_finalize;
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, escaped, NULL);
}

static void
rw_revisions_window_init (RwRevisionsWindow *window)
{
}

static GtkWidget *
make_list (RwRevisionsWindow *window)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();

  window->lines = gtk_string_list_new (NULL);
  window->selection = gtk_single_selection_new (G_LIST_MODEL (window->lines));
  gtk_single_selection_set_autoselect (window->selection, FALSE);
  gtk_single_selection_set_can_unselect (window->selection, TRUE);
  g_signal_connect (window->selection, "notify::selected", G_CALLBACK (line_chosen), window);
  window->list = gtk_list_view_new (GTK_SELECTION_MODEL (window->selection), rw_form_text_factory (40));
  gtk_accessible_update_property (GTK_ACCESSIBLE (window->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _("What differs"), -1);
  gtk_widget_add_css_class (window->list, "rw-difference-list");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), window->list);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_widget_set_vexpand (scroll, TRUE);
  return scroll;
}

static GtkWidget *
add_button (RwRevisionsWindow *window, GtkWidget *row, const char *label, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  g_signal_connect (button, "clicked", clicked, window);
  gtk_box_append (GTK_BOX (row), button);
  return button;
}

static GtkWidget *
make_side (RwRevisionsWindow *window)
{
  GtkWidget *side = rw_form_new (), *ways = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *count = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  gtk_widget_add_css_class (side, "rw-dialog-body");
  window->older = rw_form_drop (NULL, 0);
  window->newer = rw_form_drop (NULL, 0);
  g_signal_connect (window->older, "notify::selected", G_CALLBACK (choice_changed), window);
  g_signal_connect (window->newer, "notify::selected", G_CALLBACK (choice_changed), window);
  window->detail = rw_form_note ();
  gtk_widget_add_css_class (window->detail, "rw-small");
  window->remark = rw_form_note ();
  window->spinner = gtk_spinner_new ();
  gtk_widget_set_hexpand (window->remark, TRUE);
  gtk_box_append (GTK_BOX (count), window->remark);
  gtk_box_append (GTK_BOX (count), window->spinner);
  rw_form_add (side, _("From"), window->older);
  gtk_box_append (GTK_BOX (side), window->detail);
  rw_form_add (side, _("To"), window->newer);
  gtk_box_set_homogeneous (GTK_BOX (ways), TRUE);
  add_button (window, ways, _("From a _file…"), G_CALLBACK (file_clicked));
  window->delete = add_button (window, ways, _("_Delete this revision"), G_CALLBACK (delete_clicked));
  gtk_box_append (GTK_BOX (side), ways);
  gtk_box_append (GTK_BOX (side), count);
  gtk_box_append (GTK_BOX (side), make_list (window));
  gtk_box_set_homogeneous (GTK_BOX (foot), TRUE);
  add_button (window, foot, _("_Whole drawing"), G_CALLBACK (whole_clicked));
  gtk_widget_add_css_class (add_button (window, foot, _("_Issue a revision…"), G_CALLBACK (issue_clicked)), "suggested-action");
  gtk_box_append (GTK_BOX (side), foot);
  gtk_widget_set_size_request (side, 390, -1);
  gtk_widget_set_hexpand (side, FALSE);
  return side;
}

GtkWidget *
rw_revisions_window_new (GtkWindow *parent, RwDocument *document)
{
  RwRevisionsWindow *window = g_object_new (RW_TYPE_REVISIONS_WINDOW, "transient-for", parent, "modal", TRUE, "title", _("Revisions"),
                                            "destroy-with-parent", TRUE, "default-width", 1100, "default-height", 720, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  window->document = g_object_ref (document);
  window->choices = g_ptr_array_new_with_free_func (choice_free);
  gtk_box_append (GTK_BOX (box), make_side (window));
  window->view = RW_COMPARE_VIEW (rw_compare_view_new ());
  gtk_widget_set_hexpand (GTK_WIDGET (window->view), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (window->view), TRUE);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (window->view));
  gtk_window_set_child (GTK_WINDOW (window), box);
  g_signal_connect_swapped (rw_document_rig (document), "changed", G_CALLBACK (document_changed), window);
  begin_anew (window);
  return GTK_WIDGET (window);
}

gboolean
rw_revisions_window_is_busy (RwRevisionsWindow *window)
{
  return window->job != NULL;
}

const RwComparison *
rw_revisions_window_comparison (RwRevisionsWindow *window)
{
  return window->comparison;
}

guint
rw_revisions_window_n_lines (RwRevisionsWindow *window)
{
  return g_list_model_get_n_items (G_LIST_MODEL (window->lines));
}

RwCompareView *
rw_revisions_window_view (RwRevisionsWindow *window)
{
  return window->view;
}

const char *
rw_revisions_window_remark (RwRevisionsWindow *window)
{
  return gtk_label_get_text (GTK_LABEL (window->remark));
}
