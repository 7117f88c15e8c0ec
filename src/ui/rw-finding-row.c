/* SPDX-License-Identifier: MIT */
#include "rw-finding-row.h"

#include <glib/gi18n-lib.h>
#include <rules/rw-rule.h>
#include "rw-badge.h"
#include "rw-words.h"

struct _RwFindingWidget
{
  GtkWidget parent_instance;
  GtkWidget *head;
  GtkWidget *badge;
  GtkWidget *icon;
  GtkWidget *word;
  GtkWidget *message;
  GtkWidget *detail; /* this and what is in it: NULL until the line is opened */
  GtkWidget *why;
  GtkWidget *remedy;
  GtkWidget *fixes;
  GtkWidget *help;
  RwFindingRow *row;
  const char *css_class;
};

G_DEFINE_FINAL_TYPE (RwFindingWidget, rw_finding_widget, GTK_TYPE_WIDGET)

/* What stands in place of the kind of a finding that is none yet. */
static const char *const would_be_words[] = {
  [RW_SEVERITY_ERROR] = N_("Would be an error"),
  [RW_SEVERITY_WARNING] = N_("Would be a warning"),
  [RW_SEVERITY_NOTE] = N_("Would be a note"),
};

enum { FIX_ASKED, TOGGLED, N_SIGNALS };
static guint signals[N_SIGNALS];

static GtkWidget *
make_text (const char *css_class)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  /* Without a least width GTK measures each as a column of single letters, which takes longer than all else at the start. */
  gtk_label_set_width_chars (GTK_LABEL (label), 12);
  gtk_widget_set_hexpand (label, TRUE);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
make_caption (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "rw-caption");
  return label;
}

static GtkWidget *
make_help (void)
{
  GtkWidget *help = gtk_button_new_with_label (_("Read more in the help"));

  gtk_widget_add_css_class (help, "flat");
  gtk_widget_add_css_class (help, "rw-help");
  gtk_widget_set_halign (help, GTK_ALIGN_START);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (help), "s", "");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (help), "app.rule-help");
  return help;
}

/* Only a line that is opened needs it: of the hundreds that a list makes ahead, few ever are. */
static void
make_detail (RwFindingWidget *widget)
{
  widget->detail = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_add_css_class (widget->detail, "rw-finding-detail");
  widget->why = make_text (NULL);
  widget->remedy = make_text (NULL);
  widget->fixes = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  widget->help = make_help ();
  gtk_widget_set_margin_bottom (widget->fixes, 4);
  gtk_box_append (GTK_BOX (widget->detail), widget->fixes);
  gtk_box_append (GTK_BOX (widget->detail), make_caption (_("Why it matters")));
  gtk_box_append (GTK_BOX (widget->detail), widget->why);
  gtk_box_append (GTK_BOX (widget->detail), make_caption (_("How to put it right")));
  gtk_box_append (GTK_BOX (widget->detail), widget->remedy);
  gtk_box_append (GTK_BOX (widget->detail), widget->help);
  gtk_widget_set_visible (widget->detail, FALSE);
  gtk_widget_set_parent (widget->detail, GTK_WIDGET (widget));
}

/* No-op until the line was opened once. */
static void
show_detail (RwFindingWidget *widget)
{
  const RwRule *rule = rw_finding_row_get_finding (widget->row)->rule;

  if (widget->detail == NULL)
    return;
  gtk_label_set_text (GTK_LABEL (widget->why), _(rule->why));
  gtk_label_set_text (GTK_LABEL (widget->remedy), _(rule->remedy));
  gtk_actionable_set_action_target (GTK_ACTIONABLE (widget->help), "s", rule->code);
}

static char *
spoken_name (const RwFinding *finding, guint number)
{
  if (number == 0)
    /* Translators: a finding that the cable in the hand would bring, as a screen reader says it: kind, message. */
    return g_strdup_printf (_("%s: %s"), _(would_be_words[finding->severity]), finding->message);
  /* Translators: a finding as a screen reader says it: kind, number, message. */
  return g_strdup_printf (_("%s %u: %s"), rw_severity_title (finding->severity), number, finding->message);
}

static void
show_row (RwFindingWidget *widget)
{
  RwFinding *finding = rw_finding_row_get_finding (widget->row);
  guint number = rw_finding_row_get_number (widget->row);
  g_autofree char *name = spoken_name (finding, number);

  rw_badge_show (RW_BADGE (widget->badge), finding->severity, number);
  gtk_image_set_from_icon_name (GTK_IMAGE (widget->icon), rw_words_severity_icon (finding->severity));
  gtk_label_set_text (GTK_LABEL (widget->word),
                      number > 0 ? rw_severity_title (finding->severity) : _(would_be_words[finding->severity]));
  (number > 0 ? gtk_widget_remove_css_class : gtk_widget_add_css_class) (GTK_WIDGET (widget), "rw-would-be");
  gtk_label_set_text (GTK_LABEL (widget->message), finding->message);
  show_detail (widget);
  if (widget->css_class != NULL)
    gtk_widget_remove_css_class (GTK_WIDGET (widget), widget->css_class);
  widget->css_class = rw_words_severity_class (finding->severity);
  gtk_widget_add_css_class (GTK_WIDGET (widget), widget->css_class);
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
row_changed (GObject *row, GParamSpec *pspec, gpointer user_data)
{
  show_row (user_data);
}

void
rw_finding_widget_set_row (RwFindingWidget *widget, RwFindingRow *row)
{
  g_return_if_fail (RW_IS_FINDING_WIDGET (widget));
  if (widget->row != NULL)
    g_signal_handlers_disconnect_by_data (widget->row, widget);
  g_set_object (&widget->row, row);
  if (row == NULL)
    return;
  g_signal_connect (row, "notify", G_CALLBACK (row_changed), widget);
  show_row (widget);
}

RwFindingRow *
rw_finding_widget_get_row (RwFindingWidget *widget)
{
  g_return_val_if_fail (RW_IS_FINDING_WIDGET (widget), NULL);
  return widget->row;
}

static void
fix_clicked (GtkButton *button, gpointer user_data)
{
  g_autofree char *name = g_strdup (g_object_get_data (G_OBJECT (button), "fix"));

  g_signal_emit (user_data, signals[FIX_ASKED], 0, name);
}

static gboolean
same_buttons (RwFindingWidget *widget, GPtrArray *fixes)
{
  GtkWidget *button = gtk_widget_get_first_child (widget->fixes);
  guint i = 0;

  for (; button != NULL && i < fixes->len; i++, button = gtk_widget_get_next_sibling (button))
    if (!g_str_equal (((RwChange *) g_ptr_array_index (fixes, i))->name, g_object_get_data (G_OBJECT (button), "fix")))
      return FALSE;
  return button == NULL && i == fixes->len;
}

static void
add_button (RwFindingWidget *widget, const char *name)
{
  GtkWidget *button = gtk_button_new_with_label (name);
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (button));

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  g_object_set_data_full (G_OBJECT (button), "fix", g_strdup (name), g_free);
  gtk_widget_add_css_class (button, "rw-fix");
  g_signal_connect (button, "clicked", G_CALLBACK (fix_clicked), widget);
  gtk_box_append (GTK_BOX (widget->fixes), button);
}

static void
show_fixes (RwFindingWidget *widget, const RwRig *rig)
{
  g_autoptr (GPtrArray) fixes = rw_finding_fixes (rw_finding_row_get_finding (widget->row), rig);
  GtkWidget *child;

  if (!same_buttons (widget, fixes))
    {
      while ((child = gtk_widget_get_first_child (widget->fixes)) != NULL)
        gtk_box_remove (GTK_BOX (widget->fixes), child);
      for (guint i = 0; i < fixes->len; i++)
        add_button (widget, ((RwChange *) g_ptr_array_index (fixes, i))->name);
    }
  gtk_widget_set_visible (widget->fixes, fixes->len > 0);
}

/* @rig: (nullable) when not @open; the fixes are made for it. */
void
rw_finding_widget_set_open (RwFindingWidget *widget, gboolean open, const RwRig *rig)
{
  g_return_if_fail (RW_IS_FINDING_WIDGET (widget));
  if (open && widget->row != NULL && widget->detail == NULL)
    {
      make_detail (widget);
      show_detail (widget);
    }
  if (widget->detail != NULL)
    gtk_widget_set_visible (widget->detail, open);
  gtk_accessible_update_state (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_STATE_EXPANDED, open, -1);
  if (open && rig != NULL && widget->row != NULL)
    show_fixes (widget, rig);
}

gboolean
rw_finding_widget_get_open (RwFindingWidget *widget)
{
  g_return_val_if_fail (RW_IS_FINDING_WIDGET (widget), FALSE);
  return widget->row != NULL && widget->detail != NULL && gtk_widget_get_visible (widget->detail);
}

GtkWidget *
rw_finding_widget_get_fix_button (RwFindingWidget *widget, guint index)
{
  GtkWidget *button;

  g_return_val_if_fail (RW_IS_FINDING_WIDGET (widget), NULL);
  button = widget->fixes != NULL ? gtk_widget_get_first_child (widget->fixes) : NULL;
  for (; button != NULL && index > 0; index--)
    button = gtk_widget_get_next_sibling (button);
  return button;
}

/* The list selects on the release: the press still knows whether the line was open. */
static void
head_pressed (GtkGestureClick *click, int n_press, double x, double y, gpointer user_data)
{
  g_object_set_data (G_OBJECT (click), "open", GINT_TO_POINTER (rw_finding_widget_get_open (user_data)));
}

static void
head_released (GtkGestureClick *click, int n_press, double x, double y, gpointer user_data)
{
  if (!GPOINTER_TO_INT (g_object_get_data (G_OBJECT (click), "open")))
    return;
  gtk_gesture_set_state (GTK_GESTURE (click), GTK_EVENT_SEQUENCE_CLAIMED);
  g_signal_emit (user_data, signals[TOGGLED], 0);
}

GtkWidget *
rw_finding_widget_new (void)
{
  return g_object_new (RW_TYPE_FINDING_WIDGET, NULL);
}

static void
rw_finding_widget_dispose (GObject *object)
{
  RwFindingWidget *widget = RW_FINDING_WIDGET (object);

  rw_finding_widget_set_row (widget, NULL);
  g_clear_pointer (&widget->head, gtk_widget_unparent);
  g_clear_pointer (&widget->detail, gtk_widget_unparent);
  G_OBJECT_CLASS (rw_finding_widget_parent_class)->dispose (object);
}

static void
rw_finding_widget_class_init (RwFindingWidgetClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_finding_widget_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "finding");
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
  signals[FIX_ASKED] = g_signal_new ("fix-asked", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                     G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[TOGGLED] = g_signal_new ("toggled", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

/* --- The head: a badge and texts that fill the rest --- */

#define HEAD_GAP_PX 8

static int
badge_width (GtkWidget *head)
{
  int width;

  gtk_widget_measure (gtk_widget_get_first_child (head), GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  return width + HEAD_GAP_PX;
}

static GtkSizeRequestMode
request_height_for_width (GtkWidget *head)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
measure_head (GtkWidget *head, GtkOrientation orientation, int for_size, int *minimum, int *natural,
              int *minimum_baseline, int *natural_baseline)
{
  GtkWidget *badge = gtk_widget_get_first_child (head), *texts = gtk_widget_get_last_child (head);
  int indent = badge_width (head), least;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      gtk_widget_measure (texts, orientation, -1, minimum, natural, NULL, NULL);
      *minimum += indent;
      *natural += indent;
      return;
    }
  gtk_widget_measure (texts, orientation, for_size < 0 ? -1 : MAX (for_size - indent, 0), minimum, natural, NULL, NULL);
  gtk_widget_measure (badge, orientation, -1, &least, NULL, NULL, NULL);
  *minimum = MAX (*minimum, least);
  *natural = MAX (*natural, least);
}

static void
allocate_head (GtkWidget *head, int width, int height, int baseline)
{
  GtkWidget *badge = gtk_widget_get_first_child (head), *texts = gtk_widget_get_last_child (head);
  gboolean from_right = gtk_widget_get_direction (head) == GTK_TEXT_DIR_RTL;
  int indent = badge_width (head), badge_px = indent - HEAD_GAP_PX;

  gtk_widget_size_allocate (badge, &(GtkAllocation) { from_right ? width - badge_px : 0, 0, badge_px, height }, -1);
  gtk_widget_size_allocate (texts, &(GtkAllocation) { from_right ? 0 : indent, 0, width - indent, height }, -1);
}

/* A box would ask each text how narrow it can be in this height: more than a hundred trials, and longer than a frame,
   where a message is long. */
static GtkWidget *
make_head_box (void)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_set_layout_manager (
    head, gtk_custom_layout_new (request_height_for_width, measure_head, allocate_head));
  return head;
}

static GtkWidget *
make_head (RwFindingWidget *widget)
{
  GtkWidget *head = make_head_box ();
  GtkWidget *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  GtkWidget *kind = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 5);
  GtkGesture *click = gtk_gesture_click_new ();

  widget->badge = rw_badge_new ();
  gtk_widget_set_valign (widget->badge, GTK_ALIGN_START);
  widget->icon = gtk_image_new ();
  widget->word = gtk_label_new ("");
  widget->message = make_text (NULL);
  gtk_box_append (GTK_BOX (kind), widget->icon);
  gtk_box_append (GTK_BOX (kind), widget->word);
  gtk_widget_add_css_class (kind, "rw-severity");
  gtk_box_append (GTK_BOX (texts), kind);
  gtk_box_append (GTK_BOX (texts), widget->message);
  gtk_box_append (GTK_BOX (head), widget->badge);
  gtk_box_append (GTK_BOX (head), texts);
  g_signal_connect (click, "pressed", G_CALLBACK (head_pressed), widget);
  g_signal_connect (click, "released", G_CALLBACK (head_released), widget);
  gtk_widget_add_controller (head, GTK_EVENT_CONTROLLER (click));
  return head;
}

static void
rw_finding_widget_init (RwFindingWidget *widget)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (widget));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);
  widget->head = make_head (widget);
  gtk_widget_set_parent (widget->head, GTK_WIDGET (widget));
}
