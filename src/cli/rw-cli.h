/* SPDX-License-Identifier: MIT */
#pragma once

#include <paper/rw-sheet.h>

#include "rw-command.h"

G_BEGIN_DECLS

#define RW_CLI_NAME "rigwright-cli"

/* What the commands share: reading rigs, results to standard output, errors to standard error. */
void rw_cli_hold_standard_files (void);
RwRig *rw_cli_read_rig (const char *name, GError **error);
RwRig *rw_cli_read_since (const RwRig *rig, const char *rig_name, const char *word);
const char *rw_cli_find (const RwRig *rig, const char *rig_name, const char *option, const char *word, gboolean cables);
gboolean rw_cli_write (const char *text, gssize length);
#define RW_CLI_BLOCK 65536 /* bytes that are gathered before they are written */
void rw_cli_flush (GString *text, gboolean *failed);
void rw_cli_error (const char *format, ...) G_GNUC_PRINTF (1, 2);
gboolean rw_cli_parse (const RwCommand *command, const GOptionEntry *entries, char ***words, int *status);

/* What --units says; NULL = nothing. @json: programs read it: lengths stay in metres. FALSE = it is no unit, which has been
 * said. */
gboolean rw_cli_choose_units (const char *command, const char *word, gboolean json);
extern const char rw_cli_units_help[], rw_cli_units_argument[];
#define RW_CLI_UNITS_ENTRY(place) { "units", 0, 0, G_OPTION_ARG_STRING, place, rw_cli_units_help, rw_cli_units_argument }

/* rw-cli-drawing.c: how a drawing is to look. */
gboolean rw_cli_choose_paper (const char *command, const char *word, const RwPaper **paper);
gboolean rw_cli_choose_scale (const char *command, const char *word, double *scale);
gboolean rw_cli_choose_lens (const char *command, const char *word, guint n_lenses, RwLensKind *lens);

G_END_DECLS
