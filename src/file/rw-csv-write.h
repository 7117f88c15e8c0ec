/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

void rw_csv_append_row (GString *text, const char *const *cells, char separator);

G_END_DECLS
