/* SPDX-License-Identifier: MIT */
#include "rw-config.h"

#include <file/rw-data-dir.h>
#include <glib/gi18n-lib.h>
#include <locale.h>

#include "rw-cli.h"

static void
set_up_locale (void)
{
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, rw_locale_dir ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE); /* ngettext() asks no other */
}

static char *
list_commands (void)
{
  GString *text = g_string_new (_("Commands:"));

  for (guint i = 0; i < rw_n_commands (); i++)
    g_string_append_printf (text, "\n  %-10s %s", rw_command (i)->name, _(rw_command (i)->summary));
  g_string_append_printf (text, "\n\n%s", _("“rigwright-cli COMMAND --help” tells more of a command."));
  return g_string_free (text, FALSE);
}

static int
show (const char *text)
{
  return rw_cli_write (text, -1) ? RW_EXIT_OK : RW_EXIT_FAILED;
}

static int
run_command (char **words)
{
  const RwCommand *command;

  if (words[0] == NULL)
    {
      rw_cli_error (_("no command was named (see “rigwright-cli --help”)"));
      return RW_EXIT_FAILED;
    }
  command = rw_command_find (words[0]);
  if (command == NULL)
    {
      /* Translators: what was typed */
      rw_cli_error (_("there is no command “%s” (see “rigwright-cli --help”)"), words[0]);
      return RW_EXIT_FAILED;
    }
  return command->run (command, words);
}

/* Options of the program itself stand before the command; what follows is the command's. */
static int
run (char **words)
{
  gboolean help = FALSE, version = FALSE;
  const GOptionEntry entries[] = {
    { "help", 'h', 0, G_OPTION_ARG_NONE, &help, N_("Show this help and end"), NULL },
    { "version", 0, 0, G_OPTION_ARG_NONE, &version, N_("Show the version and end"), NULL },
    { NULL },
  };
  g_autoptr (GOptionContext) context = g_option_context_new (_("COMMAND …"));
  g_autofree char *commands = list_commands ();
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_strict_posix (context, TRUE);
  g_option_context_set_summary (context, N_("The results of Rigwright without a window"));
  g_option_context_set_description (context, commands);
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  if (!g_option_context_parse_strv (context, &words, &error))
    {
      /* Translators: what is wrong with the options */
      rw_cli_error (_("%s (see “rigwright-cli --help”)"), error->message);
      return RW_EXIT_FAILED;
    }
  if (help)
    text = g_option_context_get_help (context, TRUE, NULL);
  else if (version)
    text = g_strdup (RW_CLI_NAME " " RW_VERSION "\n");
  return text != NULL ? show (text) : run_command (words + 1);
}

int
main (int argc, char **argv)
{
  g_auto (GStrv) words = NULL;
  char **left;

  rw_cli_hold_standard_files ();
  set_up_locale ();
  g_set_prgname (RW_CLI_NAME);
  words = g_strdupv (argv);
  left = words;
  return run (left);
}
