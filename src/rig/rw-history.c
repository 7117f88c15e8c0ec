/* SPDX-License-Identifier: MIT */
#include "rw-history.h"

struct _RwHistory
{
  GObject parent_instance;

  RwRig *rig;
  GPtrArray *changes; /* of RwChange; those before @done are carried out, the others undone */
  guint done;
  int saved;          /* the @done at which the file was written; -1 = that state is gone */
  char *run;          /* (nullable): the gesture whose next step joins the last change */
};

enum { PROP_CAN_UNDO = 1, PROP_CAN_REDO, PROP_SAVED, N_PROPS };
static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (RwHistory, rw_history, G_TYPE_OBJECT)

static void
rw_history_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  RwHistory *history = RW_HISTORY (object);

  switch (id)
    {
    case PROP_CAN_UNDO:
      g_value_set_boolean (value, history->done > 0);
      break;
    case PROP_CAN_REDO:
      g_value_set_boolean (value, history->done < history->changes->len);
      break;
    case PROP_SAVED:
      g_value_set_boolean (value, rw_history_is_saved (history));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
rw_history_finalize (GObject *object)
{
  RwHistory *history = RW_HISTORY (object);

  g_object_unref (history->rig);
  g_ptr_array_unref (history->changes);
  g_free (history->run);
  G_OBJECT_CLASS (rw_history_parent_class)->finalize (object);
}

static void
rw_history_class_init (RwHistoryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = rw_history_get_property;
  object_class->finalize = rw_history_finalize;
  props[PROP_CAN_UNDO] = g_param_spec_boolean ("can-undo", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_CAN_REDO] = g_param_spec_boolean ("can-redo", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_SAVED] = g_param_spec_boolean ("saved", NULL, NULL, TRUE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
rw_history_init (RwHistory *history)
{
  history->changes = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_change_unref);
}

static void
notify (RwHistory *history)
{
  for (guint i = 1; i < N_PROPS; i++)
    g_object_notify_by_pspec (G_OBJECT (history), props[i]);
}

/**
 * rw_history_new:
 * @rig: from now on to be changed only through the history
 *
 * Returns: (transfer full): an empty history, its state counted as saved
 */
RwHistory *
rw_history_new (RwRig *rig)
{
  RwHistory *history = g_object_new (RW_TYPE_HISTORY, NULL);

  history->rig = g_object_ref (rig);
  return history;
}

RwRig *
rw_history_rig (RwHistory *history)
{
  return history->rig;
}

static void
forget_undone (RwHistory *history)
{
  if (history->saved > (int) history->done)
    history->saved = -1;
  g_ptr_array_set_size (history->changes, (int) history->done);
}

/**
 * rw_history_do:
 * @history: a history
 * @change: carried out and remembered; one without entries does nothing
 * @error: as for rw_rig_apply()
 *
 * Returns: %TRUE where it was carried out
 */
gboolean
rw_history_do (RwHistory *history, RwChange *change, GError **error)
{
  return rw_history_do_merged (history, change, NULL, error);
}

/* The step before, where @change goes on with it and no save lies between. */
static gboolean
join_last (RwHistory *history, RwChange *change, const char *run)
{
  RwChange *last, *joined;

  if (run == NULL || g_strcmp0 (run, history->run) != 0 || history->done == 0
      || history->saved == (int) history->done || history->done < history->changes->len)
    return FALSE;
  last = g_ptr_array_index (history->changes, history->done - 1);
  joined = rw_change_join (last, change);
  if (joined == NULL)
    return FALSE;
  g_ptr_array_index (history->changes, history->done - 1) = joined;
  rw_change_unref (last);
  return TRUE;
}

/**
 * rw_history_do_merged:
 * @history: a history
 * @change: carried out and remembered
 * @run: (nullable): name of the gesture that it is a step of; steps of one run that give new values to the
 *   same items become one change
 * @error: as for rw_rig_apply()
 *
 * Returns: %TRUE where it was carried out
 */
gboolean
rw_history_do_merged (RwHistory *history, RwChange *change, const char *run, GError **error)
{
  if (rw_change_n (change) == 0)
    return TRUE;
  if (!rw_rig_apply (history->rig, change, error))
    return FALSE;
  if (!join_last (history, change, run))
    {
      forget_undone (history);
      g_ptr_array_add (history->changes, rw_change_ref (change));
      history->done++;
    }
  g_free (history->run);
  history->run = g_strdup (run);
  notify (history);
  return TRUE;
}

/**
 * rw_history_end_run:
 *
 * The gesture is over: the next step starts a change of its own even if it bears the same name.
 */
void
rw_history_end_run (RwHistory *history)
{
  g_clear_pointer (&history->run, g_free);
}

static void
apply_known (RwHistory *history, RwChange *change)
{
  g_autoptr (GError) error = NULL;

  rw_history_end_run (history);
  if (!rw_rig_apply (history->rig, change, &error))
    g_error ("the history does not fit its rig: %s", error->message);
}

/**
 * rw_history_undo:
 *
 * Returns: %FALSE where there was nothing to undo
 */
gboolean
rw_history_undo (RwHistory *history)
{
  g_autoptr (RwChange) back = NULL;

  if (history->done == 0)
    return FALSE;
  back = rw_change_invert (g_ptr_array_index (history->changes, history->done - 1));
  history->done--;
  apply_known (history, back);
  notify (history);
  return TRUE;
}

/**
 * rw_history_redo:
 *
 * Returns: %FALSE where there was nothing to redo
 */
gboolean
rw_history_redo (RwHistory *history)
{
  if (history->done == history->changes->len)
    return FALSE;
  history->done++;
  apply_known (history, g_ptr_array_index (history->changes, history->done - 1));
  notify (history);
  return TRUE;
}

/**
 * rw_history_undo_name:
 *
 * Returns: (transfer none) (nullable): name of the change that would be undone
 */
const char *
rw_history_undo_name (RwHistory *history)
{
  return history->done > 0 ? ((RwChange *) g_ptr_array_index (history->changes, history->done - 1))->name : NULL;
}

const char *
rw_history_redo_name (RwHistory *history)
{
  return history->done < history->changes->len
           ? ((RwChange *) g_ptr_array_index (history->changes, history->done))->name
           : NULL;
}

/**
 * rw_history_mark_saved:
 *
 * The rig as it is now is what the file holds.
 */
void
rw_history_mark_saved (RwHistory *history)
{
  history->saved = (int) history->done;
  notify (history);
}

gboolean
rw_history_is_saved (RwHistory *history)
{
  return history->saved == (int) history->done;
}
