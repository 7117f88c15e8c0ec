/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* In what lengths are shown; they are kept in metres, and typed in either. */
typedef enum { RW_UNITS_METRES, RW_UNITS_FEET } RwUnits;
#define RW_N_UNITS (RW_UNITS_FEET + 1)
#define RW_METRES_A_FOOT 0.3048 /* exactly: international yard and pound agreement, 1959 */

/* The person's choice holds for the whole program, as the language does. It is set before threads show lengths, or while
 * none does. */
void rw_length_set_units (RwUnits units);
RwUnits rw_length_units (void);
const char *rw_units_word (RwUnits units);
gboolean rw_units_find (const char *word, RwUnits *units);

char *rw_length_text (double metres);
char *rw_length_number (double metres);
const char *rw_length_heading (const char *in_metres, const char *bare);
gboolean rw_length_parse (const char *text, RwUnits bare, double *metres, GError **error);

G_END_DECLS
