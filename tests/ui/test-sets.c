/* SPDX-License-Identifier: MIT */
/* The window of patch sets: store, look, recall, and each step undone. */
#include <file/rw-file.h>
#include <rig/rw-edit.h>
#include <rig/rw-line.h>
#include <string.h>
#include <ui/rw-sets-dialog.h>

#define RIG \
  "{\"rigwright\": 1, \"parts\": [" \
  "{\"id\": \"desk\", \"kind\": \"controller\", \"sends\": 16, \"receives\": 32, \"strips\": 32, \"buses\": 16}," \
  "{\"id\": \"box\", \"kind\": \"rack\", \"sends\": 16, \"receives\": 8}, {\"id\": \"small\", \"kind\": \"rack\", \"sends\": 1}]," \
  "\"devices\": [{\"id\": \"foh\", \"part\": \"desk\", \"name\": \"FOH\"}, {\"id\": \"left\", \"part\": \"box\", \"name\": \"Left\"}," \
  "{\"id\": \"right\", \"part\": \"box\", \"name\": \"Right\"}, {\"id\": \"tiny\", \"part\": \"small\", \"name\": \"Tiny\"}]," \
  "\"patch\": [{\"id\": \"p1\", \"from\": [\"left\", 1], \"to\": [\"foh\", 1]}, {\"id\": \"p2\", \"from\": [\"left\", 2], \"to\": [\"foh\", 2]}]," \
  "\"channels\": [{\"device\": \"left\", \"side\": \"send\", \"number\": 1, \"name\": \"Kick\", \"phantom\": true}]}"

typedef struct
{
  RwDocument *document;
  GtkWindow *parent;
  RwSetsDialog *dialog;
} Asked;

static void
open_dialog (Asked *asked)
{
  asked->dialog = RW_SETS_DIALOG (rw_sets_dialog_new (asked->parent, asked->document, RW_SCOPE_INPUTS));
  gtk_window_present (GTK_WINDOW (asked->dialog));
}

static Asked
ask (void)
{
  g_autoptr (RwRig) rig = rw_file_read_bytes (RIG, strlen (RIG), "test", NULL);
  Asked asked = { .document = rw_document_new_for_rig (rig) };

  asked.parent = GTK_WINDOW (gtk_window_new ());
  open_dialog (&asked);
  return asked;
}

static void
asked_clear (Asked *asked)
{
  gtk_window_destroy (asked->parent);
  g_object_unref (asked->document);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Asked, asked_clear)

static void
remove_item (Asked *asked, const char *key)
{
  RwEdit *edit = rw_edit_new (rw_document_rig (asked->document), "Remove");
  g_autoptr (RwChange) change = NULL;

  rw_edit_remove (edit, key);
  change = rw_edit_finish (edit);
  g_assert_true (rw_document_do (asked->document, change, NULL));
}

static const char *
summary (Asked *asked)
{
  return rw_recall_pane_get_summary (rw_sets_dialog_get_pane (asked->dialog));
}

static guint
n_sets (Asked *asked)
{
  return rw_rig_n (rw_document_rig (asked->document), RW_ITEM_SET);
}

/* How many choosers of devices in @widget can be searched: a rig may have a hundred devices. */
static guint
n_searched (GtkWidget *widget)
{
  guint n = GTK_IS_DROP_DOWN (widget) && gtk_drop_down_get_enable_search (GTK_DROP_DOWN (widget))
            && gtk_drop_down_get_expression (GTK_DROP_DOWN (widget)) != NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    n += n_searched (child);
  return n;
}

static void
test_store_and_recall (void)
{
  g_auto (Asked) asked = ask ();
  RwRig *rig = rw_document_rig (asked.document);

  g_assert_null (rw_sets_dialog_get_set (asked.dialog));
  g_assert_true (rw_sets_dialog_store (asked.dialog, " Act one ", RW_SCOPE_INPUTS, "FOH"));
  g_assert_cmpstr (rw_set_title (rw_sets_dialog_get_set (asked.dialog)), ==, "Act one");
  g_assert_cmpstr (summary (&asked), ==, "The patch is as it is stored.");
  remove_item (&asked, "p2");
  remove_item (&asked, "/channel/left/send/1");
  g_assert_cmpstr (summary (&asked), ==, "2 come");
  g_assert_cmpstr (rw_recall_pane_get_preview (rw_sets_dialog_get_pane (asked.dialog)), ==,
                   "Patch row Left, send 2 → FOH, receive 2 added\nSend 1 of Left added");
  g_assert_true (rw_sets_dialog_recall (asked.dialog));
  g_assert_nonnull (rw_rig_find (rig, "p2"));
  g_assert_cmpstr (rw_history_undo_name (rw_document_history (asked.document)), ==, "Recall Act one");
  g_assert_true (rw_document_undo (asked.document));
  g_assert_null (rw_rig_find (rig, "p2"));
}

/* Another device stands in; what cannot be is said, and cannot be done. */
static void
test_onto_another (void)
{
  g_auto (Asked) asked = ask ();
  RwRig *rig = rw_document_rig (asked.document);
  RwRecallPane *pane = rw_sets_dialog_get_pane (asked.dialog);

  g_assert_true (rw_sets_dialog_store (asked.dialog, "Act one", RW_SCOPE_ALL, NULL));
  g_assert_cmpuint (n_searched (GTK_WIDGET (pane)), >=, 2);
  rw_recall_pane_choose (pane, 1, "Tiny");
  g_assert_null (rw_recall_pane_get_change (pane));
  g_assert_nonnull (strstr (summary (&asked), "Tiny has too few sends"));
  g_assert_false (rw_sets_dialog_recall (asked.dialog));
  rw_recall_pane_choose (pane, 1, NULL);
  g_assert_nonnull (strstr (summary (&asked), "2 rows of the set are left out"));
  rw_recall_pane_choose (pane, 1, "Right");
  g_assert_true (rw_sets_dialog_recall (asked.dialog));
  g_assert_cmpstr (((RwPatchRow *) rw_rig_items (rig, RW_ITEM_PATCH)[0])->from.device, ==, "right");
  g_assert_nonnull (rw_rig_find (rig, "/channel/right/send/1"));
}

static void
test_names (void)
{
  g_auto (Asked) asked = ask ();

  g_assert_false (rw_sets_dialog_store (asked.dialog, "  ", RW_SCOPE_ALL, NULL));
  g_assert_cmpstr (rw_sets_dialog_get_problem (asked.dialog), !=, "");
  g_assert_true (rw_sets_dialog_store (asked.dialog, "One", RW_SCOPE_ALL, NULL));
  g_assert_cmpstr (rw_sets_dialog_get_problem (asked.dialog), ==, "");
  g_assert_false (rw_sets_dialog_store (asked.dialog, "One", RW_SCOPE_INPUTS, NULL));
  g_assert_cmpuint (n_sets (&asked), ==, 1);
  g_assert_true (rw_sets_dialog_store (asked.dialog, "Two", RW_SCOPE_OUTPUTS, NULL));
  g_assert_false (rw_sets_dialog_rename (asked.dialog, "One"));
  g_assert_true (rw_sets_dialog_rename (asked.dialog, "Three"));
  g_assert_cmpstr (rw_set_title (rw_sets_dialog_get_set (asked.dialog)), ==, "Three");
  rw_sets_dialog_select (asked.dialog, 0);
  g_assert_cmpstr (rw_set_title (rw_sets_dialog_get_set (asked.dialog)), ==, "One");
}

static void
test_replace_and_delete (void)
{
  g_auto (Asked) asked = ask ();

  g_assert_true (rw_sets_dialog_store (asked.dialog, "One", RW_SCOPE_INPUTS, "FOH"));
  remove_item (&asked, "p2");
  g_assert_true (rw_sets_dialog_replace (asked.dialog));
  g_assert_cmpstr (summary (&asked), ==, "The patch is as it is stored.");
  g_assert_true (rw_document_undo (asked.document));
  g_assert_cmpstr (summary (&asked), ==, "1 comes");
  g_assert_true (rw_sets_dialog_delete (asked.dialog));
  g_assert_cmpuint (n_sets (&asked), ==, 0);
  g_assert_null (rw_sets_dialog_get_set (asked.dialog));
  g_assert_true (rw_document_undo (asked.document));
  g_assert_cmpuint (n_sets (&asked), ==, 1);
  g_assert_cmpstr (rw_set_title (rw_sets_dialog_get_set (asked.dialog)), ==, "One");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/sets/store-and-recall", test_store_and_recall);
  g_test_add_func ("/sets/onto-another", test_onto_another);
  g_test_add_func ("/sets/names", test_names);
  g_test_add_func ("/sets/replace-and-delete", test_replace_and_delete);
  return g_test_run ();
}
