/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-table.h"

G_BEGIN_DECLS

/**
 * RwTableWidths: how the width of a table is shared out among its columns. All widths in mm, one a column.
 * @natural: of the whole texts, on one line each; not under @least where there are none: people write there
 * @least: what the column is meant to have at least; not under @whole
 * @whole: of the longest word in it, very long ones aside; not under @heads
 * @heads: of the longest word in it, long ones aside, but not in its head; not under @words
 * @words: of the longest word in its cells, long ones aside
 * @yielded: (out): which columns have no place at all
 * @result: (out): what each gets; together @width at most
 */
typedef struct
{
  const RwColumn *columns;
  guint n;
  double width;
  double *natural, *least, *whole, *heads, *words;
  gboolean *yielded;
  double *result;
} RwTableWidths;

void rw_table_share_width (RwTableWidths *widths);

G_END_DECLS
