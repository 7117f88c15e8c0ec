/* SPDX-License-Identifier: MIT */
#include "rw-compare-job.h"

void
rw_comparison_free (RwComparison *comparison)
{
  if (comparison == NULL)
    return;
  g_clear_object (&comparison->older);
  g_clear_object (&comparison->newer);
  g_clear_pointer (&comparison->differences, g_ptr_array_unref);
  rw_clouds_unref (comparison->clouds);
  g_clear_pointer (&comparison->scene, rw_scene_unref);
  g_free (comparison);
}

typedef struct { RwRig *older, *newer; } Pair;

static void
pair_free (gpointer data)
{
  Pair *pair = data;

  g_object_unref (pair->older);
  g_object_unref (pair->newer);
  g_free (pair);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Pair *pair = data;
  RwComparison *comparison = g_new0 (RwComparison, 1);
  g_autoptr (RwNet) net = rw_net_new (pair->newer);
  g_autoptr (RwFindings) findings = rw_findings_new (pair->newer, net);

  comparison->older = g_object_ref (pair->older);
  comparison->newer = g_object_ref (pair->newer);
  comparison->differences = rw_differences_new (pair->older, pair->newer);
  comparison->scene = rw_scene_new (pair->newer, net, findings);
  comparison->clouds = rw_clouds_new (pair->older, pair->newer, comparison->scene);
  g_task_return_pointer (task, comparison, (GDestroyNotify) rw_comparison_free);
}

void
rw_compare_job_start (RwRig *older, RwRig *newer, GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, done, user_data);
  Pair *pair = g_new0 (Pair, 1);

  pair->older = g_object_ref (older);
  pair->newer = g_object_ref (newer);
  g_task_set_task_data (task, pair, pair_free);
  g_task_run_in_thread (task, work);
}

/* (transfer full) (nullable) */
RwComparison *
rw_compare_job_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
