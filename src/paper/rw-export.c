/* SPDX-License-Identifier: MIT */
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <file/rw-save.h>
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "rw-draw.h"
#include "rw-pdf.h"
#include "rw-png.h"
#include "rw-sheet.h"

#define MM_PER_INCH 25.4

/* Largest side of a cairo image, and of a picture in all (1 GiB of memory). */
#define MOST_PIXELS_A_SIDE 32767
#define MOST_PIXELS (1 << 28)

G_DEFINE_QUARK (rw-paper-error-quark, rw_paper_error)

/* What one export works on; the bytes grow in memory and are then saved in one piece. */
typedef struct
{
  const RwPlan *plan;
  const RwRig *rig;
  const char *shown; /* the file, as messages name it */
  double dpi;
  double width, height; /* of the paper, mm */
  GByteArray *bytes;
} Export;

static cairo_status_t
take_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static gboolean
check (const Export *export, cairo_status_t status, GError **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return TRUE;
  /* Translators: a file, and the reason that the drawing library gives. */
  g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_DRAW, _("%s: not drawn: %s"), export->shown, cairo_status_to_string (status));
  return FALSE;
}

static void
outline_pdf (const Export *export, cairo_surface_t *surface)
{
  for (guint i = 0; i < rw_plan_n_parts (export->plan); i++)
    {
      RwPlanPart part = rw_plan_part (export->plan, i);
      g_autofree char *place = g_strdup_printf ("page=%u pos=[0 0]", part.page + 1);

      cairo_pdf_surface_add_outline (surface, CAIRO_PDF_OUTLINE_ROOT, part.title, place, CAIRO_PDF_OUTLINE_FLAG_OPEN);
    }
}

static gboolean
write_pdf (Export *export, GError **error)
{
  double w = export->width * RW_MM_TO_POINTS, h = export->height * RW_MM_TO_POINTS;
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (take_bytes, export->bytes, w, h);
  g_autofree char *title = rw_rig_title (export->rig);
  cairo_t *cr;
  cairo_status_t status;

  cairo_pdf_surface_restrict_to_version (surface, CAIRO_PDF_VERSION_1_5);
  rw_pdf_describe (surface, title, rw_rig_show (export->rig)->drawn_by, _("Cable plan"));
  cr = cairo_create (surface);
  cairo_scale (cr, RW_MM_TO_POINTS, RW_MM_TO_POINTS);
  for (guint i = 0; i < rw_plan_n_pages (export->plan); i++)
    {
      g_autofree char *label = g_strdup_printf ("%u", i + 1);

      cairo_pdf_surface_set_page_label (surface, label);
      rw_plan_draw_page (export->plan, i, cr);
      cairo_show_page (cr);
    }
  outline_pdf (export, surface);
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return check (export, status, error);
}

/* The drawing on white paper, @scale units of the surface to the millimetre. */
static cairo_status_t
draw_first_page (const Export *export, cairo_surface_t *surface, double scale)
{
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  rw_plan_draw_page (export->plan, 0, cr);
  status = cairo_status (cr);
  cairo_destroy (cr);
  return status;
}

static gboolean
write_svg (Export *export, GError **error)
{
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (take_bytes, export->bytes, export->width, export->height);
  cairo_status_t status;

  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_MM);
  status = draw_first_page (export, surface, 1);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return check (export, status, error);
}

/* The highest whole dpi at which the paper can be held. */
static int
highest_dpi (const Export *export)
{
  double longer = MAX (export->width, export->height) / MM_PER_INCH;
  double area = export->width * export->height / (MM_PER_INCH * MM_PER_INCH);

  return (int) MIN (floor (MOST_PIXELS_A_SIDE / longer), floor (sqrt (MOST_PIXELS / area)));
}

static gboolean
check_dpi (const Export *export, GError **error)
{
  int highest = MIN (highest_dpi (export), RW_DPI_MOST);

  if (!(export->dpi >= RW_DPI_LEAST && export->dpi <= RW_DPI_MOST))
    {
      g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE, _("%s: %g dpi is out of range: %d to %d"),
                   export->shown, export->dpi, RW_DPI_LEAST, RW_DPI_MOST);
      return FALSE;
    }
  if (export->dpi > highest)
    {
      /* Translators: a file, a resolution, the paper's width and height in mm, the highest resolution that works. */
      g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE,
                   _("%s: at %g dpi a picture of %.0f × %.0f mm is too large to hold: take %d dpi or less, or PDF"),
                   export->shown, export->dpi, export->width, export->height, highest);
      return FALSE;
    }
  return TRUE;
}

static gboolean
write_png (Export *export, GError **error)
{
  double scale = export->dpi / MM_PER_INCH;
  cairo_surface_t *surface;
  cairo_status_t status;

  if (!check_dpi (export, error))
    return FALSE;
  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) lrint (export->width * scale), (int) lrint (export->height * scale));
  status = draw_first_page (export, surface, scale);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, take_bytes, export->bytes);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    rw_png_set_dpi (export->bytes, export->dpi);
  return check (export, status, error);
}

typedef struct
{
  const char *extension;
  gboolean (*write) (Export *export, GError **error);
} Kind;

static const Kind kinds[] = {
  { ".pdf", write_pdf },
  { ".png", write_png },
  { ".svg", write_svg },
};

static const Kind *
kind_of (const char *path)
{
  const char *dot = strrchr (path, '.');

  for (guint i = 0; dot != NULL && i < G_N_ELEMENTS (kinds); i++)
    if (g_ascii_strcasecmp (dot, kinds[i].extension) == 0)
      return &kinds[i];
  return NULL;
}

static gboolean
check_fit (const Export *export, GError **error)
{
  if (rw_plan_fits (export->plan))
    return TRUE;
  g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE,
               _("%s: at this scale the drawing is larger than the paper: take a larger paper, a smaller scale, or let it be fitted"),
               export->shown);
  return FALSE;
}

/**
 * rw_export_plan: writes the cable plan of @rig to @path, as its extension says; only when all of it is drawn, and then
 * whole or not at all. Errors: %RW_PAPER_ERROR, or what rw_save_bytes() gives; their messages begin with the file.
 */
gboolean
rw_export_plan (const RwRig *rig, const char *path, const RwSheetOptions *options, double dpi, GError **error)
{
  const Kind *kind = kind_of (path);
  g_autofree char *shown = g_filename_display_name (path);
  g_autoptr (RwPlan) plan = NULL;
  g_autoptr (GByteArray) bytes = NULL;
  Export export = { .rig = rig, .shown = shown, .dpi = dpi };

  if (kind == NULL)
    {
      g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_KIND,
                   _("%s: the name has to end in .pdf, .png or .svg, which says what is written"), shown);
      return FALSE;
    }
  export.plan = plan = rw_plan_new (rig, options);
  export.bytes = bytes = g_byte_array_new ();
  rw_plan_size (plan, &export.width, &export.height);
  if (!check_fit (&export, error) || !kind->write (&export, error))
    return FALSE;
  return rw_save_bytes (path, (const char *) bytes->data, bytes->len, error);
}
