/* SPDX-License-Identifier: MIT */
#include "rw-canvas-private.h"
#include "rw-frame-memory.h"

#include <glib/gi18n-lib.h>

G_DEFINE_FINAL_TYPE (RwCanvas, rw_canvas, GTK_TYPE_WIDGET)

enum { PROP_DOCUMENT = 1, PROP_TOOL, PROP_DARK_SHEET, PROP_BALLOONS, PROP_FINDING, PROP_ZOOM, PROP_INVITATION, PROP_LENS, PROP_LEGEND, PROP_FAILED, PROP_PATH, N_PROPS };
static GParamSpec *props[N_PROPS];
static guint signals[RW_CANVAS_N_SIGNALS];

typedef RwPart RwDraggedPart;

static RwDraggedPart *
dragged_part_ref (RwDraggedPart *part)
{
  return rw_item_ref (part);
}

static void
dragged_part_unref (RwDraggedPart *part)
{
  rw_item_unref (part);
}

G_DEFINE_BOXED_TYPE (RwDraggedPart, rw_dragged_part, dragged_part_ref, dragged_part_unref)

void
rw_canvas_emit (RwCanvas *self, RwCanvasSignal signal, ...)
{
  va_list args;

  va_start (args, signal);
  g_signal_emit_valist (self, signals[signal], 0, args);
  va_end (args);
}

/* --- The document --- */

static void
update_invitation (RwCanvas *self)
{
  gboolean empty = self->document != NULL && rw_rig_n (rw_document_rig (self->document), RW_ITEM_DEVICE) == 0;

  gtk_widget_set_visible (self->invitation_label, empty);
  gtk_widget_set_visible (self->demo_button, empty);
}

static void
document_changed_cb (RwDocument *document, guint what, RwChange *change, RwCanvas *self)
{
  if (self->working != NULL)
    {
      rw_tool_drop (self->working);
      rw_canvas_after_tool (self);
    }
  if (what & RW_DOCUMENT_ANALYSIS)
    rw_canvas_set_finding (self, -1);
  rw_canvas_layers_scene_changed (self);
  rw_canvas_view_sheet_changed (self);
  if (what & RW_DOCUMENT_WHOLE)
    rw_canvas_zoom_fit (self);
  update_invitation (self);
  rw_canvas_access_changed (self);
}

static void
selection_changed_cb (RwSelection *selection, RwCanvas *self)
{
  rw_canvas_path_changed (self);
  rw_canvas_marks_changed (self);
  rw_canvas_access_changed (self);
}

static void
drop_document (RwCanvas *self)
{
  if (self->document == NULL)
    return;
  g_signal_handlers_disconnect_by_data (rw_document_selection (self->document), self);
  g_signal_handlers_disconnect_by_data (self->document, self);
  self->working = NULL;
  for (guint i = 0; i < RW_N_TOOLS; i++)
    g_clear_pointer (&self->tools[i], rw_tool_free);
  g_clear_object (&self->document);
}

void
rw_canvas_set_document (RwCanvas *self, RwDocument *document)
{
  g_return_if_fail (RW_IS_CANVAS (self) && RW_IS_DOCUMENT (document));
  if (document == self->document)
    return;
  g_object_ref (document);
  drop_document (self);
  g_hash_table_remove_all (self->failed);
  self->document = document;
  self->finding = -1;
  for (guint i = 0; i < RW_N_TOOLS; i++)
    self->tools[i] = rw_tool_new (i, document);
  g_signal_connect (document, "changed", G_CALLBACK (document_changed_cb), self);
  g_signal_connect (rw_document_selection (document), "changed", G_CALLBACK (selection_changed_cb), self);
  rw_canvas_layers_scene_changed (self);
  rw_canvas_view_sheet_changed (self);
  rw_canvas_zoom_fit (self);
  update_invitation (self);
  rw_canvas_access_changed (self);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_DOCUMENT]);
}

RwDocument *
rw_canvas_document (RwCanvas *self)
{
  return self->document;
}

/* --- What it shows --- */

void
rw_canvas_set_tool (RwCanvas *self, RwToolKind kind)
{
  g_return_if_fail (RW_IS_CANVAS (self) && kind < RW_N_TOOLS);
  if (kind == self->mode)
    return;
  if (self->working != NULL)
    {
      rw_tool_cancel (self->working);
      rw_canvas_after_tool (self);
    }
  self->mode = kind;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), kind == RW_TOOL_PAN ? "grab" : kind == RW_TOOL_THREAD ? "crosshair" : NULL);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_TOOL]);
}

RwToolKind
rw_canvas_tool (RwCanvas *self)
{
  return self->mode;
}

void
rw_canvas_set_finding (RwCanvas *self, int index)
{
  g_return_if_fail (RW_IS_CANVAS (self));
  if (index == self->finding || self->document == NULL)
    return;
  if (index >= (int) rw_findings_n (rw_document_findings (self->document)))
    index = -1;
  self->finding = index;
  rw_canvas_marks_changed (self);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_FINDING]);
}

static GArray *
copy_indices (const GArray *indices)
{
  GArray *copy = g_array_new (FALSE, FALSE, sizeof (guint));

  return g_array_append_vals (copy, indices->data, indices->len);
}

static RwRect
join (RwRect a, RwRect b)
{
  double x = MIN (a.x, b.x), y = MIN (a.y, b.y);

  return (RwRect) { x, y, MAX (a.x + a.w, b.x + b.w) - x, MAX (a.y + a.h, b.y + b.h) - y };
}

/* All of a way must be seen, or it is none. */
static void
show_way (RwCanvas *self)
{
  RwScene *scene = rw_document_scene (self->document);
  RwRect area = { 0 };

  for (guint i = 0; i < self->way_devices->len; i++)
    {
      RwRect bounds = rw_scene_device (scene, g_array_index (self->way_devices, guint, i))->bounds;
      area = i == 0 ? bounds : join (area, bounds);
    }
  for (guint i = 0; i < self->way_cables->len; i++)
    area = join (area, rw_scene_cable (scene, g_array_index (self->way_cables, guint, i))->bounds);
  if (self->way_devices->len > 0)
    rw_canvas_show_area (self, area);
}

/* As rw_canvas_set_way(), but nothing is brought into sight. */
void
rw_canvas_light_way (RwCanvas *self, const GArray *devices, const GArray *cables)
{
  g_clear_pointer (&self->way_devices, g_array_unref);
  g_clear_pointer (&self->way_cables, g_array_unref);
  self->way_devices = copy_indices (devices);
  self->way_cables = copy_indices (cables);
  rw_canvas_marks_changed (self);
}

void
rw_canvas_set_way (RwCanvas *self, const GArray *devices, const GArray *cables)
{
  g_return_if_fail (RW_IS_CANVAS (self));
  if (devices == NULL && self->way_devices == NULL)
    return;
  g_clear_pointer (&self->way_devices, g_array_unref);
  g_clear_pointer (&self->way_cables, g_array_unref);
  if (devices != NULL)
    {
      rw_canvas_light_way (self, devices, cables);
      show_way (self);
    }
  rw_canvas_marks_changed (self);
}

const RwOverlay *
rw_canvas_overlay (RwCanvas *self)
{
  return rw_tool_overlay (self->working != NULL ? self->working : self->tools[RW_TOOL_PLACE]);
}

static void
repaint_all (RwCanvas *self)
{
  rw_tiles_drop (self->tiles);
  rw_canvas_marks_changed (self);
}

/* --- The widget --- */

static void
rw_canvas_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  RwCanvas *self = RW_CANVAS (object);

  switch (id)
    {
    case PROP_DOCUMENT:
      g_value_set_object (value, self->document);
      break;
    case PROP_TOOL:
      g_value_set_int (value, self->mode);
      break;
    case PROP_DARK_SHEET:
      g_value_set_boolean (value, self->dark_sheet);
      break;
    case PROP_BALLOONS:
      g_value_set_boolean (value, self->balloons);
      break;
    case PROP_FINDING:
      g_value_set_int (value, self->finding);
      break;
    case PROP_LENS:
      g_value_set_string (value, rw_lens_info (self->lens_kind)->name);
      break;
    case PROP_LEGEND:
      g_value_set_boolean (value, self->legend_shown);
      break;
    case PROP_FAILED:
      g_value_set_uint (value, rw_canvas_n_failed (self));
      break;
    case PROP_PATH:
      g_value_set_boolean (value, self->path_shown);
      break;
    case PROP_ZOOM:
      g_value_set_double (value, self->zoom);
      break;
    case PROP_INVITATION:
      g_value_set_string (value, self->invitation);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
set_lens_by_name (RwCanvas *self, const char *name)
{
  RwLensKind kind;

  if (name != NULL && rw_lens_find (name, &kind))
    rw_canvas_set_lens (self, kind, NULL);
}

static void
rw_canvas_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  RwCanvas *self = RW_CANVAS (object);

  switch (id)
    {
    case PROP_DOCUMENT:
      if (g_value_get_object (value) != NULL)
        rw_canvas_set_document (self, g_value_get_object (value));
      break;
    case PROP_TOOL:
      rw_canvas_set_tool (self, g_value_get_int (value));
      break;
    case PROP_DARK_SHEET:
      self->dark_sheet = g_value_get_boolean (value);
      (self->dark_sheet ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (self->invitation_label, "on-dark-sheet");
      repaint_all (self);
      break;
    case PROP_BALLOONS:
      self->balloons = g_value_get_boolean (value);
      repaint_all (self);
      break;
    case PROP_LENS:
      set_lens_by_name (self, g_value_get_string (value));
      break;
    case PROP_PATH:
      rw_canvas_show_path (self, g_value_get_boolean (value));
      break;
    case PROP_LEGEND:
      self->legend_shown = g_value_get_boolean (value);
      rw_canvas_legend_settle (self);
      gtk_widget_queue_draw (GTK_WIDGET (self));
      break;
    case PROP_FINDING:
      rw_canvas_set_finding (self, g_value_get_int (value));
      break;
    case PROP_INVITATION:
      g_free (self->invitation);
      self->invitation = g_value_dup_string (value);
      gtk_label_set_label (GTK_LABEL (self->invitation_label), self->invitation != NULL ? self->invitation : "");
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
rw_canvas_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                   int *minimum_baseline, int *natural_baseline)
{
  *minimum = 120;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 800 : 560;
}

static void
allocate_at (GtkWidget *child, int x, int y, int width, int height)
{
  gtk_widget_size_allocate (child, &(GtkAllocation) { x, y, width, height }, -1);
}

static void
allocate_invitation (RwCanvas *self, int width, int height)
{
  GtkWidget *const children[] = { self->invitation_label, self->demo_button };
  int y = height / 2 - 40;

  for (guint i = 0; i < G_N_ELEMENTS (children); i++)
    {
      GtkRequisition size;

      if (!gtk_widget_get_visible (children[i]))
        continue;
      gtk_widget_get_preferred_size (children[i], NULL, &size);
      size.width = MIN (size.width, width);
      allocate_at (children[i], (width - size.width) / 2, y, size.width, size.height);
      y += size.height + 18;
    }
}

static void
rw_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  RwCanvas *self = RW_CANVAS (widget);
  int bar_width, bar_height;

  /* First: it shows and hides the bars, and a hidden one measures nothing. */
  rw_canvas_view_allocate (self, width, height);
  gtk_widget_measure (self->bars[1], GTK_ORIENTATION_HORIZONTAL, -1, NULL, &bar_width, NULL, NULL);
  gtk_widget_measure (self->bars[0], GTK_ORIENTATION_VERTICAL, -1, NULL, &bar_height, NULL, NULL);
  allocate_at (self->bars[0], 0, height - bar_height, MAX (width - bar_width, 1), bar_height);
  allocate_at (self->bars[1], width - bar_width, 0, bar_width, MAX (height - bar_height, 1));
  allocate_invitation (self, width, height);
}

static void
rw_canvas_realize (GtkWidget *widget)
{
  RwCanvas *self = RW_CANVAS (widget);

  GTK_WIDGET_CLASS (rw_canvas_parent_class)->realize (widget);
  if (rw_canvas_draws_in_software (self))
    self->frame_memory = rw_frame_memory_hold (gtk_widget_get_display (widget));
}

static void
rw_canvas_unrealize (GtkWidget *widget)
{
  RwCanvas *self = RW_CANVAS (widget);

  g_clear_pointer (&self->frame_memory, cairo_surface_destroy);
  GTK_WIDGET_CLASS (rw_canvas_parent_class)->unrealize (widget);
}

/* The desk follows the colours of the window: light text stands on a dark desk. */
static void
rw_canvas_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  RwCanvas *self = RW_CANVAS (widget);
  GdkRGBA colour;
  gboolean dark;

  GTK_WIDGET_CLASS (rw_canvas_parent_class)->css_changed (widget, change);
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  dark = colour.red + colour.green + colour.blue > 1.5;
  if (dark == self->dark_desk)
    return;
  self->dark_desk = dark;
  repaint_all (self);
}

static void
rw_canvas_dispose (GObject *object)
{
  RwCanvas *self = RW_CANVAS (object);
  GtkWidget *child;

  rw_canvas_access_clear (self);
  drop_document (self);
  rw_canvas_lens_clear (self);
  rw_canvas_layers_clear (self);
  rw_canvas_view_clear (self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&self->invitation, g_free);
  g_clear_pointer (&self->failing_from, g_free);
  g_clear_pointer (&self->way_devices, g_array_unref);
  g_clear_pointer (&self->way_cables, g_array_unref);
  G_OBJECT_CLASS (rw_canvas_parent_class)->dispose (object);
}

static void
rw_canvas_finalize (GObject *object)
{
  g_hash_table_unref (RW_CANVAS (object)->failed);
  G_OBJECT_CLASS (rw_canvas_parent_class)->finalize (object);
}

static void
rw_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  RwCanvas *self = RW_CANVAS (widget);
  GtkWidget *const children[] = { self->invitation_label, self->demo_button, self->bars[0], self->bars[1] };

  if (self->document == NULL)
    return;
  rw_canvas_snapshot_marks (self, snapshot);
  rw_canvas_snapshot_moved (self, snapshot);
  rw_canvas_snapshot_moved_marks (self, snapshot);
  rw_canvas_snapshot_overlay (self, snapshot);
  rw_canvas_snapshot_arrows (self, snapshot);
  rw_canvas_snapshot_legend (self, snapshot);
  for (guint i = 0; i < G_N_ELEMENTS (children); i++)
    gtk_widget_snapshot_child (widget, children[i], snapshot);
}

static void
install_properties (GObjectClass *object_class)
{
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  props[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, RW_TYPE_DOCUMENT, flags);
  props[PROP_TOOL] = g_param_spec_int ("tool", NULL, NULL, 0, RW_N_TOOLS - 1, RW_TOOL_SELECT, flags);
  props[PROP_DARK_SHEET] = g_param_spec_boolean ("dark-sheet", NULL, NULL, FALSE, flags);
  props[PROP_BALLOONS] = g_param_spec_boolean ("balloons", NULL, NULL, TRUE, flags);
  props[PROP_FINDING] = g_param_spec_int ("finding", NULL, NULL, -1, G_MAXINT, -1, flags);
  props[PROP_ZOOM] = g_param_spec_double ("zoom", NULL, NULL, RW_CANVAS_MIN_ZOOM, RW_CANVAS_MAX_ZOOM, 1,
                                          G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_LENS] = g_param_spec_string ("lens", NULL, NULL, "wiring", flags);
  props[PROP_FAILED] = g_param_spec_uint ("failed", NULL, NULL, 0, G_MAXUINT, 0, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_PATH] = g_param_spec_boolean ("path", NULL, NULL, FALSE, flags);
  props[PROP_LEGEND] = g_param_spec_boolean ("legend", NULL, NULL, TRUE, flags);
  props[PROP_INVITATION] = g_param_spec_string ("invitation", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
install_signals (GObjectClass *object_class)
{
  static const struct { const char *name; guint n; GType types[2]; } table[RW_CANVAS_N_SIGNALS] = {
    [RW_CANVAS_PARTICULARS] = { "particulars", 0, { 0 } },
    [RW_CANVAS_FINDING_PICKED] = { "finding-picked", 1, { G_TYPE_INT } },
    [RW_CANVAS_DEMO_REQUESTED] = { "demo-requested", 0, { 0 } },
    [RW_CANVAS_INSERT_REQUESTED] = { "insert-requested", 0, { 0 } },
    [RW_CANVAS_FILES_DROPPED] = { "files-dropped", 1, { G_TYPE_POINTER } },
    [RW_CANVAS_CONTEXT_MENU] = { "context-menu", 2, { G_TYPE_DOUBLE, G_TYPE_DOUBLE } },
    [RW_CANVAS_FAILED] = { "failed", 1, { G_TYPE_STRING } },
  };

  for (guint i = 0; i < RW_CANVAS_N_SIGNALS; i++)
    signals[i] = g_signal_newv (table[i].name, G_TYPE_FROM_CLASS (object_class), G_SIGNAL_RUN_LAST, NULL, NULL, NULL,
                                NULL, G_TYPE_NONE, table[i].n, (GType *) table[i].types);
}

static void
rw_canvas_class_init (RwCanvasClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = rw_canvas_dispose;
  object_class->finalize = rw_canvas_finalize;
  object_class->get_property = rw_canvas_get_property;
  object_class->set_property = rw_canvas_set_property;
  widget_class->measure = rw_canvas_measure;
  widget_class->realize = rw_canvas_realize;
  widget_class->unrealize = rw_canvas_unrealize;
  widget_class->size_allocate = rw_canvas_size_allocate;
  widget_class->snapshot = rw_canvas_snapshot;
  widget_class->css_changed = rw_canvas_css_changed;
  gtk_widget_class_set_css_name (widget_class, "sheet");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  install_properties (object_class);
  install_signals (object_class);
}

static void
demo_clicked_cb (GtkButton *button, RwCanvas *self)
{
  rw_canvas_emit (self, RW_CANVAS_DEMO_REQUESTED);
}

static void
make_invitation (RwCanvas *self)
{
  self->invitation = g_strdup (_("Drag a part from the shelf, or press Insert"));
  self->invitation_label = gtk_label_new (self->invitation);
  gtk_widget_add_css_class (self->invitation_label, "title-2");
  gtk_widget_add_css_class (self->invitation_label, "sheet-invitation");
  gtk_widget_set_can_target (self->invitation_label, FALSE);
  gtk_widget_set_parent (self->invitation_label, GTK_WIDGET (self));
  self->demo_button = gtk_button_new_with_mnemonic (_("Open the _demo rig"));
  gtk_widget_add_css_class (self->demo_button, "pill");
  g_signal_connect (self->demo_button, "clicked", G_CALLBACK (demo_clicked_cb), self);
  gtk_widget_set_parent (self->demo_button, GTK_WIDGET (self));
}

static void
rw_canvas_init (RwCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  self->finding = -1;
  self->balloons = TRUE;
  self->legend_shown = TRUE;
  self->failed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->lens_pointed = RW_NONE;
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_vexpand (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Sheet"), -1);
  rw_canvas_layers_init (self);
  rw_canvas_view_init (self);
  make_invitation (self);
  rw_canvas_input_init (self);
  rw_canvas_drop_init (self);
}

GtkWidget *
rw_canvas_new (RwDocument *document)
{
  return g_object_new (RW_TYPE_CANVAS, "document", document, NULL);
}
