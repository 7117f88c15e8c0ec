/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <file/rw-save.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>

#include "rw-papers-parts.h"

static gboolean
write_listing (const RwListing *listing, const char *folder, GError **error)
{
  g_autofree char *name = g_strconcat (listing->name, ".csv", NULL);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autofree char *text = rw_listing_csv (listing);

  return rw_save_bytes (path, text, strlen (text), error);
}

static gboolean
write_flow (const RwPapersSource *source, RwPapersSection section, const char *folder, GError **error)
{
  RwFlow *flow = rw_papers_builder (section)(source);
  gboolean good = TRUE;

  for (guint i = 0; flow != NULL && good && i < flow->blocks->len; i++)
    {
      const RwBlock *block = flow->blocks->pdata[i];

      if (block->listing != NULL && block->listing->name != NULL)
        good = write_listing (block->listing, folder, error);
    }
  rw_flow_free (flow);
  return good;
}

static gboolean
write_section (const RwPapersSource *source, RwPapersSection section, const char *folder, GError **error)
{
  RwListing *listing;
  gboolean good;

  if (section == RW_PAPERS_CARDS)
    listing = rw_papers_cards_listing (source);
  else if (section == RW_PAPERS_LABELS)
    listing = rw_papers_labels_listing (source);
  else
    return rw_papers_builder (section) == NULL || write_flow (source, section, folder, error);
  good = write_listing (listing, folder, error);
  rw_listing_free (listing);
  return good;
}

/* Makes @folder and those that it lies in, where they are not there. */
gboolean
rw_papers_make_folder (const char *folder, GError **error)
{
  g_autofree char *shown = NULL;
  int reason;

  if (g_mkdir_with_parents (folder, 0777) == 0)
    return TRUE;
  reason = errno;
  shown = g_filename_display_name (folder);
  /* Translators: a folder, the reason from the system. */
  g_set_error (error, G_IO_ERROR, g_io_error_from_errno (reason), _("%s: the folder cannot be made: %s"), shown, g_strerror (reason));
  return FALSE;
}

/**
 * rw_papers_write_csv: writes the tables of the sections that @options names into @folder, which is made where it is
 * not there: one file each, RFC 4180, UTF-8. Files of other names are left alone.
 */
gboolean
rw_papers_write_csv (const RwRig *rig, const char *folder, const RwPapersOptions *options, GError **error)
{
  RwPapersSource source = { 0 };
  gboolean good = TRUE;

  if (!rw_papers_make_folder (folder, error))
    return FALSE;
  rw_papers_source_init (&source, rig, options);
  for (guint i = 0; good && i < RW_N_PAPERS_SECTIONS; i++)
    if (rw_papers_has (&source, i))
      good = write_section (&source, i, folder, error);
  rw_papers_source_clear (&source);
  return good;
}
