/* SPDX-License-Identifier: MIT */
#include "rw-typing.h"

#include <glib/gi18n-lib.h>

/* So much of what was not taken is quoted: enough to know it by. */
#define QUOTED_CHARS 24

static GtkWidget *
make_remark (void)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_set_visible (label, FALSE);
  return label;
}

void
rw_typing_init (RwTyping *typing, const RwTypingWays *ways, gpointer owner, gpointer holder)
{
  *typing = (RwTyping) { .ways = ways, .owner = owner, .holder = G_OBJECT (holder), .remark = make_remark () };
}

static void
set_class (GtkWidget *widget, const char *css_class, gboolean set)
{
  if (set)
    gtk_widget_add_css_class (widget, css_class);
  else
    gtk_widget_remove_css_class (widget, css_class);
}

/* @text: (nullable): under the control: of what is wrong, or of what has been set right. */
static void
say (RwTyping *typing, const char *text)
{
  gtk_label_set_text (GTK_LABEL (typing->remark), text != NULL ? text : "");
  gtk_widget_set_visible (typing->remark, text != NULL);
  set_class (typing->remark, "rw-problem", typing->wrong);
  set_class (typing->remark, "rw-small", !typing->wrong);
  set_class (typing->control, "error", typing->wrong);
  gtk_accessible_update_state (GTK_ACCESSIBLE (typing->control), GTK_ACCESSIBLE_STATE_INVALID,
                               typing->wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}

void
rw_typing_begin (RwTyping *typing)
{
  if (typing->begun)
    return;
  typing->begun = TRUE;
  typing->ways->finished (typing->owner);
}

void
rw_typing_taken (RwTyping *typing)
{
  typing->wrong = FALSE;
  say (typing, NULL);
}

void
rw_typing_refuse (RwTyping *typing, const char *reason)
{
  g_autoptr (GObject) held = g_object_ref (typing->holder);

  rw_typing_begin (typing);
  typing->wrong = TRUE;
  say (typing, reason);
  typing->going_back = TRUE;
  typing->ways->take_back (typing->owner);
  typing->going_back = FALSE;
}

void
rw_typing_forget (RwTyping *typing)
{
  typing->begun = FALSE;
  typing->wrong = FALSE;
  say (typing, NULL);
}

/* "abcdefghijklmnopqrstuvwx…" */
static char *
quote (const char *text)
{
  g_autofree char *start = NULL;

  if (g_utf8_strlen (text, -1) <= QUOTED_CHARS)
    return g_strdup (text);
  start = g_utf8_substring (text, 0, QUOTED_CHARS);
  return g_strconcat (start, "…", NULL);
}

static char *
not_taken (RwTyping *typing)
{
  g_autofree char *text = typing->ways->dup_text (typing->owner);
  g_autofree char *quoted = text != NULL ? quote (text) : NULL;

  if (quoted == NULL)
    return g_strdup (_("Not taken: the value is as it was."));
  /* Translators: %s is what was typed into a field, as “1e9”. */
  return g_strdup_printf (_("“%s” was not taken: the value is as it was."), quoted);
}

static void
tell_window (RwTyping *typing, const char *remark)
{
  g_autofree char *name = typing->ways->dup_name (typing->owner);
  /* Translators: the name of a field, and that what was typed there was not taken. */
  g_autofree char *text = g_strdup_printf (_("%s: %s"), name, remark);

  gtk_widget_activate_action (typing->remark, "win.warn", "s", text);
}

/* A step of the document is undone as such, in the order of all steps. */
static void
drop_own_steps (GtkWidget *widget)
{
  GtkTextBuffer *buffer = GTK_IS_TEXT_VIEW (widget) ? gtk_text_view_get_buffer (GTK_TEXT_VIEW (widget)) : NULL;

  for (int enabled = FALSE; enabled <= TRUE; enabled++)
    if (buffer != NULL)
      gtk_text_buffer_set_enable_undo (buffer, enabled);
    else if (GTK_IS_EDITABLE (widget))
      gtk_editable_set_enable_undo (GTK_EDITABLE (widget), enabled);
}

gboolean
rw_typing_settle (RwTyping *typing)
{
  g_autoptr (GObject) held = g_object_ref (typing->holder);
  g_autofree char *remark = typing->wrong ? not_taken (typing) : NULL;

  rw_typing_forget (typing);
  typing->ways->show (typing->owner);
  if (typing->widget != NULL)
    drop_own_steps (typing->widget);
  say (typing, remark);
  if (remark != NULL)
    tell_window (typing, remark);
  typing->ways->finished (typing->owner);
  return remark == NULL;
}

/* Who looks something up in another window finds the field as it was: there it keeps the focus of its own window. */
static gboolean
keeps_focus (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && (focus == widget || gtk_widget_is_ancestor (focus, widget));
}

static void
focus_left (GtkEventController *focus, gpointer user_data)
{
  if (!keeps_focus (gtk_event_controller_get_widget (focus)))
    rw_typing_settle (user_data);
}

static void
escape (RwTyping *typing)
{
  g_autoptr (GObject) held = g_object_ref (typing->holder);

  typing->ways->take_back (typing->owner);
  rw_typing_forget (typing);
  typing->ways->show (typing->owner);
  typing->ways->finished (typing->owner);
  if (GTK_IS_EDITABLE (typing->control))
    gtk_editable_select_region (GTK_EDITABLE (typing->control), 0, -1);
}

/* Where nothing was typed, Escape is for the window. So it is in a long text, which one wrong key is not to cost: it
 * keeps all that was typed. */
static gboolean
key_pressed (GtkEventControllerKey *keys, guint keyval, guint code, GdkModifierType state, gpointer user_data)
{
  RwTyping *typing = user_data;

  if (keyval != GDK_KEY_Escape || !typing->begun)
    return FALSE;
  if (GTK_IS_TEXT_VIEW (typing->widget))
    {
      rw_typing_settle (typing);
      return FALSE;
    }
  escape (typing);
  return TRUE;
}

static void
entered (GtkEntry *entry, gpointer user_data)
{
  RwTyping *typing = user_data;

  if (typing->wrong)
    return;
  rw_typing_settle (typing);
  gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
}

/* Text takes the key even where it has nothing to undo. */
static gboolean
step_history (GtkWidget *widget, GVariant *action, gpointer user_data)
{
  RwTyping *typing = user_data;

  return !typing->begun && gtk_widget_activate_action_variant (widget, g_variant_get_string (action, NULL), NULL);
}

static GtkEventController *
make_history_keys (RwTyping *typing)
{
  static const struct { const char *trigger, *action; } keys[] = {
    { "<Control>z", "win.undo" }, { "<Control><Shift>z", "win.redo" }, { "<Control>y", "win.redo" },
  };
  GtkEventController *shortcuts = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (shortcuts, GTK_PHASE_CAPTURE);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (shortcuts),
      gtk_shortcut_new_with_arguments (gtk_shortcut_trigger_parse_string (keys[i].trigger),
                                       gtk_callback_action_new (step_history, typing, NULL), "s", keys[i].action));
  return shortcuts;
}

void
rw_typing_watch (RwTyping *typing, GtkWidget *widget)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_signal_connect (focus, "leave", G_CALLBACK (focus_left), typing);
  gtk_widget_add_controller (widget, focus);
}

void
rw_typing_watch_keys (RwTyping *typing, GtkWidget *widget)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  typing->widget = widget;
  rw_typing_watch (typing, widget);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), typing);
  gtk_widget_add_controller (widget, keys);
  gtk_widget_add_controller (widget, make_history_keys (typing));
  if (GTK_IS_ENTRY (widget))
    g_signal_connect (widget, "activate", G_CALLBACK (entered), typing);
}
