/* SPDX-License-Identifier: MIT */
#include "rw-stock-choices.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <rig/rw-length.h>

#include "rw-form.h"

struct _RwStockChoices
{
  RwSettings *settings; /* (nullable) (not owned) */
  void (*changed) (gpointer user_data);
  gpointer user_data;
  GtkWidget *box, *lengths[RW_N_STOCK_MEDIA], *spares;
  gboolean setting;
};

static void
something_changed (GtkWidget *widget, gpointer user_data)
{
  RwStockChoices *choices = user_data;

  if (!choices->setting)
    choices->changed (choices->user_data);
}

/* One length as the command line writes it; what is no length stays as it is, for the complaint about it. */
static void
append_plain (GString *text, const char *typed)
{
  g_auto (GStrv) parts = g_strsplit (typed, "x", 2);
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  double metres;

  if (rw_length_parse (parts[0], rw_length_units (), &metres, NULL))
    g_string_append_printf (text, "%s%s%s", g_ascii_formatd (number, sizeof number, "%.10g", metres), parts[1] != NULL ? "x" : "",
                            parts[1] != NULL ? parts[1] : "");
  else
    g_string_append (text, typed);
}

/* "5, 10 × 4" as the command line writes it: "copper:5,10x4". */
static char *
plain_text (RwStockChoices *choices)
{
  GString *text = g_string_new (NULL);
  g_autoptr (GRegex) cross = g_regex_new ("\\s*[×x*]\\s*", 0, 0, NULL);

  for (guint i = 0; i < RW_N_STOCK_MEDIA; i++)
    {
      g_autofree char *crossed = g_regex_replace_literal (cross, gtk_editable_get_text (GTK_EDITABLE (choices->lengths[i])), -1, 0, "x", 0, NULL);
      g_auto (GStrv) parts = g_regex_split_simple ("[;,]+|(?<=[0-9])\\s+(?=[0-9])", crossed, 0, 0);
      gboolean first = TRUE;

      for (guint k = 0; parts[k] != NULL; k++)
        if (*g_strstrip (parts[k]) != '\0')
          {
            g_string_append_printf (text, "%s%s%s", text->len > 0 ? "," : "", first ? rw_media_words[i] : "", first ? ":" : "");
            append_plain (text, parts[k]);
            first = FALSE;
          }
    }
  return g_string_free (text, FALSE);
}

/**
 * rw_stock_choices_get: the stock as it was typed. (transfer full) (nullable): NULL: @error says what cannot be read.
 */
RwStock *
rw_stock_choices_get (RwStockChoices *choices, GError **error)
{
  g_autofree char *text = plain_text (choices);
  RwStock *stock = *text != '\0' ? rw_stock_parse (text, error) : rw_stock_new ();

  for (guint i = 0; *text == '\0' && i < RW_N_STOCK_MEDIA; i++)
    g_array_set_size (stock->lengths[i], 0);
  if (stock != NULL)
    stock->spares_percent = gtk_spin_button_get_value (GTK_SPIN_BUTTON (choices->spares));
  return stock;
}

/* As it can be read back: a length that is not of whole inches keeps its metres. */
static char *
length_text (double metres)
{
  double inches = metres * 12 / RW_METRES_A_FOOT;
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  /* With a point in every language: a comma parts lengths. */
  if (rw_length_units () == RW_UNITS_FEET && fabs (inches - round (inches)) > 1e-3)
    return g_strconcat (g_ascii_formatd (number, sizeof number, "%.10g", metres), " m", NULL);
  return rw_length_number (metres);
}

static void
show_stock (RwStockChoices *choices, const RwStock *stock)
{
  choices->setting = TRUE;
  for (guint i = 0; i < RW_N_STOCK_MEDIA; i++)
    {
      GString *text = g_string_new (NULL);

      for (guint k = 0; k < stock->lengths[i]->len; k++)
        {
          const RwStockLength *length = &g_array_index (stock->lengths[i], RwStockLength, k);

          g_autofree char *shown = length_text (length->length_m);

          g_string_append_printf (text, "%s%s", k > 0 ? ", " : "", shown);
          if (length->count != RW_PULL_ANY)
            g_string_append_printf (text, "×%d", length->count);
        }
      gtk_editable_set_text (GTK_EDITABLE (choices->lengths[i]), text->str);
      g_string_free (text, TRUE);
    }
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (choices->spares), stock->spares_percent);
  choices->setting = FALSE;
}

/* What is remembered and cannot be read is forgotten. */
static void
recall (RwStockChoices *choices)
{
  g_autofree char *text = choices->settings != NULL ? rw_settings_dup_string (choices->settings, "papers-stock", "") : g_strdup ("");
  g_autoptr (RwStock) stock = *text != '\0' ? rw_stock_parse (text, NULL) : NULL;

  if (stock == NULL)
    stock = rw_stock_new ();
  if (choices->settings != NULL)
    stock->spares_percent = rw_settings_get_integer (choices->settings, "papers-spares", (int) stock->spares_percent, 0, 1000);
  show_stock (choices, stock);
}

void
rw_stock_choices_remember (RwStockChoices *choices)
{
  g_autoptr (RwStock) stock = rw_stock_choices_get (choices, NULL);
  g_autofree char *text = stock != NULL ? rw_stock_text (stock) : NULL;

  if (stock == NULL || choices->settings == NULL)
    return;
  rw_settings_set_string (choices->settings, "papers-stock", text);
  rw_settings_set_integer (choices->settings, "papers-spares", (int) stock->spares_percent);
}

void
rw_stock_choices_type (RwStockChoices *choices, RwMedium medium, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (choices->lengths[medium]), text);
}

static void
reset_clicked (GtkButton *button, gpointer user_data)
{
  RwStockChoices *choices = user_data;
  g_autoptr (RwStock) stock = rw_stock_new ();

  show_stock (choices, stock);
  choices->changed (choices->user_data);
}

/* @settings: (nullable): outlives it */
RwStockChoices *
rw_stock_choices_new (RwSettings *settings, void (*changed) (gpointer user_data), gpointer user_data)
{
  RwStockChoices *choices = g_new0 (RwStockChoices, 1);
  const RwField *medium = &rw_cable_table.fields[RW_CABLE_MEDIUM];
  GtkWidget *note = rw_form_note (), *reset = gtk_button_new_with_label (_("Usual lengths"));

  choices->settings = settings;
  choices->changed = changed;
  choices->user_data = user_data;
  choices->box = g_object_ref_sink (rw_form_new ());
  rw_form_set_note (note, rw_length_units () == RW_UNITS_FEET
                            ? _("Lengths in feet. “10×4” is four of 10 ft; without a count there are as many as are asked for.")
                            : _("Lengths in metres. “10×4” is four of 10 m; without a count there are as many as are asked for."));
  gtk_widget_add_css_class (note, "rw-small");
  gtk_box_append (GTK_BOX (choices->box), note);
  for (guint i = 0; i < RW_N_STOCK_MEDIA; i++)
    {
      choices->lengths[i] = gtk_entry_new ();
      g_signal_connect (choices->lengths[i], "changed", G_CALLBACK (something_changed), choices);
      rw_form_add (choices->box, _(medium->word_labels[i]), choices->lengths[i]);
    }
  choices->spares = rw_form_number (10, 0, 1000, 5, 0);
  g_signal_connect (choices->spares, "value-changed", G_CALLBACK (something_changed), choices);
  rw_form_add (choices->box, _("Spares, %"), choices->spares);
  g_signal_connect (reset, "clicked", G_CALLBACK (reset_clicked), choices);
  gtk_widget_set_halign (reset, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (choices->box), reset);
  recall (choices);
  return choices;
}

void
rw_stock_choices_free (RwStockChoices *choices)
{
  if (choices == NULL)
    return;
  g_object_unref (choices->box);
  g_free (choices);
}

/* (transfer none) */
GtkWidget *
rw_stock_choices_widget (RwStockChoices *choices)
{
  return choices->box;
}
