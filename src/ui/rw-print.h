/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <paper/rw-papers.h>
#include "rw-settings.h"

G_BEGIN_DECLS

/* @problem: (nullable): why it failed; NULL = it did not, or a person stopped it. Called once. */
typedef void (*RwPrintDone) (gboolean good, const char *problem, gpointer user_data);

/**
 * rw_print: asks for a printer and its paper with the system's dialog, lays @options’ papers of @rig out on that paper and
 * prints them, each sheet drawn in a thread, so that the window stays alive and printing can be stopped after each.
 * @settings: (nullable): remembers printer and page; outlives the work
 * @file: (nullable): for tests: prints to this PDF without asking
 */
void rw_print (GtkWindow *parent, RwRig *rig, const RwPapersOptions *options, RwSettings *settings, const char *file,
               RwPrintDone done, gpointer user_data);

G_END_DECLS
