/* SPDX-License-Identifier: MIT */
#include "rw-field-row-private.h"

#include <glib/gi18n-lib.h>

G_DEFINE_FINAL_TYPE (RwFieldRow, rw_field_row, GTK_TYPE_WIDGET)

enum { EDITED, TAKEN_BACK, FINISHED, N_SIGNALS };
static guint signals[N_SIGNALS];

static const RwFieldEditor *
pick_editor (const RwField *field)
{
  if (field->kind == RW_FIELD_WORD || (field->kind == RW_FIELD_INTEGER && field->allowed != NULL))
    return &rw_field_editor_choice;
  if (field->kind == RW_FIELD_BOOLEAN)
    return &rw_field_editor_switch;
  if ((field->flags & RW_FIELD_LONG) != 0)
    return &rw_field_editor_text;
  return &rw_field_editor_entry;
}

static void
remember (RwFieldRow *row, GVariant *value, RwShared shared)
{
  if (value != NULL)
    g_variant_ref (value);
  g_clear_pointer (&row->shown, g_variant_unref);
  row->shown = value;
  row->shared = shared;
  row->shows = TRUE;
  if (row->clear != NULL)
    gtk_widget_set_visible (row->clear, shared != RW_SHARED_ABSENT);
}

void
rw_field_row_edited (RwFieldRow *row, GVariant *value)
{
  g_autoptr (GVariant) held = value != NULL ? g_variant_ref_sink (value) : NULL;

  if (row->busy)
    return;
  rw_typing_begin (&row->typing);
  rw_typing_taken (&row->typing);
  remember (row, held, held != NULL ? RW_SHARED_SAME : RW_SHARED_ABSENT);
  g_signal_emit (row, signals[EDITED], 0, held);
}

/* What is shown may be rounded: where the typing comes back to it, it means the value as it was. (transfer full)
 * (nullable): it gives none. */
static GVariant *
parse (RwFieldRow *row, const char *text, GError **error)
{
  g_autofree char *start = row->start != NULL ? rw_field_format (row->field, row->start) : NULL;

  return g_strcmp0 (text, start) == 0 ? g_variant_ref (row->start) : rw_field_parse (row->field, text, error);
}

/* Empty text is an absent value; text that cannot stand stays, with the reason under it. */
void
rw_field_row_edited_text (RwFieldRow *row, const char *text)
{
  g_autoptr (GError) error = NULL;
  GVariant *value;

  if (row->busy)
    return;
  if (!row->typing.begun)
    {
      g_clear_pointer (&row->start, g_variant_unref);
      row->start = row->shown != NULL ? g_variant_ref (row->shown) : NULL;
    }
  if (*text == '\0')
    {
      rw_field_row_edited (row, NULL);
      return;
    }
  value = parse (row, text, &error);
  if (value != NULL)
    rw_field_row_edited (row, value);
  else
    rw_field_row_refuse (row, error->message);
  if (value != NULL)
    g_variant_unref (value);
}

static void
take_back (gpointer owner)
{
  g_signal_emit (owner, signals[TAKEN_BACK], 0);
}

static void
show (gpointer owner)
{
  RwFieldRow *row = owner;

  row->busy = TRUE;
  row->editor->show (row);
  row->busy = FALSE;
}

static void
finished (gpointer owner)
{
  g_signal_emit (owner, signals[FINISHED], 0);
}

static char *
dup_text (gpointer owner)
{
  RwFieldRow *row = owner;

  return row->editor->dup_text != NULL ? row->editor->dup_text (row) : NULL;
}

static char *
dup_name (gpointer owner)
{
  return g_strdup (_(((RwFieldRow *) owner)->field->label));
}

static const RwTypingWays ways = { take_back, show, finished, dup_text, dup_name };

gboolean
rw_field_row_settle (RwFieldRow *row)
{
  g_return_val_if_fail (RW_IS_FIELD_ROW (row), TRUE);
  return !row->typing.begun || rw_typing_settle (&row->typing);
}

static void
clear_clicked (GtkButton *button, gpointer user_data)
{
  /* The line may go with its value: a field that makes no sense on this part. */
  g_autoptr (RwFieldRow) row = g_object_ref (RW_FIELD_ROW (user_data));

  rw_field_row_edited (row, NULL);
  row->shows = FALSE;
  rw_typing_settle (&row->typing);
}

const RwField *
rw_field_row_get_field (RwFieldRow *row)
{
  g_return_val_if_fail (RW_IS_FIELD_ROW (row), NULL);
  return row->field;
}

GtkWidget *
rw_field_row_get_control (RwFieldRow *row)
{
  g_return_val_if_fail (RW_IS_FIELD_ROW (row), NULL);
  return row->control;
}

/* A length in feet and inches brings its signs along. */
static void
show_unit (RwFieldRow *row)
{
  row->units = rw_length_units ();
  if (row->unit != NULL && g_str_equal (row->field->unit, "m"))
    gtk_widget_set_visible (row->unit, row->units == RW_UNITS_METRES);
}

static gboolean
says (RwFieldRow *row, RwShared shared, GVariant *value)
{
  return row->shows && row->shared == shared
         && (value == NULL ? row->shown == NULL : row->shown != NULL && g_variant_equal (value, row->shown));
}

static void
remember_fallback (RwFieldRow *row, GVariant *fallback, const char *text)
{
  if (fallback != NULL)
    g_variant_ref (fallback);
  g_clear_pointer (&row->fallback, g_variant_unref);
  row->fallback = fallback;
  g_free (row->fallback_text);
  row->fallback_text = g_strdup (text);
}

void
rw_field_row_show (RwFieldRow *row, RwShared shared, GVariant *value, GVariant *fallback,
                   const char *fallback_text)
{
  gboolean same;

  g_return_if_fail (RW_IS_FIELD_ROW (row));
  same = says (row, shared, value) && row->units == rw_length_units ();
  remember_fallback (row, fallback, fallback_text);
  /* An absent value shows what it falls back on, which may be another now; but a number that cannot stand is still being
   * typed. */
  if (same && (shared != RW_SHARED_ABSENT || row->typing.wrong))
    return;
  show_unit (row);
  remember (row, value, shared);
  if (row->typing.going_back)
    return;
  if (!same)
    rw_typing_forget (&row->typing);
  show (row);
}

void
rw_field_row_refuse (RwFieldRow *row, const char *reason)
{
  g_return_if_fail (RW_IS_FIELD_ROW (row));
  rw_typing_refuse (&row->typing, reason);
}

const char *
rw_field_row_get_error (RwFieldRow *row)
{
  g_return_val_if_fail (RW_IS_FIELD_ROW (row), NULL);
  return row->typing.wrong ? gtk_label_get_text (GTK_LABEL (row->typing.remark)) : NULL;
}

const char *
rw_field_row_get_remark (RwFieldRow *row)
{
  g_return_val_if_fail (RW_IS_FIELD_ROW (row), NULL);
  return gtk_widget_get_visible (row->typing.remark) ? gtk_label_get_text (GTK_LABEL (row->typing.remark)) : NULL;
}

static GtkWidget *
make_fact (void)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_add_css_class (label, "rw-small");
  return label;
}

void
rw_field_row_tell (RwFieldRow *row, const char *fact)
{
  g_return_if_fail (RW_IS_FIELD_ROW (row));
  if (row->fact == NULL && fact == NULL)
    return;
  if (row->fact == NULL)
    {
      row->fact = make_fact ();
      gtk_widget_set_parent (row->fact, GTK_WIDGET (row));
    }
  gtk_label_set_text (GTK_LABEL (row->fact), fact != NULL ? fact : "");
  gtk_widget_set_visible (row->fact, fact != NULL);
}

const char *
rw_field_row_get_fact (RwFieldRow *row)
{
  g_return_val_if_fail (RW_IS_FIELD_ROW (row), NULL);
  return row->fact != NULL && gtk_widget_get_visible (row->fact) ? gtk_label_get_text (GTK_LABEL (row->fact)) : NULL;
}

/* As wide as the longest common one, so that what is beside them lines up. */
#define LABEL_CHARS 14

GtkWidget *
rw_field_label_new (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (label), LABEL_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (label), LABEL_CHARS);
  gtk_widget_add_css_class (label, "rw-field-label");
  return label;
}

static GtkWidget *
make_clear (RwFieldRow *row)
{
  GtkWidget *clear = gtk_button_new_from_icon_name ("rw-clear-symbolic");
  /* Translators: %s is the name of a field, as “Unit ID”. */
  g_autofree char *name = g_strdup_printf (_("Clear %s"), _(row->field->label));

  gtk_widget_add_css_class (clear, "flat");
  gtk_widget_add_css_class (clear, "rw-small-button");
  gtk_widget_set_valign (clear, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (clear, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (clear), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (clear, "clicked", G_CALLBACK (clear_clicked), row);
  return clear;
}

static void
name_control (RwFieldRow *row)
{
  gtk_widget_set_tooltip_text (row->control, _(row->field->help));
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->control),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _(row->field->label),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, _(row->field->help), -1);
}

static void
build (RwFieldRow *row)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  row->editor = pick_editor (row->field);
  row->label = rw_field_label_new (_(row->field->label));
  rw_typing_init (&row->typing, &ways, row, row);
  row->control = row->editor->build (row);
  row->typing.control = row->control;
  gtk_widget_set_hexpand (row->control, TRUE);
  gtk_box_append (GTK_BOX (line), row->label);
  gtk_box_append (GTK_BOX (line), row->control);
  if (row->field->unit != NULL && row->editor == &rw_field_editor_entry)
    {
      row->unit = gtk_label_new (row->field->unit);
      gtk_widget_add_css_class (row->unit, "dim-label");
      gtk_box_append (GTK_BOX (line), row->unit);
    }
  if (row->editor == &rw_field_editor_switch)
    {
      row->clear = make_clear (row);
      gtk_box_append (GTK_BOX (line), row->clear);
    }
  /* A long text stands under a heading of its own, which says its name. */
  gtk_widget_set_visible (row->label, row->editor != &rw_field_editor_text);
  name_control (row);
  gtk_widget_set_parent (line, GTK_WIDGET (row));
  gtk_widget_set_parent (row->typing.remark, GTK_WIDGET (row));
}

GtkWidget *
rw_field_row_new (const RwField *field)
{
  RwFieldRow *row = g_object_new (RW_TYPE_FIELD_ROW, NULL);

  row->field = field;
  row->fallback_text = g_strdup ("");
  build (row);
  return GTK_WIDGET (row);
}

static void
rw_field_row_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&RW_FIELD_ROW (object)->shown, g_variant_unref);
  g_clear_pointer (&RW_FIELD_ROW (object)->fallback, g_variant_unref);
  g_clear_pointer (&RW_FIELD_ROW (object)->start, g_variant_unref);
  g_clear_pointer (&RW_FIELD_ROW (object)->fallback_text, g_free);
  G_OBJECT_CLASS (rw_field_row_parent_class)->dispose (object);
}

static void
rw_field_row_class_init (RwFieldRowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_field_row_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "fieldrow");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
  signals[EDITED] = g_signal_new ("edited", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_VARIANT);
  signals[TAKEN_BACK] = g_signal_new ("taken-back", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                      G_TYPE_NONE, 0);
  signals[FINISHED] = g_signal_new ("finished", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                    G_TYPE_NONE, 0);
}

static void
rw_field_row_init (RwFieldRow *row)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (row))),
                                  GTK_ORIENTATION_VERTICAL);
}
