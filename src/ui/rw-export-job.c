/* SPDX-License-Identifier: MIT */
#include "rw-export-job.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

typedef struct
{
  RwRig *rig;
  char *path;
  char *part_path; /* beside @path, with its extension: the extension picks the format */
  RwSheetOptions options;
  char *from; /* (nullable): what the options point to; likewise the next */
  char **fail;
  double dpi;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;

  g_object_unref (job->rig);
  g_free (job->path);
  g_free (job->part_path);
  g_free (job->from);
  g_strfreev (job->fail);
  g_free (job);
}

static gboolean
put_in_place (Job *job, GError **error)
{
  int code;

  if (g_rename (job->part_path, job->path) == 0)
    return TRUE;
  code = errno;
  /* Translators: a file, and the system's reason. */
  g_set_error (error, G_IO_ERROR, g_io_error_from_errno (code), _("%s: the file cannot be put in place: %s"), job->path,
               g_strerror (code));
  return FALSE;
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  GError *error = NULL;

  if (rw_export_plan (job->rig, job->part_path, &job->options, job->dpi, &error)
      && !g_cancellable_set_error_if_cancelled (cancellable, &error))
    put_in_place (job, &error);
  if (error != NULL)
    {
      g_unlink (job->part_path);
      g_task_return_error (task, error);
    }
  else
    g_task_return_boolean (task, TRUE);
}

static char *
make_part_path (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *part = g_strdup_printf (".part-%08x-%s", g_random_int (), name);

  return g_build_filename (folder, part, NULL);
}

void
rw_export_job_start (const RwRig *rig, const char *path, const RwSheetOptions *options, double dpi,
                     GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, done, user_data);
  Job *job = g_new0 (Job, 1);

  job->rig = rw_rig_copy (rig);
  job->path = g_strdup (path);
  job->part_path = make_part_path (path);
  job->options = *options;
  job->options.from = job->from = g_strdup (options->from);
  job->fail = g_strdupv ((char **) options->fail);
  job->options.fail = (const char *const *) job->fail;
  job->dpi = dpi;
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, work);
}

gboolean
rw_export_job_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_boolean (G_TASK (result), error);
}
