/* SPDX-License-Identifier: MIT */
#include "rw-window-private.h"

#include "rw-application.h"
#include "rw-issue-dialog.h"
#include "rw-papers-dialog.h"
#include "rw-print.h"
#include "rw-revisions-window.h"
#include "rw-weak.h"

static RwSettings *
settings_of (RwWindow *window)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (window));

  return application != NULL ? rw_application_get_settings (RW_APPLICATION (application)) : NULL;
}

/* Opens the papers, or shows them where they are open. */
void
rw_window_papers (RwWindow *window)
{
  rw_window_settle (window);
  if (window->papers_dialog == NULL)
    g_set_weak_pointer (&window->papers_dialog,
                        GTK_WINDOW (rw_papers_dialog_new (GTK_WINDOW (window), rw_document_rig (window->document), settings_of (window))));
  gtk_window_present (window->papers_dialog);
}

static void
printed (gboolean good, const char *problem, gpointer user_data)
{
  g_autoptr (RwWindow) window = rw_weak_take (user_data);

  if (window != NULL && window->document != NULL)
    rw_window_show_message (window, problem);
}

/* The drawing alone, on the paper on which was printed last. */
void
rw_window_print_plan (RwWindow *window, const char *file)
{
  RwPapersOptions options;

  rw_window_settle (window);
  rw_papers_options_init (&options);
  options.sections = 1u << RW_PAPERS_PLAN;
  options.paper = NULL;
  rw_print (GTK_WINDOW (window), rw_document_rig (window->document), &options, settings_of (window), file, printed, rw_weak_new (window));
}

void
rw_window_issue (RwWindow *window)
{
  rw_window_settle (window);
  gtk_window_present (GTK_WINDOW (rw_issue_dialog_new (GTK_WINDOW (window), window->document)));
}

/* Opens the revisions, or shows them where they are open. */
void
rw_window_revisions (RwWindow *window)
{
  rw_window_settle (window);
  if (window->revisions == NULL)
    g_set_weak_pointer (&window->revisions, GTK_WINDOW (rw_revisions_window_new (GTK_WINDOW (window), window->document)));
  gtk_window_present (window->revisions);
}
