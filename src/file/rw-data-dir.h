/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

char *rw_data_path (const char *name);
const char *rw_locale_dir (void);

G_END_DECLS
