/* SPDX-License-Identifier: MIT */
/* Patch sets: store, change, recall. What comes back is held against the line lists, which are made another way. */
#include <rig/rw-edit.h>
#include <rig/rw-error.h>
#include <rig/rw-history.h>
#include <rig/rw-line.h>
#include <rig/rw-recall.h>
#include <rig/rw-scope.h>

#include "random-rig.h"

#define N_RANDOM 300

/* The lines of a side that end in @console, NULL = all; only where they go for @where. */
static char *
lines_text (const RwRig *rig, RwLineSide side, const char *console, gboolean others, gboolean where)
{
  g_autoptr (RwLines) lines = rw_lines_new (rig, side, FALSE);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rw_lines_n (lines); i++)
    {
      const RwLine *line = rw_lines_get (lines, i);
      gboolean mine = console == NULL || (line->console != NULL && g_str_equal (rw_item_key (line->console), console));

      if (mine == others || (where && line->patch == NULL && line->inside == NULL))
        continue;
      for (guint c = where ? RW_LINE_STAGE : 0; c < (where ? RW_LINE_SOURCE : RW_LINE_N_COLUMNS); c++)
        {
          g_autofree char *cell = rw_line_text (line, c);
          g_string_append_printf (text, "%s|", cell);
        }
      g_string_append_c (text, '\n');
    }
  return g_string_free (text, FALSE);
}

static gboolean
takes_in (RwScope scope, RwLineSide side)
{
  return scope != (side == RW_LINE_INPUT ? RW_SCOPE_OUTPUTS : RW_SCOPE_INPUTS);
}

/* @now is @changed with the lines in question as they were in @then. */
static void
assert_recalled (const RwRig *then, const RwRig *changed, const RwRig *now, RwScope scope, const char *console)
{
  g_autofree char *others = lines_text (changed, RW_LINE_INPUT, console, TRUE, TRUE);
  g_autofree char *left = lines_text (now, RW_LINE_INPUT, console, TRUE, TRUE);

  for (RwLineSide side = 0; side < RW_N_LINE_SIDES; side++)
    if (takes_in (scope, side))
      {
        gboolean all = scope == RW_SCOPE_ALL && console == NULL;
        g_autofree char *expected = lines_text (then, side, console, FALSE, !all);
        g_autofree char *found = lines_text (now, side, console, FALSE, !all);
        g_assert_cmpstr (found, ==, expected);
      }
  /* an output to another console would be an input of that one */
  if (scope == RW_SCOPE_INPUTS)
    g_assert_cmpstr (left, ==, others);
}

/* Names and particulars are those of the set. */
static void
assert_channels (const RwPatchSet *set, const RwRig *now)
{
  for (guint i = 0; i < rw_rig_n (set->state, RW_ITEM_CHANNEL); i++)
    {
      RwItem *item = rw_rig_items (set->state, RW_ITEM_CHANNEL)[i];
      g_assert_true (rw_item_equal (item, rw_rig_find (now, item->key)));
    }
}

static const char *
any (const RwRig *rig, GRand *rand, RwItemType type)
{
  guint n = rw_rig_n (rig, type);

  return n > 0 ? rw_item_key (rw_rig_items (rig, type)[g_rand_int_range (rand, 0, (gint32) n)]) : NULL;
}

/* A row takes another's start, goes, or gets a twin under another id. */
static void
scramble_row (RwEdit *edit, const RwRig *rig, GRand *rand, RwItemType type)
{
  const char *one = any (rig, rand, type), *other = any (rig, rand, type);
  g_autofree char *fresh = rw_edit_fresh_id (edit, "new");
  g_autoptr (GVariant) start = NULL;
  RwItem *item = one != NULL ? rw_edit_find (edit, one) : NULL;

  if (item == NULL)
    return;
  switch (g_rand_int_range (rand, 0, 3))
    {
    case 0:
      rw_edit_remove (edit, one);
      break;
    case 1:
      rw_edit_put (edit, rw_item_with (item, 0, g_variant_new_string (fresh), NULL));
      break;
    default:
      if (type != RW_ITEM_PATCH)
        return;
      start = rw_item_get (rw_rig_find (rig, other), RW_PATCH_FROM);
      g_assert_true (rw_edit_set (edit, one, RW_PATCH_FROM, start, NULL));
      break;
    }
}

static void
scramble_channel (RwEdit *edit, const RwRig *rig, GRand *rand)
{
  const char *one = any (rig, rand, RW_ITEM_CHANNEL);

  if (one == NULL || rw_edit_find (edit, one) == NULL)
    return;
  if (g_rand_boolean (rand))
    rw_edit_remove (edit, one);
  else
    g_assert_true (rw_edit_set (edit, one, RW_CHANNEL_NAME, g_variant_new_string ("Other"), NULL));
}

static void
scramble (RwRig *rig, GRand *rand)
{
  for (guint i = 0; i < 15; i++)
    {
      RwEdit *edit = rw_edit_new (rig, "");
      g_autoptr (RwChange) change = NULL;
      g_autoptr (GError) error = NULL;

      scramble_row (edit, rig, rand, RW_ITEM_PATCH);
      scramble_row (edit, rig, rand, RW_ITEM_INSIDE);
      scramble_channel (edit, rig, rand);
      change = rw_edit_finish (edit);
      rw_rig_apply (rig, change, &error);
      g_assert_no_error (error);
    }
}

static RwPatchSet *
store (const RwRig *rig, RwScope scope, const char *console)
{
  g_autoptr (RwRig) state = rw_scope_gather (rig, scope, console);

  return (RwPatchSet *) rw_set_new ("a-set", "Act one", scope, console, NULL, state);
}

static RwChange *
recall_as_chosen (const RwRecall *recall)
{
  g_autoptr (GError) error = NULL;
  guint n_left_out;
  RwChange *change = rw_recall_change (recall, "Recall", &n_left_out, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (n_left_out, ==, 0);
  return change;
}

static RwChange *
recall_onto_itself (const RwRig *rig, const RwPatchSet *set)
{
  g_autoptr (RwRecall) recall = rw_recall_new (rig, set);

  for (guint i = 0; i < rw_recall_n (recall); i++)
    g_assert_true (rw_recall_get (recall, i)->target == rw_rig_device (rig, rw_item_key (rw_recall_get (recall, i)->stored)));
  return recall_as_chosen (recall);
}

static const char *
any_console (const RwRig *rig, GRand *rand)
{
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      const char *key = any (rig, rand, RW_ITEM_DEVICE);
      if (rw_device_is_console (rig, rw_rig_device (rig, key)))
        return key;
    }
  return NULL;
}

static void
check_random (guint seed)
{
  RandomRig want = { .seed = seed, .devices = 10, .rows = 60, .inside = 50, .channels = 60 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (RwRig) rig = random_rig_new (&want);
  g_autoptr (RwRig) then = rw_rig_copy (rig);
  g_autoptr (RwRig) changed = NULL;
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autofree char *console = g_strdup (g_rand_boolean (rand) ? any_console (rig, rand) : NULL);
  RwScope scope = g_rand_int_range (rand, 0, 3);
  g_autoptr (RwPatchSet) set = store (rig, scope, console);
  g_autoptr (RwChange) change = NULL;
  g_autoptr (RwChange) nothing = NULL;

  scramble (rig, rand);
  changed = rw_rig_copy (rig);
  change = recall_onto_itself (rig, set);
  g_assert_true (rw_history_do (history, change, NULL));
  assert_recalled (then, changed, rig, scope, console);
  assert_channels (set, rig);
  nothing = recall_onto_itself (rig, set);
  g_assert_cmpuint (rw_change_n (nothing), ==, 0);
  g_assert_true (rw_change_n (change) == 0 || rw_history_undo (history));
  assert_recalled (changed, changed, rig, scope, console);
}

static void
test_random (void)
{
  for (guint seed = 1; seed <= N_RANDOM; seed++)
    check_random (seed);
}

/* With everything in the set, all that is patched is again what it was, to the item and its place. */
static void
test_whole_patch (void)
{
  for (guint seed = 1; seed <= 60; seed++)
    {
      RandomRig want = { .seed = seed, .devices = 10, .rows = 40, .inside = 30, .channels = 40, .extras = TRUE };
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (RwRig) rig = random_rig_new (&want);
      g_autoptr (RwRig) then = rw_rig_copy (rig);
      g_autoptr (RwPatchSet) set = store (rig, RW_SCOPE_ALL, NULL);
      RwEdit *edit = rw_edit_new (rig, "");
      g_autoptr (RwChange) change = NULL;
      g_autoptr (RwChange) back = NULL;

      for (RwItemType type = RW_ITEM_PATCH; type <= RW_ITEM_CHANNEL; type++)
        for (guint i = 0; i < rw_rig_n (rig, type); i++)
          if (g_rand_boolean (rand))
            rw_edit_remove (edit, rw_item_key (rw_rig_items (rig, type)[i]));
      change = rw_edit_finish (edit);
      g_assert_true (rw_rig_apply (rig, change, NULL));
      back = recall_onto_itself (rig, set);
      g_assert_true (rw_rig_apply (rig, back, NULL));
      for (RwItemType type = 0; type < RW_N_STATE_TYPES; type++)
        {
          g_assert_cmpuint (rw_rig_n (rig, type), ==, rw_rig_n (then, type));
          for (guint i = 0; i < rw_rig_n (rig, type); i++)
            g_assert_true (rw_item_equal (rw_rig_items (rig, type)[i], rw_rig_items (then, type)[i]));
        }
    }
}

static void
add_lines (RwRig *rig, RwLineSide side, const char *text)
{
  RwLineEdit *edit = rw_line_edit_new (rig, side, "Add");
  g_auto (GStrv) rows = g_strsplit (text, "\n", -1);
  g_autoptr (GPtrArray) problems = NULL;
  g_autoptr (RwChange) change = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; rows[i] != NULL; i++)
    {
      g_auto (GStrv) cells = g_strsplit (rows[i], "|", -1);
      const char *all[RW_LINE_N_COLUMNS] = { NULL };
      for (guint c = 0; cells[c] != NULL; c++)
        all[c] = cells[c];
      rw_line_edit_set (edit, i, NULL, all);
    }
  change = rw_line_edit_finish (edit, &problems);
  g_assert_cmpuint (problems->len, ==, 0);
  rw_rig_apply (rig, change, &error);
  g_assert_no_error (error);
}

static void
put (RwRig *rig, RwItemType type, const char *format, ...) G_GNUC_PRINTF (3, 4);

static void
put (RwRig *rig, RwItemType type, const char *format, ...)
{
  g_autoptr (RwItem) item = rw_item_new (type);
  g_autofree char *text = NULL;
  g_autoptr (GVariant) fields = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  fields = g_variant_parse (G_VARIANT_TYPE_VARDICT, text, NULL, NULL, NULL);
  g_assert_true (rw_record_set_all (item, rw_item_type_table (type), fields, NULL));
  g_assert_true (rw_rig_append (rig, rw_item_seal (item), NULL));
}

static void
add_rack (RwRig *rig, const char *id, const char *name, int sends)
{
  g_autofree char *part = g_strdup_printf ("rack-%d", sends);

  if (rw_rig_part (rig, part) == NULL)
    put (rig, RW_ITEM_PART, "{'id': <'%s'>, 'kind': <'rack'>, 'sends': <%d>, 'receives': <8>}", part, sends);
  put (rig, RW_ITEM_DEVICE, "{'id': <'%s'>, 'name': <'%s'>, 'part': <'%s'>}", id, name, part);
}

/* Two consoles and two racks. */
static RwRig *
stage (const char *one, const char *one_name, int one_sends, const char *other, const char *other_name, int other_sends)
{
  RwRig *rig = rw_rig_new ();

  put (rig, RW_ITEM_PART, "{'id': <'desk'>, 'kind': <'controller'>, 'sends': <16>, 'receives': <32>, 'strips': <32>, 'buses': <16>}");
  put (rig, RW_ITEM_DEVICE, "{'id': <'foh'>, 'name': <'FOH'>, 'part': <'desk'>}");
  put (rig, RW_ITEM_DEVICE, "{'id': <'mon'>, 'name': <'Monitors'>, 'part': <'desk'>}");
  add_rack (rig, one, one_name, one_sends);
  add_rack (rig, other, other_name, other_sends);
  return rig;
}

static void
assert_lines (const RwRig *rig, RwLineSide side, const char *console, const char *expected)
{
  g_autofree char *text = lines_text (rig, side, console, FALSE, TRUE);

  g_assert_cmpstr (text, ==, expected);
}

static RwRig *
two_racks (void)
{
  RwRig *rig = stage ("left", "Left", 16, "right", "Right", 16);

  add_lines (rig, RW_LINE_INPUT, "Kick|Left|1|FOH|1|1\nSnare|Left|2|FOH|2|2\nKeys|Right|9|FOH|3|3");
  add_lines (rig, RW_LINE_INPUT, "Talk|Right|16|Monitors|1|1");
  return rig;
}

/* The same band on another rig: two racks by other ids, and the console by its own. */
static void
test_onto_another_rig (void)
{
  g_autoptr (RwRig) rig = two_racks ();
  g_autoptr (RwRig) other = stage ("east", "East", 24, "west", "West", 32);
  g_autoptr (RwPatchSet) set = store (rig, RW_SCOPE_INPUTS, "foh");
  g_autoptr (RwRecall) recall = rw_recall_new (other, set);
  g_autoptr (RwChange) change = NULL;
  g_autoptr (GPtrArray) preview = NULL;

  g_assert_cmpuint (rw_recall_n (recall), ==, 3); /* the other console has no line in it */
  g_assert_cmpstr (rw_item_key (rw_recall_get (recall, 0)->target), ==, "foh");
  rw_recall_set_target (recall, 1, rw_rig_device (other, "west"));
  rw_recall_set_target (recall, 2, rw_rig_device (other, "east"));
  change = recall_as_chosen (recall);
  preview = rw_recall_preview (recall, change);
  g_assert_cmpuint (preview->len, ==, 9); /* 3 rows over the network, 3 inside, 3 names */
  g_assert_cmpuint (rw_rig_n (other, RW_ITEM_PATCH), ==, 0);
  g_assert_true (rw_rig_apply (other, change, NULL));
  assert_lines (other, RW_LINE_INPUT, "foh", "East|9|FOH|3|3|\nWest|1|FOH|1|1|\nWest|2|FOH|2|2|\n");
  g_assert_cmpstr (((RwChannel *) rw_rig_find (other, "/channel/west/send/2"))->name, ==, "Snare");
}

/* A device that is gone finds another of its part; one console's recall leaves the other's lines. */
static void
test_one_console (void)
{
  g_autoptr (RwRig) rig = two_racks ();
  g_autoptr (RwPatchSet) set = store (rig, RW_SCOPE_INPUTS, "foh");
  g_autoptr (RwChange) change = NULL;

  add_lines (rig, RW_LINE_INPUT, "Bass|Left|3|FOH|4|4\nVox|Left|4|Monitors|2|2");
  add_lines (rig, RW_LINE_OUTPUT, "Main|Left|1|FOH|1|1");
  change = recall_onto_itself (rig, set);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  assert_lines (rig, RW_LINE_INPUT, "foh", "Left|1|FOH|1|1|\nLeft|2|FOH|2|2|\nRight|9|FOH|3|3|\n");
  assert_lines (rig, RW_LINE_INPUT, "mon", "Left|4|Monitors|2|2|\nRight|16|Monitors|1|1|\n");
  assert_lines (rig, RW_LINE_OUTPUT, "foh", "Left|1|FOH|1|1|\n");
}

/* What another console uses, too, keeps its name; what only came with the other patch does not. */
static void
test_names_of_others (void)
{
  g_autoptr (RwRig) rig = two_racks ();
  g_autoptr (RwPatchSet) set = store (rig, RW_SCOPE_INPUTS, "foh");
  g_autoptr (RwChange) change = NULL;

  add_lines (rig, RW_LINE_INPUT, "Bass|Left|3|FOH|4|4\nTalk|Right|16|FOH|5|5\nSpare|Left|8");
  change = recall_onto_itself (rig, set);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  g_assert_null (rw_rig_find (rig, "/channel/left/send/3"));
  g_assert_nonnull (rw_rig_find (rig, "/channel/right/send/16"));
  g_assert_nonnull (rw_rig_find (rig, "/channel/left/send/8"));
}

/* Where the rig's own racks are gone, those of the same part come in their order, and one too few is left out. */
static void
test_by_part_and_order (void)
{
  g_autoptr (RwRig) rig = two_racks ();
  g_autoptr (RwPatchSet) set = store (rig, RW_SCOPE_ALL, NULL);
  g_autoptr (RwChange) swap = NULL;
  g_autoptr (RwChange) change = NULL;
  g_autoptr (RwRecall) recall = NULL;
  RwEdit *edit = rw_edit_new (rig, "");
  guint n_left_out;

  rw_edit_put (edit, rw_item_with (rw_rig_device (rig, "left"), RW_DEVICE_ID, g_variant_new_string ("new"), NULL));
  rw_edit_remove_device (edit, "left");
  rw_edit_remove_device (edit, "right");
  swap = rw_edit_finish (edit);
  g_assert_true (rw_rig_apply (rig, swap, NULL));
  recall = rw_recall_new (rig, set);
  g_assert_cmpuint (rw_recall_n (recall), ==, 4);
  g_assert_cmpstr (rw_item_key (rw_recall_get (recall, 2)->target), ==, "new");
  g_assert_null (rw_recall_get (recall, 3)->target);
  change = rw_recall_change (recall, "", &n_left_out, NULL);
  g_assert_cmpuint (n_left_out, ==, 2); /* Keys and Talk over the network; their strips stay */
  g_assert_true (rw_rig_apply (rig, change, NULL));
  assert_lines (rig, RW_LINE_INPUT, "foh", "Left|1|FOH|1|1|\nLeft|2|FOH|2|2|\n||FOH|3|3|\n");
}

static void
assert_refused (const RwRecall *recall, const char *message)
{
  g_autoptr (GError) error = NULL;
  guint n_left_out;

  g_assert_null (rw_recall_change (recall, "", &n_left_out, &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_REFERENCE);
  g_assert_cmpstr (error->message, ==, message);
}

static void
test_impossible (void)
{
  g_autoptr (RwRig) rig = two_racks ();
  g_autoptr (RwRig) other = stage ("little", "Little", 8, "big", "Big", 32);
  g_autoptr (RwPatchSet) set = store (rig, RW_SCOPE_INPUTS, "foh");
  g_autoptr (RwRecall) recall = rw_recall_new (other, set);

  rw_recall_set_target (recall, 1, rw_rig_device (other, "little"));
  rw_recall_set_target (recall, 2, rw_rig_device (other, "little"));
  assert_refused (recall, "Little cannot take the place of both Left and Right");
  rw_recall_set_target (recall, 1, rw_rig_device (other, "big"));
  assert_refused (recall, "Little has too few sends: 8, and the set uses them up to 9");
  rw_recall_set_target (recall, 2, rw_rig_device (other, "foh"));
  assert_refused (recall, "FOH cannot take the place of both FOH and Right");
  rw_recall_set_target (recall, 0, rw_rig_device (other, "mon"));
  assert_refused (recall, "FOH is a console");
  rw_recall_set_target (recall, 0, rw_rig_device (other, "little"));
  rw_recall_set_target (recall, 2, NULL);
  assert_refused (recall, "Little is no console");
  rw_recall_set_target (recall, 0, NULL);
  assert_refused (recall, "the set is of FOH: choose a console that takes its place");
}

/* Ids that the rig gave to something else meanwhile. */
static void
test_ids_taken (void)
{
  g_autoptr (RwRig) rig = two_racks ();
  g_autoptr (RwPatchSet) set = store (rig, RW_SCOPE_ALL, NULL);
  g_autofree char *id = g_strdup (rw_item_key (rw_rig_items (rig, RW_ITEM_PATCH)[0]));
  g_autofree char *expected = lines_text (rig, RW_LINE_INPUT, NULL, FALSE, FALSE);
  g_autofree char *found = NULL;
  g_autoptr (RwChange) change = NULL;
  g_autoptr (RwChange) back = NULL;
  RwEdit *edit = rw_edit_new (rig, "");

  rw_edit_remove (edit, id);
  change = rw_edit_finish (edit);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  g_clear_pointer (&change, rw_change_unref);
  edit = rw_edit_new (rig, "");
  rw_edit_put (edit, rw_item_with (rw_rig_device (rig, "left"), RW_DEVICE_ID, g_variant_new_string (id), NULL));
  change = rw_edit_finish (edit);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  back = recall_onto_itself (rig, set);
  g_assert_true (rw_rig_apply (rig, back, NULL));
  found = lines_text (rig, RW_LINE_INPUT, NULL, FALSE, FALSE);
  g_assert_cmpstr (found, ==, expected);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rig/recall/random", test_random);
  g_test_add_func ("/rig/recall/whole-patch", test_whole_patch);
  g_test_add_func ("/rig/recall/onto-another-rig", test_onto_another_rig);
  g_test_add_func ("/rig/recall/one-console", test_one_console);
  g_test_add_func ("/rig/recall/names-of-others", test_names_of_others);
  g_test_add_func ("/rig/recall/by-part-and-order", test_by_part_and_order);
  g_test_add_func ("/rig/recall/impossible", test_impossible);
  g_test_add_func ("/rig/recall/ids-taken", test_ids_taken);
  return g_test_run ();
}
