/* SPDX-License-Identifier: MIT */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

JsonNode *referee_parse (const char *text, gsize length);
gboolean referee_equal (JsonNode *a, JsonNode *b);

G_END_DECLS
