/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

#define RW_FILE_ERROR (rw_file_error_quark ())
GQuark rw_file_error_quark (void);
typedef enum
{
  RW_FILE_ERROR_SYNTAX = 1, /* not RFC 8259 JSON */
  RW_FILE_ERROR_LIMIT,      /* too large, too deep */
  RW_FILE_ERROR_VERSION,
  RW_FILE_ERROR_STRUCTURE,  /* a member missing, of the wrong type, out of range… */
  RW_FILE_ERROR_IO,
} RwFileError;

/* Reads rig JSON; @where names the source in messages ("FILE: devices[12].part: …"). (transfer full). */
RwRig *rw_file_read_bytes (const char *data, gsize length, const char *where, GError **error);
RwRig *rw_file_read (const char *path, GError **error);
/* Canonical text. (transfer full). */
GString *rw_file_write_bytes (RwRig *rig);
gboolean rw_file_write (RwRig *rig, const char *path, GError **error);
/* JSON of one item, or of one field of it, as the file would hold it. */
char *rw_file_item_json (const RwItem *item);
char *rw_file_field_json (gconstpointer record, const RwTable *table, guint field);
RwItem *rw_file_item_from_json (RwItemType type, const char *json, GError **error);

/* rw-catalogue.c: the parts that the program brings; a rig file with parts only. */
RwRig *rw_catalogue_load (GError **error);

G_END_DECLS
