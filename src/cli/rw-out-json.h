/* SPDX-License-Identifier: MIT */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/**
 * RwOut: JSON to standard output, written as it is made, so that a great rig's needs no room for all of it at once.
 * It looks as json-glib prints: names apart by " : ", two-space indentation. @name: (nullable): of a member of the object
 * that is begun, NULL in an array and at the top.
 */
typedef struct _RwOut RwOut;

RwOut *rw_out_new (void);
/* Ends the text, if there is any. FALSE = it did not all get there; the reason was told. Frees @out. */
gboolean rw_out_finish (RwOut *out);

void rw_out_begin_object (RwOut *out, const char *name);
void rw_out_end_object (RwOut *out);
void rw_out_begin_array (RwOut *out, const char *name);
void rw_out_end_array (RwOut *out);

void rw_out_text (RwOut *out, const char *name, const char *text);
void rw_out_integer (RwOut *out, const char *name, gint64 number);
void rw_out_real (RwOut *out, const char *name, double number, int decimals);
void rw_out_boolean (RwOut *out, const char *name, gboolean value);
void rw_out_null (RwOut *out, const char *name);
void rw_out_node (RwOut *out, const char *name, JsonNode *node);
void rw_out_ids (RwOut *out, const char *name, char *const *ids);

G_END_DECLS
