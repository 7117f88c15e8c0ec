/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-difference.h"
#include "rw-state.h"

#define LONGEST 80 /* characters of a text that are quoted */

static const char *
device_title (const RwRig *rig, const char *id)
{
  const RwDevice *device = rw_rig_device (rig, id);

  return device != NULL ? rw_device_title (device) : id;
}

static char *
cable_title (const RwItem *item)
{
  /* Translators: what is on its label. */
  return g_strdup_printf (_("Cable %s"), rw_cable_title ((const RwCable *) item));
}

static char *
part_title (const RwItem *item)
{
  const RwPart *part = (const RwPart *) item;

  /* Translators: the name of a type of device. */
  return g_strdup_printf (_("Part %s"), part->name != NULL && *part->name != '\0' ? part->name : item->key);
}

static char *
patch_title (const RwItem *item, const RwRig *rig)
{
  const RwPatchRow *row = (const RwPatchRow *) item;

  /* Translators: a device and the number of its send, a device and the number of its receive. */
  return g_strdup_printf (_("Patch row %s, send %d → %s, receive %d"), device_title (rig, row->from.device), row->from.number,
                          device_title (rig, row->to.device), row->to.number);
}

static char *
inside_title (const RwItem *item, const RwRig *rig)
{
  const RwInsideRow *row = (const RwInsideRow *) item;
  const RwField *from = &rw_inside_table.fields[RW_INSIDE_FROM], *to = &rw_inside_table.fields[RW_INSIDE_TO];

  /* Translators: a device, then "Receive 3 → Strip 3". */
  return g_strdup_printf (_("Row inside %s, %s %d → %s %d"), device_title (rig, row->device), _(from->word_labels[row->from.kind]),
                          row->from.number, _(to->word_labels[row->to.kind]), row->to.number);
}

static char *
channel_title (const RwItem *item, const RwRig *rig)
{
  const RwChannel *channel = (const RwChannel *) item;

  /* Translators: "Strip", the number of the channel, the device. */
  return g_strdup_printf (_("%s %d of %s"), _(rw_channel_table.fields[RW_CHANNEL_SIDE].word_labels[channel->side]),
                          channel->number, device_title (rig, channel->device));
}

/**
 * rw_item_title: what a list of changes calls @item, which is one of @rig: "Cable N-04". Free with g_free().
 */
char *
rw_item_title (const RwItem *item, const RwRig *rig)
{
  switch (item->type)
    {
    case RW_ITEM_SHOW:
      return g_strdup (_("Show"));
    case RW_ITEM_SYSTEM:
      return g_strdup (_("System"));
    case RW_ITEM_PART:
      return part_title (item);
    case RW_ITEM_DEVICE:
      /* Translators: the name of a device. */
      return g_strdup_printf (_("Device %s"), rw_device_title ((const RwDevice *) item));
    case RW_ITEM_CABLE:
      return cable_title (item);
    case RW_ITEM_PATCH:
      return patch_title (item, rig);
    case RW_ITEM_INSIDE:
      return inside_title (item, rig);
    case RW_ITEM_CHANNEL:
      return channel_title (item, rig);
    case RW_ITEM_SET:
      /* Translators: the name of a stored patch. */
      return g_strdup_printf (_("Patch set %s"), rw_set_title ((const RwPatchSet *) item));
    case RW_ITEM_REVISION:
      /* Translators: the letter of an issued revision. */
      return g_strdup_printf (_("Issued revision %s"), rw_revision_title ((const RwRevision *) item));
    }
  g_return_val_if_reached (NULL);
}

static char *
quoted (const char *text)
{
  g_autofree char *line = g_strdelimit (g_strdup (text), "\n\r\t", ' ');
  g_autofree char *start = NULL;

  if (*line == '\0')
    return g_strdup (_("nothing"));
  if (g_utf8_strlen (line, -1) <= LONGEST)
    return g_strdup_printf (_("“%s”"), line);
  start = g_utf8_substring (line, 0, LONGEST - 1);
  return g_strdup_printf (_("“%s…”"), start);
}

static char *
part_name (const RwRig *rig, const char *id)
{
  const RwPart *part = rw_rig_part (rig, id);

  return g_strdup (part != NULL && part->name != NULL && *part->name != '\0' ? part->name : id);
}

static char *
with_unit (const RwField *field, GVariant *value)
{
  g_autofree char *text = rw_field_format_whole (field, value);

  return *text != '\0' ? g_steal_pointer (&text) : g_strdup (_("nothing"));
}

/* The names of devices and parts are those of @rig. */
static char *
value_text (const RwField *field, GVariant *value, const RwRig *rig)
{
  const char *device, *port;
  int number;

  if (value == NULL)
    return g_strdup (field->fallback != NULL ? _("the system’s") : _("not given"));
  switch (field->kind)
    {
    case RW_FIELD_TEXT:
      return quoted (g_variant_get_string (value, NULL));
    case RW_FIELD_ID:
      return part_name (rig, g_variant_get_string (value, NULL));
    case RW_FIELD_END:
      g_variant_get (value, "(&s&s)", &device, &port);
      /* Translators: a device and one of its ports. */
      return g_strdup_printf (_("%s, port %s"), device_title (rig, device), port);
    case RW_FIELD_SLOT:
      g_variant_get (value, "(&si)", &device, &number);
      /* Translators: a device and the number of one of its sends, or of one of its receives. */
      return g_strdup_printf (field == &rw_patch_table.fields[RW_PATCH_FROM] ? _("%s, send %d") : _("%s, receive %d"),
                              device_title (rig, device), number);
    case RW_FIELD_RECORDS:
      return g_strdup_printf ("%u", (guint) g_variant_n_children (value));
    case RW_FIELD_INTEGER:
    case RW_FIELD_REAL:
    case RW_FIELD_BOOLEAN:
    case RW_FIELD_WORD:
    case RW_FIELD_POINT:
    case RW_FIELD_POINTS:
    case RW_FIELD_PLACE:
    case RW_FIELD_RECORD:
    case RW_FIELD_VLANS:
    case RW_FIELD_STATE:
      return with_unit (field, value);
    }
  g_return_val_if_reached (NULL);
}

typedef struct
{
  const RwRig *older, *newer;
  GPtrArray *phrases;
} Phrases;

static void
add_phrase (const Phrases *phrases, const char *label, const char *now, const char *was)
{
  char *phrase;

  if (strcmp (now, was) == 0)
    /* Translators: the label of a field that holds something long. */
    phrase = g_strdup_printf (_("%s changed"), label);
  else
    /* Translators: the label of a field, its new value, its old value. */
    phrase = g_strdup_printf (_("%s now %s, was %s"), label, now, was);
  g_ptr_array_add (phrases->phrases, phrase);
}

/* A whole state in one phrase. */
static void
add_state (const Phrases *phrases, const char *label, const RwRig *before, const RwRig *after)
{
  guint n = rw_difference_states (before, after);

  /* Translators: "Stored state", the number of things that are different in it. */
  g_ptr_array_add (phrases->phrases, g_strdup_printf (ngettext ("%s: %u change", "%s: %u changes", n), label, n));
}

static void
add_phrases (const Phrases *phrases, const char *prefix, gconstpointer before, gconstpointer after, const RwTable *table)
{
  guint64 fields = rw_difference_fields (before, after, table);

  for (guint i = 0; i < table->n_fields; i++)
    {
      const RwField *field = &table->fields[i];
      g_autofree char *label = g_strconcat (prefix, _(field->label), NULL);
      g_autoptr (GVariant) a = NULL;
      g_autoptr (GVariant) b = NULL;
      g_autofree char *was = NULL;
      g_autofree char *now = NULL;

      if (!((fields >> i) & 1))
        continue;
      if (field->kind == RW_FIELD_RECORD)
        {
          g_autofree char *inner = g_strconcat (label, ": ", NULL);

          add_phrases (phrases, inner, RW_FIELD_PTR (before, field), RW_FIELD_PTR (after, field), field->sub);
          continue;
        }
      if (field->kind == RW_FIELD_STATE)
        {
          add_state (phrases, label, *(RwRig *const *) RW_FIELD_PTR (before, field), *(RwRig *const *) RW_FIELD_PTR (after, field));
          continue;
        }
      a = rw_difference_record_value (before, table, i);
      b = rw_difference_record_value (after, table, i);
      was = value_text (field, a, phrases->older);
      now = value_text (field, b, phrases->newer);
      add_phrase (phrases, label, now, was);
    }
}

static char *
place_text (const RwRig *rig, const char *place)
{
  g_autofree char *title = NULL;

  if (place == NULL)
    return g_strdup (_("first in the file"));
  title = rw_item_title (rw_rig_find (rig, place), rig);
  /* Translators: a device, cable or the like. */
  return g_strdup_printf (_("after %s"), title);
}

static void
add_move (const Phrases *phrases, const RwChangeEntry *entry)
{
  g_autofree char *was = place_text (phrases->older, entry->before_place);
  g_autofree char *now = place_text (phrases->newer, entry->after_place);

  add_phrase (phrases, _("Order"), now, was);
}

/* A length says by its unit what it is. */
static char *
length_text (const RwDifference *difference, const char *title)
{
  const RwField *field = &rw_cable_table.fields[RW_CABLE_LENGTH_M];
  g_autoptr (GVariant) a = rw_difference_value (difference->before, RW_CABLE_LENGTH_M);
  g_autoptr (GVariant) b = rw_difference_value (difference->after, RW_CABLE_LENGTH_M);
  g_autofree char *was = with_unit (field, a);
  g_autofree char *now = with_unit (field, b);

  /* Translators: "Cable N-04", its new and its old length. */
  return g_strdup_printf (_("%s now %s, was %s"), title, now, was);
}

static char *
changed_text (const RwDifference *difference, const char *title, const RwChangeEntry *entry, const RwRig *older, const RwRig *newer)
{
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  Phrases phrases = { older, newer, texts };
  g_autofree char *all = NULL;

  if (difference->type == RW_ITEM_CABLE && difference->fields == G_GUINT64_CONSTANT (1) << RW_CABLE_LENGTH_M && !difference->extras)
    return length_text (difference, title);
  add_phrases (&phrases, "", difference->before, difference->after, rw_item_type_table (difference->type));
  if (difference->moved)
    add_move (&phrases, entry);
  if (difference->extras)
    g_ptr_array_add (texts, g_strdup (_("members that this program does not know changed")));
  g_ptr_array_add (texts, NULL);
  all = g_strjoinv ("; ", (char **) texts->pdata);
  /* Translators: "Device FOH desk", what changed of it. */
  return g_strdup_printf (_("%s: %s"), title, all);
}

/**
 * rw_difference_text: the one line that says what @difference is. Free with g_free().
 */
char *
rw_difference_text (const RwDifference *difference, const RwChangeEntry *entry, const RwRig *older, const RwRig *newer)
{
  g_autofree char *title = NULL;

  if (difference->kind == RW_DIFFERENCE_ADDED)
    title = rw_item_title (difference->after, newer);
  else
    title = rw_item_title (difference->before, older);
  switch (difference->kind)
    {
    case RW_DIFFERENCE_ADDED:
      /* Translators: "Cable N-04". */
      return g_strdup_printf (_("%s added"), title);
    case RW_DIFFERENCE_REMOVED:
      /* Translators: "Cable N-04". */
      return g_strdup_printf (_("%s removed"), title);
    case RW_DIFFERENCE_CHANGED:
    default:
      return changed_text (difference, title, entry, older, newer);
    }
}
