/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

gboolean rw_save_bytes (const char *path, const char *data, gsize length, GError **error);

G_END_DECLS
