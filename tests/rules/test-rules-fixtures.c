/* SPDX-License-Identifier: MIT */
#include <json-glib/json-glib.h>

#include "rules-fixtures.h"

static JsonObject *
read_expected (const char *rig_path, JsonParser *parser)
{
  g_autofree char *path = g_strndup (rig_path, strlen (rig_path) - strlen (".rig"));
  g_autofree char *json_path = g_strconcat (path, ".json", NULL);
  g_autoptr (GError) error = NULL;

  json_parser_load_from_file (parser, json_path, &error);
  g_assert_no_error (error);
  return json_node_get_object (json_parser_get_root (parser));
}

static void
append_texts (GString *text, JsonArray *array)
{
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      JsonNode *element = json_array_get_element (array, i);

      if (JSON_NODE_HOLDS_ARRAY (element))
        append_texts (text, json_node_get_array (element));
      else
        g_string_append_printf (text, " %s", json_node_get_string (element));
    }
}

/* [DEVICE, SIDE, NUMBER] as the key of that channel. */
static void
append_channels (GString *text, JsonArray *array)
{
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      JsonArray *channel = json_array_get_array_element (array, i);

      g_string_append_printf (text, " /channel/%s/%s/%d", json_array_get_string_element (channel, 0),
                              json_array_get_string_element (channel, 1), (int) json_array_get_int_element (channel, 2));
    }
}

/* Both sides are brought to one text, so that a difference is read at a glance. */
static char *
describe_expected (JsonObject *expected)
{
  static const char *const lists[] = { "devices", "ports", "cables", "rows" };
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%s %s\n%s\n", json_object_get_string_member (expected, "severity"),
                          json_object_get_string_member (expected, "code"),
                          json_object_get_string_member (expected, "message"));
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_string_append_printf (text, "%s:", lists[i]);
      append_texts (text, json_object_get_array_member (expected, lists[i]));
      g_string_append_c (text, '\n');
    }
  g_string_append (text, "channels:");
  append_channels (text, json_object_get_array_member (expected, "channels"));
  g_string_append_c (text, '\n');
  if (json_object_has_member (expected, "fixes"))
    {
      JsonArray *fixes = json_object_get_array_member (expected, "fixes");

      for (guint i = 0; i < json_array_get_length (fixes); i++)
        g_string_append_printf (text, "fix: %s\n", json_array_get_string_element (fixes, i));
    }
  return g_string_free (text, FALSE);
}

static void
append_list (GString *text, const char *name, char **ids)
{
  g_string_append_printf (text, "%s:", name);
  for (; *ids != NULL; ids++)
    g_string_append_printf (text, " %s", *ids);
  g_string_append_c (text, '\n');
}

static char *
describe_found (const RwFinding *finding, const RwRig *rig)
{
  g_autoptr (GPtrArray) fixes = rw_finding_fixes (finding, rig);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%s %s\n%s\n", rw_severity_word (finding->severity), finding->rule->code,
                          finding->message);
  append_list (text, "devices", finding->devices);
  append_list (text, "ports", finding->ports);
  append_list (text, "cables", finding->cables);
  append_list (text, "rows", finding->rows);
  append_list (text, "channels", finding->channels);
  for (guint i = 0; i < fixes->len; i++)
    g_string_append_printf (text, "fix: %s\n", ((RwChange *) fixes->pdata[i])->name);
  return g_string_free (text, FALSE);
}

static void
assert_rule_fires (const RwFindings *findings, const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *code = g_path_get_basename (folder);
  gboolean fires = FALSE;

  for (guint i = 0; i < rw_findings_n (findings); i++)
    fires = fires || g_str_equal (rw_findings_get (findings, i)->rule->code, code);
  g_assert_true (fires == fixture_is_bad (path));
}

static void
test_fixture (gconstpointer data)
{
  const char *path = data;
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *expected = read_expected (path, parser);
  JsonArray *list = json_object_get_array_member (expected, "findings");
  g_autoptr (RwRig) rig = fixture_read (path);
  g_autoptr (RwFindings) findings = analyse (rig);
  guint n = json_array_get_length (list);

  for (guint i = 0; i < MIN (n, rw_findings_n (findings)); i++)
    {
      g_autofree char *should = describe_expected (json_array_get_object_element (list, i));
      g_autofree char *is = describe_found (rw_findings_get (findings, i), rig);

      g_assert_cmpstr (is, ==, should);
    }
  g_assert_cmpuint (rw_findings_n (findings), ==, n);
  g_assert_cmpint (rw_findings_count (findings, RW_SEVERITY_ERROR), ==,
                   json_object_get_int_member (expected, "errors"));
  g_assert_cmpint (rw_findings_count (findings, RW_SEVERITY_WARNING), ==,
                   json_object_get_int_member (expected, "warnings"));
  g_assert_cmpint (rw_findings_count (findings, RW_SEVERITY_NOTE), ==,
                   json_object_get_int_member (expected, "notes"));
  assert_rule_fires (findings, path);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < rw_n_rules (); i++)
    {
      g_autoptr (GPtrArray) paths = fixtures_of (rw_rule (i));

      for (guint j = 0; j < paths->len; j++)
        {
          g_autofree char *test_path = fixture_test_path (paths->pdata[j], "fixture");

          g_test_add_data_func_full (test_path, g_strdup (paths->pdata[j]), test_fixture, g_free);
        }
    }
  return g_test_run ();
}
