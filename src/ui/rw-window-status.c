/* SPDX-License-Identifier: MIT */
#include "rw-window-private.h"

#include <glib/gi18n-lib.h>
#include "rw-words.h"

static char *
selection_text (RwWindow *window)
{
  RwSelection *selection = rw_document_selection (window->document);
  RwRig *rig = rw_document_rig (window->document);
  const char *key = rw_selection_single (selection);
  g_autofree const char **devices = NULL;
  g_autofree const char **cables = NULL;
  g_autofree char *counts = NULL;

  if (rw_selection_n (selection) == 0)
    return NULL;
  if (key != NULL && rw_rig_device (rig, key) != NULL)
    return g_strdup (rw_device_title (rw_rig_device (rig, key)));
  if (key != NULL)
    {
      const RwNet *net = rw_document_net (window->document);
      guint cable = rw_net_find_cable (net, key);
      return cable != RW_NONE ? rw_words_cable (net, cable) : NULL;
    }
  devices = rw_selection_keys (selection, rig, RW_ITEM_DEVICE);
  cables = rw_selection_keys (selection, rig, RW_ITEM_CABLE);
  counts = rw_words_selection (g_strv_length ((char **) devices), g_strv_length ((char **) cables));
  /* Translators: %s is what is selected, as “3 devices, 2 cables”. */
  return g_strdup_printf (_("%s selected"), counts);
}

static guint
selected_device (RwWindow *window)
{
  const char *key = rw_selection_single (rw_document_selection (window->document));

  return key != NULL ? rw_net_find_device (rw_document_net (window->document), key) : RW_NONE;
}

static char *
finding_text (RwWindow *window)
{
  int index = rw_findings_view_get_selected (window->findings);
  const RwFindings *findings = rw_document_findings (window->document);

  if (index < 0 || (guint) index >= rw_findings_n (findings))
    return NULL;
  /* Translators: the number of a finding and how many there are. */
  return g_strdup_printf (_("Finding %d of %u; Shift+F8 and F8 step through them"), index + 1,
                          rw_findings_n (findings));
}

/* What a person most needs to know now: the cable in the air, what has just been written or not taken, the finding shown, what is selected, what is there. */
static char *
status_text (RwWindow *window)
{
  const RwOverlay *overlay = rw_canvas_overlay (window->canvas);
  char *text;

  if (overlay != NULL && overlay->verdict != RW_VERDICT_NONE && overlay->verdict_text != NULL)
    return g_strdup (overlay->verdict_text);
  if (window->told != NULL)
    return g_strdup (window->told);
  if (rw_canvas_lens (window->canvas) == RW_LENS_FAILURE)
    return g_strdup (rw_failure_view_get_summary (window->failure));
  text = rw_canvas_lens_text (window->canvas, selected_device (window));
  if (text == NULL)
    text = selection_text (window);
  if (text == NULL)
    text = finding_text (window);
  if (text == NULL && rw_document_is_blank (window->document))
    text = g_strdup (_("Drag a part from the shelf, or press Insert"));
  if (text == NULL)
    {
      g_autofree char *things = rw_words_selection (rw_rig_n (rw_document_rig (window->document), RW_ITEM_DEVICE),
                                                    rw_rig_n (rw_document_rig (window->document), RW_ITEM_CABLE));
      g_autofree char *counts = rw_words_counts (rw_document_findings (window->document));
      text = g_strdup_printf ("%s · %s", *things != '\0' ? things : _("nothing drawn"), counts);
    }
  return text;
}

static const char *
verdict_class (RwWindow *window, const RwOverlay *overlay)
{
  static const char *const classes[] = {
    [RW_VERDICT_NONE] = NULL,
    [RW_VERDICT_FINE] = "rw-fine",
    [RW_VERDICT_NOTE] = "rw-note",
    [RW_VERDICT_WARNING] = "rw-warning",
    [RW_VERDICT_ERROR] = "rw-error",
  };

  if (overlay != NULL && overlay->verdict != RW_VERDICT_NONE)
    return classes[overlay->verdict];
  return window->told != NULL ? classes[window->told_as] : NULL;
}

/* After the frame with the verdict, which is not to wait for new lines in a list. */
static gboolean
list_would_be (gpointer user_data)
{
  RwWindow *window = user_data;

  window->would_be_idle = 0;
  rw_findings_view_set_would_be (window->findings, rw_canvas_overlay (window->canvas)->brought);
  return G_SOURCE_REMOVE;
}

static gboolean
update_status (gpointer user_data)
{
  RwWindow *window = user_data;
  g_autofree char *text = status_text (window);
  g_autofree char *zoom_text = NULL;
  const char *css_class = verdict_class (window, rw_canvas_overlay (window->canvas));
  const char *const classes[] = { "rw-status", css_class, NULL };
  double zoom;

  window->status_idle = 0;
  g_object_get (window->canvas, "zoom", &zoom, NULL);
  zoom_text = g_strdup_printf ("%.0f %%", zoom * 100);
  gtk_label_set_text (GTK_LABEL (window->status_label), text);
  gtk_widget_set_tooltip_text (window->status_label, text);
  gtk_widget_set_css_classes (window->status_label, (const char **) classes);
  gtk_label_set_text (GTK_LABEL (window->zoom_label), zoom_text);
  if (window->would_be_idle == 0)
    window->would_be_idle = g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, list_would_be, window, NULL);
  return G_SOURCE_REMOVE;
}

void
rw_window_queue_status (RwWindow *window)
{
  if (window->status_idle == 0)
    window->status_idle = g_idle_add_full (G_PRIORITY_HIGH_IDLE, update_status, window, NULL);
}

/* Long enough to be read twice. */
#define TOLD_SECONDS 12

static gboolean
told_enough (gpointer user_data)
{
  RwWindow *window = user_data;

  window->told_timer = 0;
  g_clear_pointer (&window->told, g_free);
  rw_window_queue_status (window);
  return G_SOURCE_REMOVE;
}

static void
tell (RwWindow *window, RwVerdict as, const char *text)
{
  g_clear_handle_id (&window->told_timer, g_source_remove);
  g_free (window->told);
  window->told = g_strdup (text);
  window->told_as = as;
  window->told_timer = g_timeout_add_seconds (TOLD_SECONDS, told_enough, window);
  rw_window_queue_status (window);
}

void
rw_window_tell (RwWindow *window, const char *text)
{
  tell (window, RW_VERDICT_FINE, text);
}

void
rw_window_warn (RwWindow *window, const char *text)
{
  tell (window, RW_VERDICT_WARNING, text);
}

void
rw_window_tell_written (RwWindow *window, const char *path)
{
  g_autofree char *name = g_filename_display_basename (path), *folder = g_path_get_dirname (path);
  g_autofree char *shown = g_filename_display_name (folder);
  /* Translators: a file that was written, and the folder that it lies in. */
  g_autofree char *text = g_strdup_printf (_("✓ Written: %s, in %s"), name, shown);

  rw_window_tell (window, text);
}

static gboolean
hand_moved (GtkEventControllerLegacy *legacy, GdkEvent *event, gpointer user_data)
{
  rw_window_queue_status (user_data);
  return GDK_EVENT_PROPAGATE;
}

/* The verdict changes with each move of the hand over the sheet. */
void
rw_window_watch_hands (RwWindow *window)
{
  GtkEventController *legacy = gtk_event_controller_legacy_new ();

  gtk_event_controller_set_propagation_phase (legacy, GTK_PHASE_CAPTURE);
  g_signal_connect (legacy, "event", G_CALLBACK (hand_moved), window);
  gtk_widget_add_controller (GTK_WIDGET (window->canvas), legacy);
}

void
rw_window_update_title (RwWindow *window)
{
  RwDocument *document = window->document;
  const char *path = rw_document_path (document);
  gboolean dirty = rw_document_is_dirty (document);
  g_autofree char *name = path != NULL ? g_filename_display_basename (path) : NULL;
  g_autofree char *subtitle = NULL;
  g_autofree char *title = NULL;

  if (name == NULL)
    subtitle = g_strdup (dirty ? _("not saved yet") : "");
  else
    /* Translators: %s is the name of a file with changes that are not saved. */
    subtitle = dirty ? g_strdup_printf (_("%s, changed"), name) : g_strdup (name);
  gtk_label_set_text (GTK_LABEL (window->title_label), rw_document_title (document));
  gtk_widget_set_tooltip_text (window->title_label, rw_document_title (document)); /* a small window shortens it */
  gtk_label_set_text (GTK_LABEL (window->subtitle_label), subtitle);
  gtk_widget_set_tooltip_text (window->subtitle_label, subtitle);
  gtk_widget_set_visible (window->subtitle_label, *subtitle != '\0');
  /* Translators: the window's title; %s is the name of the rig. */
  title = g_strdup_printf (_("%s — Rigwright"), rw_document_title (document));
  gtk_window_set_title (GTK_WINDOW (window), title);
}
