/* SPDX-License-Identifier: MIT */
/* No label of any window is cut off on the smallest screen, in the language that is set. */
#include "rw-config.h"

#include <file/rw-data-dir.h>
#include <glib/gi18n-lib.h>
#include <graphene.h>
#include <locale.h>
#include <rig/rw-edit.h>
#include <string.h>
#include <ui/rw-export-dialog.h>
#include <ui/rw-papers-dialog.h>
#include <ui/rw-revisions-window.h>

#include "window-hand.h"

#include <ui/rw-fold.h>
#include <ui/rw-line-view-private.h>

#define SCREEN_WIDTH 1280
#define SCREEN_HEIGHT 720
#define LEAST_LABELS 3 /* that a window shows */

typedef struct
{
  const char *where;
  guint n_labels, n_faults;
} Tally;

static void
complain (Tally *tally, GtkWidget *label, const char *what)
{
  g_printerr ("%s: “%s” %s\n", tally->where, gtk_label_get_text (GTK_LABEL (label)), what);
  tally->n_faults++;
}

/* The text as it is laid out has room in what the label was given. */
static void
check_room (Tally *tally, GtkWidget *label)
{
  int width, height;

  pango_layout_get_pixel_size (gtk_label_get_layout (GTK_LABEL (label)), &width, &height);
  if (width > gtk_widget_get_width (label))
    complain (tally, label, "is wider than its label");
  if (height > gtk_widget_get_height (label))
    complain (tally, label, "is higher than its label");
}

/* Where a text is shortened, the pointer shows the whole. */
static void
check_tooltip (Tally *tally, GtkWidget *label)
{
  GtkWidget *at = label;

  if (!pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))))
    return;
  while (at != NULL && !gtk_widget_get_has_tooltip (at))
    at = gtk_widget_get_parent (at);
  if (at == NULL)
    complain (tally, label, "is shortened and is nowhere whole");
}

/* Nothing round the label hides a part of it, unless it can be scrolled into view. */
static void
check_seen (Tally *tally, GtkWidget *label)
{
  gboolean along = TRUE, down = TRUE;

  for (GtkWidget *at = gtk_widget_get_parent (label); at != NULL; at = gtk_widget_get_parent (at))
    {
      graphene_rect_t box;

      if (GTK_IS_SCROLLED_WINDOW (at))
        {
          GtkPolicyType across, up;

          gtk_scrolled_window_get_policy (GTK_SCROLLED_WINDOW (at), &across, &up);
          along = along && across == GTK_POLICY_NEVER;
          down = down && up == GTK_POLICY_NEVER;
        }
      if (gtk_widget_get_overflow (at) != GTK_OVERFLOW_HIDDEN && !GTK_IS_ROOT (at))
        continue;
      if (GTK_IS_SCROLLABLE (at))
        continue; /* its scrolled window comes next */
      g_assert_true (gtk_widget_compute_bounds (label, at, &box));
      if (along && (box.origin.x < -0.5 || box.origin.x + box.size.width > gtk_widget_get_width (at) + 0.5))
        complain (tally, label, "sticks out to the side");
      if (down && (box.origin.y < -0.5 || box.origin.y + box.size.height > gtk_widget_get_height (at) + 0.5))
        complain (tally, label, "sticks out above or below");
    }
}

static void
check_below (Tally *tally, GtkWidget *widget)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (GTK_IS_LABEL (widget) && *gtk_label_get_text (GTK_LABEL (widget)) != '\0')
    {
      tally->n_labels++;
      check_room (tally, widget);
      check_tooltip (tally, widget);
      check_seen (tally, widget);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    check_below (tally, child);
}

static void
check_window (GtkWidget *window, const char *where)
{
  Tally tally = { .where = where };

  g_assert_true (gtk_widget_get_mapped (window));
  if (gtk_widget_get_width (window) > SCREEN_WIDTH || gtk_widget_get_height (window) > SCREEN_HEIGHT)
    {
      g_printerr ("%s: %d × %d pixels are more than the screen has\n", where, gtk_widget_get_width (window),
                  gtk_widget_get_height (window));
      tally.n_faults++;
    }
  check_below (&tally, window);
  g_assert_cmpuint (tally.n_labels, >=, LEAST_LABELS);
  if (tally.n_faults > 0)
    g_test_fail_printf ("%s: %u faults at %u labels", where, tally.n_faults, tally.n_labels);
}

static void
begin (Hand *hand)
{
  g_autofree char *path = rw_data_path ("examples/festival-60.rig");
  g_autoptr (GFile) file = g_file_new_for_path (path);

  hand_begin (hand);
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  gtk_window_set_default_size (GTK_WINDOW (hand->window), SCREEN_WIDTH, SCREEN_HEIGHT);
  g_assert_true (rw_window_load (hand->window, file));
  hand_settle ();
}

static void
select_first (Hand *hand, RwItemType type)
{
  RwRig *rig = rw_document_rig (hand->window->document);

  hand_select (hand, rw_item_key (rw_rig_items (rig, type)[0]));
}

/* Nothing, one thing of each kind, all things: each shows other particulars. */
static void
test_selection (void)
{
  Hand hand;

  begin (&hand);
  check_window (GTK_WIDGET (hand.window), "nothing chosen");
  select_first (&hand, RW_ITEM_DEVICE);
  check_window (GTK_WIDGET (hand.window), "a device chosen");
  select_first (&hand, RW_ITEM_CABLE);
  check_window (GTK_WIDGET (hand.window), "a cable chosen");
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.select-all", NULL);
  hand_settle ();
  check_window (GTK_WIDGET (hand.window), "everything chosen");
  hand_end (&hand);
}

/* Every device has a name that no place in the window has room for. */
static void
lengthen (Hand *hand)
{
  RwEdit *edit = rw_edit_new (rw_document_rig (hand->window->document), "Lengthen");
  guint name = (guint) rw_table_find (rw_item_type_table (RW_ITEM_DEVICE), "name", -1, 0);
  g_autoptr (RwChange) change = NULL;

  for (const char *key = rw_edit_first (edit, RW_ITEM_DEVICE); key != NULL; key = rw_edit_next (edit, RW_ITEM_DEVICE, key))
    {
      g_autofree char *text = g_strconcat (key, " beside the uppermost Überlängenbezeichnungsgegenstand of the grandstand", NULL);

      g_assert_true (rw_edit_set (edit, key, name, g_variant_new_string (text), NULL));
    }
  change = rw_edit_finish (edit);
  g_assert_true (rw_document_do (hand->window->document, change, NULL));
  hand_settle ();
}

static void
test_long_names (void)
{
  Hand hand;

  begin (&hand);
  lengthen (&hand);
  select_first (&hand, RW_ITEM_DEVICE);
  check_window (GTK_WIDGET (hand.window), "a device of a long name chosen");
  select_first (&hand, RW_ITEM_CABLE);
  check_window (GTK_WIDGET (hand.window), "a cable between long names chosen");
  g_object_set (hand.window, "lens", "hops", "view", "list", "lines-shown", TRUE, NULL);
  hand_settle ();
  check_window (GTK_WIDGET (hand.window), "lists of long names");
  hand_end (&hand);
}

/* What else the main window shows: the list of all things, the line list, and each lens. */
static void
test_views (void)
{
  static const struct { const char *where, *property, *value; } views[] = {
    { "list of things", "view", "list" },       { "particulars", "view", "fields" },
    { "planes lens", "lens", "planes" },        { "hops lens", "lens", "hops" },
    { "load lens", "lens", "load" },            { "failure lens", "lens", "failure" },
    { "wiring lens", "lens", "wiring" },
  };
  Hand hand;

  begin (&hand);
  select_first (&hand, RW_ITEM_DEVICE);
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    {
      g_object_set (hand.window, views[i].property, views[i].value, NULL);
      hand_settle ();
      check_window (GTK_WIDGET (hand.window), views[i].where);
    }
  g_object_set (hand.window, "lines-shown", TRUE, NULL);
  hand_settle ();
  check_window (GTK_WIDGET (hand.window), "line list");
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.find", NULL);
  hand_settle ();
  check_window (GTK_WIDGET (hand.window), "find bar");
  hand_end (&hand);
}

static void
assert_small (Hand *hand)
{
  int width, height;

  gtk_widget_measure (GTK_WIDGET (hand->window), GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
  gtk_widget_measure (GTK_WIDGET (hand->window), GTK_ORIENTATION_VERTICAL, -1, &height, NULL, NULL, NULL);
  g_assert_cmpint (width, <=, 900);
  g_assert_cmpint (height, <=, 600);
}

/* In a window of 900 × 600 the line list folds its bar, and no lens makes the panel beside the sheet wider. */
static void
test_small_window (void)
{
  Hand hand;
  int side;

  begin (&hand);
  gtk_window_set_default_size (GTK_WINDOW (hand.window), 900, 600);
  hand_settle ();
  g_object_set (hand.window, "lines-shown", TRUE, NULL);
  hand_settle ();
  assert_small (&hand);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (hand.window)), <=, 900);
  g_assert_true (rw_fold_is_folded (RW_FOLD (hand.window->lines->commands)));
  check_window (GTK_WIDGET (hand.window), "a small window with the line list");
  side = gtk_widget_get_width (hand.window->findings_paned);
  select_first (&hand, RW_ITEM_DEVICE);
  check_window (GTK_WIDGET (hand.window), "a small window with the lines of one device");
  g_object_set (hand.window, "lens", "failure", NULL);
  hand_settle ();
  assert_small (&hand);
  g_assert_cmpint (gtk_widget_get_width (hand.window->findings_paned), ==, side);
  check_window (GTK_WIDGET (hand.window), "a small window with the failure lens");
  rw_selection_clear (rw_document_selection (hand.window->document));
  gtk_window_set_default_size (GTK_WINDOW (hand.window), 1270, 700);
  hand_settle ();
  g_assert_false (rw_fold_is_folded (RW_FOLD (hand.window->lines->commands)));
  hand_end (&hand);
}

/* (transfer full) (nullable) */
static GtkWidget *
other_window (Hand *hand)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (window != GTK_WIDGET (hand->window) && gtk_widget_get_mapped (window))
        return g_steal_pointer (&window);
    }
  return NULL;
}

static gboolean
is_ready (gpointer dialog)
{
  if (RW_IS_PAPERS_DIALOG (dialog))
    return !rw_papers_dialog_is_laying_out (dialog);
  if (RW_IS_REVISIONS_WINDOW (dialog))
    return !rw_revisions_window_is_busy (dialog);
  return !RW_IS_EXPORT_DIALOG (dialog) || !rw_export_dialog_is_busy (dialog);
}

static void
check_dialog (Hand *hand, const char *where)
{
  g_autoptr (GtkWidget) dialog = other_window (hand);

  if (dialog == NULL)
    g_error ("%s opened no window", where);
  hand_wait (is_ready, dialog);
  hand_settle ();
  check_window (dialog, where);
}

/* The window that an action opens. */
static void
test_dialog (gconstpointer action)
{
  Hand hand;

  begin (&hand);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (hand.window), action, NULL));
  hand_settle ();
  check_dialog (&hand, action);
  hand_end (&hand);
}

static void
test_import (void)
{
  g_autofree char *path = NULL;
  Hand hand;

  begin (&hand);
  path = g_build_filename (hand.folder, "lines.csv", NULL);
  g_assert_true (g_file_set_contents (path, "Number,Name,Source\n1,Kick,Stage left\n2,Snare,Nowhere\n", -1, NULL));
  rw_window_lines_import (hand.window, path);
  hand_settle ();
  check_dialog (&hand, "import");
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  static const char *const actions[] = {
    "win.export", "win.papers", "win.issue", "win.revisions", "win.examples", "win.patch-sets", "win.number", "win.label",
    "win.address", "win.make-chain", "win.make-redundant", "win.show-help-overlay",
  };

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, rw_locale_dir ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  gtk_test_init (&argc, &argv, NULL);
  setlocale (LC_ALL, "");
  /* The language that was asked for is there. */
  if (g_strcmp0 (g_getenv ("RIGWRIGHT_TEST_LANGUAGE"), "de") == 0)
    g_assert_cmpstr (_("Untitled rig"), !=, "Untitled rig");
  g_test_add_func ("/labels/selection", test_selection);
  g_test_add_func ("/labels/small-window", test_small_window);
  g_test_add_func ("/labels/long-names", test_long_names);
  g_test_add_func ("/labels/views", test_views);
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    {
      g_autofree char *name = g_strconcat ("/labels/", actions[i] + strlen ("win."), NULL);

      g_test_add_data_func (name, actions[i], test_dialog);
    }
  g_test_add_func ("/labels/import", test_import);
  return g_test_run ();
}
