/* SPDX-License-Identifier: MIT */
#include "rw-document.h"

#include <rules/rw-rule.h>

struct _RwDocument
{
  GObject parent_instance;

  RwRig *rig;
  RwHistory *history;
  RwSelection *selection;
  char *path;
  char *title;

  RwNet *net;
  RwFindings *findings;
  RwScene *scene;

  RwRig *trial; /* (nullable) a copy of the rig on which changes are tried out; gone when the rig changes */
};

G_DEFINE_FINAL_TYPE (RwDocument, rw_document, G_TYPE_OBJECT)

enum { PROP_TITLE = 1, PROP_PATH, PROP_DIRTY, PROP_CAN_UNDO, PROP_CAN_REDO, N_PROPS };
static GParamSpec *props[N_PROPS];
static guint changed_signal;

/* Fields that neither layer 2 nor any rule reads: a change of these alone leaves the findings as they are. */
static const guint64 quiet_fields[RW_N_ITEM_TYPES] = {
  [RW_ITEM_SHOW] = G_MAXUINT64,
  [RW_ITEM_DEVICE] = (1 << RW_DEVICE_AT) | (1 << RW_DEVICE_NOTES),
  [RW_ITEM_CABLE] = (1 << RW_CABLE_BENDS) | (1 << RW_CABLE_NOTES),
};

static gboolean
field_equal (const RwItem *a, const RwItem *b, guint field)
{
  g_autoptr (GVariant) va = rw_item_get (a, field);
  g_autoptr (GVariant) vb = rw_item_get (b, field);

  return va == NULL || vb == NULL ? va == vb : g_variant_equal (va, vb);
}

static gboolean
entry_is_quiet (const RwChangeEntry *entry)
{
  if (entry->type >= RW_N_STATE_TYPES) /* what is stored is not the rig that is drawn */
    return TRUE;
  if (entry->before == NULL || entry->after == NULL || g_strcmp0 (entry->before_place, entry->after_place) != 0)
    return FALSE;
  if (quiet_fields[entry->type] == 0)
    return FALSE;
  for (guint i = 0; i < rw_item_type_table (entry->type)->n_fields; i++)
    if ((quiet_fields[entry->type] & ((guint64) 1 << i)) == 0 && !field_equal (entry->before, entry->after, i))
      return FALSE;
  return TRUE;
}

static gboolean
change_is_quiet (const RwChange *change)
{
  for (guint i = 0; i < rw_change_n (change); i++)
    if (!entry_is_quiet (rw_change_entry (change, i)))
      return FALSE;
  return TRUE;
}

static void
update_title (RwDocument *self)
{
  g_autofree char *title = rw_rig_title (self->rig);

  if (g_strcmp0 (title, self->title) == 0)
    return;
  g_free (self->title);
  self->title = g_steal_pointer (&title);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_TITLE]);
}

/* The scene reads places and bends from the net's items, so the net is made anew even where nothing is wired anew. */
static void
analyse (RwDocument *self, gboolean quiet)
{
  g_clear_pointer (&self->scene, rw_scene_unref);
  g_clear_pointer (&self->net, rw_net_unref);
  self->net = rw_net_new (self->rig);
  if (!quiet)
    {
      g_clear_pointer (&self->findings, rw_findings_unref);
      self->findings = rw_findings_new (self->rig, self->net);
    }
  self->scene = rw_scene_new (self->rig, self->net, self->findings);
}

static void
rig_changed_cb (RwRig *rig, RwChange *change, RwDocument *self)
{
  gboolean quiet = change_is_quiet (change);
  guint what = RW_DOCUMENT_RIG | RW_DOCUMENT_SCENE | (quiet ? 0 : RW_DOCUMENT_ANALYSIS);

  g_clear_object (&self->trial);
  analyse (self, quiet);
  rw_selection_prune (self->selection, rig);
  update_title (self);
  g_signal_emit (self, changed_signal, 0, what, change);
}

void
rw_document_retell (RwDocument *self)
{
  g_return_if_fail (RW_IS_DOCUMENT (self));
  g_clear_object (&self->trial);
  analyse (self, FALSE);
  g_signal_emit (self, changed_signal, 0, RW_DOCUMENT_RIG | RW_DOCUMENT_SCENE | RW_DOCUMENT_ANALYSIS, NULL);
}

static void
history_notify_cb (RwHistory *history, GParamSpec *pspec, RwDocument *self)
{
  static const struct { const char *name; guint prop; } relayed[] = {
    { "saved", PROP_DIRTY }, { "can-undo", PROP_CAN_UNDO }, { "can-redo", PROP_CAN_REDO },
  };

  for (guint i = 0; i < G_N_ELEMENTS (relayed); i++)
    if (g_str_equal (pspec->name, relayed[i].name))
      g_object_notify_by_pspec (G_OBJECT (self), props[relayed[i].prop]);
}

static void
drop_rig (RwDocument *self)
{
  if (self->rig != NULL)
    g_signal_handlers_disconnect_by_data (self->rig, self);
  if (self->history != NULL)
    g_signal_handlers_disconnect_by_data (self->history, self);
  g_clear_object (&self->trial);
  g_clear_object (&self->history);
  g_clear_object (&self->rig);
}

static void
take_rig (RwDocument *self, RwRig *rig, const char *path)
{
  drop_rig (self);
  rw_document_settle (rig);
  self->rig = rig;
  self->history = rw_history_new (rig);
  g_signal_connect (self->rig, "changed", G_CALLBACK (rig_changed_cb), self);
  g_signal_connect (self->history, "notify", G_CALLBACK (history_notify_cb), self);
  g_free (self->path);
  self->path = g_strdup (path);
  rw_rig_set_path (rig, path);
  analyse (self, FALSE);
  update_title (self);
}

static void
rw_document_finalize (GObject *object)
{
  RwDocument *self = RW_DOCUMENT (object);

  g_clear_pointer (&self->scene, rw_scene_unref);
  g_clear_pointer (&self->findings, rw_findings_unref);
  g_clear_pointer (&self->net, rw_net_unref);
  drop_rig (self);
  g_clear_object (&self->selection);
  g_free (self->path);
  g_free (self->title);
  G_OBJECT_CLASS (rw_document_parent_class)->finalize (object);
}

static void
rw_document_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  RwDocument *self = RW_DOCUMENT (object);

  switch (id)
    {
    case PROP_TITLE:
      g_value_set_string (value, self->title);
      break;
    case PROP_PATH:
      g_value_set_string (value, self->path);
      break;
    case PROP_DIRTY:
      g_value_set_boolean (value, rw_document_is_dirty (self));
      break;
    case PROP_CAN_UNDO:
      g_value_set_boolean (value, rw_history_undo_name (self->history) != NULL);
      break;
    case PROP_CAN_REDO:
      g_value_set_boolean (value, rw_history_redo_name (self->history) != NULL);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
rw_document_class_init (RwDocumentClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;

  object_class->finalize = rw_document_finalize;
  object_class->get_property = rw_document_get_property;
  props[PROP_TITLE] = g_param_spec_string ("title", NULL, NULL, NULL, flags);
  props[PROP_PATH] = g_param_spec_string ("path", NULL, NULL, NULL, flags);
  props[PROP_DIRTY] = g_param_spec_boolean ("dirty", NULL, NULL, FALSE, flags);
  props[PROP_CAN_UNDO] = g_param_spec_boolean ("can-undo", NULL, NULL, FALSE, flags);
  props[PROP_CAN_REDO] = g_param_spec_boolean ("can-redo", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  changed_signal = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 2, G_TYPE_UINT, G_TYPE_POINTER);
}

static void
rw_document_init (RwDocument *self)
{
  self->selection = rw_selection_new ();
}

RwDocument *
rw_document_new (void)
{
  g_autoptr (RwRig) rig = rw_rig_new ();

  return rw_document_new_for_rig (rig);
}

RwDocument *
rw_document_new_for_rig (RwRig *rig)
{
  RwDocument *self;

  g_return_val_if_fail (RW_IS_RIG (rig), NULL);
  self = g_object_new (RW_TYPE_DOCUMENT, NULL);
  take_rig (self, g_object_ref (rig), NULL);
  return self;
}

/* Everything that a window shows of a document may be another after a load or a save as. */
static void
notify_all (RwDocument *self)
{
  for (guint i = PROP_TITLE; i < N_PROPS; i++)
    g_object_notify_by_pspec (G_OBJECT (self), props[i]);
}

gboolean
rw_document_load (RwDocument *self, const char *path, GError **error)
{
  RwRig *rig;

  g_return_val_if_fail (RW_IS_DOCUMENT (self), FALSE);
  rig = rw_file_read (path, error);
  if (rig == NULL)
    return FALSE;
  take_rig (self, rig, path);
  rw_selection_clear (self->selection);
  g_signal_emit (self, changed_signal, 0,
                 RW_DOCUMENT_RIG | RW_DOCUMENT_ANALYSIS | RW_DOCUMENT_SCENE | RW_DOCUMENT_WHOLE, NULL);
  notify_all (self);
  return TRUE;
}

gboolean
rw_document_save (RwDocument *self, GError **error)
{
  g_return_val_if_fail (RW_IS_DOCUMENT (self) && self->path != NULL, FALSE);
  return rw_document_save_as (self, self->path, error);
}

gboolean
rw_document_save_as (RwDocument *self, const char *path, GError **error)
{
  g_autofree char *own_path = g_strdup (path); /* @path may be ours, which goes below */

  g_return_val_if_fail (RW_IS_DOCUMENT (self), FALSE);
  if (!rw_file_write (self->rig, own_path, error))
    return FALSE;
  g_free (self->path);
  self->path = g_steal_pointer (&own_path);
  rw_rig_set_path (self->rig, self->path);
  rw_history_mark_saved (self->history);
  update_title (self);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_PATH]);
  return TRUE;
}

RwRig *
rw_document_rig (RwDocument *self)
{
  return self->rig;
}

RwHistory *
rw_document_history (RwDocument *self)
{
  return self->history;
}

RwSelection *
rw_document_selection (RwDocument *self)
{
  return self->selection;
}

const RwNet *
rw_document_net (RwDocument *self)
{
  return self->net;
}

const RwFindings *
rw_document_findings (RwDocument *self)
{
  return self->findings;
}

RwScene *
rw_document_scene (RwDocument *self)
{
  return self->scene;
}

const char *
rw_document_title (RwDocument *self)
{
  return self->title;
}

const char *
rw_document_path (RwDocument *self)
{
  return self->path;
}

gboolean
rw_document_is_dirty (RwDocument *self)
{
  return !rw_history_is_saved (self->history);
}

gboolean
rw_document_is_blank (RwDocument *self)
{
  return self->path == NULL && rw_history_undo_name (self->history) == NULL
         && rw_rig_n (self->rig, RW_ITEM_DEVICE) == 0;
}

gboolean
rw_document_do (RwDocument *self, RwChange *change, GError **error)
{
  g_return_val_if_fail (RW_IS_DOCUMENT (self) && change != NULL, FALSE);
  return rw_change_n (change) == 0 || rw_history_do (self->history, change, error);
}

gboolean
rw_document_do_merged (RwDocument *self, RwChange *change, const char *run, GError **error)
{
  g_return_val_if_fail (RW_IS_DOCUMENT (self) && change != NULL && run != NULL, FALSE);
  return rw_change_n (change) == 0 || rw_history_do_merged (self->history, change, run, error);
}

void
rw_document_end_run (RwDocument *self)
{
  rw_history_end_run (self->history);
}

gboolean
rw_document_take_back (RwDocument *self)
{
  return rw_history_take_back (self->history);
}

gboolean
rw_document_undo (RwDocument *self)
{
  return rw_history_undo (self->history);
}

gboolean
rw_document_redo (RwDocument *self)
{
  return rw_history_redo (self->history);
}

static int
compare_severity (gconstpointer a, gconstpointer b)
{
  const RwFinding *fa = *(RwFinding *const *) a;
  const RwFinding *fb = *(RwFinding *const *) b;

  return (int) fa->severity - (int) fb->severity;
}

static void
drop_what_can_wait (GPtrArray *findings)
{
  for (guint i = findings->len; i > 0; i--)
    if (((const RwFinding *) g_ptr_array_index (findings, i - 1))->rule->can_wait)
      g_ptr_array_remove_index (findings, i - 1);
}

GPtrArray *
rw_document_preview (RwDocument *self, RwChange *change)
{
  g_autoptr (RwChange) back = NULL;
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwFindings) findings = NULL;
  GPtrArray *brought;

  g_return_val_if_fail (RW_IS_DOCUMENT (self) && change != NULL, NULL);
  if (self->trial == NULL)
    self->trial = rw_rig_copy (self->rig);
  if (!rw_rig_apply (self->trial, change, NULL))
    return NULL;
  net = rw_net_new (self->trial);
  findings = rw_findings_new (self->trial, net);
  brought = rw_findings_new_ones (self->findings, findings);
  drop_what_can_wait (brought);
  g_ptr_array_sort (brought, compare_severity);
  back = rw_change_invert (change);
  if (!rw_rig_apply (self->trial, back, NULL))
    g_clear_object (&self->trial);
  return brought;
}

void
rw_document_shift (RwDocument *self, const guint *devices, guint n, double dx, double dy)
{
  g_return_if_fail (RW_IS_DOCUMENT (self));
  rw_scene_shift (self->scene, devices, n, dx, dy);
}
