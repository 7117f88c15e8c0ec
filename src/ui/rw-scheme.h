/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-settings.h"

G_BEGIN_DECLS

#define RW_TYPE_SCHEME (rw_scheme_get_type ())
G_DECLARE_FINAL_TYPE (RwScheme, rw_scheme, RW, SCHEME, GObject)

/**
 * RwScheme: whether the program is light or dark: the person's choice, or what the desktop's settings
 * portal says. Property "dark" (boolean, read only).
 */
RwScheme *rw_scheme_new (RwSchemeChoice choice);
void rw_scheme_set_choice (RwScheme *scheme, RwSchemeChoice choice);
gboolean rw_scheme_get_dark (RwScheme *scheme);
/* Reads the portal's answer: a uint32 in one or two variants, 1 = dark, 2 = light, 0 = no preference. */
gboolean rw_scheme_parse_preference (GVariant *value, gboolean *dark);

G_END_DECLS
