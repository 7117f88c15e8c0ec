/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-length.h>

#include "rw-field-row.h"
#include "rw-typing.h"

G_BEGIN_DECLS

/* A way of editing: one for each look of control; picked by the field's kind. */
typedef struct
{
  GtkWidget *(*build) (RwFieldRow *row);
  /* The row's shown is NULL unless its shared is RW_SHARED_SAME. */
  void (*show) (RwFieldRow *row);
  /* (nullable): what stands in the control; (transfer full) */
  char *(*dup_text) (RwFieldRow *row);
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
  GtkWidget *fact;    /* (nullable): until something is known */
  RwUnits units;      /* in which a length was shown */
  RwTyping typing;
  GVariant *shown;     /* (nullable): what the rig says */
  gboolean shows;      /* something was shown */
  RwShared shared;
  GVariant *fallback;  /* (nullable): what an absent value stands for */
  char *fallback_text; /* the same, as a person reads it */
  GVariant *start;     /* (nullable): the one value that was shown when the typing began */
  gboolean busy;      /* the program changes the control, not the person */
};

extern const RwFieldEditor rw_field_editor_entry;
extern const RwFieldEditor rw_field_editor_text;
extern const RwFieldEditor rw_field_editor_switch;
extern const RwFieldEditor rw_field_editor_choice;

/* For editors: @value (floating or not, NULL = absent) is what the person gave. */
void rw_field_row_edited (RwFieldRow *row, GVariant *value);
void rw_field_row_edited_text (RwFieldRow *row, const char *text);

G_END_DECLS
