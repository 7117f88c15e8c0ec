/* SPDX-License-Identifier: MIT */
#pragma once

#include <ui/rw-line-view-private.h>

#include "window-hand.h"

G_BEGIN_DECLS

/* Hands for the line list of a window. */

/* Two racks of 16 sends on one console. */
extern const char lines_stage[];

/* Opens lines_stage with its line list shown; hand_end() ends it. */
RwLineView *lines_begin (Hand *hand);
/* Likewise with a rig as rw_test_rig() takes it. */
RwLineView *lines_begin_text (Hand *hand, const char *text);
/* A key in the list, which must take it. */
void lines_key (Hand *hand, guint keyval, GdkModifierType state);
/* Types @text into the cell that keys work on, and ends it by @keyval. */
void lines_type (Hand *hand, const char *text, guint keyval);
/* "NAME|DEVICE|SOCKET|CONSOLE|CHANNEL|STRIP" of a row. */
void lines_assert_cells (RwLineView *view, guint row, const char *expected);
/* What stands in @column of @n rows, "|" between them. */
void lines_assert_column (RwLineView *view, RwLineColumn column, guint first, guint n, const char *expected);
/* That the list shows, from its top to its bottom or its last row, rows that it has, one after the other. */
void lines_assert_seen (RwLineView *view);
/* How many rows of the network's patch the rig has. */
guint lines_n_patched (Hand *hand);

G_END_DECLS
