/* SPDX-License-Identifier: MIT */
#include <cairo-pdf.h>
#include <errno.h>
#include <file/rw-save.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <gio/gio.h>

#include "rw-papers-parts.h"
#include "rw-pdf.h"

static cairo_status_t
take_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* FALSE: somebody asked to stop. */
static gboolean
draw_pages (RwPapers *papers, cairo_surface_t *surface, cairo_t *cr, RwPapersProgress progress, gpointer user_data)
{
  guint n = rw_papers_n_pages (papers);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *label = g_strdup_printf ("%u", i + 1);
      double width, height;

      rw_papers_page_size (papers, i, &width, &height);
      cairo_pdf_surface_set_size (surface, width * RW_MM_TO_POINTS, height * RW_MM_TO_POINTS);
      cairo_pdf_surface_set_page_label (surface, label);
      cairo_save (cr);
      cairo_scale (cr, RW_MM_TO_POINTS, RW_MM_TO_POINTS);
      rw_papers_draw_page (papers, i, cr);
      cairo_restore (cr);
      cairo_show_page (cr);
      if (progress != NULL && !progress (i + 1, n, user_data))
        return FALSE;
    }
  return TRUE;
}

static void
add_outline (RwPapers *papers, cairo_surface_t *surface)
{
  int section = CAIRO_PDF_OUTLINE_ROOT;

  for (guint i = 0; i < rw_papers_n_entries (papers); i++)
    {
      const RwPapersEntry *entry = rw_papers_entry (papers, i);
      g_autofree char *place = g_strdup_printf ("page=%u pos=[0 0]", entry->page + 1);

      if (entry->level == 0)
        section = cairo_pdf_surface_add_outline (surface, CAIRO_PDF_OUTLINE_ROOT, entry->title, place, 0);
      else
        cairo_pdf_surface_add_outline (surface, section, entry->title, place, 0);
    }
}

static gboolean
write_pdf (RwPapers *papers, const RwShow *show, GByteArray *bytes, const char *shown, RwPapersProgress progress, gpointer user_data,
           GError **error)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (take_bytes, bytes, 595, 842);
  cairo_t *cr;
  cairo_status_t status;
  gboolean whole;

  cairo_pdf_surface_restrict_to_version (surface, CAIRO_PDF_VERSION_1_5);
  rw_pdf_describe (surface, show, _("Papers"));
  cr = cairo_create (surface);
  whole = draw_pages (papers, surface, cr, progress, user_data);
  add_outline (papers, surface);
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (!whole)
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED, _("%s: stopped; nothing was written"), shown);
  else if (status != CAIRO_STATUS_SUCCESS)
    /* Translators: a file, and the reason that the drawing library gives. */
    g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_DRAW, _("%s: not drawn: %s"), shown, cairo_status_to_string (status));
  return whole && status == CAIRO_STATUS_SUCCESS;
}

/**
 * rw_papers_export: writes the papers of @rig to @path as one PDF, whole or not at all.
 * @progress: (nullable): asked after each page
 * Errors: %RW_PAPER_ERROR, %G_IO_ERROR_CANCELLED where @progress said so, or what rw_save_bytes() gives.
 */
gboolean
rw_papers_export (const RwRig *rig, const char *path, const RwPapersOptions *options, RwPapersProgress progress,
                  gpointer user_data, GError **error)
{
  g_autofree char *shown = g_filename_display_name (path);
  g_autoptr (RwPapers) papers = NULL;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();

  papers = rw_papers_new (rig, options);
  if (rw_papers_n_pages (papers) == 0)
    {
      g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE, _("%s: there is nothing to print in the sections that were chosen"), shown);
      return FALSE;
    }
  if (!write_pdf (papers, rw_rig_show (rig), bytes, shown, progress, user_data, error))
    return FALSE;
  return rw_save_bytes (path, (const char *) bytes->data, bytes->len, error);
}
