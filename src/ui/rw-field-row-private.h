/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-length.h>

#include "rw-field-row.h"

G_BEGIN_DECLS

/* A way of editing: one for each look of control; picked by the field's kind. */
typedef struct
{
  GtkWidget *(*build) (RwFieldRow *row);
  /* @value is NULL unless @shared is RW_SHARED_SAME. */
  void (*show) (RwFieldRow *row, RwShared shared, GVariant *value, GVariant *fallback, const char *fallback_text);
} RwFieldEditor;

struct _RwFieldRow
{
  GtkWidget parent_instance;
  const RwField *field;
  const RwFieldEditor *editor;
  GtkWidget *label;
  GtkWidget *control;
  GtkWidget *clear;   /* (nullable) */
  GtkWidget *unit;    /* (nullable) */
  RwUnits units;      /* in which a length was shown */
  GtkWidget *problem;
  GVariant *shown;    /* (nullable): what the control stands for */
  gboolean shows;     /* something was shown */
  RwShared shared;
  gboolean busy;      /* the program changes the control, not the person */
};

extern const RwFieldEditor rw_field_editor_entry;
extern const RwFieldEditor rw_field_editor_text;
extern const RwFieldEditor rw_field_editor_switch;
extern const RwFieldEditor rw_field_editor_choice;

/* For editors: @value (floating or not, NULL = absent) is what the person gave. */
void rw_field_row_edited (RwFieldRow *row, GVariant *value);
void rw_field_row_edited_text (RwFieldRow *row, const char *text);
void rw_field_row_watch_focus (RwFieldRow *row, GtkWidget *control);

G_END_DECLS
