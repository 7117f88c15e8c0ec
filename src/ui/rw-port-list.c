/* SPDX-License-Identifier: MIT */
#include "rw-port-list.h"

#include <glib/gi18n-lib.h>
#include "rw-far-end.h"
#include "rw-field-row.h"
#include "rw-typing.h"
#include "rw-words.h"

/* Room for a VLAN or the start of a trunk's list. */
#define VLAN_CHARS 7
/* Room for the name of a switch's port. */
#define PORT_CHARS 5

typedef struct
{
  RwPortList *list;
  char *port;
  GtkWidget *far;     /* button: what is at the other end */
  GtkWidget *entry;   /* (nullable): VLANs */
  GtkWidget *tagged;  /* (nullable) */
  RwTyping typing;    /* where there is an entry */
  char *cable;        /* (nullable) */
} PortRow;

struct _RwPortList
{
  GtkWidget parent_instance;
  RwDocument *document;
  char *device;
  GPtrArray *rows;
  gboolean busy;
};

G_DEFINE_FINAL_TYPE (RwPortList, rw_port_list, GTK_TYPE_WIDGET)

enum { PICKED, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
row_free (gpointer data)
{
  PortRow *row = data;

  g_free (row->port);
  g_free (row->cable);
  g_free (row);
}

static void
vlans_changed (PortRow *row)
{
  RwPortList *list = row->list;
  g_autoptr (GError) error = NULL;
  g_autoptr (GVariant) value = NULL;
  g_autoptr (RwChange) change = NULL;
  g_autofree char *run = NULL;

  if (list->busy)
    return;
  rw_typing_begin (&row->typing);
  value = rw_vlans_parse (gtk_editable_get_text (GTK_EDITABLE (row->entry)),
                          gtk_check_button_get_active (GTK_CHECK_BUTTON (row->tagged)), &error);
  if (error == NULL)
    change = rw_vlans_change (rw_document_rig (list->document), list->device, row->port, value, &error);
  run = g_strdup_printf ("vlans %s %s", list->device, row->port);
  list->busy = TRUE;
  if (change != NULL)
    rw_document_do_merged (list->document, change, run, &error);
  if (value != NULL)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (row->tagged), !g_variant_is_of_type (value, G_VARIANT_TYPE_INT32));
  list->busy = FALSE;
  if (error != NULL)
    rw_typing_refuse (&row->typing, error->message);
  else
    rw_typing_taken (&row->typing);
}

static void
entry_changed (GtkEditable *editable, gpointer user_data)
{
  vlans_changed (user_data);
}

static void
tagged_toggled (GtkCheckButton *button, gpointer user_data)
{
  vlans_changed (user_data);
}

/* "10," while a trunk is typed stands for what the rig says already. */
static gboolean
stands_for (PortRow *row, const RwPortVlans *vlans)
{
  g_autofree char *text = rw_vlans_format (vlans);
  gboolean tagged = vlans != NULL && vlans->tagged;
  g_autoptr (GVariant) typed = rw_vlans_parse (gtk_editable_get_text (GTK_EDITABLE (row->entry)), tagged, NULL);
  g_autoptr (GVariant) held = rw_vlans_parse (text, tagged, NULL);

  return typed != NULL && held != NULL && g_variant_equal (held, typed);
}

/* @typing: what stands there as it was typed stays. */
static void
show_vlans (PortRow *row, gboolean typing)
{
  const RwDevice *device = rw_rig_device (rw_document_rig (row->list->document), row->list->device);
  const RwPortVlans *vlans = device != NULL ? rw_device_port_vlans (device, row->port) : NULL;
  g_autofree char *text = rw_vlans_format (vlans);

  gtk_check_button_set_active (GTK_CHECK_BUTTON (row->tagged), vlans != NULL && vlans->tagged);
  if (typing && stands_for (row, vlans))
    return;
  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (row->entry)), text))
    gtk_editable_set_text (GTK_EDITABLE (row->entry), text);
}

static void
take_back (gpointer owner)
{
  rw_document_take_back (((PortRow *) owner)->list->document);
}

static void
show (gpointer owner)
{
  PortRow *row = owner;

  row->list->busy = TRUE;
  show_vlans (row, FALSE);
  row->list->busy = FALSE;
}

static void
finished (gpointer owner)
{
  rw_document_end_run (((PortRow *) owner)->list->document);
}

static char *
dup_text (gpointer owner)
{
  return g_strdup (gtk_editable_get_text (GTK_EDITABLE (((PortRow *) owner)->entry)));
}

static char *
dup_name (gpointer owner)
{
  /* Translators: %s is the name of a port. */
  return g_strdup_printf (_("VLANs of %s"), ((PortRow *) owner)->port);
}

static const RwTypingWays ways = { take_back, show, finished, dup_text, dup_name };

static void
far_clicked (GtkButton *button, gpointer user_data)
{
  PortRow *row = user_data;

  if (row->cable != NULL)
    g_signal_emit (row->list, signals[PICKED], 0, row->cable);
}

static void
add_vlans (PortRow *row, GtkWidget *line)
{
  g_autofree char *vlans = dup_name (row);
  /* Translators: %s is the name of a port. */
  g_autofree char *tagged = g_strdup_printf (_("%s is a tagged trunk"), row->port);

  row->entry = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (row->entry), VLAN_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (row->entry), VLAN_CHARS);
  gtk_entry_set_placeholder_text (GTK_ENTRY (row->entry), "1");
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, vlans, -1);
  gtk_widget_set_tooltip_text (row->entry, _("One number, or several parted by commas for a tagged trunk"));
  row->tagged = gtk_check_button_new ();
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->tagged), GTK_ACCESSIBLE_PROPERTY_LABEL, tagged, -1);
  gtk_widget_set_tooltip_text (row->tagged, tagged);
  gtk_box_append (GTK_BOX (line), row->entry);
  gtk_box_append (GTK_BOX (line), row->tagged);
  g_signal_connect (row->entry, "changed", G_CALLBACK (entry_changed), row);
  g_signal_connect (row->tagged, "toggled", G_CALLBACK (tagged_toggled), row);
  rw_typing_init (&row->typing, &ways, row, row->list);
  row->typing.control = row->entry;
  rw_typing_watch_keys (&row->typing, row->entry);
  rw_typing_watch (&row->typing, row->tagged);
}

static GtkWidget *
make_name (const char *text, gboolean vlans)
{
  GtkWidget *label = rw_field_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), FALSE);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (vlans)
    {
      /* The head has room in every language. */
      int chars = MAX (PORT_CHARS, (int) g_utf8_strlen (_("Port"), -1));

      gtk_label_set_width_chars (GTK_LABEL (label), chars);
      gtk_label_set_max_width_chars (GTK_LABEL (label), chars);
    }
  return label;
}

static void
add_row (RwPortList *list, const RwPort *port, gboolean vlans)
{
  PortRow *row = g_new0 (PortRow, 1);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *name = make_name (port->name, vlans);
  g_autofree char *about = rw_words_port (port);
  g_autofree char *tip = g_strdup_printf ("%s: %s", port->name, about);

  row->list = list;
  row->port = g_strdup (port->name);
  g_ptr_array_add (list->rows, row);
  gtk_widget_set_tooltip_text (name, tip);
  row->far = rw_far_end_new ();
  g_signal_connect (row->far, "clicked", G_CALLBACK (far_clicked), row);
  gtk_box_append (GTK_BOX (line), name);
  gtk_box_append (GTK_BOX (line), row->far);
  gtk_box_append (GTK_BOX (box), line);
  if (vlans)
    {
      add_vlans (row, line);
      gtk_box_append (GTK_BOX (box), row->typing.remark);
    }
  gtk_widget_set_parent (box, GTK_WIDGET (list));
}

/* Names the columns of a switch's ports. */
static void
add_head (RwPortList *list)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *far = gtk_label_new (_("Cabled to"));
  /* Translators: heads the column of VLAN numbers and the ticks for a tagged trunk. */
  GtkWidget *vlans = gtk_label_new (_("VLAN, tagged"));

  gtk_label_set_xalign (GTK_LABEL (far), 0);
  gtk_widget_set_hexpand (far, TRUE);
  gtk_widget_set_margin_start (far, 8);
  gtk_box_append (GTK_BOX (line), make_name (_("Port"), TRUE));
  gtk_box_append (GTK_BOX (line), far);
  gtk_box_append (GTK_BOX (line), vlans);
  gtk_widget_add_css_class (line, "rw-column");
  gtk_widget_set_parent (line, GTK_WIDGET (list));
}

static void
show_far (RwPortList *list, PortRow *row, const RwNet *net)
{
  guint port = rw_net_find_port (net, list->device, row->port);
  guint cable = port != RW_NONE ? net->ports[port].cable : RW_NONE;
  g_autofree char *text = NULL;
  g_autofree char *name = NULL;

  g_clear_pointer (&row->cable, g_free);
  if (cable != RW_NONE)
    {
      const RwNetCable *c = &net->cables[cable];
      guint far = c->port[0] == port ? c->port[1] : c->port[0];
      row->cable = g_strdup (rw_item_key (c->cable));
      text = rw_words_end (net, far);
    }
  else
    text = g_strdup (_("free"));
  rw_far_end_show (row->far, text, cable != RW_NONE);
  /* Translators: %s are a port's name and what it is cabled to. */
  name = g_strdup_printf (_("%s: %s"), row->port, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->far), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

void
rw_port_list_refresh (RwPortList *list)
{
  const RwDevice *device;

  g_return_if_fail (RW_IS_PORT_LIST (list));
  device = rw_rig_device (rw_document_rig (list->document), list->device);
  if (device == NULL || list->busy)
    return;
  list->busy = TRUE;
  for (guint i = 0; i < list->rows->len; i++)
    {
      PortRow *row = g_ptr_array_index (list->rows, i);
      show_far (list, row, rw_document_net (list->document));
      if (row->entry != NULL && !row->typing.wrong)
        show_vlans (row, TRUE);
    }
  list->busy = FALSE;
}

gboolean
rw_port_list_settle (RwPortList *list)
{
  gboolean taken = TRUE;

  g_return_val_if_fail (RW_IS_PORT_LIST (list), TRUE);
  for (guint i = 0; i < list->rows->len; i++)
    {
      PortRow *row = g_ptr_array_index (list->rows, i);
      if (row->typing.begun)
        taken = rw_typing_settle (&row->typing) && taken;
    }
  return taken;
}

static PortRow *
find_row (RwPortList *list, const char *port)
{
  for (guint i = 0; i < list->rows->len; i++)
    {
      PortRow *row = g_ptr_array_index (list->rows, i);
      if (g_str_equal (row->port, port))
        return row;
    }
  return NULL;
}

GtkWidget *
rw_port_list_get_vlan_entry (RwPortList *list, const char *port)
{
  PortRow *row;

  g_return_val_if_fail (RW_IS_PORT_LIST (list), NULL);
  row = find_row (list, port);
  return row != NULL ? row->entry : NULL;
}

const char *
rw_port_list_get_error (RwPortList *list, const char *port)
{
  PortRow *row;

  g_return_val_if_fail (RW_IS_PORT_LIST (list), NULL);
  row = find_row (list, port);
  return row != NULL && row->entry != NULL && row->typing.wrong ? gtk_label_get_text (GTK_LABEL (row->typing.remark)) : NULL;
}

GtkWidget *
rw_port_list_new (RwDocument *document, const char *device)
{
  RwPortList *list = g_object_new (RW_TYPE_PORT_LIST, NULL);
  const RwRig *rig = rw_document_rig (document);
  const RwDevice *item = rw_rig_device (rig, device);
  const RwPart *part = item != NULL ? rw_rig_part_of (rig, item) : NULL;

  list->document = g_object_ref (document);
  list->device = g_strdup (device);
  if (part != NULL && part->kind == RW_PART_SWITCH)
    add_head (list);
  for (guint i = 0; part != NULL && i < rw_part_n_ports (part); i++)
    add_row (list, rw_part_port (part, i), part->kind == RW_PART_SWITCH);
  rw_port_list_refresh (list);
  return GTK_WIDGET (list);
}

static void
rw_port_list_dispose (GObject *object)
{
  RwPortList *list = RW_PORT_LIST (object);
  GtkWidget *child;

  list->busy = TRUE;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&list->rows, g_ptr_array_unref);
  g_clear_object (&list->document);
  g_clear_pointer (&list->device, g_free);
  G_OBJECT_CLASS (rw_port_list_parent_class)->dispose (object);
}

static void
rw_port_list_class_init (RwPortListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_port_list_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "portlist");
  signals[PICKED] = g_signal_new ("picked", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
rw_port_list_init (RwPortList *list)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (list));

  list->rows = g_ptr_array_new_with_free_func (row_free);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 4);
}
