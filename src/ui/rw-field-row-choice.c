/* SPDX-License-Identifier: MIT */
#include "rw-field-row-private.h"

#include <glib/gi18n-lib.h>

static void
switch_toggled (GtkCheckButton *button, gpointer user_data)
{
  RwFieldRow *row = user_data;

  if (row->busy)
    return;
  gtk_check_button_set_inconsistent (button, FALSE);
  rw_field_row_edited (row, g_variant_new_boolean (gtk_check_button_get_active (button)));
}

static GtkWidget *
build_switch (RwFieldRow *row)
{
  GtkWidget *check = gtk_check_button_new ();

  gtk_widget_set_halign (check, GTK_ALIGN_START);
  g_signal_connect (check, "toggled", G_CALLBACK (switch_toggled), row);
  rw_typing_watch (&row->typing, check);
  return check;
}

static void
show_switch (RwFieldRow *row)
{
  GVariant *holds = row->shown != NULL ? row->shown : row->fallback;

  gtk_check_button_set_inconsistent (GTK_CHECK_BUTTON (row->control), row->shared == RW_SHARED_SEVERAL);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (row->control), holds != NULL && g_variant_get_boolean (holds));
}

const RwFieldEditor rw_field_editor_switch = { build_switch, show_switch, NULL };

/* A choice's first entry stands for "absent", or for "several values". */
static guint
n_choices (const RwField *field)
{
  guint n = 0;

  if (field->kind == RW_FIELD_WORD)
    return g_strv_length ((char **) field->words);
  while (field->allowed[n] != 0)
    n++;
  return n;
}

static char *
choice_text (const RwField *field, guint index)
{
  if (field->kind != RW_FIELD_WORD)
    return field->unit != NULL ? g_strdup_printf ("%d %s", field->allowed[index], field->unit)
                               : g_strdup_printf ("%d", field->allowed[index]);
  return g_strdup (field->word_labels != NULL ? _(field->word_labels[index]) : field->words[index]);
}

static GVariant *
choice_value (const RwField *field, guint index)
{
  return field->kind == RW_FIELD_WORD ? g_variant_new_string (field->words[index])
                                      : g_variant_new_int32 (field->allowed[index]);
}

static guint
find_choice (const RwField *field, GVariant *value)
{
  for (guint i = 0; i < n_choices (field); i++)
    {
      g_autoptr (GVariant) one = g_variant_ref_sink (choice_value (field, i));
      if (g_variant_equal (one, value))
        return i;
    }
  return G_MAXUINT;
}

static void
choice_selected (GObject *object, GParamSpec *pspec, gpointer user_data)
{
  RwFieldRow *row = user_data;
  guint selected = gtk_drop_down_get_selected (GTK_DROP_DOWN (object));

  if (row->busy || selected == GTK_INVALID_LIST_POSITION)
    return;
  rw_field_row_edited (row, selected == 0 ? NULL : choice_value (row->field, selected - 1));
}

static GtkWidget *
build_choice (RwFieldRow *row)
{
  GtkStringList *list = gtk_string_list_new (NULL);

  gtk_string_list_append (list, "");
  for (guint i = 0; i < n_choices (row->field); i++)
    gtk_string_list_take (list, choice_text (row->field, i));
  row->control = gtk_drop_down_new (G_LIST_MODEL (list), NULL);
  g_signal_connect (row->control, "notify::selected", G_CALLBACK (choice_selected), row);
  rw_typing_watch (&row->typing, row->control);
  return row->control;
}

static char *
absent_text (RwShared shared, const char *fallback_text)
{
  if (shared == RW_SHARED_SEVERAL)
    return g_strdup (_("Several values"));
  if (*fallback_text == '\0')
    return g_strdup (_("Not set"));
  /* Translators: what holds where a field was left empty; %s is a value, as “48000 Hz”. */
  return g_strdup_printf (_("Default (%s)"), fallback_text);
}

static void
show_choice (RwFieldRow *row)
{
  GtkDropDown *drop = GTK_DROP_DOWN (row->control);
  GtkStringList *list = GTK_STRING_LIST (gtk_drop_down_get_model (drop));
  g_autofree char *text = absent_text (row->shared, row->fallback_text);
  guint index = row->shown != NULL ? find_choice (row->field, row->shown) : G_MAXUINT;

  if (!g_str_equal (gtk_string_list_get_string (list, 0), text))
    gtk_string_list_splice (list, 0, 1, (const char *const[]) { text, NULL });
  gtk_drop_down_set_selected (drop, index == G_MAXUINT ? 0 : index + 1);
}

const RwFieldEditor rw_field_editor_choice = { build_choice, show_choice, NULL };
