/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-cli.h"
#include "rw-facts.h"
#include "rw-out-json.h"

typedef struct
{
  gboolean json, list;
  char *from, *to, *units;
} Wish;

/* What was typed after --from and --to, as ids: FALSE = it is not two devices, which has been said. */
static gboolean
find_ends (const char *path, const RwRig *rig, const Wish *wish, const char *ends[2])
{
  if (wish->from == NULL)
    return TRUE;
  ends[0] = rw_cli_find (rig, path, "--from", wish->from, FALSE);
  if (ends[0] == NULL)
    return FALSE;
  ends[1] = rw_cli_find (rig, path, "--to", wish->to, FALSE);
  if (ends[1] == NULL || !g_str_equal (ends[0], ends[1]))
    return ends[1] != NULL;
  /* Translators: a file; a device */
  rw_cli_error (_("%s: --from and --to are both “%s”: a path goes from one device to another"), path,
                rw_device_title (rw_rig_device (rig, ends[0])));
  return FALSE;
}

static int
tell (const char *path, const Wish *wish)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_cli_read_rig (path, &error);
  g_autoptr (RwFacts) facts = NULL;
  g_autoptr (GString) text = g_string_new (NULL);
  const char *ends[2] = { NULL, NULL };

  if (rig == NULL)
    rw_cli_error ("%s", error->message);
  if (rig == NULL || !find_ends (path, rig, wish, ends))
    return RW_EXIT_FAILED;
  facts = rw_facts_new (g_object_ref (rig), ends[0], ends[1]);
  facts->list = wish->list;
  if (wish->json)
    {
      RwOut *out = rw_out_new ();

      rw_facts_to_json (facts, out);
      return rw_out_finish (out) ? RW_EXIT_OK : RW_EXIT_FAILED;
    }
  rw_facts_to_text (facts, text);
  return rw_cli_write (text->str, (gssize) text->len) ? RW_EXIT_OK : RW_EXIT_FAILED;
}

static int
run_with (const RwCommand *command, char **words, Wish *wish)
{
  g_auto (GStrv) paths = NULL;
  const GOptionEntry entries[] = {
    { "json", 'j', 0, G_OPTION_ARG_NONE, &wish->json, N_("Give the facts as JSON"), NULL },
    { "from", 'f', 0, G_OPTION_ARG_FILENAME, &wish->from, N_("Give only the path from this device, by ID or name, with --to"), N_("DEVICE") },
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &wish->to, N_("Give only the path to this device, by ID or name, with --from"), N_("DEVICE") },
    { "list", 'l', 0, G_OPTION_ARG_NONE, &wish->list, N_("Name what each failure costs, rather than count it"), NULL },
    RW_CLI_UNITS_ENTRY (&wish->units),
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &paths, NULL, NULL },
    { NULL },
  };
  int status;

  if (!rw_cli_parse (command, entries, &words, &status))
    return status;
  if (!rw_cli_choose_units ("facts", wish->units, wish->json))
    return RW_EXIT_FAILED;
  if (paths != NULL && paths[1] == NULL && (wish->from == NULL) == (wish->to == NULL))
    return tell (paths[0], wish);
  rw_cli_error (paths == NULL || paths[1] != NULL ? _("facts: name one rig (see “rigwright-cli facts --help”)")
                                                  : _("facts: --from and --to go together"));
  return RW_EXIT_FAILED;
}

static int
run (const RwCommand *command, char **words)
{
  Wish wish = { FALSE };
  int status = run_with (command, words, &wish);

  g_free (wish.from);
  g_free (wish.to);
  g_free (wish.units);
  return status;
}

const RwCommand rw_command_facts = {
  .name = "facts",
  .arguments = N_("RIG"),
  .summary = N_("Tell what the network will do: loops, tree, paths, delay, load, failures"),
  .description = N_("A RIG of “-” is read from standard input.\n"
                    "Exit status: 0 done, 2 a rig that cannot be read or wrong usage."),
  .run = run,
};
