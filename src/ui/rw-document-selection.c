/* SPDX-License-Identifier: MIT */
#include "rw-document-selection.h"

struct _RwSelection
{
  GObject parent_instance;
  GHashTable *keys; /* set of owned strings */
};

G_DEFINE_FINAL_TYPE (RwSelection, rw_selection, G_TYPE_OBJECT)

static guint changed_signal;

static void
rw_selection_finalize (GObject *object)
{
  g_hash_table_unref (RW_SELECTION (object)->keys);
  G_OBJECT_CLASS (rw_selection_parent_class)->finalize (object);
}

static void
rw_selection_class_init (RwSelectionClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_selection_finalize;
  changed_signal = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
rw_selection_init (RwSelection *self)
{
  self->keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

RwSelection *
rw_selection_new (void)
{
  return g_object_new (RW_TYPE_SELECTION, NULL);
}

static void
emit_changed (RwSelection *self, gboolean differs)
{
  if (differs)
    g_signal_emit (self, changed_signal, 0);
}

guint
rw_selection_n (RwSelection *self)
{
  g_return_val_if_fail (RW_IS_SELECTION (self), 0);
  return g_hash_table_size (self->keys);
}

gboolean
rw_selection_has (RwSelection *self, const char *key)
{
  g_return_val_if_fail (RW_IS_SELECTION (self), FALSE);
  return key != NULL && g_hash_table_contains (self->keys, key);
}

const char *
rw_selection_single (RwSelection *self)
{
  GHashTableIter iter;
  gpointer key = NULL;

  g_return_val_if_fail (RW_IS_SELECTION (self), NULL);
  if (g_hash_table_size (self->keys) != 1)
    return NULL;
  g_hash_table_iter_init (&iter, self->keys);
  g_hash_table_iter_next (&iter, &key, NULL);
  return key;
}

const char **
rw_selection_keys (RwSelection *self, const RwRig *rig, RwItemType type)
{
  RwItem *const *items = rw_rig_items (rig, type);
  guint n = rw_rig_n (rig, type);
  GPtrArray *keys = g_ptr_array_new ();

  g_return_val_if_fail (RW_IS_SELECTION (self), NULL);
  for (guint i = 0; i < n && keys->len < g_hash_table_size (self->keys); i++)
    if (g_hash_table_contains (self->keys, rw_item_key (items[i])))
      g_ptr_array_add (keys, rw_item_key (items[i]));
  g_ptr_array_add (keys, NULL);
  return (const char **) g_ptr_array_free (keys, FALSE);
}

void
rw_selection_clear (RwSelection *self)
{
  gboolean had;

  g_return_if_fail (RW_IS_SELECTION (self));
  had = g_hash_table_size (self->keys) > 0;
  g_hash_table_remove_all (self->keys);
  emit_changed (self, had);
}

void
rw_selection_set (RwSelection *self, const char *key)
{
  const char *const keys[] = { key, NULL };

  rw_selection_set_all (self, keys);
}

void
rw_selection_set_all (RwSelection *self, const char *const *keys)
{
  GHashTable *old;
  GHashTableIter iter;
  gpointer key;
  gboolean differs;

  g_return_if_fail (RW_IS_SELECTION (self));
  old = self->keys;
  self->keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (; *keys != NULL; keys++)
    g_hash_table_add (self->keys, g_strdup (*keys));

  differs = g_hash_table_size (old) != g_hash_table_size (self->keys);
  g_hash_table_iter_init (&iter, old);
  while (!differs && g_hash_table_iter_next (&iter, &key, NULL))
    differs = !g_hash_table_contains (self->keys, key);
  g_hash_table_unref (old);
  emit_changed (self, differs);
}

void
rw_selection_add (RwSelection *self, const char *key)
{
  g_return_if_fail (RW_IS_SELECTION (self));
  emit_changed (self, g_hash_table_add (self->keys, g_strdup (key)));
}

void
rw_selection_toggle (RwSelection *self, const char *key)
{
  g_return_if_fail (RW_IS_SELECTION (self));
  if (!g_hash_table_remove (self->keys, key))
    g_hash_table_add (self->keys, g_strdup (key));
  emit_changed (self, TRUE);
}

static gboolean
is_gone (gpointer key, gpointer value, gpointer rig)
{
  return rw_rig_find (rig, key) == NULL;
}

void
rw_selection_prune (RwSelection *self, const RwRig *rig)
{
  g_return_if_fail (RW_IS_SELECTION (self));
  emit_changed (self, g_hash_table_foreach_remove (self->keys, is_gone, (gpointer) rig) > 0);
}
