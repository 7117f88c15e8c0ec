/* SPDX-License-Identifier: MIT */
#include "rw-cli.h"

#include <glib/gi18n-lib.h>

#include "rw-findings-json.h"

/* What is gathered while the rigs are read one after the other. */
typedef struct
{
  GString *text; /* of the rig in hand */
  RwOut *json;   /* NULL = text */
  gboolean several;
  gboolean has_begun;
  gboolean failed; /* to write */
  int status;
} RwReport;

static const char *
severity_label (RwSeverity severity)
{
  static const char *const labels[] = { N_("error"), N_("warning"), N_("note") };

  return _(labels[severity]);
}

static void
append_counts (GString *text, const RwFindings *findings)
{
  guint errors = rw_findings_count (findings, RW_SEVERITY_ERROR);
  guint warnings = rw_findings_count (findings, RW_SEVERITY_WARNING);
  guint notes = rw_findings_count (findings, RW_SEVERITY_NOTE);

  g_string_append_printf (text, ngettext ("%u error", "%u errors", errors), errors);
  g_string_append (text, ", ");
  g_string_append_printf (text, ngettext ("%u warning", "%u warnings", warnings), warnings);
  g_string_append (text, ", ");
  g_string_append_printf (text, ngettext ("%u note", "%u notes", notes), notes);
}

/* The numbers are those of the balloons on the drawing. */
static void
report_text (RwReport *report, const char *name, const RwFindings *findings)
{
  GString *text = report->text;

  if (report->has_begun)
    g_string_append_c (text, '\n');
  report->has_begun = TRUE;
  g_string_append_printf (text, "%s: ", name);
  append_counts (text, findings);
  g_string_append_c (text, '\n');
  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      const RwFinding *finding = rw_findings_get (findings, i);

      g_string_append_printf (text, "\n%3u  %s: %s\n     %s\n", i + 1, severity_label (finding->severity),
                              finding->rule->code, finding->message);
      /* Translators: what puts a mistake right */
      g_string_append_printf (text, _("     Remedy: %s\n"), _(finding->rule->remedy));
      if (text->len >= RW_CLI_BLOCK)
        rw_cli_flush (text, &report->failed);
    }
  rw_cli_flush (text, &report->failed);
}

static void
report_rig (RwReport *report, const char *name, const RwRig *rig)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwFindings) findings = rw_findings_new (rig, net);

  if (report->json != NULL)
    rw_findings_to_json (findings, name, report->json);
  else
    report_text (report, name, findings);
  if (rw_findings_count (findings, RW_SEVERITY_ERROR) > 0)
    report->status = MAX (report->status, RW_EXIT_FOUND);
}

static void
report_unreadable (RwReport *report, const char *name, const char *message)
{
  rw_cli_error ("%s", message);
  report->status = RW_EXIT_FAILED;
  if (report->json == NULL || !report->several)
    return;
  rw_out_begin_object (report->json, NULL);
  rw_out_text (report->json, "rig", name);
  rw_out_text (report->json, "error", message);
  rw_out_end_object (report->json);
}

static void
check_file (RwReport *report, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_cli_read_rig (path, &error);
  g_autofree char *name = g_filename_display_name (path);

  if (rig != NULL)
    report_rig (report, name, rig);
  else
    report_unreadable (report, name, error->message);
}

static int
check_files (char **paths, gboolean json)
{
  g_autoptr (GString) text = g_string_new (NULL);
  RwReport report = { .text = text, .json = json ? rw_out_new () : NULL, .several = paths[1] != NULL, .status = RW_EXIT_OK };

  if (json && report.several)
    rw_out_begin_array (report.json, NULL);
  for (char **path = paths; *path != NULL; path++)
    check_file (&report, *path);
  if (json && report.several)
    rw_out_end_array (report.json);
  if (json)
    report.failed = !rw_out_finish (report.json);
  return report.failed ? RW_EXIT_FAILED : report.status;
}

static int
run (const RwCommand *command, char **words)
{
  gboolean json = FALSE;
  g_autofree char *units = NULL;
  g_auto (GStrv) paths = NULL;
  const GOptionEntry entries[] = {
    { "json", 'j', 0, G_OPTION_ARG_NONE, &json, N_("Give the findings as JSON"), NULL },
    RW_CLI_UNITS_ENTRY (&units),
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &paths, NULL, NULL },
    { NULL },
  };
  int status;

  if (!rw_cli_parse (command, entries, &words, &status))
    return status;
  if (!rw_cli_choose_units ("check", units, json))
    return RW_EXIT_FAILED;
  if (paths != NULL)
    return check_files (paths, json);
  rw_cli_error (_("check: no rig was named (see “rigwright-cli check --help”)"));
  return RW_EXIT_FAILED;
}

const RwCommand rw_command_check = {
  .name = "check",
  .arguments = N_("RIG…"),
  .summary = N_("Say what is wrong in a rig, why, and how to put it right"),
  .description = N_("A RIG of “-” is read from standard input.\n"
                    "Exit status: 0 no errors, 1 at least one error, 2 a rig that cannot be read or wrong usage."),
  .run = run,
};
