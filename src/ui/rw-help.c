/* SPDX-License-Identifier: MIT */
#include "rw-help.h"

#include <glib/gi18n-lib.h>

#include <file/rw-data-dir.h>

#include "rw-weak.h"
#include "rw-window.h"

static gboolean
holds_pages (const char *folder)
{
  g_autofree char *first = g_build_filename (folder, "index.page", NULL);

  return g_file_test (first, G_FILE_TEST_EXISTS);
}

/* Returns: (transfer full) (nullable): the folder of the pages: beside the program's data, as installed or in its
 * sources, else where the desktop keeps the help */
static char *
pages_folder (void)
{
  static const char *const places[] = { "../help/C/rigwright", "../help/C" };
  const char *const *shared = g_get_system_data_dirs ();

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_autofree char *path = rw_data_path (places[i]);

      if (holds_pages (path))
        return g_canonicalize_filename (path, NULL);
    }
  for (guint i = 0; shared[i] != NULL; i++)
    {
      g_autofree char *folder = g_build_filename (shared[i], "help", "C", "rigwright", NULL);

      if (holds_pages (folder))
        return g_steal_pointer (&folder);
    }
  return NULL;
}

static void
shown (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GtkWindow) window = rw_weak_take (user_data);
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = pages_folder ();
  g_autofree char *text = NULL;

  if (gtk_show_uri_full_finish (GTK_WINDOW (source), result, &error) || window == NULL)
    return;
  if (folder != NULL)
    /* Translators: why, then the folder of the help pages. */
    text = g_strdup_printf (_("No program here shows help (%s). Install a viewer for it, for example the package “yelp”; the pages are in %s, one file each."),
                            error->message, folder);
  else
    /* Translators: %s is why */
    text = g_strdup_printf (_("No program here shows help (%s). Install a viewer for it, for example the package “yelp”."), error->message);
  rw_window_show_message (RW_WINDOW (window), text);
}

void
rw_help_show (GtkWindow *window, const char *uri)
{
  while (window != NULL && !RW_IS_WINDOW (window))
    window = gtk_window_get_transient_for (window);
  if (window != NULL)
    gtk_show_uri_full (window, uri, GDK_CURRENT_TIME, NULL, shown, rw_weak_new (window));
}
