/* SPDX-License-Identifier: MIT */
#include "rw-field-row-private.h"

#include <glib/gi18n-lib.h>

static gboolean
is_number (const RwField *field)
{
  return field->kind == RW_FIELD_INTEGER || field->kind == RW_FIELD_REAL;
}

/* It is done at once, wherever the focus is. */
static void
icon_pressed (GtkEntry *entry, GtkEntryIconPosition position, gpointer user_data)
{
  g_autoptr (RwFieldRow) row = g_object_ref (user_data); /* the line may go with its value */

  gtk_editable_set_text (GTK_EDITABLE (entry), "");
  rw_typing_settle (&row->typing);
}

/* An empty number means what the placeholder says; the icon empties it in one go. */
static void
show_icon (RwFieldRow *row, gboolean set)
{
  if (!is_number (row->field))
    return;
  gtk_entry_set_icon_from_icon_name (GTK_ENTRY (row->control), GTK_ENTRY_ICON_SECONDARY,
                                     set ? "rw-clear-symbolic" : NULL);
  if (set)
    gtk_entry_set_icon_tooltip_text (GTK_ENTRY (row->control), GTK_ENTRY_ICON_SECONDARY, _("Not set"));
}

static void
entry_changed (GtkEditable *editable, gpointer user_data)
{
  show_icon (RW_FIELD_ROW (user_data), *gtk_editable_get_text (editable) != '\0');
  rw_field_row_edited_text (RW_FIELD_ROW (user_data), gtk_editable_get_text (editable));
}

/* The number that the next step starts from: what is typed, else what the rig says, else what an empty entry stands
 * for, else 0. */
static double
number_now (RwFieldRow *row)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (row->control));
  g_autoptr (GVariant) typed = *text != '\0' ? rw_field_parse (row->field, text, NULL) : NULL;
  GVariant *value = typed != NULL ? typed : row->shown != NULL ? row->shown : row->fallback;

  if (value == NULL)
    return 0;
  return row->field->kind == RW_FIELD_INTEGER ? g_variant_get_int32 (value) : g_variant_get_double (value);
}

/* A length goes up by one of the unit that it is shown in. */
static double
step_of (const RwField *field)
{
  if (g_strcmp0 (field->unit, "m") == 0 && rw_length_units () == RW_UNITS_FEET)
    return RW_METRES_A_FOOT;
  return field->step > 1 ? field->step : 1;
}

static void
step (RwFieldRow *row, int steps)
{
  double unit = step_of (row->field);
  double next = CLAMP (number_now (row) + steps * unit, row->field->min, row->field->max);
  g_autoptr (GVariant) value = NULL;
  g_autofree char *text = NULL;

  value = row->field->kind == RW_FIELD_INTEGER ? g_variant_new_int32 ((int) next) : g_variant_new_double (next);
  g_variant_ref_sink (value);
  text = rw_field_format (row->field, value);
  gtk_editable_set_text (GTK_EDITABLE (row->control), text);
  gtk_editable_set_position (GTK_EDITABLE (row->control), -1);
}

static gboolean
number_key (GtkEventControllerKey *keys, guint keyval, guint code, GdkModifierType state, gpointer user_data)
{
  static const struct { guint keyval; int steps; } moves[] = {
    { GDK_KEY_Up, 1 }, { GDK_KEY_KP_Up, 1 }, { GDK_KEY_Down, -1 }, { GDK_KEY_KP_Down, -1 },
    { GDK_KEY_Page_Up, 10 }, { GDK_KEY_Page_Down, -10 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (moves); i++)
    if (moves[i].keyval == keyval)
      {
        step (RW_FIELD_ROW (user_data), moves[i].steps);
        return TRUE;
      }
  return FALSE;
}

static GtkWidget *
build_entry (RwFieldRow *row)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 6);
  g_signal_connect (entry, "changed", G_CALLBACK (entry_changed), row);
  rw_typing_watch_keys (&row->typing, entry);
  if (is_number (row->field))
    {
      /* Before the text inside, which eats Up and Down. */
      GtkEventController *keys = gtk_event_controller_key_new ();
      gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
      g_signal_connect (keys, "key-pressed", G_CALLBACK (number_key), row);
      gtk_widget_add_controller (entry, keys);
      g_signal_connect (entry, "icon-press", G_CALLBACK (icon_pressed), row);
      gtk_entry_set_input_purpose (GTK_ENTRY (entry), GTK_INPUT_PURPOSE_NUMBER);
    }
  return entry;
}

/* A number is put as the rig has it: "10ft" where metres are shown, "40" where feet are. */
static void
show_entry (RwFieldRow *row)
{
  g_autofree char *text = row->shown != NULL ? rw_field_format (row->field, row->shown) : g_strdup ("");
  const char *nothing = *row->fallback_text != '\0' ? row->fallback_text : is_number (row->field) ? _("Not set") : "";

  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (row->control)), text))
    gtk_editable_set_text (GTK_EDITABLE (row->control), text);
  gtk_entry_set_placeholder_text (GTK_ENTRY (row->control),
                                  row->shared == RW_SHARED_SEVERAL ? _("Several values") : nothing);
}

static char *
dup_entry (RwFieldRow *row)
{
  return g_strdup (gtk_editable_get_text (GTK_EDITABLE (row->control)));
}

const RwFieldEditor rw_field_editor_entry = { build_entry, show_entry, dup_entry };

static GtkTextBuffer *
text_buffer (RwFieldRow *row)
{
  GtkWidget *view = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (row->control));

  return gtk_text_view_get_buffer (GTK_TEXT_VIEW (view));
}

static char *
dup_text (RwFieldRow *row)
{
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (text_buffer (row), &start, &end);
  return gtk_text_buffer_get_text (text_buffer (row), &start, &end, FALSE);
}

static void
text_changed (GtkTextBuffer *buffer, gpointer user_data)
{
  g_autofree char *text = dup_text (RW_FIELD_ROW (user_data));

  rw_field_row_edited_text (RW_FIELD_ROW (user_data), text);
}

static GtkWidget *
build_text (RwFieldRow *row)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();
  GtkWidget *view = gtk_text_view_new ();

  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (view), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_view_set_left_margin (GTK_TEXT_VIEW (view), 8);
  gtk_text_view_set_right_margin (GTK_TEXT_VIEW (view), 8);
  gtk_text_view_set_top_margin (GTK_TEXT_VIEW (view), 6);
  gtk_text_view_set_bottom_margin (GTK_TEXT_VIEW (view), 6);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL, _(row->field->label), -1);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), view);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroll), 64);
  gtk_widget_add_css_class (scroll, "rw-long-text");
  g_signal_connect (gtk_text_view_get_buffer (GTK_TEXT_VIEW (view)), "changed", G_CALLBACK (text_changed), row);
  rw_typing_watch_keys (&row->typing, view);
  return scroll;
}

static void
show_text (RwFieldRow *row)
{
  const char *text = row->shown != NULL ? g_variant_get_string (row->shown, NULL) : "";
  g_autofree char *old = dup_text (row);

  if (!g_str_equal (old, text))
    gtk_text_buffer_set_text (text_buffer (row), text, -1);
}

const RwFieldEditor rw_field_editor_text = { build_text, show_text, dup_text };
