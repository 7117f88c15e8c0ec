/* SPDX-License-Identifier: MIT */
#include "rw-findings-view.h"

#include <glib/gi18n-lib.h>
#include "rw-finding-count.h"
#include "rw-finding-list.h"
#include "rw-finding-row.h"
#include "rw-form.h"

struct _RwFindingsView
{
  GtkWidget parent_instance;
  GtkWidget *box;
  GtkWidget *counts[RW_SEVERITY_NOTE + 1];
  GtkWidget *stack;
  GtkWidget *list_view;
  GtkSingleSelection *selection;
  GListStore *list;
  GtkSliceListModel *shown; /* as much of it as has a line already */
  GListStore *would_be; /* lines above those: what the cable in the hand would bring */
  GPtrArray *brought;   /* (nullable): the findings that they show */
  double scrolled_to;   /* before they came */
  guint back_tick;      /* while that is to be seen again; 0 = none */
  guint back_frames;    /* left of that */
  int told;             /* the selected index that was notified last */
  guint grow_tick;   /* while lines are missing; 0 = none */
  guint grow_frames; /* since then */
  RwDocument *document;
  guint head_tick;   /* while an opened line settles; 0 = none */
  guint head_frames; /* left of that */
};

G_DEFINE_FINAL_TYPE (RwFindingsView, rw_findings_view, GTK_TYPE_WIDGET)

enum { PROP_SELECTED = 1, N_PROPS };
enum { FIX, N_SIGNALS };
static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

static void
fix_asked (RwFindingWidget *widget, const char *name, gpointer user_data)
{
  RwFindingsView *view = user_data;
  RwFindingRow *row = rw_finding_widget_get_row (widget);
  RwFinding *finding = row != NULL ? rw_finding_row_get_finding (row) : NULL;
  g_autoptr (GPtrArray) fixes = NULL;

  if (finding == NULL || view->document == NULL)
    return;
  fixes = rw_finding_fixes (finding, rw_document_rig (view->document));
  for (guint i = 0; i < fixes->len; i++)
    {
      RwChange *change = g_ptr_array_index (fixes, i);
      if (g_str_equal (change->name, name))
        {
          g_signal_emit (view, signals[FIX], 0, finding->rule->code, change);
          return;
        }
    }
}

static void
toggled (RwFindingWidget *widget, gpointer user_data)
{
  rw_findings_view_select (user_data, -1);
}

static void
item_selected (GtkListItem *item, GParamSpec *pspec, gpointer user_data)
{
  RwFindingsView *view = user_data;
  RwFindingWidget *widget = RW_FINDING_WIDGET (gtk_list_item_get_child (item));

  if (widget != NULL)
    rw_finding_widget_set_open (widget, gtk_list_item_get_selected (item),
                                view->document != NULL ? rw_document_rig (view->document) : NULL);
}

static void
setup (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  GtkWidget *widget = rw_finding_widget_new ();

  g_signal_connect (widget, "fix-asked", G_CALLBACK (fix_asked), user_data);
  g_signal_connect (widget, "toggled", G_CALLBACK (toggled), user_data);
  gtk_list_item_set_child (item, widget);
  g_signal_connect (item, "notify::selected", G_CALLBACK (item_selected), user_data);
}

static void
bind (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  rw_finding_widget_set_row (RW_FINDING_WIDGET (gtk_list_item_get_child (item)),
                             RW_FINDING_ROW (gtk_list_item_get_item (item)));
  gtk_list_item_set_selectable (item, rw_finding_row_get_number (gtk_list_item_get_item (item)) > 0);
  item_selected (item, NULL, user_data);
}

static guint
n_would_be (RwFindingsView *view)
{
  return g_list_model_get_n_items (G_LIST_MODEL (view->would_be));
}

static void
unbind (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  rw_finding_widget_set_row (RW_FINDING_WIDGET (gtk_list_item_get_child (item)), NULL);
}

static guint
count_brought (RwFindingsView *view, RwSeverity severity)
{
  guint n = 0;

  for (guint i = 0; view->brought != NULL && i < view->brought->len; i++)
    n += ((const RwFinding *) g_ptr_array_index (view->brought, i))->severity == severity;
  return n;
}

static void
show_counts (RwFindingsView *view, const RwFindings *findings)
{
  for (guint i = 0; i <= RW_SEVERITY_NOTE; i++)
    rw_finding_count_show (view->counts[i], i, rw_findings_count (findings, i), count_brought (view, i));
}

static GtkWidget *
open_line (RwFindingsView *view)
{
  for (GtkWidget *child = gtk_widget_get_first_child (view->list_view); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *inner = gtk_widget_get_first_child (child);
      if (RW_IS_FINDING_WIDGET (inner) && rw_finding_widget_get_open (RW_FINDING_WIDGET (inner)))
        return inner;
    }
  return NULL;
}

/* The open row's fixes are made for the rig as it is now. */
static void
refresh_open (RwFindingsView *view)
{
  GtkWidget *line = open_line (view);

  if (line != NULL)
    rw_finding_widget_set_open (RW_FINDING_WIDGET (line), TRUE, rw_document_rig (view->document));
}

/* More lines than a view is high. GTK makes and measures up to 200 at once, which takes longer than all else at the start. */
#define LINES_AT_ONCE 24

static void
show_all_lines (RwFindingsView *view)
{
  if (view->grow_tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (view), view->grow_tick);
  view->grow_tick = 0;
  gtk_slice_list_model_set_size (view->shown, G_MAXUINT);
}

/* A tick comes before its frame is drawn: the first one is let go by, so that something stands there soon. */
static gboolean
grow (GtkWidget *widget, GdkFrameClock *clock, gpointer user_data)
{
  RwFindingsView *view = RW_FINDINGS_VIEW (widget);
  guint size = gtk_slice_list_model_get_size (view->shown);

  if (view->grow_frames++ == 0)
    return G_SOURCE_CONTINUE;
  if (size < g_list_model_get_n_items (G_LIST_MODEL (view->list)))
    gtk_slice_list_model_set_size (view->shown, size + LINES_AT_ONCE);
  else
    show_all_lines (view);
  return G_SOURCE_CONTINUE;
}

/* The lines of another document come in frame by frame. */
static void
start_growing (RwFindingsView *view)
{
  gtk_slice_list_model_set_size (view->shown, LINES_AT_ONCE);
  view->grow_frames = 0;
  if (view->grow_tick == 0)
    view->grow_tick = gtk_widget_add_tick_callback (GTK_WIDGET (view), grow, NULL, NULL);
}

/* Frames in which an opened line takes its height and the list its place. */
#define HEAD_FRAMES 20

/* A line that opens grows out of the view at the wrong end: what it says belongs to the top. */
static gboolean
show_head (GtkWidget *widget, GdkFrameClock *clock, gpointer user_data)
{
  RwFindingsView *view = RW_FINDINGS_VIEW (widget);
  GtkWidget *line = open_line (view), *scroll = gtk_widget_get_parent (view->list_view);
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroll));
  graphene_rect_t bounds;

  if (line != NULL && gtk_widget_compute_bounds (gtk_widget_get_parent (line), scroll, &bounds)
      && (bounds.origin.y < 0 || bounds.origin.y + bounds.size.height > gtk_widget_get_height (scroll)))
    gtk_adjustment_set_value (adjustment, gtk_adjustment_get_value (adjustment) + bounds.origin.y);
  if (--view->head_frames > 0)
    return G_SOURCE_CONTINUE;
  view->head_tick = 0;
  return G_SOURCE_REMOVE;
}

static void
settle_head (RwFindingsView *view)
{
  view->head_frames = HEAD_FRAMES;
  if (view->head_tick == 0)
    view->head_tick = gtk_widget_add_tick_callback (GTK_WIDGET (view), show_head, NULL, NULL);
}

static GtkAdjustment *
scrolling (RwFindingsView *view)
{
  return gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (gtk_widget_get_parent (view->list_view)));
}

static gboolean
is_at_top (RwFindingsView *view)
{
  GtkAdjustment *adjustment = scrolling (view);

  return gtk_adjustment_get_value (adjustment) <= gtk_adjustment_get_lower (adjustment);
}

/* A list keeps its first visible line where it is: one that comes above would not be seen. */
static void
stay_at_top (RwFindingsView *view)
{
  if (g_list_model_get_n_items (G_LIST_MODEL (view->list)) == 0)
    return;
  gtk_widget_activate_action (view->list_view, "list.scroll-to-item", "u", 0);
  if (rw_findings_view_get_selected (view) >= 0)
    settle_head (view);
}

static void
show_page (RwFindingsView *view)
{
  gboolean blank = rw_rig_n (rw_document_rig (view->document), RW_ITEM_DEVICE) == 0;
  guint n = n_would_be (view) + rw_findings_n (rw_document_findings (view->document));

  gtk_stack_set_visible_child_name (GTK_STACK (view->stack), n > 0 ? "list" : blank ? "blank" : "fine");
}

/* Not at once: a list cannot scroll to lines that it has not laid out. */
static gboolean
scroll_back (GtkWidget *widget, GdkFrameClock *clock, gpointer user_data)
{
  RwFindingsView *view = RW_FINDINGS_VIEW (widget);

  if (view->back_frames-- > 0)
    return G_SOURCE_CONTINUE;
  view->back_tick = 0;
  gtk_adjustment_set_value (scrolling (view), view->scrolled_to);
  return G_SOURCE_REMOVE;
}

static void
stop_scrolling_back (RwFindingsView *view)
{
  if (view->back_tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (view), view->back_tick);
  view->back_tick = 0;
}

/* They come on top, whatever was scrolled to; when they go, that is seen again. */
void
rw_findings_view_set_would_be (RwFindingsView *view, GPtrArray *brought)
{
  gboolean had;

  g_return_if_fail (RW_IS_FINDINGS_VIEW (view));
  if (brought == view->brought || view->document == NULL)
    return;
  had = n_would_be (view) > 0;
  if (!had && view->back_tick == 0)
    view->scrolled_to = gtk_adjustment_get_value (scrolling (view));
  g_clear_pointer (&view->brought, g_ptr_array_unref);
  view->brought = brought != NULL ? g_ptr_array_ref (brought) : NULL;
  rw_finding_list_show_would_be (view->would_be, brought);
  show_page (view);
  show_counts (view, rw_document_findings (view->document));
  if (n_would_be (view) > 0)
    {
      stop_scrolling_back (view);
      gtk_widget_activate_action (view->list_view, "list.scroll-to-item", "u", 0);
    }
  else if (had && view->scrolled_to > 0)
    {
      view->back_frames = 1;
      if (view->back_tick == 0)
        view->back_tick = gtk_widget_add_tick_callback (GTK_WIDGET (view), scroll_back, NULL, NULL);
    }
}

static void
refresh (RwFindingsView *view)
{
  gboolean at_top = is_at_top (view);
  const RwFindings *findings = rw_document_findings (view->document);

  view->scrolled_to = 0;
  rw_finding_list_update (view->list, findings);
  show_counts (view, findings);
  show_page (view);
  refresh_open (view);
  if (at_top)
    stay_at_top (view);
}

static void
document_changed (RwDocument *document, guint what, RwChange *change, gpointer user_data)
{
  if ((what & (RW_DOCUMENT_ANALYSIS | RW_DOCUMENT_WHOLE)) == 0)
    return;
  /* The selected finding may go anywhere. */
  show_all_lines (user_data);
  refresh (user_data);
}

void
rw_findings_view_set_document (RwFindingsView *view, RwDocument *document)
{
  g_return_if_fail (RW_IS_FINDINGS_VIEW (view));
  if (view->document != NULL)
    g_signal_handlers_disconnect_by_data (view->document, view);
  g_set_object (&view->document, document);
  if (document == NULL)
    return;
  g_signal_connect (document, "changed", G_CALLBACK (document_changed), view);
  start_growing (view);
  refresh (view);
}

int
rw_findings_view_get_selected (RwFindingsView *view)
{
  guint selected;

  g_return_val_if_fail (RW_IS_FINDINGS_VIEW (view), -1);
  selected = gtk_single_selection_get_selected (view->selection);
  if (selected == GTK_INVALID_LIST_POSITION || selected < n_would_be (view))
    return -1;
  return (int) (selected - n_would_be (view));
}

void
rw_findings_view_select (RwFindingsView *view, int index)
{
  guint position;

  g_return_if_fail (RW_IS_FINDINGS_VIEW (view));
  if (index >= 0 && (guint) index >= gtk_slice_list_model_get_size (view->shown))
    show_all_lines (view);
  position = index < 0 ? GTK_INVALID_LIST_POSITION : (guint) index + n_would_be (view);
  gtk_single_selection_set_selected (view->selection, position);
  if (index < 0)
    return;
  gtk_widget_activate_action (view->list_view, "list.scroll-to-item", "u", position);
  settle_head (view);
}

gboolean
rw_findings_view_step (RwFindingsView *view, int step)
{
  int n, now;

  g_return_val_if_fail (RW_IS_FINDINGS_VIEW (view), FALSE);
  n = (int) g_list_model_get_n_items (G_LIST_MODEL (view->list));
  now = rw_findings_view_get_selected (view);
  if (n == 0)
    return FALSE;
  if (now < 0)
    now = step > 0 ? -1 : 0;
  rw_findings_view_select (view, ((now + step) % n + n) % n);
  return TRUE;
}

GtkWidget *
rw_findings_view_get_fix_button (RwFindingsView *view, guint index)
{
  GtkWidget *line;

  g_return_val_if_fail (RW_IS_FINDINGS_VIEW (view), NULL);
  line = open_line (view);
  return line != NULL ? rw_finding_widget_get_fix_button (RW_FINDING_WIDGET (line), index) : NULL;
}

/* Lines that come above it move the selected one, which is no news. */
static void
selection_changed (GObject *object, GParamSpec *pspec, gpointer user_data)
{
  RwFindingsView *view = user_data;
  int selected = rw_findings_view_get_selected (view);

  if (selected == view->told)
    return;
  view->told = selected;
  g_object_notify_by_pspec (G_OBJECT (view), props[PROP_SELECTED]);
}

GtkWidget *
rw_findings_view_new (void)
{
  return g_object_new (RW_TYPE_FINDINGS_VIEW, NULL);
}

static void
rw_findings_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SELECTED)
    g_value_set_int (value, rw_findings_view_get_selected (RW_FINDINGS_VIEW (object)));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
rw_findings_view_dispose (GObject *object)
{
  RwFindingsView *view = RW_FINDINGS_VIEW (object);

  rw_findings_view_set_document (view, NULL);
  if (view->head_tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (view), view->head_tick);
  view->head_tick = 0;
  stop_scrolling_back (view);
  if (view->shown != NULL)
    show_all_lines (view);
  if (view->selection != NULL)
    g_signal_handlers_disconnect_by_data (view->selection, view);
  g_clear_pointer (&view->box, gtk_widget_unparent);
  g_clear_object (&view->selection);
  g_clear_object (&view->shown);
  g_clear_object (&view->list);
  g_clear_object (&view->would_be);
  g_clear_pointer (&view->brought, g_ptr_array_unref);
  G_OBJECT_CLASS (rw_findings_view_parent_class)->dispose (object);
}

static void
rw_findings_view_class_init (RwFindingsViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = rw_findings_view_dispose;
  object_class->get_property = rw_findings_view_get_property;
  props[PROP_SELECTED] = g_param_spec_int ("selected", NULL, NULL, -1, G_MAXINT, -1,
                                           G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[FIX] = g_signal_new ("fix", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_POINTER);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "findings");
}

static GtkWidget *
make_header (RwFindingsView *view)
{
  GtkWidget *header = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *label = gtk_label_new (_("Findings"));

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (label, "rw-panel-title");
  gtk_widget_add_css_class (header, "rw-panel-header");
  gtk_box_append (GTK_BOX (header), label);
  for (guint i = 0; i <= RW_SEVERITY_NOTE; i++)
    {
      view->counts[i] = rw_finding_count_new (i);
      gtk_box_append (GTK_BOX (header), view->counts[i]);
    }
  return header;
}

static GtkWidget *
make_empty (const char *icon, const char *title, const char *text)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *image = gtk_image_new_from_icon_name (icon);
  GtkWidget *heading = gtk_label_new (title);
  GtkWidget *label = gtk_label_new (text);

  gtk_image_set_pixel_size (GTK_IMAGE (image), 40);
  gtk_widget_add_css_class (image, "rw-empty-icon");
  if (g_str_equal (icon, "rw-fine-symbolic"))
    gtk_widget_add_css_class (image, "rw-fine");
  gtk_widget_add_css_class (heading, "rw-heading");
  gtk_widget_add_css_class (label, "dim-label");
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_box_append (GTK_BOX (box), image);
  gtk_box_append (GTK_BOX (box), heading);
  gtk_box_append (GTK_BOX (box), label);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_vexpand (box, TRUE);
  gtk_widget_add_css_class (box, "rw-panel-body");
  return box;
}

static gboolean
escaped (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  RwFindingsView *view = user_data;

  if (rw_findings_view_get_selected (view) < 0)
    return FALSE;
  rw_findings_view_select (view, -1);
  return TRUE;
}

static GtkWidget *
make_list (RwFindingsView *view)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkEventController *keys = gtk_shortcut_controller_new ();
  GtkWidget *scroll = gtk_scrolled_window_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup), view);
  g_signal_connect (factory, "bind", G_CALLBACK (bind), view);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind), view);
  view->list_view = gtk_list_view_new (GTK_SELECTION_MODEL (g_object_ref (view->selection)), factory);
  gtk_widget_add_css_class (view->list_view, "rw-finding-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->list_view), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Findings"), -1);
  gtk_shortcut_controller_add_shortcut (
    GTK_SHORTCUT_CONTROLLER (keys), gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                                      gtk_callback_action_new (escaped, view, NULL)));
  gtk_widget_add_controller (view->list_view, keys);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), view->list_view);
  return scroll;
}

static GListModel *
make_lines (RwFindingsView *view)
{
  GListStore *both = g_list_store_new (G_TYPE_LIST_MODEL);

  g_list_store_append (both, view->would_be);
  g_list_store_append (both, view->shown);
  return G_LIST_MODEL (gtk_flatten_list_model_new (G_LIST_MODEL (both)));
}

static void
rw_findings_view_init (RwFindingsView *view)
{
  view->list = rw_finding_list_new ();
  view->shown = gtk_slice_list_model_new (G_LIST_MODEL (g_object_ref (view->list)), 0, LINES_AT_ONCE);
  view->would_be = rw_finding_list_new ();
  view->told = -1;
  view->selection = gtk_single_selection_new (make_lines (view));
  gtk_single_selection_set_autoselect (view->selection, FALSE);
  gtk_single_selection_set_can_unselect (view->selection, TRUE);
  gtk_single_selection_set_selected (view->selection, GTK_INVALID_LIST_POSITION);
  g_signal_connect (view->selection, "notify::selected", G_CALLBACK (selection_changed), view);
  view->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  view->stack = gtk_stack_new ();
  gtk_widget_set_vexpand (view->stack, TRUE);
  gtk_stack_add_named (GTK_STACK (view->stack), make_list (view), "list");
  gtk_stack_add_named (GTK_STACK (view->stack),
                       make_empty ("rw-fine-symbolic", _("Nothing to mend"),
                                   _("Every rule was tried on this rig and none has a complaint.")),
                       "fine");
  gtk_stack_add_named (GTK_STACK (view->stack),
                       make_empty ("rw-select-symbolic", _("Nothing drawn yet"),
                                   _("What the rules say of the rig stands here while you draw.")),
                       "blank");
  gtk_box_append (GTK_BOX (view->box), make_header (view));
  gtk_box_append (GTK_BOX (view->box), view->stack);
  gtk_widget_set_layout_manager (GTK_WIDGET (view), rw_form_panel_layout ());
  gtk_widget_set_parent (view->box, GTK_WIDGET (view));
}
