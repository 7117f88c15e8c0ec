/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <rig/rw-rig.h>
#include "rw-settings.h"
#include "rw-window.h"

G_BEGIN_DECLS

#define RW_APPLICATION_ID "org.rigwright.Rigwright"

#define RW_TYPE_APPLICATION (rw_application_get_type ())
G_DECLARE_FINAL_TYPE (RwApplication, rw_application, RW, APPLICATION, GtkApplication)

/**
 * RwApplication: the program: its windows, and what they share: settings, parts, colours, recent files.
 *
 * @settings_path of rw_application_new(): (nullable): another settings file than the person's own, for tests
 */
RwApplication *rw_application_new (const char *settings_path, GApplicationFlags more_flags);
RwSettings *rw_application_get_settings (RwApplication *application);
void rw_application_save_settings (RwApplication *application);
RwRig *rw_application_get_catalogue (RwApplication *application);
/* Why there are no parts; (nullable). */
const char *rw_application_get_catalogue_error (RwApplication *application);
/* Shows @file: in the window that has it open, in @near if nothing is in it, else in a new one. @near: (nullable). */
void rw_application_open_file (RwApplication *application, GFile *file, RwWindow *near);
/* Keeps @menu filled with the recent rigs. */
void rw_application_fill_recent (RwApplication *application, GMenu *menu);

G_END_DECLS
