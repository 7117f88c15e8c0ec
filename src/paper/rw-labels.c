/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <rig/rw-length.h>
#include <math.h>
#include <string.h>

#include "rw-papers-parts.h"

#define BIG_EM 7.0
#define SMALL_EM 3.4
#define LEAST_EM 1.7     /* lettering of 1.2 mm: labels are read in the hand */
#define PAD 1.5
#define LEAST_LABEL 5.0  /* mm */

static void
label_free (gpointer data)
{
  RwLabelText *label = data;

  g_free (label->big);
  for (guint i = 0; i < G_N_ELEMENTS (label->small); i++)
    g_free (label->small[i]);
  g_free (label);
}

static char *
end_text (const RwNet *net, guint port)
{
  return g_strdup_printf ("%s, %s", rw_device_title (net->devices[net->ports[port].device].device), net->ports[port].port->name);
}

/* Takes @line, which ends with the name of @port: that stays when the line is cut. */
static void
take_end (RwLabelText *label, guint i, char *line, const RwNet *net, guint port)
{
  g_autofree char *tail = g_strdup_printf (", %s", net->ports[port].port->name);

  label->small[i] = line;
  label->keep[i] = g_str_has_suffix (line, tail) ? strlen (tail) : 0;
}

static char *
cable_text (const RwCable *cable)
{
  GString *text = g_string_new (NULL);
  g_autofree char *length = rw_length_text (cable->length_m);

  if (cable->length_m > 0)
    g_string_append_printf (text, "%s, ", length);
  g_string_append (text, _(rw_cable_table.fields[RW_CABLE_GRADE].word_labels[rw_cable_grade (cable)]));
  if (cable->colour != NULL && *cable->colour != '\0')
    g_string_append_printf (text, ", %s", cable->colour);
  return g_string_free (text, FALSE);
}

/* One for each end: what is here stands over what is far. */
static void
add_cable (GPtrArray *labels, const RwNet *net, guint index)
{
  const RwNetCable *cable = &net->cables[index];

  for (guint end = 0; end < 2; end++)
    {
      RwLabelText *label = g_new0 (RwLabelText, 1);
      g_autofree char *here = end_text (net, cable->port[end]);
      g_autofree char *far = end_text (net, cable->port[!end]);

      label->big = g_strdup (rw_cable_title (cable->cable));
      /* Translators: on the label of a cable: the device and port at this end. */
      take_end (label, 0, g_strdup_printf (_("Here: %s"), here), net, cable->port[end]);
      /* Translators: on the label of a cable: the device and port at its other end. */
      take_end (label, 1, g_strdup_printf (_("Far: %s"), far), net, cable->port[!end]);
      label->small[2] = cable_text (cable->cable);
      g_ptr_array_add (labels, label);
    }
}

static void
add_device (GPtrArray *labels, const RwNetDevice *device)
{
  RwLabelText *label = g_new0 (RwLabelText, 1);
  const RwDevice *d = device->device;
  GString *ids = g_string_new (NULL);

  if (rw_item_has (d, RW_DEVICE_UNIT_ID))
    g_string_append_printf (ids, _("Unit ID %d"), d->unit_id);
  if (rw_item_has (d, RW_DEVICE_CONTROLLER_ID))
    {
      g_string_append (ids, ids->len > 0 ? ", " : "");
      g_string_append_printf (ids, _("Controller ID %d"), d->controller_id);
    }
  if (d->addresses.primary != NULL)
    g_string_append_printf (ids, "%s%s", ids->len > 0 ? ", " : "", d->addresses.primary);
  label->big = g_strdup (rw_device_title (d));
  label->small[0] = g_strdup (device->part->name != NULL ? device->part->name : "");
  label->small[1] = g_string_free (ids, FALSE);
  label->small[2] = g_strdup (d->location != NULL ? d->location : "");
  g_ptr_array_add (labels, label);
}

/**
 * rw_labels_new: two labels a cable and one a device, in file order. (transfer full) (element-type RwLabelText).
 */
GPtrArray *
rw_labels_new (const RwPapersSource *source)
{
  GPtrArray *labels = g_ptr_array_new_with_free_func (label_free);

  for (guint i = 0; i < source->net->n_cables; i++)
    add_cable (labels, source->net, i);
  for (guint i = 0; i < source->net->n_devices; i++)
    add_device (labels, &source->net->devices[i]);
  return labels;
}

/**
 * rw_papers_labels_listing: the labels as a table, for label printers. (transfer full).
 */
RwListing *
rw_papers_labels_listing (const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Label"), RW_ALIGN_LEFT, 30, 1 }, 0 },
    { { C_("column", "Line 1"), RW_ALIGN_LEFT, 30, 1 }, 0 },
    { { C_("column", "Line 2"), RW_ALIGN_LEFT, 30, 1 }, 0 },
    { { C_("column", "Line 3"), RW_ALIGN_LEFT, 30, 1 }, 0 },
  };
  RwListing *listing = rw_listing_new ("labels", NULL, columns, G_N_ELEMENTS (columns));
  g_autoptr (GPtrArray) labels = rw_labels_new (source);

  for (guint i = 0; i < labels->len; i++)
    {
      const RwLabelText *label = labels->pdata[i];

      rw_listing_take (listing, g_strdup (label->big), g_strdup (label->small[0]), g_strdup (label->small[1]), g_strdup (label->small[2]),
                       RW_LISTING_END);
    }
  return listing;
}

guint
rw_labels_n_pages (const RwLabelGrid *grid, guint n_labels)
{
  guint a_page = grid->rows * grid->columns;

  return n_labels == 0 ? 0 : (n_labels + grid->first - 1 + a_page - 1) / a_page;
}

/* The width of a label, from what the margins and gaps leave. */
static double
label_width (const RwLabelGrid *grid, double width)
{
  return (width - grid->left - grid->right - grid->gap_x * (grid->columns - 1)) / grid->columns;
}

static double
label_height (const RwLabelGrid *grid, double height)
{
  return (height - grid->top - grid->bottom - grid->gap_y * (grid->rows - 1)) / grid->rows;
}

/* Shrinks to fit; the least lettering may still be too wide. */
static double
fitting_em (const RwDrawOptions *options, const char *text, RwTextStyle style, double width)
{
  double wanted = rw_draw_text_width (options->context, text, style);

  return wanted > width ? MAX (LEAST_EM, style.em * width / wanted * 0.995) : style.em;
}

/* Cuts what is too wide, but never the last @keep bytes: of a device with a long name the port is what counts. */
static void
draw_line (cairo_t *cr, const char *text, gsize keep, RwTextStyle style, RwRect line, const RwDrawOptions *options)
{
  gsize n_head = strlen (text) - keep;
  g_autofree char *head = g_strndup (text, n_head);
  double tail = rw_draw_text_width (options->context, text + n_head, style), middle = RW_RECT_MIDDLE_Y (line);

  if (keep == 0 || tail >= line.w || rw_draw_text_width (options->context, text, style) <= line.w)
    rw_draw_text (cr, options, text, style, line.x, middle, 0, line.w);
  else
    {
      double drawn = rw_draw_text (cr, options, head, style, line.x, middle, 0, line.w - tail);

      rw_draw_text (cr, options, text + n_head, style, line.x + drawn, middle, 0, 0);
    }
}

static void
draw_label (cairo_t *cr, const RwLabelText *label, RwRect cell, const RwDrawOptions *options)
{
  RwRect in = { cell.x + PAD, cell.y + PAD, cell.w - 2 * PAD, cell.h - 2 * PAD };
  double big = MIN (BIG_EM, in.h * 0.32), small = MIN (SMALL_EM, in.h * 0.2);
  double big_line = big * 1.25, line = small * 1.3, y = in.y + MAX (0, (in.h - big_line - 3 * line) / 2);
  RwTextStyle head = { big, TRUE }, lines = { small, FALSE };

  head.em = fitting_em (options, label->big, head, in.w);
  for (guint i = 0; i < G_N_ELEMENTS (label->small); i++)
    lines.em = MIN (lines.em, fitting_em (options, label->small[i], (RwTextStyle) { small, FALSE }, in.w));
  rw_ink_set (cr, RW_INK_TEXT, options);
  draw_line (cr, label->big, 0, head, (RwRect) { in.x, y, in.w, big_line }, options);
  y += big_line;
  for (guint i = 0; i < G_N_ELEMENTS (label->small); i++)
    if (*label->small[i] != '\0')
      {
        draw_line (cr, label->small[i], label->keep[i], lines, (RwRect) { in.x, y, in.w, line }, options);
        y += line;
      }
}

/**
 * rw_labels_draw_page: nothing but the labels, as the sheets are cut already.
 */
void
rw_labels_draw_page (cairo_t *cr, const GPtrArray *labels, const RwLabelGrid *grid, double width, double height, guint page,
                     const RwDrawOptions *options)
{
  guint a_page = grid->rows * grid->columns;
  double w = label_width (grid, width), h = label_height (grid, height);

  for (guint i = 0; i < a_page; i++)
    {
      guint at = page * a_page + i;
      RwRect cell = { grid->left + (i % grid->columns) * (w + grid->gap_x), grid->top + (i / grid->columns) * (h + grid->gap_y), w, h };

      if (at + 1 >= grid->first && at + 1 - grid->first < labels->len)
        draw_label (cr, labels->pdata[at + 1 - grid->first], cell, options);
    }
}

typedef struct
{
  const char *name;
  gsize offset;
} Measure;

static const Measure measures[] = {
  { "top", offsetof (RwLabelGrid, top) }, { "right", offsetof (RwLabelGrid, right) },
  { "bottom", offsetof (RwLabelGrid, bottom) }, { "left", offsetof (RwLabelGrid, left) },
  { "gap-x", offsetof (RwLabelGrid, gap_x) }, { "gap-y", offsetof (RwLabelGrid, gap_y) },
};

static gboolean
read_number (const char *text, double *number)
{
  char *end;

  *number = g_ascii_strtod (text, &end);
  return end > text && *end == '\0' && *number >= 0 && *number <= 1000;
}

static gboolean
read_measure (const char *item, RwLabelGrid *grid)
{
  const char *value = strchr (item, '=');
  double number;

  if (value == NULL || !read_number (value + 1, &number))
    return FALSE;
  if (strncmp (item, "first=", 6) == 0)
    {
      grid->first = (guint) number;
      return number >= 1 && number == floor (number);
    }
  for (guint i = 0; i < G_N_ELEMENTS (measures); i++)
    if (strlen (measures[i].name) == (gsize) (value - item) && strncmp (measures[i].name, item, value - item) == 0)
      {
        *(double *) ((char *) grid + measures[i].offset) = number;
        return TRUE;
      }
  return FALSE;
}

static gboolean
read_counts (const char *item, RwLabelGrid *grid)
{
  char *end;
  guint64 rows = g_ascii_strtoull (item, &end, 10), columns;
  const char *second = end + 1;

  if (end == item || *end != 'x' || !g_ascii_isdigit (*second))
    return FALSE;
  columns = g_ascii_strtoull (second, &end, 10);
  if (*end != '\0' || rows < 1 || rows > 100 || columns < 1 || columns > 100)
    return FALSE;
  grid->rows = (guint) rows;
  grid->columns = (guint) columns;
  return TRUE;
}

/**
 * rw_label_grid_text: what rw_label_grid_parse() reads as @grid. Free with g_free().
 */
char *
rw_label_grid_text (const RwLabelGrid *grid)
{
  GString *text = g_string_new (NULL);
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_printf (text, "%ux%u", grid->rows, grid->columns);
  for (guint i = 0; i < G_N_ELEMENTS (measures); i++)
    g_string_append_printf (text, ",%s=%s", measures[i].name,
                            g_ascii_formatd (number, sizeof number, "%.10g", *(const double *) ((const char *) grid + measures[i].offset)));
  g_string_append_printf (text, ",first=%u", grid->first);
  return g_string_free (text, FALSE);
}

/**
 * rw_label_grid_parse: reads "8x3,top=12,right=8,bottom=12,left=8,gap-x=2.5,gap-y=0,first=1": rows by columns, then
 * margins and gaps in mm and the first label that is not used yet; what is not named stays as it is in @grid.
 */
gboolean
rw_label_grid_parse (const char *text, RwLabelGrid *grid, GError **error)
{
  g_auto (GStrv) items = g_strsplit (text, ",", -1);
  RwLabelGrid read = *grid;

  for (guint i = 0; items[i] != NULL; i++)
    {
      g_strstrip (items[i]);
      if (i == 0 ? !read_counts (items[i], &read) : !read_measure (items[i], &read))
        {
          /* Translators: what was typed. */
          g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE,
                       _("“%s” is no grid of labels: write rows and columns, then measures in mm, such as 8x3,top=12,left=8,gap-x=2.5,first=1"),
                       items[i]);
          return FALSE;
        }
    }
  *grid = read;
  return TRUE;
}

/**
 * rw_label_grid_check: whether labels of a grid are large enough to be written on, on sheets of @paper upright.
 */
gboolean
rw_label_grid_check (const RwLabelGrid *grid, const RwPaper *paper, GError **error)
{
  double w = label_width (grid, paper->width_mm), h = label_height (grid, paper->height_mm);

  if (w >= 2 * LEAST_LABEL && h >= LEAST_LABEL && grid->first <= grid->rows * grid->columns)
    return TRUE;
  if (grid->first > grid->rows * grid->columns)
    g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE, _("there is no label %u on a sheet of %u"), grid->first, grid->rows * grid->columns);
  else
    /* Translators: width and height in mm. */
    g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE, _("labels of %.1f × %.1f mm are too small: they need 10 × 5 mm"), w, h);
  return FALSE;
}
