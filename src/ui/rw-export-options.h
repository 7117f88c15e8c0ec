/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <paper/rw-sheet.h>
#include "rw-settings.h"

G_BEGIN_DECLS

#define RW_TYPE_EXPORT_OPTIONS (rw_export_options_get_type ())
G_DECLARE_FINAL_TYPE (RwExportOptions, rw_export_options, RW, EXPORT_OPTIONS, GtkBox)

/**
 * RwExportOptions: the controls that say what the cable plan shall look like.
 * Signal "changed" (RwExportOptions *): one of them says something else now.
 */
/* @settings: (nullable): what was chosen the last time. */
GtkWidget *rw_export_options_new (RwSettings *settings);
void rw_export_options_get (RwExportOptions *self, RwSheetOptions *options, double *dpi);
/* The lens, the device that it counts hops from (nullable) and what has failed in it (nullable), as the window shows them. */
void rw_export_options_set_lens (RwExportOptions *self, RwLensKind kind, const char *from, const char *const *fail);
/* "pdf", "png" or "svg" */
const char *rw_export_options_get_format (RwExportOptions *self);
void rw_export_options_set_format (RwExportOptions *self, const char *format);
/* Whether a file of the format holds all pages. */
gboolean rw_export_options_is_paged (RwExportOptions *self);
void rw_export_options_remember (RwExportOptions *self, RwSettings *settings);

G_END_DECLS
