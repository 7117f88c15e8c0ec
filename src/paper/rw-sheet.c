/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-sheet.h"

#define INCH 25.4

/* ISO 216 and ASME Y14.1; legal after common practice in North America. */
static const RwPaper papers[] = {
  { "a5", N_("A5"), 148, 210 },
  { "a4", N_("A4"), 210, 297 },
  { "a3", N_("A3"), 297, 420 },
  { "a2", N_("A2"), 420, 594 },
  { "a1", N_("A1"), 594, 841 },
  { "a0", N_("A0"), 841, 1189 },
  { "letter", N_("Letter"), 8.5 * INCH, 11 * INCH },
  { "legal", N_("Legal"), 8.5 * INCH, 14 * INCH },
  { "tabloid", N_("Tabloid"), 11 * INCH, 17 * INCH },
  { "ansi-c", N_("ANSI C"), 17 * INCH, 22 * INCH },
  { "ansi-d", N_("ANSI D"), 22 * INCH, 34 * INCH },
  { "ansi-e", N_("ANSI E"), 34 * INCH, 44 * INCH },
};

guint
rw_n_papers (void)
{
  return G_N_ELEMENTS (papers);
}

const RwPaper *
rw_paper (guint index)
{
  g_return_val_if_fail (index < G_N_ELEMENTS (papers), NULL);

  return &papers[index];
}

/**
 * rw_paper_find: the paper called @name, in small or capital letters; NULL if there is none.
 */
const RwPaper *
rw_paper_find (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (papers); i++)
    if (g_ascii_strcasecmp (papers[i].name, name) == 0)
      return &papers[i];
  return NULL;
}

/**
 * rw_sheet_options_init: A3 on its long side, the drawing fitted, in colour, with balloons.
 */
void
rw_sheet_options_init (RwSheetOptions *options)
{
  *options = (RwSheetOptions) { .paper = rw_paper_find ("a3"), .balloons = TRUE };
}
