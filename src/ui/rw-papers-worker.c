/* SPDX-License-Identifier: MIT */
#include "rw-papers-worker.h"

#include <math.h>

/* The way to the thread, which lives until the last request is done and nobody can ask any more. */
typedef struct
{
  GAsyncQueue *requests; /* of GTask; one that has no data ends the thread */
  gint done, n;          /* atomic: sheets of what is being written */
} Line;

struct _RwPapersWorker
{
  GObject parent_instance;
  Line *line; /* atomic rc box */
};

G_DEFINE_FINAL_TYPE (RwPapersWorker, rw_papers_worker, G_TYPE_OBJECT)

typedef enum { LAY_OUT, DRAW, WRITE, END } What;

typedef struct
{
  What what;
  RwRig *rig;
  RwPapersOptions options;
  RwStock *stock;
  RwRig *since; /* (nullable) */
  guint page;
  double px_per_mm;
  RwPapersForm form;
  char *path;
} Request;

/* What the thread has in its hands. */
typedef struct
{
  Line *line;
  Request *laid_out; /* (nullable) */
  RwPapers *papers;  /* (nullable) */
} Hands;

static void
request_free (gpointer data)
{
  Request *request = data;

  if (request == NULL)
    return;
  g_clear_object (&request->rig);
  rw_stock_free (request->stock);
  g_clear_object (&request->since);
  g_free (request->path);
  g_free (request);
}

void
rw_papers_outline_free (RwPapersOutline *outline)
{
  if (outline == NULL)
    return;
  g_free (outline->sizes);
  g_free (outline);
}

static RwPapersOutline *
outline_new (const RwPapers *papers)
{
  RwPapersOutline *outline = g_new0 (RwPapersOutline, 1);

  outline->n_pages = rw_papers_n_pages (papers);
  outline->sizes = g_malloc0_n (outline->n_pages + 1, sizeof *outline->sizes);
  for (guint i = 0; i < outline->n_pages; i++)
    {
      outline->pages[rw_papers_page_section (papers, i)]++;
      rw_papers_page_size (papers, i, &outline->sizes[i].width, &outline->sizes[i].height);
    }
  return outline;
}

static void
lay_out (Hands *hands, GTask *task, Request *request)
{
  g_clear_pointer (&hands->papers, rw_papers_free);
  request_free (hands->laid_out);
  hands->laid_out = g_new0 (Request, 1);
  hands->laid_out->rig = g_steal_pointer (&request->rig);
  hands->laid_out->stock = g_steal_pointer (&request->stock);
  hands->laid_out->since = g_steal_pointer (&request->since);
  hands->laid_out->options = request->options;
  hands->laid_out->options.stock = hands->laid_out->stock;
  hands->papers = rw_papers_new (hands->laid_out->rig, &hands->laid_out->options);
  g_task_return_pointer (task, outline_new (hands->papers), (GDestroyNotify) rw_papers_outline_free);
}

static cairo_surface_t *
surface_for (const RwPapers *papers, const Request *request)
{
  double width, height, scale = request->px_per_mm;
  cairo_rectangle_t extents;

  rw_papers_page_size (papers, request->page, &width, &height);
  extents = (cairo_rectangle_t) { 0, 0, width, height };
  return scale > 0 ? cairo_image_surface_create (CAIRO_FORMAT_RGB24, MAX (1, (int) round (width * scale)), MAX (1, (int) round (height * scale)))
                   : cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &extents);
}

static void
draw (Hands *hands, GTask *task, const Request *request)
{
  cairo_surface_t *surface;
  cairo_t *cr;

  if (hands->papers == NULL || request->page >= rw_papers_n_pages (hands->papers))
    {
      g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, "there is no page %u", request->page);
      return;
    }
  surface = surface_for (hands->papers, request);
  cr = cairo_create (surface);
  if (request->px_per_mm > 0)
    {
      cairo_set_source_rgb (cr, 1, 1, 1);
      cairo_paint (cr);
      cairo_scale (cr, request->px_per_mm, request->px_per_mm);
    }
  rw_papers_set_linked (hands->papers, FALSE);
  rw_papers_draw_page (hands->papers, request->page, cr);
  cairo_destroy (cr);
  g_task_return_pointer (task, surface, (GDestroyNotify) cairo_surface_destroy);
}

typedef struct { Line *line; GCancellable *cancellable; } Watch;

static gboolean
note_progress (guint done, guint n, gpointer user_data)
{
  Watch *watch = user_data;

  g_atomic_int_set (&watch->line->n, (gint) n);
  g_atomic_int_set (&watch->line->done, (gint) done);
  return !g_cancellable_is_cancelled (watch->cancellable);
}

static gboolean
write_form (Hands *hands, const Request *request, Watch *watch, GError **error)
{
  switch (request->form)
    {
    case RW_PAPERS_AS_SHEETS:
      return rw_papers_write_sheets (hands->papers, request->path, note_progress, watch, error);
    case RW_PAPERS_AS_TABLES:
      return rw_papers_write_csv (hands->laid_out->rig, request->path, &hands->laid_out->options, error);
    case RW_PAPERS_AS_PDF:
    default:
      return rw_papers_write_pdf (hands->papers, request->path, note_progress, watch, error);
    }
}

static void
write_papers (Hands *hands, GTask *task, const Request *request)
{
  Watch watch = { hands->line, g_task_get_cancellable (task) };
  GError *error = NULL;

  if (hands->papers == NULL)
    g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, "nothing was laid out");
  else if (write_form (hands, request, &watch, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
line_clear (gpointer data)
{
  g_async_queue_unref (((Line *) data)->requests);
}

static gpointer
work (gpointer data)
{
  Hands hands = { .line = data };
  gboolean going = TRUE;

  while (going)
    {
      g_autoptr (GTask) task = g_async_queue_pop (hands.line->requests);
      Request *request = g_task_get_task_data (task);

      if (request->what == END)
        {
          g_task_return_boolean (task, TRUE);
          going = FALSE;
        }
      else if (g_task_return_error_if_cancelled (task))
        continue;
      else if (request->what == LAY_OUT)
        lay_out (&hands, task, request);
      else if (request->what == DRAW)
        draw (&hands, task, request);
      else
        write_papers (&hands, task, request);
    }
  rw_papers_free (hands.papers);
  request_free (hands.laid_out);
  g_atomic_rc_box_release_full (hands.line, line_clear);
  return NULL;
}

/* @request: (transfer full). */
static void
push (Line *line, gpointer source, Request *request, GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data)
{
  GTask *task = g_task_new (source, cancellable, done, user_data);

  g_task_set_task_data (task, request, request_free);
  /* what was written whole is there, whenever somebody asked to stop */
  g_task_set_check_cancellable (task, request->what != WRITE);
  g_async_queue_push (line->requests, task);
}

void
rw_papers_worker_lay_out (RwPapersWorker *worker, const RwRig *rig, const RwPapersOptions *options,
                          GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data)
{
  Request *request = g_new0 (Request, 1);

  g_return_if_fail (RW_IS_PAPERS_WORKER (worker));
  request->what = LAY_OUT;
  request->rig = rw_rig_copy (rig);
  request->options = *options;
  request->stock = options->stock != NULL ? rw_stock_copy (options->stock) : NULL;
  request->since = options->since != NULL ? g_object_ref ((gpointer) options->since) : NULL;
  push (worker->line, worker, request, cancellable, done, user_data);
}

/* (transfer full) (nullable) */
RwPapersOutline *
rw_papers_worker_lay_out_finish (RwPapersWorker *worker, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

void
rw_papers_worker_draw (RwPapersWorker *worker, guint page, double px_per_mm, GCancellable *cancellable,
                       GAsyncReadyCallback done, gpointer user_data)
{
  Request *request = g_new0 (Request, 1);

  g_return_if_fail (RW_IS_PAPERS_WORKER (worker));
  request->what = DRAW;
  request->page = page;
  request->px_per_mm = px_per_mm;
  push (worker->line, worker, request, cancellable, done, user_data);
}

/* (transfer full) (nullable) */
cairo_surface_t *
rw_papers_worker_draw_finish (RwPapersWorker *worker, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

void
rw_papers_worker_write (RwPapersWorker *worker, RwPapersForm form, const char *path, GCancellable *cancellable,
                        GAsyncReadyCallback done, gpointer user_data)
{
  Request *request = g_new0 (Request, 1);

  g_return_if_fail (RW_IS_PAPERS_WORKER (worker));
  g_atomic_int_set (&worker->line->done, 0);
  request->what = WRITE;
  request->form = form;
  request->path = g_strdup (path);
  push (worker->line, worker, request, cancellable, done, user_data);
}

gboolean
rw_papers_worker_write_finish (RwPapersWorker *worker, GAsyncResult *result, GError **error)
{
  return g_task_propagate_boolean (G_TASK (result), error);
}

/**
 * rw_papers_worker_progress: how far writing has come.
 * @done, @n: (out): sheets
 */
double
rw_papers_worker_progress (RwPapersWorker *worker, guint *done, guint *n)
{
  *done = (guint) g_atomic_int_get (&worker->line->done);
  *n = (guint) g_atomic_int_get (&worker->line->n);
  return *n > 0 ? MIN (1.0, (double) *done / *n) : 0;
}

static void
rw_papers_worker_finalize (GObject *object)
{
  RwPapersWorker *worker = RW_PAPERS_WORKER (object);
  Request *request = g_new0 (Request, 1);

  request->what = END;
  push (worker->line, NULL, request, NULL, NULL, NULL);
  g_atomic_rc_box_release_full (worker->line, line_clear);
  G_OBJECT_CLASS (rw_papers_worker_parent_class)->finalize (object);
}

static void
rw_papers_worker_class_init (RwPapersWorkerClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_papers_worker_finalize;
}

static void
rw_papers_worker_init (RwPapersWorker *worker)
{
  worker->line = g_atomic_rc_box_new0 (Line);
  worker->line->requests = g_async_queue_new_full (g_object_unref);
  g_thread_unref (g_thread_new ("papers", work, g_atomic_rc_box_acquire (worker->line)));
}

RwPapersWorker *
rw_papers_worker_new (void)
{
  return g_object_new (RW_TYPE_PAPERS_WORKER, NULL);
}
