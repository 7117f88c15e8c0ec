/* SPDX-License-Identifier: MIT */
#include "rw-cli.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-difference.h>
#include <rig/rw-state.h>

#include "rw-out-json.h"

static const char *
kind_word (RwDifferenceKind kind)
{
  static const char *const words[] = {
    [RW_DIFFERENCE_ADDED] = "added", [RW_DIFFERENCE_REMOVED] = "removed", [RW_DIFFERENCE_CHANGED] = "changed",
  };

  return words[kind];
}

/* One word for each type, for other programs. */
static const char *
type_word (RwItemType type)
{
  static const char *const words[RW_N_ITEM_TYPES] = {
    [RW_ITEM_SHOW] = "show", [RW_ITEM_SYSTEM] = "system", [RW_ITEM_PART] = "part", [RW_ITEM_DEVICE] = "device",
    [RW_ITEM_CABLE] = "cable", [RW_ITEM_PATCH] = "patch", [RW_ITEM_INSIDE] = "inside", [RW_ITEM_CHANNEL] = "channel",
    [RW_ITEM_SET] = "set", [RW_ITEM_REVISION] = "revision",
  };

  return words[type];
}

/* Of a stored state, how many there are of each kind of thing; the state itself would drown the rest. */
static void
add_state (RwOut *out, const RwRig *state)
{
  rw_out_begin_object (out, NULL);
  for (RwItemType type = RW_ITEM_PART; type < RW_N_STATE_TYPES; type++)
    rw_out_integer (out, rw_item_type_member (type), rw_rig_n (state, type));
  rw_out_end_object (out);
}

static void
add_value (RwOut *out, const RwItem *item, guint field)
{
  const RwRig *state = item != NULL ? rw_state_of (item, field) : NULL;
  g_autoptr (GVariant) value = state == NULL ? rw_difference_value (item, field) : NULL;
  g_autoptr (JsonNode) node = value != NULL ? json_gvariant_serialize (value) : NULL;

  if (state != NULL)
    add_state (out, state);
  else if (node != NULL)
    rw_out_node (out, NULL, node);
  else
    rw_out_null (out, NULL);
}

static void
add_fields (RwOut *out, const RwDifference *difference)
{
  const RwTable *table = rw_item_type_table (difference->type);

  rw_out_begin_object (out, "fields");
  for (guint i = 0; i < table->n_fields; i++)
    {
      if (!((difference->fields >> i) & 1))
        continue;
      rw_out_begin_array (out, table->fields[i].name);
      add_value (out, difference->before, i);
      add_value (out, difference->after, i);
      rw_out_end_array (out);
    }
  rw_out_end_object (out);
}

static void
add_difference (RwOut *out, const RwDifference *difference)
{
  const char *key = rw_difference_key (difference);

  rw_out_begin_object (out, NULL);
  rw_out_text (out, "kind", kind_word (difference->kind));
  rw_out_text (out, "type", type_word (difference->type));
  /* "/show" and "/channel/DEVICE/SIDE/NUMBER" are no ids: the slash keeps them apart from these inside the program. */
  rw_out_text (out, "id", *key == '/' ? key + 1 : key);
  rw_out_text (out, "message", difference->message);
  add_fields (out, difference);
  rw_out_end_object (out);
}

static gboolean
write_json (const GPtrArray *differences)
{
  RwOut *out = rw_out_new ();

  rw_out_begin_object (out, NULL);
  rw_out_begin_array (out, "changes");
  for (guint i = 0; i < differences->len; i++)
    add_difference (out, differences->pdata[i]);
  rw_out_end_array (out);
  rw_out_end_object (out);
  return rw_out_finish (out);
}

static gboolean
write_text (const GPtrArray *differences)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < differences->len; i++)
    g_string_append_printf (text, "%s\n", ((const RwDifference *) differences->pdata[i])->message);
  return rw_cli_write (text->str, text->len);
}

static int
compare (const RwRig *older, const RwRig *newer, gboolean json)
{
  g_autoptr (GPtrArray) differences = rw_differences_new (older, newer);

  if (!(json ? write_json (differences) : write_text (differences)))
    return RW_EXIT_FAILED;
  return differences->len > 0 ? RW_EXIT_FOUND : RW_EXIT_OK;
}

static RwRig *
read_rig (const char *path)
{
  g_autoptr (GError) error = NULL;
  RwRig *rig = rw_cli_read_rig (path, &error);

  if (rig == NULL)
    rw_cli_error ("%s", error->message);
  return rig;
}

/* Two files, or one and a revision of it. */
static int
compare_files (char *const *paths, const char *revision, gboolean json)
{
  g_autoptr (RwRig) older = NULL;
  g_autoptr (RwRig) newer = NULL;

  if (revision == NULL)
    {
      older = read_rig (paths[0]);
      newer = read_rig (paths[1]);
    }
  else if ((newer = read_rig (paths[0])) != NULL)
    older = rw_cli_read_since (newer, paths[0], revision);
  return older != NULL && newer != NULL ? compare (older, newer, json) : RW_EXIT_FAILED;
}

static int
run (const RwCommand *command, char **words)
{
  gboolean json = FALSE;
  g_autofree char *revision = NULL, *units = NULL;
  g_auto (GStrv) paths = NULL;
  const GOptionEntry entries[] = {
    { "json", 'j', 0, G_OPTION_ARG_NONE, &json, N_("Give the changes as JSON"), NULL },
    { "revision", 0, 0, G_OPTION_ARG_STRING, &revision, N_("Name one rig: compare it with its own revision of this letter"), N_("LETTER") },
    RW_CLI_UNITS_ENTRY (&units),
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &paths, NULL, NULL },
    { NULL },
  };
  int status;

  if (!rw_cli_parse (command, entries, &words, &status))
    return status;
  if (!rw_cli_choose_units ("compare", units, json))
    return RW_EXIT_FAILED;
  if (paths != NULL && g_strv_length (paths) == (revision != NULL ? 1 : 2))
    return compare_files (paths, revision, json);
  if (revision != NULL)
    rw_cli_error (_("compare: with --revision name one rig (see “rigwright-cli compare --help”)"));
  else
    rw_cli_error (_("compare: name two rigs, the older one first (see “rigwright-cli compare --help”)"));
  return RW_EXIT_FAILED;
}

const RwCommand rw_command_compare = {
  .name = "compare",
  .arguments = N_("OLD NEW"),
  .summary = N_("Say what was added, removed and changed between two rigs"),
  .description = N_("One of the two may be “-”: it is read from standard input.\n"
                    "Exit status: 0 nothing changed, 1 something changed, 2 a rig that cannot be read or wrong usage."),
  .run = run,
};
