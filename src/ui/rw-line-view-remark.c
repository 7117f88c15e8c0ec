/* SPDX-License-Identifier: MIT */
/* What stands at the foot of the line list: a caution, or the cells that were not taken, and the window that lists them
 * all. */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>

#include "rw-remark-list.h"

#define SHOWN_AT_FOOT 3
#define LEAST_FOOT 20 /* px: a line of text */
#define MOST_CHARS 60 /* of what stood in a cell: enough to know it by */

/* What one edit did not take. */
struct _RwLineReport
{
  RwLineSide side;
  GPtrArray *problems; /* of RwLineProblem */
  GPtrArray *remarks;  /* of char *: what else is told, then one for each of @problems */
  char *title;
};

static void
report_free (RwLineReport *report)
{
  g_ptr_array_unref (report->problems);
  g_ptr_array_unref (report->remarks);
  g_free (report->title);
}

static RwLineReport *
report_ref (RwLineReport *report)
{
  return g_rc_box_acquire (report);
}

static void
report_unref (RwLineReport *report)
{
  g_rc_box_release_full (report, (GDestroyNotify) report_free);
}

static char *
short_text (const char *text)
{
  g_autofree char *start = g_utf8_strlen (text, -1) > MOST_CHARS ? g_utf8_substring (text, 0, MOST_CHARS) : NULL;

  return start != NULL ? g_strconcat (start, "…", NULL) : g_strdup (text);
}

static char *
remark_of (const RwLineProblem *problem, RwLineSide side)
{
  const char *title = rw_line_column_title (side, problem->column);
  g_autofree char *text = short_text (problem->text);

  if (problem->left_out)
    /* Translators: a row's number, how many cells of it, a column's heading, what stands in that cell, what is wrong with
       it. */
    return g_strdup_printf (ngettext ("Row %u is left out with its %u cell: %s “%s” %s",
                                      "Row %u is left out with its %u cells: %s “%s” %s", problem->n_cells),
                            problem->row + 1, problem->n_cells, title, text, problem->why);
  /* Translators: a row's number, a column's heading, what stands in that cell, what is wrong with it:
     “Row 3, Gain: “91” must be 90 at most”. */
  return g_strdup_printf (_("Row %u, %s: “%s” %s"), problem->row + 1, title, text, problem->why);
}

/* @more: (nullable): what else is told */
static RwLineReport *
report_new (RwLineSide side, GPtrArray *problems, const char *more)
{
  RwLineReport *report = g_rc_box_new0 (RwLineReport);
  guint n = rw_line_problems_n_cells (problems);

  report->side = side;
  report->problems = g_ptr_array_ref (problems);
  report->remarks = g_ptr_array_new_with_free_func (g_free);
  report->title = g_strdup_printf (ngettext ("%u cell was not taken", "%u cells were not taken", n), n);
  if (more != NULL)
    g_ptr_array_add (report->remarks, g_strdup (more));
  for (guint i = 0; i < problems->len; i++)
    g_ptr_array_add (report->remarks, remark_of (problems->pdata[i], side));
  return report;
}

/* --- At the foot --- */

static void
set_text (RwLineView *view, GtkWidget *label, const char *text)
{
  gtk_label_set_text (GTK_LABEL (label), text);
  gtk_widget_set_visible (label, *text != '\0');
  gtk_widget_set_visible (view->show_all, view->report != NULL);
  gtk_widget_set_visible (view->foot, gtk_widget_get_visible (view->remark) || gtk_widget_get_visible (view->caution));
}

/* What to mind of the chosen cells; "" = nothing. */
void
rw_line_view_show_caution (RwLineView *view, const char *text)
{
  set_text (view, view->caution, text);
}

/* What was not done. It stays while the keyboard goes on, as Enter does from the cell that it tells of, until the next
 * edit. */
void
rw_line_view_show_remark (RwLineView *view, const char *text)
{
  g_clear_pointer (&view->report, report_unref);
  set_text (view, view->remark, text);
}

const char *
rw_line_view_get_remark (RwLineView *view)
{
  return gtk_label_get_text (GTK_LABEL (gtk_widget_get_visible (view->remark) ? view->remark : view->caution));
}

/* Nothing is told of an edit any more. */
void
rw_line_view_forget_remark (RwLineView *view)
{
  if (view->box != NULL) /* not while the list goes */
    rw_line_view_show_remark (view, "");
  else
    g_clear_pointer (&view->report, report_unref);
}

/**
 * rw_line_view_show_problems:
 * @problems: (element-type RwLineProblem): of an edit just done
 * @more: (nullable): what else was not taken
 */
void
rw_line_view_show_problems (RwLineView *view, GPtrArray *problems, const char *more)
{
  RwLineReport *report = report_new (view->side, problems, more);
  g_autoptr (GString) text = g_string_new (NULL);

  rw_line_view_forget_remark (view);
  for (guint i = 0; i < MIN (report->remarks->len, SHOWN_AT_FOOT); i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "", (char *) report->remarks->pdata[i]);
  if (report->remarks->len > SHOWN_AT_FOOT)
    {
      g_string_append_printf (text, "\n%s", report->title);
      view->report = report_ref (report);
    }
  set_text (view, view->remark, text->str);
  report_unref (report);
}

/* --- All of them --- */

typedef struct
{
  RwLineView *view;
  RwLineReport *report;
} Window;

static void
window_free (gpointer data, GClosure *closure)
{
  Window *window = data;

  report_unref (window->report);
  g_free (window);
}

static const char *
hint (void)
{
  return _("Enter or a double click goes to the cell");
}

/* Goes to the cell, where the list has its line now; the rows of lines left out it never had. */
static void
remark_picked (RwRemarkList *list, guint position, gpointer user_data)
{
  const Window *window = user_data;
  const GPtrArray *problems = window->report->problems;
  guint n_more = window->report->remarks->len - problems->len;
  const RwLineProblem *problem = position >= n_more ? problems->pdata[position - n_more] : NULL;
  RwLineView *view = window->view;
  int row;

  rw_line_view_set_side (view, window->report->side);
  row = problem != NULL ? rw_line_list_find (G_LIST_MODEL (view->selection), &problem->line) : -1;
  rw_remark_list_set_title (list, row >= 0 ? hint () : _("The list does not show that line"));
  if (row < 0)
    return;
  rw_line_view_choose (view, row, rw_line_view_shown_column (view, problem->column), FALSE);
  gtk_window_present (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (view))));
}

static GtkWidget *
make_window (RwLineView *view)
{
  GtkWidget *window = gtk_window_new (), *list = rw_remark_list_new ();
  GtkEventController *keys = gtk_shortcut_controller_new ();
  Window *data = g_new0 (Window, 1);

  *data = (Window){ view, report_ref (view->report) };
  g_signal_connect_data (list, "picked", G_CALLBACK (remark_picked), data, window_free, 0);
  rw_remark_list_show (RW_REMARK_LIST (list), hint (), view->report->remarks);
  gtk_widget_add_css_class (list, "rw-dialog-body");
  gtk_shortcut_controller_add_shortcut (
    GTK_SHORTCUT_CONTROLLER (keys),
    gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0), gtk_named_action_new ("window.close")));
  gtk_widget_add_controller (window, keys);
  gtk_window_set_title (GTK_WINDOW (window), view->report->title);
  gtk_window_set_transient_for (GTK_WINDOW (window), GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (view))));
  gtk_window_set_destroy_with_parent (GTK_WINDOW (window), TRUE);
  gtk_window_set_default_size (GTK_WINDOW (window), 620, 460);
  gtk_window_set_child (GTK_WINDOW (window), list);
  rw_remark_list_focus (RW_REMARK_LIST (list));
  return window;
}

void
rw_line_view_close_problems (RwLineView *view)
{
  GtkWidget *window = view->problems_window;

  g_clear_weak_pointer (&view->problems_window);
  if (window != NULL)
    gtk_window_destroy (GTK_WINDOW (window));
}

/* It stays open beside the list, so that one after the other can be mended. */
static void
show_all_clicked (GtkButton *button, gpointer user_data)
{
  RwLineView *view = user_data;

  rw_line_view_close_problems (view);
  g_set_weak_pointer (&view->problems_window, make_window (view));
  gtk_window_present (GTK_WINDOW (view->problems_window));
}

static GtkWidget *
make_text (void)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_visible (label, FALSE);
  return label;
}

GtkWidget *
rw_line_view_make_foot (RwLineView *view)
{
  GtkWidget *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *scroll = gtk_scrolled_window_new (); /* what is told does not make a small window larger */

  view->caution = make_text ();
  view->remark = make_text ();
  gtk_widget_add_css_class (view->remark, "rw-problem");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_EXTERNAL); /* a bar would need more room than a line */
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroll), LEAST_FOOT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), texts);
  gtk_widget_set_hexpand (scroll, TRUE);
  gtk_box_append (GTK_BOX (texts), view->caution);
  gtk_box_append (GTK_BOX (texts), view->remark);
  view->show_all = gtk_button_new_with_mnemonic (_("_Show all…"));
  gtk_widget_set_tooltip_text (view->show_all, _("List all cells that were not taken, and why"));
  gtk_widget_set_valign (view->show_all, GTK_ALIGN_END);
  gtk_widget_set_visible (view->show_all, FALSE);
  g_signal_connect (view->show_all, "clicked", G_CALLBACK (show_all_clicked), view);
  view->foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  gtk_widget_add_css_class (view->foot, "rw-line-remark");
  gtk_box_append (GTK_BOX (view->foot), scroll);
  gtk_box_append (GTK_BOX (view->foot), view->show_all);
  gtk_widget_set_visible (view->foot, FALSE);
  return view->foot;
}
