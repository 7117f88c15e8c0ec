/* SPDX-License-Identifier: MIT */
#include "rw-papers-choices.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-revision.h>
#include "rw-form.h"

/* ISO 5455: the recommended reducing scales and true size; 0 = what can be read on the fewest sheets. */
static const int scales[] = { 0, 1, 2, 5, 10 };

/* Nothing fails in the papers, so the Failure lens, which is the last, would look like Wiring. */
#define N_LENSES RW_LENS_FAILURE

typedef struct
{
  RwPapersChoices *choices;
  RwPapersSection section;
  GtkWidget *check, *pages;
} SectionRow;

struct _RwPapersChoices
{
  RwSettings *settings; /* (nullable) (not owned) */
  RwPapersChoicesCalls calls;
  GtkWidget *box;
  SectionRow rows[RW_N_PAPERS_SECTIONS];
  GtkWidget *paper, *orientation, *mono, *scale, *lens, *since;
  GPtrArray *states; /* of RwRig: of the revisions that clouds can go back to */
  RwLabelChoices *labels;
  RwStockChoices *stock;
  gboolean setting;
};

static void
changed (RwPapersChoices *choices)
{
  if (!choices->setting)
    choices->calls.changed (choices->calls.user_data);
}

static void
part_changed (gpointer user_data)
{
  changed (user_data);
}

static void
control_changed (GObject *object, GParamSpec *pspec, gpointer user_data)
{
  changed (user_data);
}

static guint
ticked (RwPapersChoices *choices)
{
  guint sections = 0;

  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (choices->rows[i].check)))
      sections |= 1u << i;
  return sections;
}

gboolean
rw_papers_choices_get (RwPapersChoices *choices, RwPapersOptions *options, RwStock **stock, GError **error)
{
  int scale = scales[rw_form_chosen (choices->scale)];

  rw_papers_options_init (options);
  options->sections = ticked (choices);
  options->paper = rw_paper (rw_form_chosen (choices->paper));
  options->portrait = rw_form_chosen (choices->orientation) == 1;
  options->mono = gtk_check_button_get_active (GTK_CHECK_BUTTON (choices->mono));
  options->scale = scale > 0 ? 1.0 / scale : 0;
  options->lens = (RwLensKind) rw_form_chosen (choices->lens);
  options->since = rw_form_chosen (choices->since) > 0 ? choices->states->pdata[rw_form_chosen (choices->since) - 1] : NULL;
  rw_label_choices_get (choices->labels, &options->labels);
  if ((options->sections >> RW_PAPERS_LABELS & 1) && !rw_label_grid_check (&options->labels, rw_papers_label_paper (options), error))
    return FALSE;
  options->stock = *stock = rw_stock_choices_get (choices->stock, error);
  return *stock != NULL;
}

static void
set_all (RwPapersChoices *choices, guint sections)
{
  choices->setting = TRUE;
  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (choices->rows[i].check), sections >> i & 1);
  choices->setting = FALSE;
  changed (choices);
}

void
rw_papers_choices_tick (RwPapersChoices *choices, RwPapersSection section, gboolean in)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choices->rows[section].check), in);
}

void
rw_papers_choices_set_paper (RwPapersChoices *choices, const char *name, gboolean portrait, gboolean mono)
{
  for (guint i = 0; i < rw_n_papers (); i++)
    if (g_str_equal (rw_paper (i)->name, name))
      gtk_drop_down_set_selected (GTK_DROP_DOWN (choices->paper), i);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choices->orientation), portrait ? 1 : 0);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choices->mono), mono);
}

/**
 * rw_papers_choices_show_pages: says beside each section on how many sheets it lies; NULL = not known yet.
 */
void
rw_papers_choices_show_pages (RwPapersChoices *choices, const guint *pages)
{
  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    {
      gboolean in = gtk_check_button_get_active (GTK_CHECK_BUTTON (choices->rows[i].check));
      guint n = pages != NULL ? pages[i] : 0;
      g_autofree char *text = n > 0 ? g_strdup_printf ("%u", n) : g_strdup (in && pages != NULL ? _("nothing") : "");

      gtk_button_set_label (GTK_BUTTON (choices->rows[i].pages), text);
      gtk_widget_set_sensitive (choices->rows[i].pages, n > 0);
    }
}

static void
pages_clicked (GtkButton *button, gpointer user_data)
{
  SectionRow *row = user_data;

  row->choices->calls.go_to (row->section, row->choices->calls.user_data);
}

static void
all_clicked (GtkButton *button, gpointer user_data)
{
  set_all (user_data, RW_PAPERS_ALL);
}

static void
none_clicked (GtkButton *button, gpointer user_data)
{
  set_all (user_data, 0);
}

static guint
recall_sections (RwSettings *settings)
{
  g_autofree char *kept = settings != NULL ? rw_settings_dup_string (settings, "papers-without", "") : g_strdup ("");
  g_auto (GStrv) names = g_strsplit (kept, ",", -1);
  guint sections = RW_PAPERS_ALL;

  for (guint i = 0; names[i] != NULL; i++)
    {
      int section = rw_papers_section_find (names[i]);

      if (section >= 0)
        sections &= ~(1u << section);
    }
  return sections;
}

static void
add_section (RwPapersChoices *choices, GtkWidget *box, RwPapersSection section, gboolean in)
{
  SectionRow *row = &choices->rows[section];
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  g_autofree char *tip = NULL;

  *row = (SectionRow) { choices, section, gtk_check_button_new_with_label (rw_papers_section_title (section)), gtk_button_new_with_label ("") };
  gtk_check_button_set_active (GTK_CHECK_BUTTON (row->check), in);
  gtk_widget_set_hexpand (row->check, TRUE);
  gtk_widget_add_css_class (row->pages, "flat");
  gtk_widget_add_css_class (row->pages, "rw-pages");
  /* Translators: a section of the papers. */
  tip = g_strdup_printf (_("Sheets of “%s”: show the first"), rw_papers_section_title (section));
  gtk_widget_set_tooltip_text (row->pages, tip);
  g_signal_connect (row->check, "notify::active", G_CALLBACK (control_changed), choices);
  g_signal_connect (row->pages, "clicked", G_CALLBACK (pages_clicked), row);
  gtk_box_append (GTK_BOX (line), row->check);
  gtk_box_append (GTK_BOX (line), row->pages);
  gtk_box_append (GTK_BOX (box), line);
}

static GtkWidget *
make_head (RwPapersChoices *choices)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4), *heading = rw_form_heading (_("Sections, and their sheets"));
  const struct { const char *label; GCallback clicked; } buttons[] = {
    /* Translators: sections of the papers. */
    { C_("sections", "All"), G_CALLBACK (all_clicked) },
    /* Translators: sections of the papers. */
    { C_("sections", "None"), G_CALLBACK (none_clicked) },
  };

  gtk_widget_set_hexpand (heading, TRUE);
  gtk_box_append (GTK_BOX (line), heading);
  for (guint i = 0; i < G_N_ELEMENTS (buttons); i++)
    {
      GtkWidget *button = gtk_button_new_with_label (buttons[i].label);

      gtk_widget_add_css_class (button, "flat");
      gtk_widget_add_css_class (button, "rw-pages");
      g_signal_connect (button, "clicked", buttons[i].clicked, choices);
      gtk_box_append (GTK_BOX (line), button);
    }
  return line;
}

static GtkWidget *
make_sections (RwPapersChoices *choices)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  guint sections = recall_sections (choices->settings);

  gtk_box_append (GTK_BOX (box), make_head (choices));
  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    add_section (choices, box, i, sections >> i & 1);
  return box;
}

static GtkWidget *
drop_new (RwPapersChoices *choices, GPtrArray *names, guint chosen)
{
  GtkWidget *drop;

  g_ptr_array_add (names, NULL);
  drop = rw_form_drop ((const char *const *) names->pdata, chosen);
  g_signal_connect (drop, "notify::selected", G_CALLBACK (control_changed), choices);
  g_ptr_array_unref (names);
  return drop;
}

static GtkWidget *
make_paper (RwPapersChoices *choices)
{
  RwPapersOptions usual;
  g_autofree char *last = NULL;
  GPtrArray *names = g_ptr_array_new ();
  guint chosen = 0;

  rw_papers_options_init (&usual);
  last = choices->settings != NULL ? rw_settings_dup_string (choices->settings, "papers-paper", usual.paper->name) : g_strdup (usual.paper->name);
  for (guint i = 0; i < rw_n_papers (); i++)
    {
      g_ptr_array_add (names, (char *) _(rw_paper (i)->label));
      if (g_str_equal (rw_paper (i)->name, last))
        chosen = i;
    }
  return drop_new (choices, names, chosen);
}

static GtkWidget *
make_orientation (RwPapersChoices *choices)
{
  GPtrArray *names = g_ptr_array_new ();

  g_ptr_array_add (names, (char *) _("Landscape"));
  g_ptr_array_add (names, (char *) _("Portrait"));
  return drop_new (choices, names, choices->settings != NULL && rw_settings_get_boolean (choices->settings, "papers-portrait", FALSE));
}

static GtkWidget *
make_scale (RwPapersChoices *choices)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  int last = choices->settings != NULL ? rw_settings_get_integer (choices->settings, "papers-scale", 0, 0, 1000) : 0;
  guint chosen = 0;

  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    {
      g_ptr_array_add (names, scales[i] == 0 ? g_strdup (_("Readable on few sheets")) : g_strdup_printf ("1:%d", scales[i]));
      if (scales[i] == last)
        chosen = i;
    }
  return drop_new (choices, names, chosen);
}

static GtkWidget *
make_lens (RwPapersChoices *choices)
{
  g_autofree char *last = choices->settings != NULL ? rw_settings_dup_string (choices->settings, "papers-lens", "") : g_strdup ("");
  GPtrArray *names = g_ptr_array_new ();
  RwLensKind chosen = RW_LENS_WIRING;

  rw_lens_find (last, &chosen);
  for (guint i = 0; i < N_LENSES; i++)
    g_ptr_array_add (names, (char *) _(rw_lens_info ((RwLensKind) i)->label));
  return drop_new (choices, names, chosen < N_LENSES ? chosen : RW_LENS_WIRING);
}

static GtkWidget *
make_since (RwPapersChoices *choices, const RwRig *rig)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  /* Translators: clouds round what changed. */
  g_ptr_array_add (names, g_strdup (C_("clouds", "None")));
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_REVISION); i++)
    {
      const RwRevision *revision = (const RwRevision *) rw_rig_items (rig, RW_ITEM_REVISION)[i];

      /* Translators: clouds go round what changed since; the letter of a revision. */
      g_ptr_array_add (names, g_strdup_printf (_("Since revision %s"), rw_revision_title (revision)));
      g_ptr_array_add (choices->states, g_object_ref (revision->state));
    }
  return drop_new (choices, names, 0);
}

void
rw_papers_choices_set_since (RwPapersChoices *choices, int index)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choices->since), (guint) (index + 1));
}

gboolean
rw_papers_choices_set_lens (RwPapersChoices *choices, RwLensKind kind)
{
  if ((guint) kind >= g_list_model_get_n_items (gtk_drop_down_get_model (GTK_DROP_DOWN (choices->lens))))
    return FALSE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choices->lens), (guint) kind);
  return TRUE;
}

static GtkWidget *
make_looks (RwPapersChoices *choices, const RwRig *rig)
{
  GtkWidget *form = rw_form_new ();

  choices->paper = make_paper (choices);
  choices->orientation = make_orientation (choices);
  choices->scale = make_scale (choices);
  choices->lens = make_lens (choices);
  choices->states = g_ptr_array_new_with_free_func (g_object_unref);
  choices->since = make_since (choices, rig);
  choices->mono = gtk_check_button_new_with_label (_("Black and white"));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choices->mono),
                               choices->settings != NULL && rw_settings_get_boolean (choices->settings, "papers-mono", FALSE));
  g_signal_connect (choices->mono, "notify::active", G_CALLBACK (control_changed), choices);
  rw_form_add (form, _("Paper"), choices->paper);
  rw_form_add (form, _("Orientation"), choices->orientation);
  rw_form_add (form, _("Drawing’s scale"), choices->scale);
  rw_form_add (form, _("Drawing’s lens"), choices->lens);
  gtk_widget_set_visible (rw_form_add (form, _("Clouds"), choices->since), choices->states->len > 0);
  gtk_box_append (GTK_BOX (form), choices->mono);
  return form;
}

static GtkWidget *
fold (const char *title, GtkWidget *child)
{
  GtkWidget *expander = gtk_expander_new (title);

  gtk_widget_set_margin_top (child, 8);
  gtk_expander_set_child (GTK_EXPANDER (expander), child);
  return expander;
}

void
rw_papers_choices_remember (RwPapersChoices *choices)
{
  RwSettings *settings = choices->settings;
  guint sections = ticked (choices);
  GString *without = g_string_new (NULL);

  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    if (!(sections >> i & 1))
      g_string_append_printf (without, "%s%s", without->len > 0 ? "," : "", rw_papers_section_name (i));
  if (settings != NULL)
    {
      /* so that a section which a later program adds is in */
      rw_settings_set_string (settings, "papers-without", without->str);
      rw_settings_set_string (settings, "papers-paper", rw_paper (rw_form_chosen (choices->paper))->name);
      rw_settings_set_boolean (settings, "papers-portrait", rw_form_chosen (choices->orientation) == 1);
      rw_settings_set_boolean (settings, "papers-mono", gtk_check_button_get_active (GTK_CHECK_BUTTON (choices->mono)));
      rw_settings_set_integer (settings, "papers-scale", scales[rw_form_chosen (choices->scale)]);
      rw_settings_set_string (settings, "papers-lens", rw_lens_info ((RwLensKind) rw_form_chosen (choices->lens))->name);
    }
  g_string_free (without, TRUE);
  rw_label_choices_remember (choices->labels);
  rw_stock_choices_remember (choices->stock);
}

/* @settings: (nullable): outlives it */
RwPapersChoices *
rw_papers_choices_new (const RwRig *rig, RwSettings *settings, const RwPapersChoicesCalls *calls)
{
  RwPapersChoices *choices = g_new0 (RwPapersChoices, 1);

  choices->settings = settings;
  choices->calls = *calls;
  choices->setting = TRUE;
  choices->box = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_VERTICAL, 14));
  gtk_box_append (GTK_BOX (choices->box), make_sections (choices));
  gtk_box_append (GTK_BOX (choices->box), make_looks (choices, rig));
  choices->labels = rw_label_choices_new (settings, part_changed, choices);
  choices->stock = rw_stock_choices_new (settings, part_changed, choices);
  gtk_box_append (GTK_BOX (choices->box), fold (_("Labels"), rw_label_choices_widget (choices->labels)));
  gtk_box_append (GTK_BOX (choices->box), fold (_("Cables in stock"), rw_stock_choices_widget (choices->stock)));
  choices->setting = FALSE;
  return choices;
}

void
rw_papers_choices_free (RwPapersChoices *choices)
{
  if (choices == NULL)
    return;
  rw_label_choices_free (choices->labels);
  rw_stock_choices_free (choices->stock);
  g_ptr_array_unref (choices->states);
  g_object_unref (choices->box);
  g_free (choices);
}

/* (transfer none) */
GtkWidget *
rw_papers_choices_widget (RwPapersChoices *choices)
{
  return choices->box;
}

RwLabelChoices *
rw_papers_choices_labels (RwPapersChoices *choices)
{
  return choices->labels;
}

RwStockChoices *
rw_papers_choices_stock (RwPapersChoices *choices)
{
  return choices->stock;
}
