/* SPDX-License-Identifier: MIT */
#pragma once

#include <gio/gio.h>
#include <paper/rw-papers.h>

G_BEGIN_DECLS

/**
 * RwPapersWorker: a thread that lays papers out, draws and writes them, one thing after the other, so that the window
 * stays alive however big the rig is. What is asked for is answered in the main context that asked, in the same order.
 * A cancelled request that has not begun is answered at once when its turn comes; laying out cannot be stopped half-way,
 * drawing and writing stop after a sheet.
 */
#define RW_TYPE_PAPERS_WORKER (rw_papers_worker_get_type ())
G_DECLARE_FINAL_TYPE (RwPapersWorker, rw_papers_worker, RW, PAPERS_WORKER, GObject)

RwPapersWorker *rw_papers_worker_new (void);

/* What came of laying out. @pages: of each section, 0 = it is left out; @sizes: in mm, of each page. */
typedef struct
{
  guint n_pages;
  guint pages[RW_N_PAPERS_SECTIONS];
  struct { double width, height; } *sizes;
} RwPapersOutline;
void rw_papers_outline_free (RwPapersOutline *outline);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwPapersOutline, rw_papers_outline_free)

/* Lays out a copy of @rig; the requests that follow are about these papers. @options: copied with its stock. */
void rw_papers_worker_lay_out (RwPapersWorker *worker, const RwRig *rig, const RwPapersOptions *options,
                               GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data);
RwPapersOutline *rw_papers_worker_lay_out_finish (RwPapersWorker *worker, GAsyncResult *result, GError **error);

/* @px_per_mm: 0 = a recording in mm, to be drawn on a printer's page; else a picture on white. */
void rw_papers_worker_draw (RwPapersWorker *worker, guint page, double px_per_mm, GCancellable *cancellable,
                            GAsyncReadyCallback done, gpointer user_data);
cairo_surface_t *rw_papers_worker_draw_finish (RwPapersWorker *worker, GAsyncResult *result, GError **error);

typedef enum
{
  RW_PAPERS_AS_PDF,    /* one file */
  RW_PAPERS_AS_SHEETS, /* a file for each sheet, in a folder */
  RW_PAPERS_AS_TABLES, /* CSV, in a folder */
} RwPapersForm;
void rw_papers_worker_write (RwPapersWorker *worker, RwPapersForm form, const char *path, GCancellable *cancellable,
                             GAsyncReadyCallback done, gpointer user_data);
gboolean rw_papers_worker_write_finish (RwPapersWorker *worker, GAsyncResult *result, GError **error);
/* Of what is being written: 0…1. */
double rw_papers_worker_progress (RwPapersWorker *worker, guint *done, guint *n);

G_END_DECLS
