/* SPDX-License-Identifier: MIT */
#include "rw-line-cell.h"

#include <glib/gi18n-lib.h>

#define PAD_X 7
#define PAD_Y 3
#define HANDLE 7      /* px: side of the square to fill down by */
#define HANDLE_REACH 11
#define TICK 14       /* px: side of the box of phantom power */
#define ARROW 20      /* px: room of the arrow that opens a list */

struct _RwLineCell
{
  GtkWidget parent_instance;
  GtkListItem *item; /* not owned: it owns the cell */
  RwLineColumn column;
  RwLineRow *row;    /* (nullable): while bound */
  PangoLayout *layout;
  GtkWidget *entry;  /* (nullable): while typed in */
  guint state;       /* of RwLineCellState */
};

G_DEFINE_FINAL_TYPE (RwLineCell, rw_line_cell, GTK_TYPE_WIDGET)

static gboolean
is_number (RwLineColumn column)
{
  return column == RW_LINE_SOCKET || column == RW_LINE_CHANNEL || column == RW_LINE_STRIP || column == RW_LINE_GAIN
         || column == RW_LINE_HIGH_PASS;
}

RwLineColumn
rw_line_cell_get_column (RwLineCell *cell)
{
  return cell->column;
}

guint
rw_line_cell_get_position (RwLineCell *cell)
{
  return gtk_list_item_get_position (cell->item);
}

static void
show_text (RwLineCell *cell)
{
  g_autofree char *text = NULL;
  g_autofree char *label = NULL;
  const RwLine *line;
  gboolean invites;

  if (cell->row == NULL)
    return;
  line = rw_line_row_get (cell->row);
  text = rw_line_row_text (cell->row, cell->column);
  g_strdelimit (text, "\n\r\t", ' ');
  invites = cell->column == RW_LINE_NAME && *text == '\0' && rw_line_row_is_blank (cell->row);
  pango_layout_set_text (cell->layout, invites ? _("New line…") : text, -1);
  if (invites)
    gtk_widget_add_css_class (GTK_WIDGET (cell), "rw-invites");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (cell), "rw-invites");
  label = g_strdup_printf ("%s: %s", rw_line_column_title (line->side, cell->column), text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (cell), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_widget_queue_draw (GTK_WIDGET (cell));
}

static void
row_changed (RwLineRow *row, gpointer user_data)
{
  show_text (user_data);
}

void
rw_line_cell_bind (RwLineCell *cell)
{
  rw_line_cell_unbind (cell);
  cell->row = g_object_ref (gtk_list_item_get_item (cell->item));
  g_signal_connect (cell->row, "changed", G_CALLBACK (row_changed), cell);
  show_text (cell);
}

void
rw_line_cell_unbind (RwLineCell *cell)
{
  rw_line_cell_end_edit (cell);
  if (cell->row != NULL)
    g_signal_handlers_disconnect_by_data (cell->row, cell);
  g_clear_object (&cell->row);
}

void
rw_line_cell_set_state (RwLineCell *cell, guint state)
{
  static const char *const classes[] = { "rw-in-range", "rw-at-cursor", NULL, "rw-in-fill" };
  guint changed = cell->state ^ state;

  cell->state = state;
  for (guint i = 0; i < G_N_ELEMENTS (classes); i++)
    if (classes[i] != NULL && (changed & state & (1u << i)))
      gtk_widget_add_css_class (GTK_WIDGET (cell), classes[i]);
    else if (classes[i] != NULL && (changed & (1u << i)))
      gtk_widget_remove_css_class (GTK_WIDGET (cell), classes[i]);
  if (changed != 0)
    gtk_widget_queue_allocate (GTK_WIDGET (cell)); /* the arrow takes room from the text */
}

/* Whether what stands in the column is one of a list. */
gboolean
rw_line_cell_chooses (RwLineColumn column)
{
  return column == RW_LINE_SOURCE || column == RW_LINE_STAGE || column == RW_LINE_CONSOLE;
}

static gboolean
has_arrow (RwLineCell *cell)
{
  return rw_line_cell_chooses (cell->column) && (cell->state & RW_LINE_CELL_AT_CURSOR) != 0;
}

RwLineCellSpot
rw_line_cell_get_spot (RwLineCell *cell, double x, double y)
{
  int width = gtk_widget_get_width (GTK_WIDGET (cell)), height = gtk_widget_get_height (GTK_WIDGET (cell));

  if (cell->entry != NULL)
    return RW_LINE_CELL_PLAIN;
  if ((cell->state & RW_LINE_CELL_CORNER) != 0 && x >= width - HANDLE_REACH && y >= height - HANDLE_REACH)
    return RW_LINE_CELL_HANDLE;
  if (cell->column == RW_LINE_PHANTOM && x <= 2 * PAD_X + TICK)
    return RW_LINE_CELL_TICK;
  return has_arrow (cell) && x >= width - ARROW ? RW_LINE_CELL_ARROW : RW_LINE_CELL_PLAIN;
}

void
rw_line_cell_begin_edit (RwLineCell *cell, const char *text)
{
  if (cell->entry != NULL)
    return;
  cell->entry = gtk_text_new ();
  gtk_editable_set_text (GTK_EDITABLE (cell->entry), text);
  gtk_editable_set_alignment (GTK_EDITABLE (cell->entry), is_number (cell->column) ? 1 : 0);
  gtk_accessible_update_property (GTK_ACCESSIBLE (cell->entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  rw_line_column_title (rw_line_row_get (cell->row)->side, cell->column), -1);
  gtk_widget_add_css_class (GTK_WIDGET (cell), "rw-typed");
  gtk_widget_set_parent (cell->entry, GTK_WIDGET (cell));
  gtk_widget_grab_focus (cell->entry);
  gtk_editable_set_position (GTK_EDITABLE (cell->entry), -1);
}

void
rw_line_cell_end_edit (RwLineCell *cell)
{
  if (cell->entry == NULL)
    return;
  gtk_widget_remove_css_class (GTK_WIDGET (cell), "rw-typed");
  gtk_widget_remove_css_class (GTK_WIDGET (cell), "rw-refused");
  g_clear_pointer (&cell->entry, gtk_widget_unparent);
  gtk_widget_queue_draw (GTK_WIDGET (cell));
}

void
rw_line_cell_refuse (RwLineCell *cell, gboolean choose)
{
  g_return_if_fail (cell->entry != NULL);
  gtk_widget_add_css_class (GTK_WIDGET (cell), "rw-refused");
  gtk_accessible_update_state (GTK_ACCESSIBLE (cell->entry), GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE, -1);
  if (choose)
    gtk_editable_select_region (GTK_EDITABLE (cell->entry), 0, -1);
}

void
rw_line_cell_grab_focus (RwLineCell *cell)
{
  gtk_widget_grab_focus (cell->entry != NULL ? cell->entry : GTK_WIDGET (cell));
}

/* Returns: (nullable): the entry, while it is typed in */
GtkWidget *
rw_line_cell_get_entry (RwLineCell *cell)
{
  return cell->entry;
}

/* Returns: (nullable): what is typed so far; %NULL = it is not typed in */
const char *
rw_line_cell_get_edited (RwLineCell *cell)
{
  return cell->entry != NULL ? gtk_editable_get_text (GTK_EDITABLE (cell->entry)) : NULL;
}

static void
rw_line_cell_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                      int *minimum_baseline, int *natural_baseline)
{
  RwLineCell *cell = RW_LINE_CELL (widget);
  int height;

  pango_layout_get_pixel_size (cell->layout, NULL, &height);
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 2 * PAD_X + 20 : height + 2 * PAD_Y;
}

static void
rw_line_cell_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  RwLineCell *cell = RW_LINE_CELL (widget);
  int least;

  pango_layout_set_width (cell->layout, MAX (width - 2 * PAD_X - (has_arrow (cell) ? ARROW - PAD_X : 0), 1) * PANGO_SCALE);
  if (cell->entry == NULL)
    return;
  gtk_widget_measure (cell->entry, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_size_allocate (cell->entry, &(GtkAllocation) { PAD_X, PAD_Y, MAX (width - 2 * PAD_X, least), MAX (height - 2 * PAD_Y, 1) }, -1);
}

static GdkRGBA
find_colour (RwLineCell *cell, const char *name)
{
  GtkStyleContext *style = gtk_widget_get_style_context (GTK_WIDGET (cell));
  GdkRGBA colour;

  if (name == NULL || !gtk_style_context_lookup_color (style, name, &colour))
    gtk_style_context_get_color (style, &colour);
  return colour;
}

static void
draw_handle (RwLineCell *cell, GtkSnapshot *snapshot)
{
  float width = (float) gtk_widget_get_width (GTK_WIDGET (cell)), height = (float) gtk_widget_get_height (GTK_WIDGET (cell));
  GdkRGBA edge = find_colour (cell, "theme_base_color"), fill = find_colour (cell, "theme_selected_bg_color");

  gtk_snapshot_append_color (snapshot, &edge, &GRAPHENE_RECT_INIT (width - HANDLE - 1, height - HANDLE - 1, HANDLE + 1, HANDLE + 1));
  gtk_snapshot_append_color (snapshot, &fill, &GRAPHENE_RECT_INIT (width - HANDLE, height - HANDLE, HANDLE, HANDLE));
}

static void
draw_lines (cairo_t *cr, const double (*points)[2], guint n, double scale)
{
  for (guint i = 0; i < n; i++)
    cairo_line_to (cr, points[i][0] * scale, points[i][1] * scale);
  cairo_stroke (cr);
}

static void
draw_arrow (RwLineCell *cell, GtkSnapshot *snapshot)
{
  static const double points[][2] = { { 0.3, 0.4 }, { 0.5, 0.6 }, { 0.7, 0.4 } };
  int width = gtk_widget_get_width (GTK_WIDGET (cell)), height = gtk_widget_get_height (GTK_WIDGET (cell));
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT ((float) (width - ARROW), 0, ARROW, (float) height));
  GdkRGBA colour = find_colour (cell, NULL);

  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_set_line_width (cr, 1.5);
  cairo_translate (cr, width - ARROW, (height - ARROW) / 2.0);
  draw_lines (cr, points, G_N_ELEMENTS (points), ARROW);
  cairo_destroy (cr);
}

/* An empty box, or a filled one with a tick in it: seen without reading, and apart without colour. */
static void
draw_tick (RwLineCell *cell, GtkSnapshot *snapshot)
{
  static const double points[][2] = { { 0.22, 0.52 }, { 0.42, 0.72 }, { 0.78, 0.3 } };
  g_autofree char *text = cell->row != NULL ? rw_line_row_text (cell->row, RW_LINE_PHANTOM) : NULL;
  gboolean on = rw_line_says_something (text);
  double top = (gtk_widget_get_height (GTK_WIDGET (cell)) - TICK) / 2;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (PAD_X - 1, (float) top - 1, TICK + 2, TICK + 2));
  GdkRGBA colour = find_colour (cell, on ? "theme_selected_bg_color" : NULL);

  colour.alpha = on ? 1 : 0.65f;
  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_translate (cr, PAD_X, top);
  cairo_set_line_width (cr, 1);
  cairo_rectangle (cr, 0.5, 0.5, TICK - 1, TICK - 1);
  if (on)
    cairo_fill_preserve (cr);
  cairo_stroke (cr);
  if (on)
    {
      colour = find_colour (cell, "theme_selected_fg_color");
      gdk_cairo_set_source_rgba (cr, &colour);
      cairo_set_line_width (cr, 2);
      draw_lines (cr, points, G_N_ELEMENTS (points), TICK);
    }
  cairo_destroy (cr);
}

static void
rw_line_cell_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  RwLineCell *cell = RW_LINE_CELL (widget);
  int height;

  if (cell->entry != NULL)
    {
      gtk_widget_snapshot_child (widget, cell->entry, snapshot);
      return;
    }
  pango_layout_get_pixel_size (cell->layout, NULL, &height);
  if (cell->column == RW_LINE_PHANTOM)
    draw_tick (cell, snapshot);
  else
    gtk_snapshot_render_layout (snapshot, gtk_widget_get_style_context (widget), PAD_X,
                                (gtk_widget_get_height (widget) - height) / 2, cell->layout);
  if (has_arrow (cell))
    draw_arrow (cell, snapshot);
  if ((cell->state & RW_LINE_CELL_CORNER) != 0)
    draw_handle (cell, snapshot);
}

static void
rw_line_cell_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  RwLineCell *cell = RW_LINE_CELL (widget);

  GTK_WIDGET_CLASS (rw_line_cell_parent_class)->css_changed (widget, change);
  if (cell->layout != NULL)
    pango_layout_context_changed (cell->layout);
}

static void
rw_line_cell_dispose (GObject *object)
{
  RwLineCell *cell = RW_LINE_CELL (object);

  rw_line_cell_unbind (cell);
  g_clear_object (&cell->layout);
  G_OBJECT_CLASS (rw_line_cell_parent_class)->dispose (object);
}

static void
rw_line_cell_class_init (RwLineCellClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rw_line_cell_dispose;
  widget_class->measure = rw_line_cell_measure;
  widget_class->size_allocate = rw_line_cell_size_allocate;
  widget_class->snapshot = rw_line_cell_snapshot;
  widget_class->css_changed = rw_line_cell_css_changed;
  gtk_widget_class_set_css_name (widget_class, "linecell");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GRID_CELL);
}

static void
rw_line_cell_init (RwLineCell *cell)
{
  cell->layout = gtk_widget_create_pango_layout (GTK_WIDGET (cell), NULL);
  pango_layout_set_ellipsize (cell->layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_single_paragraph_mode (cell->layout, TRUE);
  gtk_widget_set_focusable (GTK_WIDGET (cell), TRUE);
}

GtkWidget *
rw_line_cell_new (RwLineColumn column, GtkListItem *item)
{
  RwLineCell *cell = g_object_new (RW_TYPE_LINE_CELL, NULL);

  cell->column = column;
  cell->item = item;
  pango_layout_set_alignment (cell->layout, is_number (column) ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
  return GTK_WIDGET (cell);
}

/* Widths that hold what usually stands there at the usual text size, px. */
static const int widths[] = {
  [RW_LINE_NAME] = 180,  [RW_LINE_STAGE] = 130,  [RW_LINE_SOCKET] = 64, [RW_LINE_CONSOLE] = 120,
  [RW_LINE_CHANNEL] = 74, [RW_LINE_STRIP] = 60, [RW_LINE_SOURCE] = 168, [RW_LINE_PHANTOM] = 84,
  [RW_LINE_GAIN] = 72, [RW_LINE_HIGH_PASS] = 84, [RW_LINE_STAND] = 110, [RW_LINE_NOTES] = 150,
};
#define HEAD_ROUND 34 /* px beside the words of a column's head */
G_STATIC_ASSERT (G_N_ELEMENTS (widths) == RW_LINE_N_COLUMNS);

/**
 * rw_line_cell_width: how wide @column of @list is at first, px: what usually stands in it has room, and so has its head
 * in every language, with the arrow that tells the order.
 */
int
rw_line_cell_width (GtkWidget *list, RwLineSide side, RwLineColumn column)
{
  PangoLayout *head;
  PangoAttrList *bold;
  int width;

  g_return_val_if_fail (GTK_IS_WIDGET (list) && column < G_N_ELEMENTS (widths), 0);

  head = gtk_widget_create_pango_layout (list, rw_line_column_title (side, column));
  bold = pango_attr_list_new ();
  pango_attr_list_insert (bold, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  pango_layout_set_attributes (head, bold);
  pango_layout_get_pixel_size (head, &width, NULL);
  pango_attr_list_unref (bold);
  g_object_unref (head);
  return MAX (widths[column], width + HEAD_ROUND);
}
