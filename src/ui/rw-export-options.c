/* SPDX-License-Identifier: MIT */
#include "rw-export-options.h"

#include <glib/gi18n-lib.h>

#include "rw-form.h"

/* @paged: holds all pages; @dots: made of dots, so their density matters. */
static const struct { const char *name, *label; gboolean paged, dots; } formats[] = {
  { "pdf", N_("PDF"), TRUE, FALSE },
  { "png", N_("PNG"), FALSE, TRUE },
  { "svg", N_("SVG"), FALSE, FALSE },
};

/* ISO 5455: the recommended reducing scales and true size; 0 = fitted. */
static const int scales[] = { 0, 1, 2, 5, 10, 20, 50 };

static const int dpis[] = { 96, 150, 300, 600 };

struct _RwExportOptions
{
  GtkBox parent_instance;
  GtkWidget *format, *paper, *orientation, *scale, *lens, *dpi, *mono, *balloons;
  GtkWidget *dpi_row;
  char *from;  /* (nullable): id of the device that hops are counted from */
  char **fail; /* (nullable): ids of what has failed */
};

G_DEFINE_FINAL_TYPE (RwExportOptions, rw_export_options, GTK_TYPE_BOX)

static guint changed_signal;

static guint
selected (GtkWidget *drop)
{
  guint index = gtk_drop_down_get_selected (GTK_DROP_DOWN (drop));

  return index == GTK_INVALID_LIST_POSITION ? 0 : index;
}

const char *
rw_export_options_get_format (RwExportOptions *self)
{
  g_return_val_if_fail (RW_IS_EXPORT_OPTIONS (self), NULL);
  return formats[selected (self->format)].name;
}

void
rw_export_options_set_format (RwExportOptions *self, const char *format)
{
  g_return_if_fail (RW_IS_EXPORT_OPTIONS (self));
  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    if (g_str_equal (formats[i].name, format))
      gtk_drop_down_set_selected (GTK_DROP_DOWN (self->format), i);
}

void
rw_export_options_set_lens (RwExportOptions *self, RwLensKind kind, const char *from, const char *const *fail)
{
  g_return_if_fail (RW_IS_EXPORT_OPTIONS (self));
  g_free (self->from);
  self->from = g_strdup (from);
  g_strfreev (self->fail);
  self->fail = g_strdupv ((char **) fail);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->lens), kind);
}

void
rw_export_options_get (RwExportOptions *self, RwSheetOptions *options, double *dpi)
{
  int scale = scales[selected (self->scale)];

  g_return_if_fail (RW_IS_EXPORT_OPTIONS (self));
  rw_sheet_options_init (options);
  options->paper = rw_paper (selected (self->paper));
  options->portrait = selected (self->orientation) == 1;
  options->scale = scale > 0 ? 1.0 / scale : 0;
  options->mono = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->mono));
  options->lens = (RwLensKind) selected (self->lens);
  options->from = self->from;
  options->fail = (const char *const *) self->fail;
  options->balloons = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->balloons));
  *dpi = dpis[selected (self->dpi)];
}

gboolean
rw_export_options_is_paged (RwExportOptions *self)
{
  g_return_val_if_fail (RW_IS_EXPORT_OPTIONS (self), FALSE);
  return formats[selected (self->format)].paged;
}

void
rw_export_options_remember (RwExportOptions *self, RwSettings *settings)
{
  RwSheetOptions options;
  double dpi;

  g_return_if_fail (RW_IS_EXPORT_OPTIONS (self) && settings != NULL);
  rw_export_options_get (self, &options, &dpi);
  rw_settings_set_string (settings, "paper", options.paper->name);
  rw_settings_set_string (settings, "export-format", rw_export_options_get_format (self));
  rw_settings_set_boolean (settings, "portrait", options.portrait);
  rw_settings_set_boolean (settings, "mono", options.mono);
  rw_settings_set_integer (settings, "dpi", (int) dpi);
}

/* Only what is made of dots has a fineness. */
static void
show_dpi (RwExportOptions *self)
{
  gtk_widget_set_visible (self->dpi_row, formats[selected (self->format)].dots);
}

static void
option_changed (GObject *object, GParamSpec *pspec, gpointer user_data)
{
  show_dpi (user_data);
  g_signal_emit (user_data, changed_signal, 0);
}

static GtkWidget *
make_drop (RwExportOptions *self, GtkStringList *list, guint index)
{
  GtkWidget *drop = gtk_drop_down_new (G_LIST_MODEL (list), NULL);

  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), index);
  g_signal_connect (drop, "notify::selected", G_CALLBACK (option_changed), self);
  return drop;
}

static GtkWidget *
make_check (RwExportOptions *self, const char *label, gboolean active)
{
  GtkWidget *check = gtk_check_button_new_with_label (label);

  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), active);
  g_signal_connect (check, "notify::active", G_CALLBACK (option_changed), self);
  return check;
}

static GtkWidget *
make_format (RwExportOptions *self, RwSettings *settings)
{
  g_autofree char *last = settings != NULL ? rw_settings_dup_string (settings, "export-format", "pdf") : NULL;
  GtkStringList *list = gtk_string_list_new (NULL);
  guint index = 0;

  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    {
      gtk_string_list_append (list, _(formats[i].label));
      if (g_strcmp0 (formats[i].name, last) == 0)
        index = i;
    }
  return make_drop (self, list, index);
}

static GtkWidget *
make_paper (RwExportOptions *self, RwSettings *settings)
{
  RwSheetOptions options;
  g_autofree char *last = NULL;
  GtkStringList *list = gtk_string_list_new (NULL);
  guint index = 0;

  rw_sheet_options_init (&options);
  last = settings != NULL ? rw_settings_dup_string (settings, "paper", options.paper->name)
                                  : g_strdup (options.paper->name);
  for (guint i = 0; i < rw_n_papers (); i++)
    {
      gtk_string_list_append (list, _(rw_paper (i)->label));
      if (g_strcmp0 (rw_paper (i)->name, last) == 0)
        index = i;
    }
  return make_drop (self, list, index);
}

static GtkWidget *
make_orientation (RwExportOptions *self, RwSettings *settings)
{
  GtkStringList *list = gtk_string_list_new (NULL);

  gtk_string_list_append (list, _("Landscape"));
  gtk_string_list_append (list, _("Portrait"));
  return make_drop (self, list,
                    settings != NULL && rw_settings_get_boolean (settings, "portrait", FALSE));
}

static GtkWidget *
make_scale (RwExportOptions *self)
{
  GtkStringList *list = gtk_string_list_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    gtk_string_list_take (list, scales[i] == 0 ? g_strdup (_("Fitted to the paper"))
                                               : g_strdup_printf ("1:%d", scales[i]));
  return make_drop (self, list, 0);
}

static GtkWidget *
make_dpi (RwExportOptions *self, RwSettings *settings)
{
  GtkStringList *list = gtk_string_list_new (NULL);
  int last = settings != NULL ? rw_settings_get_integer (settings, "dpi", 150, 36, 1200) : 150;
  guint index = 0;

  for (guint i = 0; i < G_N_ELEMENTS (dpis); i++)
    {
      /* Translators: dots an inch of a picture. */
      gtk_string_list_take (list, g_strdup_printf (_("%d dots an inch"), dpis[i]));
      if (dpis[i] == last)
        index = i;
    }
  return make_drop (self, list, index);
}

static GtkWidget *
make_lens (RwExportOptions *self)
{
  GtkStringList *list = gtk_string_list_new (NULL);

  for (guint i = 0; i < RW_N_LENSES; i++)
    gtk_string_list_append (list, _(rw_lens_info ((RwLensKind) i)->label));
  return make_drop (self, list, 0);
}

static void
rw_export_options_finalize (GObject *object)
{
  RwExportOptions *self = RW_EXPORT_OPTIONS (object);

  g_free (self->from);
  g_strfreev (self->fail);
  G_OBJECT_CLASS (rw_export_options_parent_class)->finalize (object);
}

static void
rw_export_options_class_init (RwExportOptionsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_export_options_finalize;
  changed_signal = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
rw_export_options_init (RwExportOptions *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 10);
}

GtkWidget *
rw_export_options_new (RwSettings *settings)
{
  RwExportOptions *self = g_object_new (RW_TYPE_EXPORT_OPTIONS, NULL);
  GtkWidget *box = GTK_WIDGET (self);

  self->format = make_format (self, settings);
  self->paper = make_paper (self, settings);
  self->orientation = make_orientation (self, settings);
  self->scale = make_scale (self);
  self->lens = make_lens (self);
  self->dpi = make_dpi (self, settings);
  self->mono = make_check (self, _("Black and white"),
                           settings != NULL && rw_settings_get_boolean (settings, "mono", FALSE));
  self->balloons = make_check (self, _("Balloons of the findings"), TRUE);
  rw_form_add (box, _("Format"), self->format);
  rw_form_add (box, _("Paper"), self->paper);
  rw_form_add (box, _("Orientation"), self->orientation);
  rw_form_add (box, _("Scale"), self->scale);
  rw_form_add (box, _("Lens"), self->lens);
  self->dpi_row = rw_form_add (box, _("Fineness"), self->dpi);
  gtk_box_append (GTK_BOX (box), self->mono);
  gtk_box_append (GTK_BOX (box), self->balloons);
  show_dpi (self);
  return box;
}
