/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <rig/rw-length.h>

#include "rw-failure-list.h"
#include "rw-papers-parts.h"
#include "rw-plan-parts.h"

#define NARROW 150.0 /* mm: paper too narrow for a column each for devices, ports, medium and grade */

/* Cells of one row, made one after the other. */
typedef struct
{
  char *cells[16];
  guint n;
} Cells;

static void
cell (Cells *cells, char *text)
{
  g_assert (cells->n < G_N_ELEMENTS (cells->cells));

  cells->cells[cells->n++] = text;
}

static void
cells_add (Cells *cells, RwTableLayout *table, const char *link)
{
  rw_table_layout_add (table, (const char *const *) cells->cells, link);
  for (guint i = 0; i < cells->n; i++)
    g_free (cells->cells[i]);
  cells->n = 0;
}

static char *
length_text (double length_m, guint digits)
{
  if (length_m <= 0)
    return g_strdup ("—");
  if (rw_length_units () == RW_UNITS_FEET)
    return rw_length_number (length_m);
  return g_strdup_printf ("%.*f", (int) digits, length_m);
}

static const char *
word_label (const RwField *field, int index)
{
  return _(field->word_labels != NULL ? field->word_labels[index] : field->words[index]);
}

/* Two texts in two cells, or under each other in one where the paper is narrow. */
static void
cell_pair (Cells *cells, const char *one, const char *two, gboolean narrow)
{
  if (narrow)
    {
      cell (cells, g_strconcat (one, "\n", two, NULL));
      return;
    }
  cell (cells, g_strdup (one));
  cell (cells, g_strdup (two));
}

static void
cell_end (Cells *cells, const RwNet *net, guint port, gboolean narrow)
{
  const RwDevice *device = net->devices[net->ports[port].device].device;

  cell_pair (cells, rw_device_title (device), net->ports[port].port->name, narrow);
}

static void
add_cable (RwTableLayout *table, const RwScene *scene, guint index, guint digits, gboolean narrow)
{
  const RwNet *net = rw_scene_net (scene);
  const RwCable *cable = net->cables[index].cable;
  g_autofree char *link = g_strdup_printf ("%s-%u", RW_PLACE_CABLE, index);
  Cells cells = { .n = 0 };

  cell (&cells, g_strdup_printf ("%u", index + 1));
  cell (&cells, g_strdup (rw_cable_title (cable)));
  cell_end (&cells, net, net->cables[index].port[0], narrow);
  cell_end (&cells, net, net->cables[index].port[1], narrow);
  cell_pair (&cells, word_label (&rw_cable_table.fields[RW_CABLE_MEDIUM], cable->medium),
             word_label (&rw_cable_table.fields[RW_CABLE_GRADE], rw_cable_grade (cable)), narrow);
  cell (&cells, length_text (cable->length_m, digits));
  cell (&cells, g_strdup (cable->colour != NULL ? cable->colour : "—"));
  cell (&cells, rw_plane_word (rw_scene_cable (scene, index)->style));
  cells_add (&cells, table, link);
}

/**
 * rw_plan_cable_list: one row a cable, in file order, for paper that leaves @width mm. (transfer full).
 */
RwTableLayout *
rw_plan_cable_list (RwDrawContext *context, double em, double width, const RwScene *scene)
{
  const RwColumn wide[] = {
    /* Translators: number of a row. */
    { C_("column", "No."), RW_ALIGN_RIGHT, 9, 0 },
    { C_("column", "Label"), RW_ALIGN_LEFT, 18, 1 },
    { C_("column", "From"), RW_ALIGN_LEFT, 18, 1 },
    { C_("column", "Port"), RW_ALIGN_LEFT, 10, 1 },
    { C_("column", "To"), RW_ALIGN_LEFT, 18, 1 },
    { C_("column", "Port"), RW_ALIGN_LEFT, 10, 1 },
    { C_("column", "Medium"), RW_ALIGN_LEFT, 10, 1 },
    { C_("column", "Grade"), RW_ALIGN_LEFT, 10, 1 },
    { rw_length_heading (C_("column", "Length, m"), C_("column", "Length")), RW_ALIGN_RIGHT, 10, 0 },
    { C_("column", "Jacket"), RW_ALIGN_LEFT, 10, 1 },
    { C_("column", "Plane"), RW_ALIGN_LEFT, 10, 1 },
  };
  const RwColumn narrow[] = {
    wide[0], { wide[1].head, RW_ALIGN_LEFT, 12, 1 }, { wide[2].head, RW_ALIGN_LEFT, 12, 1 }, { wide[4].head, RW_ALIGN_LEFT, 12, 1 },
    wide[6], wide[8], wide[9], wide[10],
  };
  gboolean is_narrow = width < NARROW;
  RwTableLayout *table = is_narrow ? rw_table_layout_new (context, em, narrow, G_N_ELEMENTS (narrow))
                         : rw_table_layout_new (context, em, wide, G_N_ELEMENTS (wide));
  guint digits = rw_length_digits (rw_scene_net (scene));

  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    add_cable (table, scene, i, digits, is_narrow);
  return table;
}

/**
 * rw_plan_finding_list: one row a finding, numbered as its balloon. (transfer full).
 */
RwTableLayout *
rw_plan_finding_list (RwDrawContext *context, double em, const RwFindings *findings)
{
  const RwColumn columns[] = {
    { C_("column", "No."), RW_ALIGN_RIGHT, 9, 0 },
    { C_("column", "Severity"), RW_ALIGN_LEFT, 14, 0 },
    { C_("column", "Finding"), RW_ALIGN_LEFT, 40, 1, RW_TABLE_LINES_TEXT },
    { C_("column", "What to do"), RW_ALIGN_LEFT, 40, 1, RW_TABLE_LINES_TEXT },
  };
  RwTableLayout *table = rw_table_layout_new (context, em, columns, G_N_ELEMENTS (columns));

  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      const RwFinding *finding = rw_findings_get ((RwFindings *) findings, i);
      g_autofree char *link = g_strdup_printf ("%s-%u", RW_PLACE_FINDING, i);
      Cells cells = { .n = 0 };

      cell (&cells, g_strdup_printf ("%u", i + 1));
      cell (&cells, g_strdup (rw_severity_title (finding->severity)));
      cell (&cells, g_strdup (finding->message));
      cell (&cells, g_strdup (_(finding->rule->remedy)));
      cells_add (&cells, table, link);
    }
  return table;
}

/**
 * rw_plan_failure_list: one row a cable, device or line that the failure touches: what has failed, then the worst first. (transfer full).
 */
RwTableLayout *
rw_plan_failure_list (RwDrawContext *context, double em, const RwRig *rig, const RwOutcome *outcome)
{
  const RwColumn columns[] = {
    { C_("column", "No."), RW_ALIGN_RIGHT, 9, 0 },
    { C_("column", "What happens"), RW_ALIGN_LEFT, 24, 0 },
    { C_("column", "Cable, device or line"), RW_ALIGN_LEFT, 24, 1 },
    { C_("column", "From"), RW_ALIGN_LEFT, 24, 1 },
    { C_("column", "To"), RW_ALIGN_LEFT, 24, 1 },
  };
  RwTableLayout *table = rw_table_layout_new (context, em, columns, G_N_ELEMENTS (columns));
  g_autoptr (GPtrArray) rows = rw_failure_rows (rig, outcome);

  for (guint i = 0; i < rows->len; i++)
    {
      const RwFailureRow *row = g_ptr_array_index (rows, i);
      Cells cells = { .n = 0 };

      cell (&cells, g_strdup_printf ("%u", i + 1));
      cell (&cells, g_strdup (rw_failure_word (row)));
      cell (&cells, g_strdup (row->name != NULL && *row->name != '\0' ? row->name : "—"));
      cell (&cells, g_strdup (row->from != NULL ? row->from : "—"));
      cell (&cells, g_strdup (row->to != NULL ? row->to : "—"));
      cells_add (&cells, table, NULL);
    }
  return table;
}
