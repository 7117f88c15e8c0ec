/* SPDX-License-Identifier: MIT */
#include "rw-state.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-error.h"

static const char *const scope_words[] = { "all", "inputs", "outputs", NULL };
static const char *const scope_labels[] = { N_("Inputs and outputs"), N_("Inputs"), N_("Outputs"), NULL };

static const RwField set_fields[] = {
  [RW_SET_ID] = { .name = "id", .label = N_("ID in the file"), .group = N_("Patch set"), .help = N_("Its name in the file"),
    .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwItem, key) },
  [RW_SET_NAME] = { .name = "name", .label = N_("Name"), .group = N_("Patch set"), .help = N_("What the crew calls it"),
    .kind = RW_FIELD_TEXT, .offset = offsetof (RwPatchSet, name) },
  [RW_SET_SCOPE] = { .name = "scope", .label = N_("Lines"), .group = N_("Patch set"), .help = N_("Which lines it holds"),
    .kind = RW_FIELD_WORD, .offset = offsetof (RwPatchSet, scope), .words = scope_words, .word_labels = scope_labels,
    .has_def = TRUE, .def = RW_SCOPE_ALL },
  [RW_SET_DEVICE] = { .name = "device", .label = N_("Console"), .group = N_("Patch set"),
    .help = N_("The device of its state whose lines they are; absent = of all"), .kind = RW_FIELD_ID,
    .offset = offsetof (RwPatchSet, device) },
  [RW_SET_NOTES] = { .name = "notes", .label = N_("Notes"), .group = N_("Patch set"),
    .help = N_("Whatever else the crew should know"), .kind = RW_FIELD_TEXT, .flags = RW_FIELD_LONG,
    .offset = offsetof (RwPatchSet, notes) },
  [RW_SET_STATE] = { .name = "state", .label = N_("Stored state"), .group = N_("Patch set"),
    .help = N_("The stored patch, with the devices that it is of"), .kind = RW_FIELD_STATE,
    .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwPatchSet, state) },
};
G_STATIC_ASSERT (G_N_ELEMENTS (set_fields) == RW_SET_N_FIELDS);

const RwTable rw_set_table = { "patch set", set_fields, RW_SET_N_FIELDS, sizeof (RwPatchSet) };

static const RwField revision_fields[] = {
  [RW_REVISION_ID] = { .name = "id", .label = N_("ID in the file"), .group = N_("Revision"), .help = N_("Its name in the file"),
    .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwItem, key) },
  [RW_REVISION_LETTER] = { .name = "letter", .label = N_("Revision"), .group = N_("Revision"),
    .help = N_("Letter or number of this issue of the drawing"), .kind = RW_FIELD_TEXT, .offset = offsetof (RwRevision, letter) },
  [RW_REVISION_DATE] = { .name = "date", .label = N_("Date"), .group = N_("Revision"),
    .help = N_("Day of its issue, as YYYY-MM-DD"), .kind = RW_FIELD_TEXT, .offset = offsetof (RwRevision, date) },
  [RW_REVISION_BY] = { .name = "by", .label = N_("Issued by"), .group = N_("Revision"),
    .help = N_("Who answers for it"), .kind = RW_FIELD_TEXT, .offset = offsetof (RwRevision, by) },
  [RW_REVISION_WHAT] = { .name = "what", .label = N_("What changed"), .group = N_("Revision"),
    .help = N_("What it is for, or what is new in it"), .kind = RW_FIELD_TEXT, .flags = RW_FIELD_LONG,
    .offset = offsetof (RwRevision, what) },
  [RW_REVISION_STATE] = { .name = "state", .label = N_("Stored state"), .group = N_("Revision"),
    .help = N_("The whole rig as it was issued"), .kind = RW_FIELD_STATE, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN,
    .offset = offsetof (RwRevision, state) },
};
G_STATIC_ASSERT (G_N_ELEMENTS (revision_fields) == RW_REVISION_N_FIELDS);

const RwTable rw_revision_table = { "revision", revision_fields, RW_REVISION_N_FIELDS, sizeof (RwRevision) };

static void
put_text (RwItem *item, guint field, const char *text)
{
  if (text != NULL && *text != '\0')
    rw_record_set (item, rw_item_table (item), field, g_variant_new_string (text), NULL);
}

static void
put_state (RwItem *item, guint field, const RwRig *state)
{
  *(RwRig **) RW_FIELD_PTR (item, &rw_item_table (item)->fields[field]) = rw_rig_snapshot (state);
  item->record.present |= G_GUINT64_CONSTANT (1) << field;
}

/**
 * rw_set_new:
 * @id: its id
 * @name, @notes: (nullable): texts
 * @scope: which lines @state holds
 * @device: (nullable): the console whose lines they are, a device of @state
 * @state: what is stored; a snapshot of it is kept, which is @state itself where that is sealed
 *
 * Returns: (transfer full): the sealed item
 */
RwItem *
rw_set_new (const char *id, const char *name, RwScope scope, const char *device, const char *notes, const RwRig *state)
{
  RwItem *item = rw_item_new (RW_ITEM_SET);

  put_text (item, RW_SET_ID, id);
  put_text (item, RW_SET_NAME, name);
  rw_record_set (item, &rw_set_table, RW_SET_SCOPE, g_variant_new_string (scope_words[scope]), NULL);
  put_text (item, RW_SET_DEVICE, device);
  put_text (item, RW_SET_NOTES, notes);
  put_state (item, RW_SET_STATE, state);
  return rw_item_seal (item);
}

/**
 * rw_set_with_state:
 *
 * Returns: (transfer full): a sealed copy of @set that stores @state, as rw_set_new() does
 */
RwItem *
rw_set_with_state (const RwPatchSet *set, const RwRig *state)
{
  RwItem *item = rw_item_dup (set);

  rw_record_unset (item, &rw_set_table, RW_SET_STATE);
  put_state (item, RW_SET_STATE, state);
  return rw_item_seal (item);
}

/**
 * rw_revision_new:
 * @id: its id
 * @letter, @date, @by, @what: (nullable): texts
 * @state: the rig that is issued; a snapshot of it is kept
 *
 * Returns: (transfer full): the sealed item
 */
RwItem *
rw_revision_new (const char *id, const char *letter, const char *date, const char *by, const char *what, const RwRig *state)
{
  RwItem *item = rw_item_new (RW_ITEM_REVISION);

  put_text (item, RW_REVISION_ID, id);
  put_text (item, RW_REVISION_LETTER, letter);
  put_text (item, RW_REVISION_DATE, date);
  put_text (item, RW_REVISION_BY, by);
  put_text (item, RW_REVISION_WHAT, what);
  put_state (item, RW_REVISION_STATE, state);
  return rw_item_seal (item);
}

static const char *
text_or_key (const char *text, gconstpointer item)
{
  return text != NULL && *text != '\0' ? text : rw_item_key (item);
}

/**
 * rw_set_title:
 *
 * Returns: (transfer none): what people call it: its name, else its id
 */
const char *
rw_set_title (const RwPatchSet *set)
{
  return text_or_key (set->name, set);
}

/**
 * rw_revision_title:
 *
 * Returns: (transfer none): what people call it: its letter, else its id
 */
const char *
rw_revision_title (const RwRevision *revision)
{
  return text_or_key (revision->letter, revision);
}

static gboolean
is_single (RwItemType type)
{
  return type == RW_ITEM_SHOW || type == RW_ITEM_SYSTEM;
}

/* Whether a file would hold this member. */
static gboolean
is_written (const RwRig *state, RwItemType type)
{
  if (rw_rig_lists (state, type))
    return TRUE;
  return is_single (type) ? !rw_item_is_blank (rw_rig_items (state, type)[0]) : rw_rig_n (state, type) > 0;
}

static gboolean
lists_equal (const RwRig *a, const RwRig *b, RwItemType type)
{
  guint n = rw_rig_n (a, type);

  if (n != rw_rig_n (b, type) || is_written (a, type) != is_written (b, type))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!rw_item_equal (rw_rig_items (a, type)[i], rw_rig_items (b, type)[i]))
      return FALSE;
  return TRUE;
}

static gboolean
extras_equal (const RwRig *a, const RwRig *b)
{
  char *none[] = { NULL };
  char **one = rw_rig_head ((RwRig *) a)->extras, **other = rw_rig_head ((RwRig *) b)->extras;

  return g_strv_equal ((const char *const *) (one != NULL ? one : none), (const char *const *) (other != NULL ? other : none));
}

/**
 * rw_state_equal:
 * @a, @b: (nullable): sealed rigs
 *
 * Returns: %TRUE where a file would hold the same bytes for both
 */
gboolean
rw_state_equal (const RwRig *a, const RwRig *b)
{
  if (a == NULL || b == NULL || a == b)
    return a == b;
  for (RwItemType type = 0; type < RW_N_STATE_TYPES; type++)
    if (!lists_equal (a, b, type))
      return FALSE;
  return extras_equal (a, b);
}

static GVariant *
list_get (const RwRig *state, RwItemType type)
{
  GVariantBuilder builder;

  if (is_single (type))
    return rw_record_get_all (rw_rig_items (state, type)[0], rw_item_type_table (type));
  g_variant_builder_init (&builder, G_VARIANT_TYPE ("aa{sv}"));
  for (guint i = 0; i < rw_rig_n (state, type); i++)
    g_variant_builder_add_value (&builder, rw_record_get_all (rw_rig_items (state, type)[i], rw_item_type_table (type)));
  return g_variant_builder_end (&builder);
}

/**
 * rw_state_get:
 * @state: (nullable): a sealed rig
 *
 * Returns: floating a{sv}: the members that a file would hold, an a{sv} for the show and the system, an aa{sv} for
 *   each list; unknown members are left out
 */
GVariant *
rw_state_get (const RwRig *state)
{
  GVariantBuilder builder;

  g_variant_builder_init (&builder, G_VARIANT_TYPE_VARDICT);
  for (RwItemType type = 0; state != NULL && type < RW_N_STATE_TYPES; type++)
    if (is_written (state, type))
      g_variant_builder_add (&builder, "{sv}", rw_item_type_member (type), list_get (state, type));
  return g_variant_builder_end (&builder);
}

static gboolean
append_item (RwRig *state, RwItemType type, GVariant *dict, GError **error)
{
  g_autoptr (RwItem) item = rw_item_new (type);

  if (!rw_record_set_all (item, rw_item_type_table (type), dict, error))
    return FALSE;
  rw_item_seal (item);
  if (item->key == NULL)
    {
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_ID, "one of the %s has no id", rw_item_type_member (type));
      return FALSE;
    }
  return rw_rig_append (state, item, error) && rw_rig_check_item (state, item, NULL, error);
}

static gboolean
append_list (RwRig *state, RwItemType type, GVariant *list, GError **error)
{
  rw_rig_set_lists (state, type, TRUE);
  if (is_single (type) && g_variant_is_of_type (list, G_VARIANT_TYPE_VARDICT))
    return append_item (state, type, list, error);
  if (is_single (type) || !g_variant_is_of_type (list, G_VARIANT_TYPE ("aa{sv}")))
    {
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, "%s: wrong type of value", rw_item_type_member (type));
      return FALSE;
    }
  for (gsize i = 0; i < g_variant_n_children (list); i++)
    {
      g_autoptr (GVariant) dict = g_variant_get_child_value (list, i);
      if (!append_item (state, type, dict, error))
        return FALSE;
    }
  return TRUE;
}

/**
 * rw_state_new_from_variant:
 * @members: a{sv} as rw_state_get() gives it
 * @error: of RW_RIG_ERROR
 *
 * Returns: (transfer full) (nullable): the sealed rig
 */
RwRig *
rw_state_new_from_variant (GVariant *members, GError **error)
{
  g_autoptr (RwRig) state = rw_rig_new ();
  gsize n = 0;

  for (RwItemType type = 0; type < RW_N_STATE_TYPES; type++)
    {
      g_autoptr (GVariant) list = g_variant_lookup_value (members, rw_item_type_member (type), NULL);
      if (list != NULL && !append_list (state, type, list, error))
        return NULL;
      n += list != NULL;
    }
  if (n < g_variant_n_children (members))
    {
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, "a stored state has no such member");
      return NULL;
    }
  return rw_rig_seal (g_steal_pointer (&state));
}

/**
 * rw_state_of:
 * @item: an item
 * @field: index of a field
 *
 * Returns: (transfer none) (nullable): the stored state in it; %NULL where the field holds none or is of another kind
 */
RwRig *
rw_state_of (const RwItem *item, guint field)
{
  const RwField *f = &rw_item_table (item)->fields[field];

  return f->kind == RW_FIELD_STATE ? *(RwRig *const *) RW_FIELD_PTR (item, f) : NULL;
}
