/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-field-sheet.h"

G_BEGIN_DECLS

#define RW_TYPE_FIELD_ROW (rw_field_row_get_type ())
G_DECLARE_FINAL_TYPE (RwFieldRow, rw_field_row, RW, FIELD_ROW, GtkWidget)

/**
 * RwFieldRow: one field as a line of Particulars: its label, the control that fits its kind, its unit, a
 * button that makes it absent, and under it the reason why what was typed cannot stand.
 *
 * Signals:
 *   "edited" (GVariant *value (nullable))  at every keystroke that gives a value; NULL = absent
 *   "taken-back" ()                        what was edited since "finished" is to be as if it had not been
 *   "finished" ()                          the next edit is another step: the focus went, or comes from elsewhere
 */
GtkWidget *rw_field_row_new (const RwField *field);
const RwField *rw_field_row_get_field (RwFieldRow *row);
/* What the rig says now. Text that stands for @value already is left as it was typed, and so is text that is refused
 * while the rig goes back to what it said before. */
void rw_field_row_show (RwFieldRow *row, RwShared shared, GVariant *value, GVariant *fallback,
                        const char *fallback_text);
/* What was just edited cannot stand, for @reason: marks the control, and takes back what was edited before. */
void rw_field_row_refuse (RwFieldRow *row, const char *reason);
/* Why what stands in the control cannot stand; (nullable). */
const char *rw_field_row_get_error (RwFieldRow *row);
/* What the program knows of the field, under all else that stands there; (nullable): nothing. */
void rw_field_row_tell (RwFieldRow *row, const char *fact);
const char *rw_field_row_get_fact (RwFieldRow *row);
/* What is said under the control: an error, or that something was not taken; (nullable). */
const char *rw_field_row_get_remark (RwFieldRow *row);
/* As if the focus went: what is being typed is over. Returns: whether it was taken, if anything was */
gboolean rw_field_row_settle (RwFieldRow *row);
GtkWidget *rw_field_row_get_control (RwFieldRow *row);

/* The label at the head of a line of particulars. */
GtkWidget *rw_field_label_new (const char *text);

G_END_DECLS
