/* SPDX-License-Identifier: MIT */
#include "rw-question.h"

typedef struct
{
  RwAnswerFunc done;
  gpointer user_data;
} Question;

static void
answer (GtkWindow *window, const char *name)
{
  Question *question = g_object_steal_data (G_OBJECT (window), "question");

  if (question == NULL)
    return;
  gtk_window_destroy (window);
  question->done (name, question->user_data);
  g_free (question);
}

static void
button_clicked (GtkButton *button, gpointer user_data)
{
  answer (GTK_WINDOW (user_data), g_object_get_data (G_OBJECT (button), "name"));
}

static gboolean
closed (GtkWindow *window, gpointer user_data)
{
  answer (window, "cancel");
  return TRUE;
}

static gboolean
escaped (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  answer (GTK_WINDOW (widget), "cancel");
  return TRUE;
}

static GtkWidget *
make_button (GtkWindow *window, const RwAnswer *one)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (one->label);

  g_object_set_data_full (G_OBJECT (button), "name", g_strdup (one->name), g_free);
  g_signal_connect (button, "clicked", G_CALLBACK (button_clicked), window);
  gtk_widget_set_hexpand (button, TRUE);
  if (one->style == RW_ANSWER_SUGGESTED)
    {
      gtk_widget_add_css_class (button, "suggested-action");
      gtk_window_set_default_widget (window, button);
    }
  if (one->style == RW_ANSWER_DESTRUCTIVE)
    gtk_widget_add_css_class (button, "destructive-action");
  return button;
}

static GtkWidget *
make_text (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 48);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
add_escape (GtkWindow *window)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_add_shortcut (
    GTK_SHORTCUT_CONTROLLER (keys),
    gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                      gtk_callback_action_new (escaped, NULL, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (window), keys);
}

/**
 * rw_question_ask:
 * @parent: (nullable)
 * @answers: from left to right
 *
 * Asks @heading in a modal window of its own and gives @done the answer.
 *
 * Returns: (transfer none): the window, already shown
 */
GtkWindow *
rw_question_ask (GtkWindow *parent, const char *heading, const char *text, const RwAnswer *answers,
                 guint n_answers, RwAnswerFunc done, gpointer user_data)
{
  GtkWindow *window = GTK_WINDOW (gtk_window_new ());
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  Question *question = g_new0 (Question, 1);

  g_return_val_if_fail (done != NULL && n_answers > 0, NULL);
  question->done = done;
  question->user_data = user_data;
  g_object_set_data_full (G_OBJECT (window), "question", question, g_free);
  gtk_window_set_title (window, heading);
  gtk_window_set_modal (window, TRUE);
  gtk_window_set_resizable (window, FALSE);
  gtk_window_set_transient_for (window, parent);
  gtk_window_set_destroy_with_parent (window, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (window), "rw-question");
  gtk_widget_add_css_class (box, "rw-dialog-body");
  gtk_box_append (GTK_BOX (box), make_text (heading, "title-4"));
  gtk_box_append (GTK_BOX (box), make_text (text, "body"));
  gtk_box_set_homogeneous (GTK_BOX (row), TRUE);
  gtk_widget_set_margin_top (row, 8);
  for (guint i = 0; i < n_answers; i++)
    gtk_box_append (GTK_BOX (row), make_button (window, &answers[i]));
  gtk_box_append (GTK_BOX (box), row);
  gtk_window_set_child (window, box);
  add_escape (window);
  if (gtk_window_get_default_widget (window) != NULL)
    gtk_window_set_focus (window, gtk_window_get_default_widget (window));
  g_signal_connect (window, "close-request", G_CALLBACK (closed), NULL);
  /* A window that comes onto the screen after its question would hide it, and take no input. */
  if (parent != NULL && !gtk_widget_get_mapped (GTK_WIDGET (parent)))
    gtk_window_present (parent);
  gtk_window_present (window);
  return window;
}
