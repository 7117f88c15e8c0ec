/* SPDX-License-Identifier: MIT */
#include "rw-config.h"
#include "rw-application.h"

#include <file/rw-file.h>
#include <file/rw-journal.h>
#include <glib/gi18n-lib.h>
#include <rig/rw-length.h>
#include "rw-help.h"
#include "rw-recent.h"
#include "rw-scheme.h"

#define RESOURCES "/org/rigwright/Rigwright/"
#define N_RECENT 10

struct _RwApplication
{
  GtkApplication parent_instance;
  char *settings_path; /* (nullable) */
  RwSettings *settings;
  RwScheme *scheme;
  RwRig *catalogue;
  char *catalogue_error;
  GtkCssProvider *style, *dark_style;
  gboolean looked_for_left; /* what a crash left is offered once a run */
};

G_DEFINE_FINAL_TYPE (RwApplication, rw_application, GTK_TYPE_APPLICATION)

RwSettings *
rw_application_get_settings (RwApplication *application)
{
  g_return_val_if_fail (RW_IS_APPLICATION (application), NULL);
  return application->settings;
}

void
rw_application_save_settings (RwApplication *application)
{
  g_autoptr (GError) error = NULL;

  g_return_if_fail (RW_IS_APPLICATION (application));
  if (!rw_settings_save (application->settings, &error))
    g_info ("the settings were not saved: %s", error->message);
}

RwRig *
rw_application_get_catalogue (RwApplication *application)
{
  g_return_val_if_fail (RW_IS_APPLICATION (application), NULL);
  return application->catalogue;
}

const char *
rw_application_get_catalogue_error (RwApplication *application)
{
  g_return_val_if_fail (RW_IS_APPLICATION (application), NULL);
  return application->catalogue_error;
}

static RwWindow *
find_open (RwApplication *application, const char *path)
{
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (application)); l != NULL; l = l->next)
    if (RW_IS_WINDOW (l->data) && path != NULL
        && g_strcmp0 (rw_document_path (rw_window_get_document (l->data)), path) == 0)
      return l->data;
  return NULL;
}

static RwWindow *
find_idle (RwApplication *application, RwWindow *near)
{
  if (near != NULL)
    return rw_window_is_idle (near) ? near : NULL;
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (application)); l != NULL; l = l->next)
    if (RW_IS_WINDOW (l->data) && rw_window_is_idle (l->data))
      return l->data;
  return NULL;
}

void
rw_application_open_file (RwApplication *application, GFile *file, RwWindow *near)
{
  g_autofree char *path = g_file_get_path (file);
  RwWindow *window = find_open (application, path);

  g_return_if_fail (RW_IS_APPLICATION (application));
  if (window == NULL)
    {
      window = find_idle (application, near);
      if (window == NULL)
        window = rw_window_new (GTK_APPLICATION (application));
      rw_window_load (window, file);
    }
  gtk_window_present (GTK_WINDOW (window));
}

static void
action_new (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  gtk_window_present (GTK_WINDOW (rw_window_new (user_data)));
}

static void
action_open_recent (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  RwApplication *application = user_data;
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));

  rw_application_open_file (application, file, RW_IS_WINDOW (active) ? RW_WINDOW (active) : NULL);
}

/* Each window asks about its own changes; one answer of "cancel" keeps that window, and so the program. */
static void
action_quit (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (user_data));

  for (GList *l = windows; l != NULL; l = l->next)
    if (RW_IS_WINDOW (l->data))
      gtk_window_close (l->data);
}

static void
action_units (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  RwApplication *application = user_data;
  const char *word = g_variant_get_string (parameter, NULL);
  RwUnits units;

  if (!rw_units_find (word, &units))
    return;
  g_simple_action_set_state (action, parameter);
  rw_length_set_units (units);
  for (GList *l = gtk_application_get_windows (GTK_APPLICATION (application)); l != NULL; l = l->next)
    if (RW_IS_WINDOW (l->data))
      rw_document_retell (rw_window_get_document (l->data));
  rw_settings_set_string (application->settings, "units", word);
  rw_application_save_settings (application);
}

/* As it was chosen the last time. */
static void
load_units (RwApplication *application)
{
  g_autofree char *word = rw_settings_dup_string (application->settings, "units", rw_units_word (RW_UNITS_METRES));
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (application), "units");
  RwUnits units = RW_UNITS_METRES;

  if (rw_units_find (word, &units))
    rw_length_set_units (units);
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_string (rw_units_word (units)));
}

static void
action_scheme (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  RwApplication *application = user_data;
  RwSchemeChoice choice = rw_scheme_find_word (g_variant_get_string (parameter, NULL));

  g_simple_action_set_state (action, parameter);
  rw_settings_set_scheme (application->settings, choice);
  rw_scheme_set_choice (application->scheme, choice);
  rw_application_save_settings (application);
}

static void
action_help (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  rw_help_show (gtk_application_get_active_window (user_data), "help:rigwright");
}

static void
action_rule_help (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  g_autofree char *uri = g_strdup_printf ("help:rigwright/rule-%s", g_variant_get_string (parameter, NULL));

  rw_help_show (gtk_application_get_active_window (user_data), uri);
}

static void
action_about (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  gtk_show_about_dialog (gtk_application_get_active_window (user_data),
                         "program-name", "Rigwright",
                         "version", RW_VERSION,
                         "logo-icon-name", RW_APPLICATION_ID,
                         "license-type", GTK_LICENSE_MIT_X11,
                         "comments", _("Draws a networked audio rig, marks its wiring mistakes while it is drawn, and "
                                       "prints the papers that the crew works from.\n\nRigwright plans and checks "
                                       "drawings; it does not certify an installation."),
                         NULL);
}

static const GActionEntry entries[] = {
  { .name = "new", .activate = action_new },
  { .name = "open-recent", .activate = action_open_recent, .parameter_type = "s" },
  { .name = "quit", .activate = action_quit },
  { .name = "units", .activate = action_units, .parameter_type = "s", .state = "'m'" },
  { .name = "scheme", .activate = action_scheme, .parameter_type = "s", .state = "'desktop'" },
  { .name = "help", .activate = action_help },
  { .name = "rule-help", .activate = action_rule_help, .parameter_type = "s" },
  { .name = "about", .activate = action_about },
};

/* Only keys that no text field uses: the application's keys come before the focus. */
static const struct { const char *action, *keys[3]; } accels[] = {
  { "app.new", { "<Control>n" } },
  { "win.open", { "<Control>o" } },
  { "win.save", { "<Control>s" } },
  { "win.save-as", { "<Control><Shift>s" } },
  { "win.export", { "<Control>e" } },
  { "win.papers", { "<Control><Shift>p" } },
  { "win.print", { "<Control>p" } },
  { "win.revisions", { "<Control>r" } },
  { "window.close", { "<Control>w" } },
  { "app.quit", { "<Control>q" } },
  { "win.find", { "<Control>f" } },
  { "win.next-finding", { "F8" } },
  { "win.previous-finding", { "<Shift>F8" } },
  { "win.number", { "<Control><Shift>u" } },
  { "win.label", { "<Control><Shift>l" } },
  { "win.address", { "<Control><Shift>h" } },
  { "win.lens::planes", { "F3" } },
  { "win.lens::load", { "F5" } },
  { "win.lens::failure", { "F6" } },
  { "win.count-from", { "<Shift>F4" } },
  { "app.help", { "F1" } },
  { "win.show-help-overlay", { "<Control>question", "<Control>F1" } },
};

/* Whether the theme's ground is darker than its writing: a desktop may have a dark theme and tell of no dark scheme. */
static gboolean
theme_is_dark (void)
{
  GtkWidget *probe = g_object_ref_sink (gtk_label_new (NULL));
  GtkStyleContext *style = gtk_widget_get_style_context (probe);
  GdkRGBA ground, writing;
  gboolean dark = gtk_style_context_lookup_color (style, "theme_bg_color", &ground)
                  && gtk_style_context_lookup_color (style, "theme_fg_color", &writing)
                  && ground.red + ground.green + ground.blue < writing.red + writing.green + writing.blue;

  g_object_unref (probe);
  return dark;
}

static void
show_scheme (RwApplication *application)
{
  GdkDisplay *display = gdk_display_get_default ();

  g_object_set (gtk_settings_get_for_display (display), "gtk-application-prefer-dark-theme",
                rw_scheme_get_dark (application->scheme), NULL);
  if (theme_is_dark ())
    gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (application->dark_style),
                                                GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + 1);
  else
    gtk_style_context_remove_provider_for_display (display, GTK_STYLE_PROVIDER (application->dark_style));
}

/* Another scheme, or another theme. */
static void
scheme_changed (gpointer source, GParamSpec *pspec, gpointer user_data)
{
  show_scheme (user_data);
}

static void
load_style (RwApplication *application)
{
  GdkDisplay *display = gdk_display_get_default ();

  application->style = gtk_css_provider_new ();
  application->dark_style = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (application->style, RESOURCES "rigwright.css");
  gtk_css_provider_load_from_resource (application->dark_style, RESOURCES "rigwright-dark.css");
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (application->style),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  gtk_icon_theme_add_resource_path (gtk_icon_theme_get_for_display (display), RESOURCES "icons");
}

static void
load_catalogue (RwApplication *application)
{
  g_autoptr (GError) error = NULL;

  application->catalogue = rw_catalogue_load (&error);
  if (application->catalogue == NULL)
    application->catalogue_error = g_strdup (error->message);
}

static void
rw_application_startup (GApplication *g_application)
{
  RwApplication *application = RW_APPLICATION (g_application);
  GAction *scheme;

  G_APPLICATION_CLASS (rw_application_parent_class)->startup (g_application);
  application->settings = rw_settings_load (application->settings_path);
  application->scheme = rw_scheme_new (rw_settings_get_scheme (application->settings));
  load_catalogue (application);
  load_style (application);
  show_scheme (application);
  g_signal_connect (application->scheme, "notify::dark", G_CALLBACK (scheme_changed), application);
  g_signal_connect_object (gtk_settings_get_default (), "notify::gtk-theme-name", G_CALLBACK (scheme_changed), application,
                           G_CONNECT_AFTER);
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries), application);
  load_units (application);
  scheme = g_action_map_lookup_action (G_ACTION_MAP (application), "scheme");
  g_simple_action_set_state (G_SIMPLE_ACTION (scheme),
                             g_variant_new_string (rw_scheme_word (rw_settings_get_scheme (application->settings))));
  for (guint i = 0; i < G_N_ELEMENTS (accels); i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (application), accels[i].action, accels[i].keys);
  gtk_window_set_default_icon_name (RW_APPLICATION_ID);
}

/* A crash may have left edits of rigs that no person will think of opening again. */
static void
offer_left (RwApplication *application)
{
  g_auto (GStrv) left = NULL;

  if (application->looked_for_left)
    return;
  application->looked_for_left = TRUE;
  left = rw_journal_list_left ();
  for (guint i = 0; left[i] != NULL; i++)
    {
      RwWindow *window = find_idle (application, NULL);
      if (window == NULL)
        window = rw_window_new (GTK_APPLICATION (application));
      gtk_window_present (GTK_WINDOW (window));
      rw_window_recover (window, left[i]);
    }
}

static void
rw_application_activate (GApplication *g_application)
{
  RwApplication *application = RW_APPLICATION (g_application);
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (active == NULL)
    active = GTK_WINDOW (rw_window_new (GTK_APPLICATION (application)));
  gtk_window_present (active);
  offer_left (application);
}

static void
rw_application_open (GApplication *g_application, GFile **files, int n_files, const char *hint)
{
  RwApplication *application = RW_APPLICATION (g_application);

  for (int i = 0; i < n_files; i++)
    rw_application_open_file (application, files[i], NULL);
  offer_left (application);
}

/* (transfer full): the URIs of the last rigs that are still there. */
static char **
recent_uris (void)
{
  GList *infos = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  g_autoptr (GStrvBuilder) uris = g_strv_builder_new ();
  guint n = 0;

  for (GList *l = infos; l != NULL && n < N_RECENT; l = l->next)
    {
      const char *uri = gtk_recent_info_get_uri (l->data);

      if (!g_str_has_suffix (uri, ".rig") || !gtk_recent_info_exists (l->data))
        continue;
      g_strv_builder_add (uris, uri);
      n++;
    }
  g_list_free_full (infos, (GDestroyNotify) gtk_recent_info_unref);
  return g_strv_builder_end (uris);
}

/* An underscore in a menu would mark a key. */
static char *
escape_underscores (const char *text)
{
  g_auto (GStrv) pieces = g_strsplit (text, "_", -1);

  return g_strjoinv ("__", pieces);
}

static void
fill_recent (GMenu *menu)
{
  g_auto (GStrv) uris = recent_uris ();
  g_auto (GStrv) names = rw_recent_names ((const char *const *) uris);

  g_menu_remove_all (menu);
  for (guint i = 0; uris[i] != NULL; i++)
    {
      g_autofree char *label = escape_underscores (names[i]);
      g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

      g_menu_item_set_action_and_target (item, "app.open-recent", "s", uris[i]);
      g_menu_append_item (menu, item);
    }
  if (uris[0] == NULL)
    g_menu_append (menu, _("No rig was opened yet"), "app.none");
}

static void
recent_changed (GtkRecentManager *manager, gpointer menu)
{
  fill_recent (menu);
}

void
rw_application_fill_recent (RwApplication *application, GMenu *menu)
{
  g_return_if_fail (RW_IS_APPLICATION (application));
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed", G_CALLBACK (recent_changed), menu, 0);
  fill_recent (menu);
}

static int
rw_application_handle_local_options (GApplication *application, GVariantDict *options)
{
  if (!g_variant_dict_contains (options, "version"))
    return -1;
  g_print ("rigwright %s\n", RW_VERSION);
  return 0;
}

RwApplication *
rw_application_new (const char *settings_path, GApplicationFlags more_flags)
{
  RwApplication *application = g_object_new (RW_TYPE_APPLICATION, "application-id", RW_APPLICATION_ID,
                                             "flags", G_APPLICATION_HANDLES_OPEN | more_flags,
                                             "resource-base-path", "/org/rigwright/Rigwright", NULL);

  application->settings_path = g_strdup (settings_path);
  g_application_set_option_context_parameter_string (G_APPLICATION (application), _("[RIG…]"));
  g_application_set_option_context_summary (
    G_APPLICATION (application),
    _("Draws a networked audio rig and marks its wiring mistakes while it is drawn.\nEach RIG opens in a window of its own."));
  return application;
}

static void
rw_application_finalize (GObject *object)
{
  RwApplication *application = RW_APPLICATION (object);

  g_free (application->settings_path);
  g_clear_pointer (&application->settings, rw_settings_free);
  g_clear_object (&application->scheme);
  g_clear_object (&application->catalogue);
  g_clear_object (&application->style);
  g_clear_object (&application->dark_style);
  g_free (application->catalogue_error);
  G_OBJECT_CLASS (rw_application_parent_class)->finalize (object);
}

static void
rw_application_class_init (RwApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = rw_application_finalize;
  application_class->startup = rw_application_startup;
  application_class->activate = rw_application_activate;
  application_class->open = rw_application_open;
  application_class->handle_local_options = rw_application_handle_local_options;
}

static void
rw_application_init (RwApplication *application)
{
  static const GOptionEntry options[] = {
    { "version", 0, 0, G_OPTION_ARG_NONE, NULL, N_("Show the version and end"), NULL },
    { NULL },
  };

  g_application_add_main_option_entries (G_APPLICATION (application), options);
}
