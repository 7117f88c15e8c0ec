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

static void
draw_page (RwPapers *papers, guint page, cairo_surface_t *surface, cairo_t *cr)
{
  g_autofree char *label = g_strdup_printf ("%u", page + 1);
  double width, height;

  rw_papers_page_size (papers, page, &width, &height);
  cairo_pdf_surface_set_size (surface, width * RW_MM_TO_POINTS, height * RW_MM_TO_POINTS);
  cairo_pdf_surface_set_page_label (surface, label);
  cairo_save (cr);
  cairo_scale (cr, RW_MM_TO_POINTS, RW_MM_TO_POINTS);
  rw_papers_draw_page (papers, page, cr);
  cairo_restore (cr);
  cairo_show_page (cr);
}

/* FALSE: somebody asked to stop. */
static gboolean
draw_pages (RwPapers *papers, cairo_surface_t *surface, cairo_t *cr, RwPapersProgress progress, gpointer user_data)
{
  guint n = rw_papers_n_pages (papers);

  for (guint i = 0; i < n; i++)
    {
      draw_page (papers, i, surface, cr);
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

static cairo_surface_t *
surface_new (GByteArray *bytes, const RwPapers *papers, const char *subject)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (take_bytes, bytes, 595, 842);
  g_autofree char *title = rw_rig_title (rw_papers_rig (papers));

  cairo_pdf_surface_restrict_to_version (surface, CAIRO_PDF_VERSION_1_5);
  rw_pdf_describe (surface, title, rw_rig_show (rw_papers_rig (papers))->drawn_by, subject);
  return surface;
}

/* Ends and frees both; FALSE: something of them was not drawn. */
static gboolean
surface_end (cairo_surface_t *surface, cairo_t *cr, const char *shown, GError **error)
{
  cairo_status_t status = cairo_status (cr);

  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS)
    /* Translators: a file, and the reason that the drawing library gives. */
    g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_DRAW, _("%s: not drawn: %s"), shown, cairo_status_to_string (status));
  return status == CAIRO_STATUS_SUCCESS;
}

static void
say_stopped (const char *shown, GError **error)
{
  /* Translators: a file or a folder. */
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED, _("%s: stopped; nothing was written"), shown);
}

/* TRUE: there is something to print. */
static gboolean
check_pages (const RwPapers *papers, const char *shown, GError **error)
{
  if (rw_papers_n_pages (papers) > 0)
    return TRUE;
  g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE, _("%s: there is nothing to print in the sections that were chosen"), shown);
  return FALSE;
}

/**
 * rw_papers_write_pdf: writes @papers to @path as one PDF, whole or not at all.
 * @progress: (nullable): asked after each page
 * Errors: %RW_PAPER_ERROR, %G_IO_ERROR_CANCELLED where @progress said so, or what rw_save_bytes() gives.
 */
gboolean
rw_papers_write_pdf (RwPapers *papers, const char *path, RwPapersProgress progress, gpointer user_data, GError **error)
{
  g_autofree char *shown = g_filename_display_name (path);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_t *cr;
  gboolean whole;

  if (!check_pages (papers, shown, error))
    return FALSE;
  rw_papers_set_linked (papers, TRUE);
  surface = surface_new (bytes, papers, _("Papers"));
  cr = cairo_create (surface);
  whole = draw_pages (papers, surface, cr, progress, user_data);
  add_outline (papers, surface);
  if (!surface_end (surface, cr, shown, whole ? error : NULL) || !whole)
    {
      if (!whole)
        say_stopped (shown, error);
      return FALSE;
    }
  return rw_save_bytes (path, (const char *) bytes->data, bytes->len, error);
}

/**
 * rw_papers_export: lays the papers of @rig out and writes them, as rw_papers_write_pdf().
 */
gboolean
rw_papers_export (const RwRig *rig, const char *path, const RwPapersOptions *options, RwPapersProgress progress,
                  gpointer user_data, GError **error)
{
  g_autoptr (RwPapers) papers = rw_papers_new (rig, options);

  return rw_papers_write_pdf (papers, path, progress, user_data, error);
}

typedef struct
{
  char *path;
  GByteArray *bytes;
} Sheet;

static void
sheet_free (gpointer data)
{
  Sheet *sheet = data;

  g_free (sheet->path);
  g_byte_array_unref (sheet->bytes);
  g_free (sheet);
}

/* "07 Cable schedule.pdf": sorted by name they lie in the order of the pack. */
static char *
sheet_name (const RwPapers *papers, guint page)
{
  guint n = rw_papers_n_pages (papers);
  int digits = n >= 1000 ? 4 : n >= 100 ? 3 : 2;

  return g_strdup_printf ("%0*u %s.pdf", digits, page + 1, rw_papers_section_title (rw_papers_page_section (papers, page)));
}

static gboolean
draw_sheet (RwPapers *papers, guint page, const char *folder, GPtrArray *sheets, GError **error)
{
  g_autofree char *name = sheet_name (papers, page);
  Sheet *sheet = g_new0 (Sheet, 1);
  cairo_surface_t *surface;
  cairo_t *cr;

  sheet->path = g_build_filename (folder, name, NULL);
  sheet->bytes = g_byte_array_new ();
  g_ptr_array_add (sheets, sheet);
  surface = surface_new (sheet->bytes, papers, rw_papers_section_title (rw_papers_page_section (papers, page)));
  cr = cairo_create (surface);
  draw_page (papers, page, surface, cr);
  return surface_end (surface, cr, name, error);
}

/**
 * rw_papers_write_sheets: writes each sheet as a PDF of its own into @folder, which is made where it is not there:
 * "01 Cover.pdf" and so on. All are drawn before the first is written, so that who stops leaves nothing behind.
 * Errors: as rw_papers_write_pdf(), and those of making a folder.
 */
gboolean
rw_papers_write_sheets (RwPapers *papers, const char *folder, RwPapersProgress progress, gpointer user_data, GError **error)
{
  g_autofree char *shown = g_filename_display_name (folder);
  g_autoptr (GPtrArray) sheets = g_ptr_array_new_with_free_func (sheet_free);
  guint n = rw_papers_n_pages (papers);
  gboolean good = check_pages (papers, shown, error) && rw_papers_make_folder (folder, error);

  rw_papers_set_linked (papers, FALSE);
  for (guint i = 0; good && i < n; i++)
    {
      good = draw_sheet (papers, i, folder, sheets, error);
      if (good && progress != NULL && !progress (i + 1, n, user_data))
        {
          say_stopped (shown, error);
          good = FALSE;
        }
    }
  for (guint i = 0; good && i < sheets->len; i++)
    {
      const Sheet *sheet = sheets->pdata[i];

      good = rw_save_bytes (sheet->path, (const char *) sheet->bytes->data, sheet->bytes->len, error);
    }
  rw_papers_set_linked (papers, TRUE);
  return good;
}
