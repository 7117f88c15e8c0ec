/* SPDX-License-Identifier: MIT */
#pragma once

#include <file/rw-csv-read.h>

G_BEGIN_DECLS

/**
 * RwLineImport: a table from outside on its way into a rig: what each of its columns means, and what comes of it.
 * @columns: by column of the table: #RwLineColumn, -1 = not used
 * @heading: the first row names the columns
 * @device, @console: (nullable): ids of those for rows that name none
 */
typedef struct
{
  RwCsv *csv;
  RwLineSide side;
  gboolean heading;
  guint n_columns;
  int *columns;
  char *device;
  char *console;
} RwLineImport;

RwLineImport *rw_line_import_new (RwCsv *csv, RwLineSide side);
void rw_line_import_free (RwLineImport *import);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwLineImport, rw_line_import_free)
void rw_line_import_set_side (RwLineImport *import, RwLineSide side);
void rw_line_import_set_column (RwLineImport *import, guint at, int column);
RwChange *rw_line_import_change (RwLineImport *import, const RwRig *rig, GPtrArray **remarks, guint *n_lines);

G_END_DECLS
