/* SPDX-License-Identifier: MIT */
#include "rw-thing.h"

#include <glib/gi18n-lib.h>
#include "rw-row-store.h"
#include "rw-words.h"

enum { PROP_NAME = 1, PROP_WHAT, PROP_WHERE, PROP_FINDINGS, N_PROPS };

struct _RwThing
{
  GObject parent_instance;
  char *key;
  char *texts[N_PROPS]; /* by property */
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (RwThing, rw_thing, G_TYPE_OBJECT)

const char *
rw_thing_get_key (RwThing *thing)
{
  g_return_val_if_fail (RW_IS_THING (thing), NULL);
  return thing->key;
}

const char *
rw_thing_get_name (RwThing *thing)
{
  g_return_val_if_fail (RW_IS_THING (thing), NULL);
  return thing->texts[PROP_NAME];
}

const char *
rw_thing_get_where (RwThing *thing)
{
  g_return_val_if_fail (RW_IS_THING (thing), NULL);
  return thing->texts[PROP_WHERE];
}

const char *
rw_thing_get_findings (RwThing *thing)
{
  g_return_val_if_fail (RW_IS_THING (thing), NULL);
  return thing->texts[PROP_FINDINGS];
}

static void
take_text (RwThing *thing, guint prop, char *text)
{
  if (g_strcmp0 (thing->texts[prop], text) == 0)
    {
      g_free (text);
      return;
    }
  g_free (thing->texts[prop]);
  thing->texts[prop] = text;
  g_object_notify_by_pspec (G_OBJECT (thing), props[prop]);
}

static void
rw_thing_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id < N_PROPS)
    g_value_set_string (value, RW_THING (object)->texts[id]);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
rw_thing_finalize (GObject *object)
{
  RwThing *thing = RW_THING (object);

  g_free (thing->key);
  for (guint i = 0; i < N_PROPS; i++)
    g_free (thing->texts[i]);
  G_OBJECT_CLASS (rw_thing_parent_class)->finalize (object);
}

static void
rw_thing_class_init (RwThingClass *klass)
{
  static const char *const names[N_PROPS] = { NULL, "name", "what", "where", "findings" };

  G_OBJECT_CLASS (klass)->get_property = rw_thing_get_property;
  G_OBJECT_CLASS (klass)->finalize = rw_thing_finalize;
  for (guint i = 1; i < N_PROPS; i++)
    props[i] = g_param_spec_string (names[i], NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
}

static void
rw_thing_init (RwThing *thing)
{
}

/* Numbers of the findings by key of the things that they name: key → GString "1, 4". */
static GHashTable *
number_findings (const RwFindings *findings)
{
  GHashTable *numbers = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);

  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      RwFinding *finding = rw_findings_get (findings, i);
      char **lists[] = { finding->devices, finding->cables };
      for (guint l = 0; l < G_N_ELEMENTS (lists); l++)
        for (guint k = 0; lists[l][k] != NULL; k++)
          {
            const char *old = g_hash_table_lookup (numbers, lists[l][k]);
            g_hash_table_insert (numbers, lists[l][k],
                                 old != NULL ? g_strdup_printf ("%s, %u", old, i + 1)
                                             : g_strdup_printf ("%u", i + 1));
          }
    }
  return numbers;
}

static void
fill_device (RwThing *thing, const RwNetDevice *device)
{
  const RwPart *part = device->part;

  take_text (thing, PROP_NAME, g_strdup (rw_device_title (device->device)));
  take_text (thing, PROP_WHAT, g_strdup (part->name != NULL ? part->name : rw_item_key (part)));
  take_text (thing, PROP_WHERE, g_strdup (device->device->location != NULL ? device->device->location : ""));
}

static void
fill_cable (RwThing *thing, const RwNet *net, guint index)
{
  const RwCable *cable = net->cables[index].cable;

  take_text (thing, PROP_NAME, g_strdup (rw_cable_title (cable)));
  take_text (thing, PROP_WHAT, g_strdup (_(rw_media_word_labels[cable->medium])));
  take_text (thing, PROP_WHERE, rw_words_cable (net, index));
}

static RwThing *
find_thing (GListStore *store, GHashTable *old, const char *key)
{
  RwThing *thing = g_hash_table_lookup (old, key);

  if (thing != NULL)
    return g_object_ref (thing);
  thing = g_object_new (RW_TYPE_THING, NULL);
  thing->key = g_strdup (key);
  return thing;
}

static GHashTable *
index_store (GListStore *store)
{
  GHashTable *index = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (store)); i++)
    {
      g_autoptr (RwThing) thing = g_list_model_get_item (G_LIST_MODEL (store), i);
      g_hash_table_insert (index, thing->key, thing);
    }
  return index;
}

void
rw_things_update (GListStore *store, RwDocument *document)
{
  const RwNet *net = rw_document_net (document);
  g_autoptr (GHashTable) numbers = number_findings (rw_document_findings (document));
  g_autoptr (GHashTable) old = index_store (store);
  g_autoptr (GPtrArray) things = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < net->n_devices + net->n_cables; i++)
    {
      gboolean device = i < net->n_devices;
      const char *key = device ? rw_item_key (net->devices[i].device)
                               : rw_item_key (net->cables[i - net->n_devices].cable);
      RwThing *thing = find_thing (store, old, key);
      const char *found = g_hash_table_lookup (numbers, key);
      if (device)
        fill_device (thing, &net->devices[i]);
      else
        fill_cable (thing, net, i - net->n_devices);
      take_text (thing, PROP_FINDINGS, g_strdup (found != NULL ? found : ""));
      g_ptr_array_add (things, thing);
    }
  rw_row_store_show (store, things);
}

static gboolean
has_text (const char *hay, const char *wanted)
{
  g_autofree char *folded = hay != NULL ? g_utf8_casefold (hay, -1) : NULL;

  return folded != NULL && strstr (folded, wanted) != NULL;
}

static gboolean
device_has (const RwRig *rig, const RwDevice *device, const char *wanted)
{
  const RwPart *part = rw_rig_part_of (rig, device);

  return has_text (device->name, wanted) || has_text (rw_item_key (device), wanted)
    || has_text (device->location, wanted) || has_text (device->notes, wanted)
    || (part != NULL && has_text (part->name, wanted));
}

static gboolean
cable_has (const RwCable *cable, const char *wanted)
{
  return has_text (cable->label, wanted) || has_text (rw_item_key (cable), wanted)
    || has_text (cable->notes, wanted);
}

GPtrArray *
rw_things_search (const RwRig *rig, const char *text)
{
  GPtrArray *keys = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *wanted = g_utf8_casefold (text, -1);

  if (*wanted == '\0')
    return keys;
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      RwItem *item = rw_rig_items (rig, RW_ITEM_DEVICE)[i];
      if (device_has (rig, (const RwDevice *) item, wanted))
        g_ptr_array_add (keys, g_strdup (rw_item_key (item)));
    }
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    {
      RwItem *item = rw_rig_items (rig, RW_ITEM_CABLE)[i];
      if (cable_has ((const RwCable *) item, wanted))
        g_ptr_array_add (keys, g_strdup (rw_item_key (item)));
    }
  return keys;
}
