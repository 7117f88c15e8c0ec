/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What typing in a field does to the document and to the field. */
typedef struct
{
  /* The document is to be as if nothing had been typed since finished(). */
  void (*take_back) (gpointer owner);
  /* The field is to show what the document says. */
  void (*show) (gpointer owner);
  /* The next key begins another step. */
  void (*finished) (gpointer owner);
  /* What stands in the field, for the remark that it was not taken; (transfer full) (nullable): it was chosen, not typed. */
  char *(*dup_text) (gpointer owner);
  /* What the field is called; (transfer full). */
  char *(*dup_name) (gpointer owner);
} RwTypingWays;

/**
 * RwTyping: what a person types into one field of Particulars.
 *
 * The document follows each key that gives a value, so that the sheet and the findings show what it brings. While what
 * stands in the field gives none, the document holds the value from before the typing, and so it does after Escape in a
 * short text. A field that is left then shows that value again, and says so, in the window, too: the field may be
 * gone by then. Enter and leaving it make a right value one step to undo, which the field's own undoing of single keys no
 * longer reaches into. Where nothing is being typed, the keys that undo and redo are for the document.
 * The owner tells of each key before the document gets what it gives, rw_typing_begin(), and what came of it:
 * rw_typing_taken() or rw_typing_refuse().
 *
 * @going_back: the document goes back while the wrong text stays: the field is not to show it yet
 */
typedef struct
{
  const RwTypingWays *ways;
  gpointer owner;
  GObject *holder;    /* not owned; as long as it lives the owner does */
  GtkWidget *control; /* (nullable): gets the mark of what is wrong */
  GtkWidget *widget;  /* (nullable): where it is typed */
  GtkWidget *remark;  /* a label to be put under the control: why it is wrong, or that it was not taken */
  gboolean begun;     /* something was typed since the field was entered */
  gboolean wrong;
  gboolean going_back;
} RwTyping;

/* @owner: what the @ways get; @holder: (transfer none): its object, or the one that frees it. */
void rw_typing_init (RwTyping *typing, const RwTypingWays *ways, gpointer owner, gpointer holder);
/* Settles what was done when the focus leaves @widget. */
void rw_typing_watch (RwTyping *typing, GtkWidget *widget);
/* Likewise where it is typed into: at Enter in an entry, too, while Escape takes back what was typed; but a long text
 * it leaves as it is. */
void rw_typing_watch_keys (RwTyping *typing, GtkWidget *widget);
/* A key was struck: if it is the first, what was done before it elsewhere, such as moving a device by keys, is over, and
 * is not taken back with what is typed. */
void rw_typing_begin (RwTyping *typing);
/* What stands in the field now is in the document. */
void rw_typing_taken (RwTyping *typing);
/* What stands in the field now gives no value, for @reason: takes back what was typed before. Begins, if need be. */
void rw_typing_refuse (RwTyping *typing, const char *reason);
/* The typing is over: its value stays, or where it is wrong the one from before it comes back. Returns: whether it stays */
gboolean rw_typing_settle (RwTyping *typing);
/* The document says something else: what was typed is gone, with all that was said about it. */
void rw_typing_forget (RwTyping *typing);

G_END_DECLS
