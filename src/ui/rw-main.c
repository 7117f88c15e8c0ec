/* SPDX-License-Identifier: MIT */
#include <file/rw-data-dir.h>
#include <glib/gi18n-lib.h>
#include <locale.h>

#include "rw-application.h"

int
main (int argc, char **argv)
{
  g_autoptr (RwApplication) application = NULL;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, rw_locale_dir ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_application_name ("Rigwright");
  application = rw_application_new (NULL, G_APPLICATION_DEFAULT_FLAGS);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
