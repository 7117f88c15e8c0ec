/* SPDX-License-Identifier: MIT */
#include "rw-label-choices.h"

#include <glib/gi18n-lib.h>
#include "rw-form.h"

typedef enum { ROWS, COLUMNS, TOP, RIGHT, BOTTOM, LEFT, GAP_X, GAP_Y, FIRST, N_MEASURES } Measure;

static const struct { const char *name; double min, max, step; guint digits; } measures[N_MEASURES] = {
  [ROWS] = { N_("Rows"), 1, 100, 1, 0 },
  [COLUMNS] = { N_("Columns"), 1, 100, 1, 0 },
  [TOP] = { N_("Top, mm"), 0, 1000, 0.5, 1 },
  [RIGHT] = { N_("Right, mm"), 0, 1000, 0.5, 1 },
  [BOTTOM] = { N_("Bottom, mm"), 0, 1000, 0.5, 1 },
  [LEFT] = { N_("Left, mm"), 0, 1000, 0.5, 1 },
  [GAP_X] = { N_("Gap across, mm"), 0, 1000, 0.5, 1 },
  [GAP_Y] = { N_("Gap down, mm"), 0, 1000, 0.5, 1 },
  [FIRST] = { N_("Start at label"), 1, 10000, 1, 0 },
};

typedef struct { char *name, *grid; } Own;

struct _RwLabelChoices
{
  RwSettings *settings; /* (nullable) (not owned) */
  void (*changed) (gpointer user_data);
  gpointer user_data;
  GPtrArray *own;       /* of Own */
  GtkWidget *box, *named, *name, *keep, *forget;
  GtkWidget *spin[N_MEASURES];
  gboolean setting;
};

static void
own_free (gpointer data)
{
  Own *own = data;

  g_free (own->name);
  g_free (own->grid);
  g_free (own);
}

/* Of a grid the first label is not part: it says how much of one sheet was used. */
static char *
text_of (const RwLabelGrid *grid)
{
  RwLabelGrid whole = *grid;

  whole.first = 1;
  return rw_label_grid_text (&whole);
}

static void
usual (RwLabelGrid *grid)
{
  RwPapersOptions options;

  rw_papers_options_init (&options);
  *grid = options.labels;
}

void
rw_label_choices_get (RwLabelChoices *choices, RwLabelGrid *grid)
{
  double value[N_MEASURES];

  for (guint i = 0; i < N_MEASURES; i++)
    value[i] = gtk_spin_button_get_value (GTK_SPIN_BUTTON (choices->spin[i]));
  *grid = (RwLabelGrid) {
    .rows = (guint) value[ROWS], .columns = (guint) value[COLUMNS],
    .top = value[TOP], .right = value[RIGHT], .bottom = value[BOTTOM], .left = value[LEFT],
    .gap_x = value[GAP_X], .gap_y = value[GAP_Y], .first = (guint) value[FIRST],
  };
}

/* Index in the list of names: 0 = the usual grid, then a person's, then "other". */
static guint
named_as (RwLabelChoices *choices)
{
  RwLabelGrid grid, plain;
  g_autofree char *text = NULL;
  g_autofree char *usual_text = NULL;

  rw_label_choices_get (choices, &grid);
  usual (&plain);
  text = text_of (&grid);
  usual_text = text_of (&plain);
  if (g_str_equal (text, usual_text))
    return 0;
  for (guint i = 0; i < choices->own->len; i++)
    if (g_str_equal (((Own *) choices->own->pdata[i])->grid, text))
      return i + 1;
  return choices->own->len + 1;
}

static void
show_name (RwLabelChoices *choices)
{
  guint at = named_as (choices);

  choices->setting = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choices->named), at);
  choices->setting = FALSE;
  gtk_widget_set_sensitive (choices->forget, at > 0 && at <= choices->own->len);
}

void
rw_label_choices_set (RwLabelChoices *choices, const RwLabelGrid *grid)
{
  const double value[N_MEASURES] = {
    [ROWS] = grid->rows, [COLUMNS] = grid->columns, [TOP] = grid->top, [RIGHT] = grid->right, [BOTTOM] = grid->bottom,
    [LEFT] = grid->left, [GAP_X] = grid->gap_x, [GAP_Y] = grid->gap_y, [FIRST] = grid->first,
  };

  choices->setting = TRUE;
  for (guint i = 0; i < N_MEASURES; i++)
    gtk_spin_button_set_value (GTK_SPIN_BUTTON (choices->spin[i]), value[i]);
  choices->setting = FALSE;
  show_name (choices);
  choices->changed (choices->user_data);
}

static void
measure_changed (GtkSpinButton *spin, gpointer user_data)
{
  RwLabelChoices *choices = user_data;

  if (choices->setting)
    return;
  show_name (choices);
  choices->changed (choices->user_data);
}

static void
name_chosen (GObject *object, GParamSpec *pspec, gpointer user_data)
{
  RwLabelChoices *choices = user_data;
  guint at = rw_form_chosen (choices->named);
  RwLabelGrid grid;

  if (choices->setting || at > choices->own->len)
    return;
  usual (&grid);
  if (at > 0)
    rw_label_grid_parse (((Own *) choices->own->pdata[at - 1])->grid, &grid, NULL);
  rw_label_choices_set (choices, &grid);
}

/* Makes the list of names anew. */
static void
list_names (RwLabelChoices *choices)
{
  GtkStringList *list = gtk_string_list_new (NULL);

  gtk_string_list_append (list, _("The usual one"));
  for (guint i = 0; i < choices->own->len; i++)
    gtk_string_list_append (list, ((Own *) choices->own->pdata[i])->name);
  /* Translators: measures of a sheet of labels that have no name yet. */
  gtk_string_list_append (list, _("Other measures"));
  choices->setting = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (choices->named), G_LIST_MODEL (list));
  choices->setting = FALSE;
  g_object_unref (list);
  show_name (choices);
}

static void
forget_named (RwLabelChoices *choices, const char *name)
{
  for (guint i = choices->own->len; i-- > 0;)
    if (g_str_equal (((Own *) choices->own->pdata[i])->name, name))
      g_ptr_array_remove_index (choices->own, i);
}

void
rw_label_choices_keep (RwLabelChoices *choices, const char *name)
{
  RwLabelGrid grid;
  Own *own = g_new0 (Own, 1);

  rw_label_choices_get (choices, &grid);
  own->name = g_strstrip (g_strdup (name));
  own->grid = text_of (&grid);
  forget_named (choices, own->name);
  g_ptr_array_add (choices->own, own);
  list_names (choices);
  rw_label_choices_remember (choices);
}

char *
rw_label_choices_names (RwLabelChoices *choices)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < choices->own->len; i++)
    g_string_append_printf (names, "%s\n", ((Own *) choices->own->pdata[i])->name);
  return g_string_free (names, FALSE);
}

static void
keep_clicked (GtkWidget *widget, gpointer user_data)
{
  RwLabelChoices *choices = user_data;
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (choices->name))));

  if (*name == '\0')
    return;
  rw_label_choices_keep (choices, name);
  gtk_editable_set_text (GTK_EDITABLE (choices->name), "");
}

static void
forget_clicked (GtkButton *button, gpointer user_data)
{
  RwLabelChoices *choices = user_data;
  guint at = named_as (choices);

  if (at == 0 || at > choices->own->len)
    return;
  g_ptr_array_remove_index (choices->own, at - 1);
  list_names (choices);
  rw_label_choices_remember (choices);
}

static void
name_typed (GtkEditable *editable, gpointer user_data)
{
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (editable)));

  gtk_widget_set_sensitive (((RwLabelChoices *) user_data)->keep, *name != '\0');
}

/* Each own grid is a line: its name, a tab, its measures. */
static void
recall (RwLabelChoices *choices)
{
  RwLabelGrid grid;
  g_autofree char *kept = NULL;
  g_autofree char *last = NULL;
  g_auto (GStrv) lines = NULL;

  usual (&grid);
  if (choices->settings == NULL)
    return;
  kept = rw_settings_dup_string (choices->settings, "papers-grids", "");
  lines = g_strsplit (kept, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) parts = g_strsplit (lines[i], "\t", 2);
      RwLabelGrid read;
      Own *own;

      usual (&read);
      if (g_strv_length (parts) != 2 || !rw_label_grid_parse (parts[1], &read, NULL))
        continue;
      own = g_new0 (Own, 1);
      own->name = g_strdup (parts[0]);
      own->grid = text_of (&read);
      g_ptr_array_add (choices->own, own);
    }
  list_names (choices);
  last = rw_settings_dup_string (choices->settings, "papers-labels", "");
  if (*last != '\0' && rw_label_grid_parse (last, &grid, NULL))
    rw_label_choices_set (choices, &grid);
}

void
rw_label_choices_remember (RwLabelChoices *choices)
{
  RwLabelGrid grid;
  g_autofree char *text = NULL;
  GString *kept = g_string_new (NULL);

  rw_label_choices_get (choices, &grid);
  text = text_of (&grid);
  for (guint i = 0; i < choices->own->len; i++)
    {
      const Own *own = choices->own->pdata[i];
      g_autofree char *name = g_strdelimit (g_strdup (own->name), "\t\n", ' ');

      g_string_append_printf (kept, "%s\t%s\n", name, own->grid);
    }
  if (choices->settings != NULL)
    {
      rw_settings_set_string (choices->settings, "papers-labels", text);
      rw_settings_set_string (choices->settings, "papers-grids", kept->str);
    }
  g_string_free (kept, TRUE);
}

static GtkWidget *
make_name_row (RwLabelChoices *choices)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  choices->name = gtk_entry_new ();
  choices->keep = gtk_button_new_with_label (_("Keep"));
  choices->forget = gtk_button_new_with_label (_("Forget"));
  gtk_entry_set_placeholder_text (GTK_ENTRY (choices->name), _("Name of these measures"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (choices->name), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Name of these measures"), -1);
  gtk_widget_set_hexpand (choices->name, TRUE);
  gtk_widget_set_sensitive (choices->keep, FALSE);
  g_signal_connect (choices->name, "changed", G_CALLBACK (name_typed), choices);
  g_signal_connect (choices->name, "activate", G_CALLBACK (keep_clicked), choices);
  g_signal_connect (choices->keep, "clicked", G_CALLBACK (keep_clicked), choices);
  g_signal_connect (choices->forget, "clicked", G_CALLBACK (forget_clicked), choices);
  gtk_box_append (GTK_BOX (row), choices->name);
  gtk_box_append (GTK_BOX (row), choices->keep);
  gtk_box_append (GTK_BOX (row), choices->forget);
  return row;
}

/* @settings: (nullable): outlives it; @changed: after each change of a measure */
RwLabelChoices *
rw_label_choices_new (RwSettings *settings, void (*changed) (gpointer user_data), gpointer user_data)
{
  RwLabelChoices *choices = g_new0 (RwLabelChoices, 1);
  RwLabelGrid grid;

  choices->settings = settings;
  choices->changed = changed;
  choices->user_data = user_data;
  choices->own = g_ptr_array_new_with_free_func (own_free);
  choices->box = g_object_ref_sink (rw_form_new ());
  choices->named = rw_form_drop (NULL, 0);
  g_signal_connect (choices->named, "notify::selected", G_CALLBACK (name_chosen), choices);
  rw_form_add (choices->box, _("Sheet of labels"), choices->named);
  choices->setting = TRUE;
  for (guint i = 0; i < N_MEASURES; i++)
    {
      choices->spin[i] = rw_form_number (0, measures[i].min, measures[i].max, measures[i].step, measures[i].digits);
      g_signal_connect (choices->spin[i], "value-changed", G_CALLBACK (measure_changed), choices);
      rw_form_add (choices->box, _(measures[i].name), choices->spin[i]);
    }
  choices->setting = FALSE;
  gtk_box_append (GTK_BOX (choices->box), make_name_row (choices));
  usual (&grid);
  rw_label_choices_set (choices, &grid);
  list_names (choices);
  recall (choices);
  return choices;
}

void
rw_label_choices_free (RwLabelChoices *choices)
{
  if (choices == NULL)
    return;
  g_ptr_array_unref (choices->own);
  g_object_unref (choices->box);
  g_free (choices);
}

/* (transfer none) */
GtkWidget *
rw_label_choices_widget (RwLabelChoices *choices)
{
  return choices->box;
}
