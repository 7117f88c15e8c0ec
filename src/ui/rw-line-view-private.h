/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-line-cell.h"
#include "rw-line-view.h"

G_BEGIN_DECLS

typedef struct _RwLineReport RwLineReport;

struct _RwLineView
{
  GtkWidget parent_instance;
  RwDocument *document;
  RwLineSide side;
  gboolean with_free;
  gboolean free_chosen; /* by a person: it stays so */

  GListStore *model;
  GtkCustomFilter *filter;
  RwLineRow *blank;             /* the last row, for a new line: neither filtered nor sorted */
  GtkMultiSelection *selection; /* over what is filtered, and the blank row */
  GArray *moves;                /* (nullable): of RwLineMove: of the edit that is being done */
  GHashTable *devices;          /* (nullable): ids of the devices whose lines are listed; NULL = of all */
  char *needle;                 /* (nullable): folded text that must stand in a line */

  GtkWidget *box, *list, *search, *free_check, *side_buttons[RW_N_LINE_SIDES];
  GtkWidget *commands; /* of RwFold */
  GtkWidget *hint; /* over the list, while it is empty */
  GtkWidget *filter_box, *filter_label, *count;
  GtkWidget *foot, *caution, *remark, *show_all;
  RwLineReport *report;         /* (nullable): of the last edit, while the foot cannot hold it */
  GtkWidget *problems_window;   /* (nullable): while it is open */
  GHashTable *cells;            /* of RwLineCell: those that are bound to a row */
  const RwLineColumn *columns;  /* as shown */
  guint n_columns;

  int row, column;              /* the cell that keys work on; -1 = none */
  int anchor_row, anchor_column; /* the other corner of the chosen cells */
  gboolean chosen_for;          /* they are what was pasted: choosing more goes on from the cell that keys work on */
  gboolean typing;
  gboolean powers;              /* what was last done to the rig turned phantom power on */
  guint leaving;                /* while the keyboard is on its way out of the list */
  gboolean filling;             /* the handle at the corner is being dragged: to row @fill_to */
  int fill_to;
  gboolean selecting;           /* the mouse chooses cells */
  guint scroll_timer;           /* while the pointer is dragged beyond the list */
  int scroll_by;
  guint scroll_ms;              /* between its rows */
  GtkWidget *fill_count;        /* beside the pointer while the handle is dragged: how many rows */
  GtkWidget *menu;              /* (nullable): made when it is first asked for */
  GtkWidget *choices;           /* (nullable): the list of what can stand in the cell, while it is open */
  GtkWidget *closed_choices;    /* (nullable): the last of them that closed, until GTK is through with it */
  GArray *candidates;           /* (nullable): what can stand in the cell that one types in */
  guint closed_source;          /* which then destroys it */
};

typedef struct { int top, bottom, left, right; } RwCellRange;

/* One command, wherever a hand finds it. */
typedef struct
{
  const char *action;
  const char *label, *tip;   /* (nullable): where neither the menu nor the bar has it */
  guint keyval;              /* 0 = it has no key */
  GdkModifierType state;
  guint part;                /* of the menu of the cells: those of one number stand together; 0 = it is not there */
  gboolean in_bar;
  void (*run) (RwLineView *view);
} RwLineCommand;

/* What an edit would do: where it takes each line (RwLineMove), and what it does not take (RwLineProblem). */
typedef struct { GArray *moves; RwChange *change; GPtrArray *problems; } RwLineOutcome;

/* rw-line-view.c */
void rw_line_view_filter_anew (RwLineView *view);
RwLineRow *rw_line_view_row (RwLineView *view, guint position);
void rw_line_view_emit_close (RwLineView *view);
void rw_line_view_emit_way (RwLineView *view);

/* rw-line-view-panel.c */
void rw_line_view_panel_init (RwLineView *view);

/* rw-line-view-bar.c */
GtkWidget *rw_line_view_make_bar (RwLineView *view);

/* rw-line-view-hand.c */
void rw_line_view_hand_init (RwLineView *view);
RwCellRange rw_line_view_range (RwLineView *view);
RwCellRange rw_line_view_lines (RwLineView *view);
int rw_line_view_shown_column (RwLineView *view, RwLineColumn column);
guint rw_line_view_cell_state (RwLineView *view, int row, int column);
void rw_line_view_show_cells (RwLineView *view);
void rw_line_view_show_range (RwLineView *view);
void rw_line_view_scroll_to (RwLineView *view, int row);
void rw_line_view_cut (RwLineView *view);
void rw_line_view_toggle_phantom (RwLineView *view);
RwLineCell *rw_line_view_cell (RwLineView *view, int row, int column);
void rw_line_view_choose_all (RwLineView *view);

/* rw-line-view-commands.c */
const RwLineCommand *rw_line_view_commands (guint *n);
void rw_line_view_install_actions (GtkWidgetClass *klass);
gboolean rw_line_view_is_command (guint keyval, GdkModifierType state);
gboolean rw_line_view_command (RwLineView *view, guint keyval, GdkModifierType state);

/* rw-line-view-menu.c */
void rw_line_view_open_menu (RwLineView *view, GtkWidget *at, double x, double y);

/* rw-line-view-blank.c */
gboolean rw_line_view_is_blank (RwLineView *view, int row);
gboolean rw_line_view_has_blank (RwLineView *view);
void rw_line_view_set_blank (RwLineView *view, RwLineColumn column, const char *text);
void rw_line_view_clear_blank (RwLineView *view);
void rw_line_view_fit_filter (RwLineView *view, const char **cells);
gboolean rw_line_view_type_blank (RwLineView *view, RwLineColumn column, const char *text);
gboolean rw_line_view_make_blank (RwLineView *view, int left, int right);
gboolean rw_line_view_leave_blank (RwLineView *view);
void rw_line_view_duplicate (RwLineView *view);

/* rw-line-view-mouse.c */
GtkWidget *rw_line_view_make_over (RwLineView *view, GtkWidget *scroll);
guint rw_line_view_scroll_ms (double beyond_px);
void rw_line_view_mouse_init (RwLineView *view);
void rw_line_view_begin_filling (RwLineView *view);
void rw_line_view_set_fill_to (RwLineView *view, int row);
void rw_line_view_end_filling (RwLineView *view, gboolean keep);
void rw_line_view_stop_scrolling (RwLineView *view);

/* rw-line-view-choices.c */
void rw_line_view_open_choices (RwLineView *view);
const char *rw_line_view_device_text (const RwRig *rig, const RwDevice *device);
void rw_line_view_forget_candidates (RwLineView *view);
void rw_line_view_offer (RwLineView *view);
gboolean rw_line_view_step_choice (RwLineView *view, int by);
void rw_line_view_take_offer (RwLineView *view);
void rw_line_view_end_offer (RwLineView *view);
void rw_line_view_close_choices (RwLineView *view);

/* rw-line-view-remark.c */
GtkWidget *rw_line_view_make_foot (RwLineView *view);
void rw_line_view_show_caution (RwLineView *view, const char *text);
void rw_line_view_show_remark (RwLineView *view, const char *text);
void rw_line_view_show_problems (RwLineView *view, GPtrArray *problems, const char *more);
void rw_line_view_forget_remark (RwLineView *view);
void rw_line_view_close_problems (RwLineView *view);

/* rw-line-view-edit.c */
RwLineEdit *rw_line_view_begin (RwLineView *view, const char *name);
const RwLine *rw_line_view_line_at (RwLineView *view, int row);
void rw_line_view_apply (RwLineView *view, RwLineEdit *edit, const char *more);
void rw_line_view_type_all (RwLineView *view, RwLineColumn column, const char *text);
gboolean rw_line_view_has_keyboard (RwLineView *view);
void rw_line_view_begin_typing (RwLineView *view, const char *text);
gboolean rw_line_view_end_typing (RwLineView *view, gboolean keep);
RwLineOutcome rw_line_view_try (RwLineView *view, RwLineEdit *edit);
void rw_line_view_choose_moved (RwLineView *view, const GArray *moves, int left, int right);
gboolean rw_line_view_do (RwLineView *view, const RwLineOutcome *outcome, const char *more);
void rw_line_view_clear_outcome (RwLineOutcome *outcome);
void rw_line_view_copy (RwLineView *view);
void rw_line_view_paste (RwLineView *view);

G_END_DECLS
