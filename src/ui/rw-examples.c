/* SPDX-License-Identifier: MIT */
#include "rw-examples.h"

#include <file/rw-data-dir.h>
#include <file/rw-file.h>
#include <glib/gi18n-lib.h>
#include <rules/rw-rule.h>
#include "rw-words.h"

#define TRIP "trip-"

typedef struct
{
  GtkWindow *window;
  RwExampleFunc picked;
  gpointer user_data;
} Shown;

static void
example_free (gpointer data)
{
  RwExample *example = data;

  g_free (example->path);
  g_free (example->title);
  g_free (example->about);
  g_free (example->rule);
  g_free (example);
}

/* "trip-unit-id-clash.rig" → "unit-id-clash"; NULL for a rig that trips nothing on purpose. */
static char *
rule_of (const char *name)
{
  if (!g_str_has_prefix (name, TRIP))
    return NULL;
  return g_strndup (name + strlen (TRIP), strlen (name) - strlen (TRIP) - strlen (".rig"));
}

static char *
about_rig (RwRig *rig, const RwRule *rule)
{
  if (rule != NULL)
    return g_strdup (_(rule->title));
  return rw_words_selection (rw_rig_n (rig, RW_ITEM_DEVICE), rw_rig_n (rig, RW_ITEM_CABLE));
}

/* A broken example is passed over here; opening it would say what is wrong. */
static RwExample *
read_example (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (RwRig) rig = rw_file_read (path, NULL);
  RwExample *example;
  const char *title;

  if (rig == NULL)
    return NULL;
  example = g_new0 (RwExample, 1);
  example->rule = rule_of (name);
  title = rw_rig_show (rig)->title;
  example->title = g_strdup (title != NULL ? title : name);
  example->about = about_rig (rig, example->rule != NULL ? rw_rule_find (example->rule) : NULL);
  example->path = g_steal_pointer (&path);
  return example;
}

static int
rule_place (const char *code)
{
  for (guint i = 0; i < rw_n_rules (); i++)
    if (g_strcmp0 (rw_rule (i)->code, code) == 0)
      return (int) i + 1;
  return code == NULL ? 0 : G_MAXINT;
}

static int
compare_examples (gconstpointer a, gconstpointer b)
{
  const RwExample *first = *(RwExample *const *) a, *second = *(RwExample *const *) b;
  int by_rule = rule_place (first->rule) - rule_place (second->rule);

  return by_rule != 0 ? by_rule : strcmp (first->path, second->path);
}

GPtrArray *
rw_examples_list (void)
{
  GPtrArray *examples = g_ptr_array_new_with_free_func (example_free);
  g_autofree char *folder = rw_data_path ("examples");
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      RwExample *example = g_str_has_suffix (name, ".rig") ? read_example (folder, name) : NULL;
      if (example != NULL)
        g_ptr_array_add (examples, example);
    }
  g_ptr_array_sort (examples, compare_examples);
  return examples;
}

static GtkWidget *
make_text (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
make_row (const RwExample *example)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);

  gtk_box_append (GTK_BOX (box), make_text (example->title, NULL));
  gtk_box_append (GTK_BOX (box), make_text (example->about, "rw-small"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, example->title,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, example->about, -1);
  g_object_set_data_full (G_OBJECT (row), "path", g_strdup (example->path), g_free);
  g_object_set_data (G_OBJECT (row), "trips", GINT_TO_POINTER (example->rule != NULL));
  return row;
}

static void
header (GtkListBoxRow *row, GtkListBoxRow *before, gpointer user_data)
{
  gpointer trips = g_object_get_data (G_OBJECT (row), "trips");
  GtkWidget *label;

  if (before != NULL && g_object_get_data (G_OBJECT (before), "trips") == trips)
    return;
  label = make_text (trips != NULL ? _("With one mistake each") : _("Whole rigs"), "rw-group-heading");
  gtk_widget_add_css_class (label, "rw-shelf-heading");
  gtk_list_box_row_set_header (row, label);
}

static void
row_activated (GtkListBox *list, GtkListBoxRow *row, gpointer user_data)
{
  Shown *shown = user_data;
  g_autofree char *path = g_strdup (g_object_get_data (G_OBJECT (row), "path"));
  RwExampleFunc picked = shown->picked;
  gpointer data = shown->user_data;

  gtk_window_destroy (shown->window);
  picked (path, data);
}

static gboolean
escaped (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static GtkWidget *
make_list (Shown *shown)
{
  g_autoptr (GPtrArray) examples = rw_examples_list ();
  GtkWidget *list = gtk_list_box_new ();
  GtkWidget *empty = make_text (_("The example rigs are not installed."), "dim-label");

  for (guint i = 0; i < examples->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (list), make_row (g_ptr_array_index (examples, i)));
  gtk_widget_set_margin_top (empty, 24);
  gtk_widget_set_halign (empty, GTK_ALIGN_CENTER);
  gtk_list_box_set_placeholder (GTK_LIST_BOX (list), empty);
  gtk_list_box_set_header_func (GTK_LIST_BOX (list), header, NULL, NULL);
  gtk_list_box_set_activate_on_single_click (GTK_LIST_BOX (list), TRUE);
  gtk_widget_add_css_class (list, "rw-shelf-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Example rigs"), -1);
  g_signal_connect (list, "row-activated", G_CALLBACK (row_activated), shown);
  return list;
}

GtkWindow *
rw_examples_show (GtkWindow *parent, RwExampleFunc picked, gpointer user_data)
{
  GtkWindow *window = GTK_WINDOW (gtk_window_new ());
  GtkWidget *scroll = gtk_scrolled_window_new ();
  GtkEventController *keys = gtk_shortcut_controller_new ();
  Shown *shown = g_new0 (Shown, 1);

  shown->window = window;
  shown->picked = picked;
  shown->user_data = user_data;
  g_object_set_data_full (G_OBJECT (window), "shown", shown, g_free);
  gtk_window_set_title (window, _("Example rigs"));
  gtk_window_set_modal (window, TRUE);
  gtk_window_set_transient_for (window, parent);
  gtk_window_set_destroy_with_parent (window, TRUE);
  gtk_window_set_default_size (window, 460, 520);
  gtk_shortcut_controller_add_shortcut (
    GTK_SHORTCUT_CONTROLLER (keys), gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                                      gtk_callback_action_new (escaped, NULL, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (window), keys);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), make_list (shown));
  gtk_window_set_child (window, scroll);
  gtk_window_present (window);
  return window;
}
