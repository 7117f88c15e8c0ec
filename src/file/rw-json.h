/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Arrays and objects inside one another, the outermost included. */
#define RW_JSON_MAX_DEPTH 64
#define RW_JSON_MAX_BYTES (64u * 1024 * 1024)

typedef enum
{
  RW_JSON_NULL,
  RW_JSON_FALSE,
  RW_JSON_TRUE,
  RW_JSON_NUMBER,
  RW_JSON_STRING,
  RW_JSON_ARRAY,
  RW_JSON_OBJECT,
} RwJsonType;

/**
 * RwJsonToken: one value or member name. A file is a flat list of them in the order of the text; an
 * object's tokens are name, value, name, value, …
 * @offset: byte where it stands; of a string the one after the quote
 * @type: RwJsonType
 * @escaped: a string that holds a backslash
 * @real: a number that has a point or an exponent
 * @extent: of an array or object the index of the first token after it; of anything else its bytes
 */
typedef struct
{
  guint32 offset : 27;
  guint32 type : 3;
  guint32 escaped : 1;
  guint32 real : 1;
  guint32 extent;
} RwJsonToken;

/* A text that was found to be JSON. @data is not owned and must outlive it. */
typedef struct
{
  const char *data;
  RwJsonToken *tokens;
  guint n;
} RwJson;

/* rw-json.c */
gboolean rw_json_scan (RwJson *json, const char *data, gsize length, GError **error);
void rw_json_clear (RwJson *json);
void rw_json_where (const char *data, gsize offset, guint *line, guint *column);

/* rw-json-names.c */
gsize rw_json_repeated_name (const RwJson *json, guint object);

/* rw-json-path.c */
void rw_json_path_add_name (GString *path, const char *name);
void rw_json_path_add_index (GString *path, guint index);
char *rw_json_path_of_error (const RwJson *json, gsize at);

/* rw-json-value.c */
RwJsonType rw_json_type (const RwJson *json, guint token);
guint rw_json_next (const RwJson *json, guint token);
guint rw_json_count (const RwJson *json, guint token);
guint rw_json_member (const RwJson *json, guint object, const char *name);
gsize rw_json_decode (const RwJson *json, guint token, char *to);
char *rw_json_dup_text (const RwJson *json, guint token);
double rw_json_real (const RwJson *json, guint token);

/* rw-json-out.c */

/**
 * RwJsonOut: writes JSON in canonical form: two spaces a level and one member or element a line; or, for
 * @compact, no white space at all.
 */
typedef struct
{
  GString *text;
  gboolean compact;
  guint depth;
  gboolean empty;  /* nothing was put into the innermost array or object yet */
  gboolean inside; /* the innermost array stays on one line */
} RwJsonOut;

void rw_json_out_open (RwJsonOut *out, char bracket);
void rw_json_out_open_line (RwJsonOut *out);
void rw_json_out_close (RwJsonOut *out, char bracket);
void rw_json_out_element (RwJsonOut *out);
void rw_json_out_name (RwJsonOut *out, const char *name);
void rw_json_out_string (RwJsonOut *out, const char *bytes, gssize length);
void rw_json_out_integer (RwJsonOut *out, int value);
void rw_json_out_real (RwJsonOut *out, double value);
void rw_json_out_boolean (RwJsonOut *out, gboolean value);
void rw_json_out_token (RwJsonOut *out, const RwJson *json, guint token);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (RwJson, rw_json_clear)

G_END_DECLS
