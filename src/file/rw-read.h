/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-file.h"
#include "rw-json.h"

G_BEGIN_DECLS

/* Where a value stands: a member called @name, or, with @name NULL, an element. Lives on the stack of the
 * readers, so that paths cost nothing until one is needed in a message. */
typedef struct _RwPath RwPath;
struct _RwPath
{
  const RwPath *up; /* NULL = the outermost object */
  const char *name;
  guint index;
  gboolean ready; /* @name is a path already */
};

typedef struct
{
  const char *where; /* NULL = messages begin with the path */
  RwJson json;
  GError **error;
} RwReader;

/* rw-read.c */
RwRig *rw_reader_state (RwReader *reader, const RwPath *path, guint token);

/* rw-read-value.c */
gboolean rw_reader_fail (RwReader *reader, const RwPath *path, const char *format, ...) G_GNUC_PRINTF (3, 4);
gboolean rw_reader_expect (RwReader *reader, const RwPath *path, guint token, RwJsonType type);
gboolean rw_reader_extra (RwReader *reader, const RwPath *path, guint name, GPtrArray **extras);
void rw_reader_take_extras (RwRecord *record, GPtrArray *extras);
gboolean rw_reader_record (RwReader *reader, const RwPath *path, const RwTable *table, guint token, gpointer record);

G_END_DECLS
