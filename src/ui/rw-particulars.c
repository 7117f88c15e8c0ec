/* SPDX-License-Identifier: MIT */
#include "rw-particulars.h"

#include <glib/gi18n-lib.h>
#include "rw-far-end.h"
#include "rw-words.h"

/* One sheet of fields and the rows that show it. */
typedef struct
{
  RwParticulars *owner;
  RwFieldSheet *sheet;
  GPtrArray *rows; /* of RwFieldRow, not owned: by line */
} Section;

struct _RwParticulars
{
  GtkWidget parent_instance;
  GtkWidget *scroll;
  GtkWidget *body;
  GtkWidget *title;
  GtkWidget *subtitle;
  GtkWidget *groups;
  RwPortList *ports; /* (nullable) */
  RwDocument *document;
  GPtrArray *sections;
  GHashTable *closed; /* group headings that the person, or the first look, folded */
  char *only;         /* (nullable): the one selected key */
};

G_DEFINE_FINAL_TYPE (RwParticulars, rw_particulars, GTK_TYPE_WIDGET)

enum { PICKED, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
section_free (gpointer data)
{
  Section *section = data;

  /* A row may outlive it a little: while it still tells what was done in it. */
  for (guint i = 0; i < section->rows->len; i++)
    g_signal_handlers_disconnect_by_data (g_ptr_array_index (section->rows, i), section);
  rw_field_sheet_free (section->sheet);
  g_ptr_array_unref (section->rows);
  g_free (section);
}

static int
find_row (Section *section, RwFieldRow *row)
{
  for (guint i = 0; i < section->rows->len; i++)
    if (g_ptr_array_index (section->rows, i) == row)
      return i;
  return -1;
}

static void
row_edited (RwFieldRow *row, GVariant *value, gpointer user_data)
{
  Section *section = user_data;
  RwDocument *document = section->owner->document;
  int line = find_row (section, row);
  g_autoptr (GError) error = NULL;
  g_autoptr (RwChange) change = NULL;
  g_autofree char *keys = NULL;
  g_autofree char *run = NULL;

  g_return_if_fail (line >= 0);
  keys = g_strjoinv (" ", (char **) rw_field_sheet_keys (section->sheet));
  run = g_strdup_printf ("field %s %s", rw_field_sheet_line (section->sheet, line)->path, keys);
  change = rw_field_sheet_set (section->sheet, rw_document_rig (document), line, value, &error);
  if (change == NULL || !rw_document_do_merged (document, change, run, &error))
    rw_field_row_refuse (row, error->message);
}

static void
row_finished (RwFieldRow *row, gpointer user_data)
{
  RwDocument *document = ((Section *) user_data)->owner->document;

  if (document != NULL)
    rw_document_end_run (document);
}

static void
expanded_changed (GObject *expander, GParamSpec *pspec, gpointer user_data)
{
  RwParticulars *particulars = user_data;
  const char *heading = g_object_get_data (expander, "heading");

  if (gtk_expander_get_expanded (GTK_EXPANDER (expander)))
    g_hash_table_remove (particulars->closed, heading);
  else
    g_hash_table_add (particulars->closed, g_strdup (heading));
}

static GtkWidget *
find_expander (RwParticulars *particulars, const char *heading)
{
  for (GtkWidget *child = gtk_widget_get_first_child (particulars->groups); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (g_strcmp0 (g_object_get_data (G_OBJECT (child), "heading"), heading) == 0)
      return child;
  return NULL;
}

/* The box of the group @heading, made at its first use. */
static GtkWidget *
find_group (RwParticulars *particulars, const char *heading)
{
  GtkWidget *expander = find_expander (particulars, heading);
  GtkWidget *box, *label;

  if (expander != NULL)
    return gtk_expander_get_child (GTK_EXPANDER (expander));
  expander = gtk_expander_new (NULL);
  label = gtk_label_new (_(heading));
  gtk_widget_add_css_class (label, "rw-group-heading");
  gtk_expander_set_label_widget (GTK_EXPANDER (expander), label);
  g_object_set_data_full (G_OBJECT (expander), "heading", g_strdup (heading), g_free);
  gtk_expander_set_expanded (GTK_EXPANDER (expander), !g_hash_table_contains (particulars->closed, heading));
  g_signal_connect (expander, "notify::expanded", G_CALLBACK (expanded_changed), particulars);
  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (box, "rw-group");
  gtk_expander_set_child (GTK_EXPANDER (expander), box);
  gtk_box_append (GTK_BOX (particulars->groups), expander);
  return box;
}

/* What is computed from the rig and helps to fill in a field stands below it. */
static void
tell_fact (Section *section, guint line)
{
  const RwNet *net = rw_document_net (section->owner->document);
  const RwFieldSheet *sheet = section->sheet;
  g_autofree char *fact = NULL;

  if (!g_str_equal (rw_field_sheet_line (sheet, line)->path, rw_device_table.fields[RW_DEVICE_RECEIVE_LATENCY_US].name))
    return;
  fact = rw_words_safe_latency (net, rw_field_sheet_keys (sheet));
  rw_field_row_tell (g_ptr_array_index (section->rows, line), fact);
}

static void
show_section (Section *section)
{
  RwRig *rig = rw_document_rig (section->owner->document);

  for (guint i = 0; i < section->rows->len; i++)
    {
      g_autoptr (GVariant) value = NULL;
      g_autoptr (GVariant) fallback = rw_field_sheet_fallback_value (section->sheet, rig, i);
      g_autofree char *text = rw_field_sheet_fallback (section->sheet, rig, i);
      RwShared shared = rw_field_sheet_get (section->sheet, rig, i, &value);

      rw_field_row_show (g_ptr_array_index (section->rows, i), shared, value, fallback, text);
      tell_fact (section, i);
    }
}

/* Where the document never took what the row shows, it has nothing to say: the row is told what holds. */
static void
row_taken_back (RwFieldRow *row, gpointer user_data)
{
  Section *section = user_data;
  RwParticulars *particulars = section->owner;

  rw_document_take_back (particulars->document);
  if (g_ptr_array_find (particulars->sections, section, NULL))
    show_section (section);
}

static void
add_section (RwParticulars *particulars, RwFieldSheet *sheet)
{
  Section *section = g_new0 (Section, 1);

  section->owner = particulars;
  section->sheet = sheet;
  section->rows = g_ptr_array_new ();
  g_ptr_array_add (particulars->sections, section);
  for (guint i = 0; i < rw_field_sheet_n (sheet); i++)
    {
      const RwField *field = rw_field_sheet_line (sheet, i)->field;
      GtkWidget *row = rw_field_row_new (field);
      g_signal_connect (row, "edited", G_CALLBACK (row_edited), section);
      g_signal_connect (row, "taken-back", G_CALLBACK (row_taken_back), section);
      g_signal_connect (row, "finished", G_CALLBACK (row_finished), section);
      /* Long texts take much room: they stand together, at the end. */
      const char *group = (field->flags & RW_FIELD_LONG) != 0 ? N_("Notes") : field->group;
      gtk_box_append (GTK_BOX (find_group (particulars, group)), row);
      g_ptr_array_add (section->rows, row);
    }
  show_section (section);
}

static void
end_clicked (GtkButton *button, gpointer user_data)
{
  g_signal_emit (user_data, signals[PICKED], 0, g_object_get_data (G_OBJECT (button), "key"));
}

static void
ports_picked (RwPortList *ports, const char *key, gpointer user_data)
{
  g_signal_emit (user_data, signals[PICKED], 0, key);
}

static void
add_ports (RwParticulars *particulars, const char *key)
{
  GtkWidget *ports = rw_port_list_new (particulars->document, key);

  particulars->ports = RW_PORT_LIST (ports);
  g_signal_connect (ports, "picked", G_CALLBACK (ports_picked), particulars);
  gtk_box_append (GTK_BOX (find_group (particulars, N_("Ports"))), ports);
  gtk_box_reorder_child_after (GTK_BOX (particulars->groups), find_expander (particulars, "Ports"),
                               gtk_widget_get_first_child (particulars->groups));
}

static void
add_end (RwParticulars *particulars, GtkWidget *box, const char *name, const RwNet *net, guint port)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *label = rw_field_label_new (name);
  g_autofree char *text = rw_words_end (net, port);
  GtkWidget *button = rw_far_end_new ();
  const RwDevice *device = net->devices[net->ports[port].device].device;

  rw_far_end_show (button, text, TRUE);
  g_object_set_data_full (G_OBJECT (button), "key", g_strdup (rw_item_key (device)), g_free);
  g_signal_connect (button, "clicked", G_CALLBACK (end_clicked), particulars);
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), button);
  gtk_box_append (GTK_BOX (box), line);
}

static void
add_ends (RwParticulars *particulars, const char *key)
{
  const RwNet *net = rw_document_net (particulars->document);
  guint cable = rw_net_find_cable (net, key);
  GtkWidget *box;

  if (cable == RW_NONE)
    return;
  box = find_group (particulars, N_("Ends"));
  add_end (particulars, box, _("From"), net, net->cables[cable].port[0]);
  add_end (particulars, box, _("To"), net, net->cables[cable].port[1]);
}

gboolean
rw_particulars_settle (RwParticulars *particulars)
{
  gboolean taken = TRUE;

  g_return_val_if_fail (RW_IS_PARTICULARS (particulars), TRUE);
  for (guint i = 0; i < particulars->sections->len; i++)
    {
      Section *section = g_ptr_array_index (particulars->sections, i);
      for (guint k = 0; k < section->rows->len; k++)
        taken = rw_field_row_settle (g_ptr_array_index (section->rows, k)) && taken;
    }
  return (particulars->ports == NULL || rw_port_list_settle (particulars->ports)) && taken;
}

static void
clear_groups (RwParticulars *particulars)
{
  GtkWidget *child;

  rw_particulars_settle (particulars); /* what was not taken is said before its field goes */
  rw_document_end_run (particulars->document); /* whoever comes back to a field begins another step */
  g_ptr_array_set_size (particulars->sections, 0);
  particulars->ports = NULL;
  while ((child = gtk_widget_get_first_child (particulars->groups)) != NULL)
    gtk_box_remove (GTK_BOX (particulars->groups), child);
}

/* Keys of the selected devices, then cables; (transfer container). */
static const char **
selected_keys (RwParticulars *particulars, guint *n_devices, guint *n_cables)
{
  RwSelection *selection = rw_document_selection (particulars->document);
  RwRig *rig = rw_document_rig (particulars->document);
  g_autofree const char **devices = rw_selection_keys (selection, rig, RW_ITEM_DEVICE);
  g_autofree const char **cables = rw_selection_keys (selection, rig, RW_ITEM_CABLE);
  const char **keys;

  *n_devices = g_strv_length ((char **) devices);
  *n_cables = g_strv_length ((char **) cables);
  keys = g_new0 (const char *, *n_devices + *n_cables + 1);
  for (guint i = 0; i < *n_devices; i++)
    keys[i] = devices[i];
  for (guint i = 0; i < *n_cables; i++)
    keys[*n_devices + i] = cables[i];
  return keys;
}

/* The sheets that the selection asks for. */
static GPtrArray *
make_sheets (RwParticulars *particulars, const char *const *keys)
{
  const char *const show[] = { RW_SHOW_KEY, NULL };
  const char *const system[] = { RW_SYSTEM_KEY, NULL };
  GPtrArray *sheets = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_field_sheet_free);
  RwRig *rig = rw_document_rig (particulars->document);

  if (keys[0] != NULL)
    g_ptr_array_add (sheets, rw_field_sheet_new (rig, keys));
  else
    {
      g_ptr_array_add (sheets, rw_field_sheet_new (rig, show));
      g_ptr_array_add (sheets, rw_field_sheet_new (rig, system));
    }
  return sheets;
}

static gboolean
sheets_fit (RwParticulars *particulars, GPtrArray *sheets)
{
  if (sheets->len != particulars->sections->len)
    return FALSE;
  for (guint i = 0; i < sheets->len; i++)
    {
      Section *section = g_ptr_array_index (particulars->sections, i);
      if (!rw_field_sheet_covers (section->sheet, g_ptr_array_index (sheets, i)))
        return FALSE;
    }
  return TRUE;
}

static void
rebuild (RwParticulars *particulars, GPtrArray *sheets, const char *only)
{
  RwRig *rig = rw_document_rig (particulars->document);

  clear_groups (particulars);
  g_free (particulars->only);
  particulars->only = g_strdup (only);
  if (only != NULL && rw_rig_cable (rig, only) != NULL)
    add_ends (particulars, only);
  for (guint i = 0; i < sheets->len; i++)
    add_section (particulars, g_ptr_array_index (sheets, i));
  g_ptr_array_set_free_func (sheets, NULL);
  if (only != NULL && rw_rig_device (rig, only) != NULL)
    add_ports (particulars, only);
  if (find_expander (particulars, "Notes") != NULL)
    gtk_box_reorder_child_after (GTK_BOX (particulars->groups), find_expander (particulars, "Notes"),
                                 gtk_widget_get_last_child (particulars->groups));
}

static void
show_heading (RwParticulars *particulars, const char *const *keys, guint n_devices, guint n_cables)
{
  RwRig *rig = rw_document_rig (particulars->document);
  g_autofree char *title = NULL;
  g_autofree char *subtitle = NULL;

  if (n_devices + n_cables == 0)
    {
      title = g_strdup (_("The whole rig"));
      subtitle = rw_words_selection (rw_rig_n (rig, RW_ITEM_DEVICE), rw_rig_n (rig, RW_ITEM_CABLE));
    }
  else if (n_devices == 1 && n_cables == 0)
    {
      const RwDevice *device = rw_rig_device (rig, keys[0]);
      const RwPart *part = rw_rig_part_of (rig, device);
      title = g_strdup (rw_device_title (device));
      subtitle = g_strdup (part != NULL && part->name != NULL ? part->name : device->part);
    }
  else if (n_devices + n_cables == 1)
    {
      /* Translators: %s is a cable's label or id. */
      title = g_strdup_printf (_("Cable %s"), rw_cable_title (rw_rig_cable (rig, keys[0])));
    }
  else
    {
      title = rw_words_selection (n_devices, n_cables);
      subtitle = g_strdup (_("Fields that they have in common"));
    }
  gtk_label_set_text (GTK_LABEL (particulars->title), title);
  gtk_widget_set_tooltip_text (particulars->title, title); /* three lines may not hold it all */
  gtk_label_set_text (GTK_LABEL (particulars->subtitle), subtitle != NULL ? subtitle : "");
  gtk_widget_set_visible (particulars->subtitle, subtitle != NULL && *subtitle != '\0');
}

static void
refresh (RwParticulars *particulars)
{
  guint n_devices, n_cables;
  g_autofree const char **keys = NULL;
  g_autoptr (GPtrArray) sheets = NULL;

  if (particulars->document == NULL)
    return;
  keys = selected_keys (particulars, &n_devices, &n_cables);
  sheets = make_sheets (particulars, keys);
  show_heading (particulars, keys, n_devices, n_cables);
  if (!sheets_fit (particulars, sheets))
    {
      rebuild (particulars, sheets, n_devices + n_cables == 1 ? keys[0] : NULL);
      return;
    }
  for (guint i = 0; i < particulars->sections->len; i++)
    show_section (g_ptr_array_index (particulars->sections, i));
  if (particulars->ports != NULL)
    rw_port_list_refresh (particulars->ports);
}

static void
document_changed (RwDocument *document, guint what, RwChange *change, gpointer user_data)
{
  RwParticulars *particulars = user_data;

  if ((what & RW_DOCUMENT_WHOLE) != 0)
    clear_groups (particulars);
  if ((what & (RW_DOCUMENT_RIG | RW_DOCUMENT_WHOLE | RW_DOCUMENT_ANALYSIS)) != 0)
    refresh (particulars);
}

static void
selection_changed (RwSelection *selection, gpointer user_data)
{
  refresh (user_data);
}

static void
let_go (RwParticulars *particulars)
{
  if (particulars->document == NULL)
    return;
  g_signal_handlers_disconnect_by_data (particulars->document, particulars);
  g_signal_handlers_disconnect_by_data (rw_document_selection (particulars->document), particulars);
  clear_groups (particulars);
  g_clear_object (&particulars->document);
}

void
rw_particulars_set_document (RwParticulars *particulars, RwDocument *document)
{
  g_return_if_fail (RW_IS_PARTICULARS (particulars));
  let_go (particulars);
  if (document == NULL)
    return;
  particulars->document = g_object_ref (document);
  g_signal_connect (document, "changed", G_CALLBACK (document_changed), particulars);
  g_signal_connect (rw_document_selection (document), "changed", G_CALLBACK (selection_changed), particulars);
  refresh (particulars);
}

void
rw_particulars_focus_first (RwParticulars *particulars)
{
  g_return_if_fail (RW_IS_PARTICULARS (particulars));
  gtk_widget_child_focus (particulars->groups, GTK_DIR_TAB_FORWARD);
  for (guint i = 0; i < particulars->sections->len; i++)
    {
      Section *section = g_ptr_array_index (particulars->sections, i);
      if (section->rows->len > 0
          && gtk_widget_grab_focus (rw_field_row_get_control (g_ptr_array_index (section->rows, 0))))
        return;
    }
}

RwFieldRow *
rw_particulars_find (RwParticulars *particulars, const char *path)
{
  g_return_val_if_fail (RW_IS_PARTICULARS (particulars), NULL);
  for (guint i = 0; i < particulars->sections->len; i++)
    {
      Section *section = g_ptr_array_index (particulars->sections, i);
      int line = rw_field_sheet_find (section->sheet, path);
      if (line >= 0)
        return g_ptr_array_index (section->rows, line);
    }
  return NULL;
}

RwPortList *
rw_particulars_get_ports (RwParticulars *particulars)
{
  g_return_val_if_fail (RW_IS_PARTICULARS (particulars), NULL);
  return particulars->ports;
}

GtkWidget *
rw_particulars_new (void)
{
  return g_object_new (RW_TYPE_PARTICULARS, NULL);
}

static void
rw_particulars_dispose (GObject *object)
{
  RwParticulars *particulars = RW_PARTICULARS (object);

  if (particulars->sections != NULL)
    let_go (particulars);
  g_clear_pointer (&particulars->scroll, gtk_widget_unparent);
  g_clear_pointer (&particulars->sections, g_ptr_array_unref);
  g_clear_pointer (&particulars->closed, g_hash_table_unref);
  g_clear_pointer (&particulars->only, g_free);
  G_OBJECT_CLASS (rw_particulars_parent_class)->dispose (object);
}

static void
rw_particulars_class_init (RwParticularsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_particulars_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "particulars");
  signals[PICKED] = g_signal_new ("picked", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_STRING);
}

static GtkWidget *
make_heading_label (const char *css_class)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_lines (GTK_LABEL (label), 3);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
rw_particulars_init (RwParticulars *particulars)
{
  /* What most drawings never touch starts folded. */
  static const char *const folded[] = { "Clock", "Addresses" };

  particulars->sections = g_ptr_array_new_with_free_func (section_free);
  particulars->closed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (folded); i++)
    g_hash_table_add (particulars->closed, g_strdup (folded[i]));
  particulars->title = make_heading_label ("rw-heading");
  particulars->subtitle = make_heading_label ("dim-label");
  particulars->groups = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_margin_top (particulars->groups, 8);
  particulars->body = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_add_css_class (particulars->body, "rw-panel-body");
  gtk_box_append (GTK_BOX (particulars->body), particulars->title);
  gtk_box_append (GTK_BOX (particulars->body), particulars->subtitle);
  gtk_box_append (GTK_BOX (particulars->body), particulars->groups);
  particulars->scroll = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (particulars->scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (particulars->scroll), particulars->body);
  gtk_widget_set_parent (particulars->scroll, GTK_WIDGET (particulars));
}
