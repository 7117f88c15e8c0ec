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
  guint run_from;     /* the @done at which it began */
  int run_saved;      /* the @saved at that time */
  GPtrArray *cut;     /* of RwChange: what its first step cut off: undone changes, which come back if it is taken back */
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
  g_ptr_array_unref (history->cut);
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
  history->cut = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_change_unref);
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

/* A step is on its way: what was undone before it cannot be redone, unless the run that begins here is taken back. */
static void
cut_undone (RwHistory *history)
{
  if (history->saved > (int) history->done)
    history->saved = -1;
  for (guint i = history->done; i < history->changes->len; i++)
    g_ptr_array_add (history->cut, rw_change_ref (g_ptr_array_index (history->changes, i)));
  g_ptr_array_set_size (history->changes, (int) history->done);
}

/* All steps of the run are gone again: it is as if it had never begun. */
static void
put_back_cut (RwHistory *history)
{
  g_ptr_array_set_size (history->changes, (int) history->done);
  g_ptr_array_extend_and_steal (history->changes, g_steal_pointer (&history->cut));
  history->cut = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_change_unref);
  history->saved = history->run_saved;
}

static void
start_run (RwHistory *history, const char *run)
{
  rw_history_end_run (history);
  history->run = g_strdup (run);
  history->run_from = history->done;
  history->run_saved = history->saved;
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

/* Joins @change to the step before in the same run; a step that then does nothing goes. */
static gboolean
join_last (RwHistory *history, RwChange *change)
{
  g_autoptr (RwChange) joined = NULL;

  if (history->done == history->run_from)
    return FALSE;
  joined = rw_change_join (g_ptr_array_index (history->changes, history->done - 1), change);
  if (joined == NULL)
    return FALSE;
  g_ptr_array_set_size (history->changes, (int) --history->done);
  if (rw_change_n (joined) > 0)
    {
      g_ptr_array_add (history->changes, g_steal_pointer (&joined));
      history->done++;
    }
  return TRUE;
}

/**
 * rw_history_do_merged:
 * @history: a history
 * @change: carried out and remembered
 * @run: (nullable): name of the gesture that it is a step of; steps of one run that only give new values to items
 *   become one change, or none where they lead back to where the run began
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
  if (run == NULL || g_strcmp0 (run, history->run) != 0)
    start_run (history, run);
  if (!join_last (history, change))
    {
      cut_undone (history);
      g_ptr_array_add (history->changes, rw_change_ref (change));
      history->done++;
    }
  if (history->done == history->run_from)
    put_back_cut (history);
  if (run == NULL)
    g_ptr_array_set_size (history->cut, 0);
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
  if (history->run == NULL)
    return;
  g_clear_pointer (&history->run, g_free);
  g_ptr_array_set_size (history->cut, 0);
}

static void
apply_known (RwHistory *history, RwChange *change)
{
  g_autoptr (GError) error = NULL;

  if (!rw_rig_apply (history->rig, change, &error))
    g_error ("the history does not fit its rig: %s", error->message);
}

static void
step_back (RwHistory *history)
{
  g_autoptr (RwChange) back = rw_change_invert (g_ptr_array_index (history->changes, history->done - 1));

  history->done--;
  apply_known (history, back);
}

/**
 * rw_history_take_back:
 *
 * Leads back to where the run that goes on began, and forgets its steps: they cannot be redone, and what could be redone
 * before it can be again. For what was typed and shall not hold.
 *
 * Returns: %FALSE where no run goes on, or nothing is left of it
 */
gboolean
rw_history_take_back (RwHistory *history)
{
  g_autofree char *run = g_steal_pointer (&history->run); /* who hears of a step back may end the run: it has ended */

  if (run == NULL || history->done == history->run_from)
    {
      g_ptr_array_set_size (history->cut, 0);
      return FALSE;
    }
  while (history->done > history->run_from)
    step_back (history);
  put_back_cut (history);
  notify (history);
  return TRUE;
}

/**
 * rw_history_undo:
 *
 * Returns: %FALSE where there was nothing to undo
 */
gboolean
rw_history_undo (RwHistory *history)
{
  if (history->done == 0)
    return FALSE;
  rw_history_end_run (history);
  step_back (history);
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
  rw_history_end_run (history);
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
 * The rig as it is now is what the file holds. A run that goes on ends, so that what was saved is not taken back.
 */
void
rw_history_mark_saved (RwHistory *history)
{
  rw_history_end_run (history);
  history->saved = (int) history->done;
  notify (history);
}

gboolean
rw_history_is_saved (RwHistory *history)
{
  return history->saved == (int) history->done;
}
