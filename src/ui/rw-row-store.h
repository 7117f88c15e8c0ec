/* SPDX-License-Identifier: MIT */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * rw_row_store_show: makes @store hold @rows (of GObject).
 *
 * It tells only of the stretch between the first and last rows that are the same objects before and after, so that
 * a list neither jumps nor loses what is selected in it: keep the rows of things that stay.
 */
void rw_row_store_show (GListStore *store, GPtrArray *rows);
/* The rows that @store holds (transfer full). */
GPtrArray *rw_row_store_rows (GListStore *store);

G_END_DECLS
