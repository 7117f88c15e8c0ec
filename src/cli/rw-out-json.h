/* SPDX-License-Identifier: MIT */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* Members of the object that is being built. */
void rw_out_text (JsonBuilder *builder, const char *name, const char *text);
void rw_out_integer (JsonBuilder *builder, const char *name, gint64 number);
void rw_out_real (JsonBuilder *builder, const char *name, double number, int decimals);
void rw_out_ids (JsonBuilder *builder, const char *name, char *const *ids);
char *rw_out_print (JsonBuilder *builder);

G_END_DECLS
