/* SPDX-License-Identifier: MIT */
#include "rw-table-width.h"

#define ROUNDING 1e-6 /* mm */

static double
sum_of (const double *numbers, guint n)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += numbers[i];
  return sum;
}

/* Which column goes next, where there is no room for all of them; the number of columns = none. */
static guint
next_to_yield (const RwTableWidths *w)
{
  guint next = w->n;

  for (guint i = 0; i < w->n; i++)
    {
      guint yields = w->columns[i].yields;

      if (yields > 0 && !w->yielded[i] && (next == w->n || yields < w->columns[next].yields))
        next = i;
    }
  return next;
}

/* Takes columns out until each of the others has the width that it is meant to have at least, or all that it needs. */
static void
let_yield (RwTableWidths *w)
{
  double sum = 0;

  for (guint i = 0; i < w->n; i++)
    {
      w->yielded[i] = FALSE;
      sum += MIN (w->natural[i], w->least[i]);
    }
  while (sum > w->width)
    {
      guint i = next_to_yield (w);

      if (i == w->n)
        return;
      sum -= MIN (w->natural[i], w->least[i]);
      w->yielded[i] = TRUE;
      w->natural[i] = w->least[i] = w->whole[i] = w->heads[i] = w->words[i] = 0;
    }
}

/* What part of the room that is left over goes to the column beside that by its width. */
static double
grow_share (const RwTableWidths *w, guint column)
{
  double grow = 0;
  guint n = 0;

  for (guint i = 0; i < w->n; i++)
    {
      grow += w->yielded[i] ? 0 : w->columns[i].grow;
      n += !w->yielded[i];
    }
  if (w->yielded[column])
    return 0;
  return grow > 0 ? w->columns[column].grow / grow : 1.0 / n;
}

static double
wanted (const RwTableWidths *w, guint column)
{
  return MAX (w->natural[column], w->least[column]);
}

/* What columns are meant to have but do not need goes to those whose text needs it, from each the same part. */
static void
give_room (RwTableWidths *w, double missing)
{
  double spare = 0, part;

  for (guint i = 0; i < w->n; i++)
    spare += MAX (0, w->least[i] - w->natural[i]);
  part = spare > 0 ? MIN (1, missing / spare) : 0;
  for (guint i = 0; i < w->n; i++)
    w->least[i] -= part * MAX (0, w->least[i] - w->natural[i]);
}

/* What the columns take where none is wider than @cap, but for their least. */
static double
sum_capped (const RwTableWidths *w, double cap)
{
  double sum = 0;

  for (guint i = 0; i < w->n; i++)
    sum += MIN (wanted (w, i), MAX (w->least[i], cap));
  return sum;
}

/* All wide columns are cut to one width, so that short ones keep their lines whole. */
static void
cap_widths (RwTableWidths *w)
{
  double low = 0, high = w->width;

  for (guint step = 0; step < 50; step++)
    {
      double cap = (low + high) / 2;

      if (sum_capped (w, cap) > w->width)
        high = cap;
      else
        low = cap;
    }
  for (guint i = 0; i < w->n; i++)
    w->result[i] = MIN (wanted (w, i), MAX (w->least[i], low));
}

/* Brings the columns down toward @floors, all by the same part of what they have over it, until they fit or are there. */
static void
shrink (RwTableWidths *w, const double *floors)
{
  double sum = sum_of (w->result, w->n), least = 0, part;

  for (guint i = 0; i < w->n; i++)
    least += MIN (floors[i], w->result[i]);
  if (sum <= w->width)
    return;
  part = MAX (0, (w->width - least) / (sum - least));
  for (guint i = 0; i < w->n && least < sum; i++)
    {
      double floor_width = MIN (floors[i], w->result[i]);

      w->result[i] = floor_width + (w->result[i] - floor_width) * part;
    }
}

/**
 * rw_table_share_width: where there is no room for what the columns are meant to have at least, those that yield are
 * taken out, and their numbers in @widths become 0. Then: columns as wide as their text where there is room, if need be
 * that which others are meant to have but do not need; else all wide ones cut to one width. Where even the least widths are too many, they go down to their words; then long words are
 * parted, then those of the heads, and then all.
 */
void
rw_table_share_width (RwTableWidths *widths)
{
  double sum;

  let_yield (widths);
  sum = sum_capped (widths, G_MAXDOUBLE);
  if (sum > widths->width)
    {
      give_room (widths, sum - widths->width);
      sum = sum_capped (widths, G_MAXDOUBLE);
    }
  if (sum <= widths->width + ROUNDING)
    {
      for (guint i = 0; i < widths->n; i++)
        widths->result[i] = wanted (widths, i) + (0.5 * wanted (widths, i) / sum + 0.5 * grow_share (widths, i)) * (widths->width - sum);
      return;
    }
  cap_widths (widths);
  shrink (widths, widths->whole);
  shrink (widths, widths->heads);
  shrink (widths, widths->words);
  sum = sum_of (widths->result, widths->n);
  for (guint i = 0; i < widths->n && sum > widths->width; i++)
    widths->result[i] *= widths->width / sum;
}
