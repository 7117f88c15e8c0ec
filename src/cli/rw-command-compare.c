/* SPDX-License-Identifier: MIT */
#include "rw-cli.h"

#include <glib/gi18n-lib.h>
#include <json-glib/json-glib.h>
#include <rig/rw-difference.h>
#include <rig/rw-state.h>

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

static void
add_text (JsonBuilder *json, const char *name, const char *text)
{
  json_builder_set_member_name (json, name);
  json_builder_add_string_value (json, text);
}

/* Of a stored state, how many there are of each kind of thing; the state itself would drown the rest. */
static void
add_state (JsonBuilder *json, const RwRig *state)
{
  json_builder_begin_object (json);
  for (RwItemType type = RW_ITEM_PART; type < RW_N_STATE_TYPES; type++)
    {
      json_builder_set_member_name (json, rw_item_type_member (type));
      json_builder_add_int_value (json, rw_rig_n (state, type));
    }
  json_builder_end_object (json);
}

static void
add_value (JsonBuilder *json, const RwItem *item, guint field)
{
  const RwRig *state = item != NULL ? rw_state_of (item, field) : NULL;
  g_autoptr (GVariant) value = state == NULL ? rw_difference_value (item, field) : NULL;

  if (state != NULL)
    {
      add_state (json, state);
      return;
    }

  if (value == NULL)
    json_builder_add_null_value (json);
  else
    json_builder_add_value (json, json_gvariant_serialize (value));
}

static void
add_fields (JsonBuilder *json, const RwDifference *difference)
{
  const RwTable *table = rw_item_type_table (difference->type);

  json_builder_set_member_name (json, "fields");
  json_builder_begin_object (json);
  for (guint i = 0; i < table->n_fields; i++)
    {
      if (!((difference->fields >> i) & 1))
        continue;
      json_builder_set_member_name (json, table->fields[i].name);
      json_builder_begin_array (json);
      add_value (json, difference->before, i);
      add_value (json, difference->after, i);
      json_builder_end_array (json);
    }
  json_builder_end_object (json);
}

static void
add_difference (JsonBuilder *json, const RwDifference *difference)
{
  const char *key = rw_difference_key (difference);

  json_builder_begin_object (json);
  add_text (json, "kind", kind_word (difference->kind));
  add_text (json, "type", type_word (difference->type));
  /* "/show" and "/channel/DEVICE/SIDE/NUMBER" are no ids: the slash keeps them apart from these inside the program. */
  add_text (json, "id", *key == '/' ? key + 1 : key);
  add_text (json, "message", difference->message);
  add_fields (json, difference);
  json_builder_end_object (json);
}

static char *
json_text (const GPtrArray *differences)
{
  g_autoptr (JsonBuilder) json = json_builder_new ();
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *text = NULL;

  json_builder_begin_object (json);
  json_builder_set_member_name (json, "changes");
  json_builder_begin_array (json);
  for (guint i = 0; i < differences->len; i++)
    add_difference (json, differences->pdata[i]);
  json_builder_end_array (json);
  json_builder_end_object (json);
  root = json_builder_get_root (json);
  json_generator_set_pretty (generator, TRUE);
  json_generator_set_root (generator, root);
  text = json_generator_to_data (generator, NULL);
  return g_strconcat (text, "\n", NULL);
}

static char *
plain_text (const GPtrArray *differences)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < differences->len; i++)
    g_string_append_printf (text, "%s\n", ((const RwDifference *) differences->pdata[i])->message);
  return g_string_free (text, FALSE);
}

static int
compare (const RwRig *older, const RwRig *newer, gboolean json)
{
  g_autoptr (GPtrArray) differences = rw_differences_new (older, newer);
  g_autofree char *text = json ? json_text (differences) : plain_text (differences);

  if (!rw_cli_write (text, -1))
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
