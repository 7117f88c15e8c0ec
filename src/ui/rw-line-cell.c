/* SPDX-License-Identifier: MIT */
#include "rw-line-cell.h"

#define PAD_X 7
#define PAD_Y 3

struct _RwLineCell
{
  GtkWidget parent_instance;
  GtkListItem *item; /* not owned: it owns the cell */
  RwLineColumn column;
  RwLineRow *row;    /* (nullable): while bound */
  PangoLayout *layout;
  GtkWidget *entry;  /* (nullable): while typed in */
  gboolean in_range, at_cursor;
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

  if (cell->row == NULL)
    return;
  line = rw_line_row_get (cell->row);
  text = rw_line_text (line, cell->column);
  g_strdelimit (text, "\n\r\t", ' ');
  pango_layout_set_text (cell->layout, text, -1);
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

static void
set_class (RwLineCell *cell, gboolean *now, gboolean wanted, const char *name)
{
  if (*now == wanted)
    return;
  *now = wanted;
  if (wanted)
    gtk_widget_add_css_class (GTK_WIDGET (cell), name);
  else
    gtk_widget_remove_css_class (GTK_WIDGET (cell), name);
}

void
rw_line_cell_set_state (RwLineCell *cell, gboolean in_range, gboolean at_cursor)
{
  set_class (cell, &cell->in_range, in_range, "rw-in-range");
  set_class (cell, &cell->at_cursor, at_cursor, "rw-at-cursor");
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
  g_clear_pointer (&cell->entry, gtk_widget_unparent);
  gtk_widget_queue_draw (GTK_WIDGET (cell));
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

  pango_layout_set_width (cell->layout, MAX (width - 2 * PAD_X, 1) * PANGO_SCALE);
  if (cell->entry == NULL)
    return;
  gtk_widget_measure (cell->entry, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_size_allocate (cell->entry, &(GtkAllocation) { PAD_X, PAD_Y, MAX (width - 2 * PAD_X, least), MAX (height - 2 * PAD_Y, 1) }, -1);
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
  gtk_snapshot_render_layout (snapshot, gtk_widget_get_style_context (widget), PAD_X,
                              (gtk_widget_get_height (widget) - height) / 2, cell->layout);
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
