/* SPDX-License-Identifier: MIT */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* What a menu calls the files @uris: their names, with the folder where two would be the same. (transfer full) */
char **rw_recent_names (const char *const *uris);

G_END_DECLS
