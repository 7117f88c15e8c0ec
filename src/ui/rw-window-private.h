/* SPDX-License-Identifier: MIT */
#pragma once

#include <file/rw-journal.h>

#include "rw-canvas.h"
#include "rw-failure-view.h"
#include "rw-find-bar.h"
#include "rw-findings-view.h"
#include "rw-line-view.h"
#include "rw-particulars.h"
#include "rw-report.h"
#include "rw-shelf.h"
#include "rw-thing-list.h"
#include "rw-window.h"

G_BEGIN_DECLS

/* What follows a question that must be answered first; run with the window still there. */
typedef void (*RwWindowThen) (RwWindow *window, gpointer data);

struct _RwWindow
{
  GtkApplicationWindow parent_instance;

  RwDocument *document;
  RwJournal *journal; /* (nullable) */
  RwReport *report;   /* (nullable): for tests */

  RwCanvas *canvas;
  RwShelf *shelf;
  RwParticulars *particulars;
  RwThingList *things;
  RwFindingsView *findings;
  RwFailureView *failure;
  RwFindBar *find_bar;
  RwLineView *lines;

  GtkWidget *header_bar, *menu_bar;
  GtkWidget *title_label, *subtitle_label;
  GtkWidget *undo_button, *redo_button;
  GtkWidget *message_revealer, *message_label, *message_close;
  GtkWidget *shelf_paned, *side_paned, *findings_paned, *lines_paned;
  GtkWidget *sheet_box, *findings_stack, *side_title, *side_stack, *foot, *status_label, *zoom_label;
  GMenu *history_slot, *recent_submenu, *sheet_menu;
  GtkWidget *context_menu; /* (nullable) */

  int lines_height; /* px, of the line list when it was open last; 0 = not yet */
  int findings_at;  /* px, where the panel beside the sheet is divided while that is closed */
  guint status_idle, would_be_idle;
  char *told;       /* (nullable): what the status line says for a while */
  RwVerdict told_as; /* how good that is */
  guint told_timer; /* until then */
  gboolean closing; /* the question was answered: the window may go */
  gboolean asking;
  gboolean told_of_journal; /* it cannot be kept, and the person knows */
  GtkWindow *export_dialog; /* (nullable) weak */
  GtkWindow *import_dialog; /* (nullable) weak */
  GtkWindow *papers_dialog; /* (nullable) weak */
  GtkWindow *sets_dialog; /* (nullable) weak */
  GtkWindow *revisions; /* (nullable) weak */

  /* What a test wants instead of a file chooser; (nullable). */
  char *answer_path;
};

void rw_window_set_document (RwWindow *window, RwDocument *document);

/* rw-window-actions.c */
void rw_window_class_install_actions (GtkWidgetClass *klass);
void rw_window_add_shortcuts (RwWindow *window);
void rw_window_update_actions (RwWindow *window);
void rw_window_update_history (RwWindow *window);
void rw_window_reveal (RwWindow *window, const char *key);

/* rw-window-canvas.c */
void rw_window_connect_canvas (RwWindow *window);

/* rw-window-file.c */
void rw_window_open (RwWindow *window);
void rw_window_save (RwWindow *window, RwWindowThen then, gpointer data);
void rw_window_save_as (RwWindow *window, RwWindowThen then, gpointer data);
void rw_window_export (RwWindow *window);
void rw_window_show_examples (RwWindow *window);
/* What is being typed goes into the rig, as before it is saved; FALSE where a row of the line list cannot, and stays. */
gboolean rw_window_settle (RwWindow *window);
/* Asks about unsaved changes and a row of the line list that is no line yet, where there are some, then runs @then unless the answer is to stay. */
void rw_window_ask_unsaved (RwWindow *window, RwWindowThen then, gpointer data);
void rw_window_open_files (RwWindow *window, GSList *files);

/* rw-window-lens.c */
void rw_window_lens_init (RwWindow *window);
void rw_window_lens_failure_changed (RwWindow *window);

/* rw-window-lines.c */
void rw_window_lines_init (RwWindow *window);
int rw_window_lines_height (RwWindow *window);
void rw_window_lines_show (RwWindow *window, gboolean shown);
/* Reads the table at @path and asks what of it is meant. */
void rw_window_lines_import (RwWindow *window, const char *path);
void rw_window_lines_show_sets (RwWindow *window);
void rw_window_lines_export (RwWindow *window, const char *path);

/* rw-window-papers.c */
void rw_window_papers (RwWindow *window);
void rw_window_issue (RwWindow *window);
void rw_window_revisions (RwWindow *window);
/* @file: (nullable): for tests: a PDF instead of the print dialog. */
void rw_window_print_plan (RwWindow *window, const char *file);

/* rw-window-journal.c */
void rw_window_journal_loaded (RwWindow *window);
void rw_window_journal_saved (RwWindow *window);
void rw_window_journal_changed (RwWindow *window, RwChange *change);
void rw_window_journal_close (RwWindow *window);

/* rw-window-status.c */
void rw_window_update_title (RwWindow *window);
void rw_window_queue_status (RwWindow *window);
/* Says for a while, in the status line, @text: what was done. */
void rw_window_tell (RwWindow *window, const char *text);
/* Likewise that the file @path is there. */
void rw_window_tell_written (RwWindow *window, const char *path);
/* Likewise @text, of something that did not come out as the person wished. */
void rw_window_warn (RwWindow *window, const char *text);
void rw_window_watch_hands (RwWindow *window);

G_END_DECLS
