/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef struct _RwReport RwReport;
typedef struct _RwWindow RwWindow;

/**
 * RwReport: for tests that drive the program with a real mouse: writes to a file, one JSON object a line,
 * what the window shows and where, in pixels of its surface, each time that this changes. On only when the
 * environment names the file (RIGWRIGHT_TEST_REPORT).
 */
RwReport *rw_report_new (const char *path, RwWindow *window);
void rw_report_free (RwReport *report);

G_END_DECLS
