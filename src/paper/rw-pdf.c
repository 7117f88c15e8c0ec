/* SPDX-License-Identifier: MIT */
#include "rw-pdf.h"

#include <cairo-pdf.h>

#include "rw-config.h"

/* Now, or the moment that SOURCE_DATE_EPOCH asks for, so that the same rig can give the same bytes
 * (reproducible-builds.org). */
static char *
date_text (void)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  gint64 seconds = epoch != NULL ? g_ascii_strtoll (epoch, NULL, 10) : g_get_real_time () / G_USEC_PER_SEC;
  g_autoptr (GDateTime) date = g_date_time_new_from_unix_utc (seconds);

  return date != NULL ? g_date_time_format (date, "%Y-%m-%dT%H:%M:%SZ") : g_strdup ("1970-01-01T00:00:00Z");
}

/**
 * rw_pdf_describe: the document's properties; @author: (nullable).
 */
void
rw_pdf_describe (cairo_surface_t *surface, const char *title, const char *author, const char *subject)
{
  g_autofree char *date = date_text ();

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_AUTHOR, author != NULL ? author : "");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, subject);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Rigwright " RW_VERSION);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
}
