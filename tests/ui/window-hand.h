/* SPDX-License-Identifier: MIT */
#pragma once

#include <ui/rw-application.h>
#include <ui/rw-window-private.h>

G_BEGIN_DECLS

/* Two racks in a row behind a console, as rw_test_rig() takes it. */
#define HAND_CHAIN \
  "console desk ctrl=1 name='Monitor desk' at=[20,60]\n" \
  "rack left id=1 name='Stage left' at=[110,60]\n" \
  "rack right id=2 name='Stage right' at=[200,60]\n" \
  "desk.s-left.p length_m=20\n" \
  "left.s-right.p length_m=20\n"

/* A running program with one window on a display, and hands for it. */
typedef struct
{
  RwApplication *application;
  RwWindow *window;
  char *folder; /* for files of the test; everything of the user's lies in it, too */
} Hand;

void hand_begin (Hand *hand);
void hand_end (Hand *hand);
/* Lets the program do all that it has to do now. */
void hand_settle (void);
/* As settle, until @done or a minute has gone, which fails the test. */
void hand_wait (gboolean (*done) (gpointer data), gpointer data);

/* Writes @rig into the test's folder and opens it in the window. */
void hand_open (Hand *hand, RwRig *rig);
/* Likewise, as rw_test_rig() takes it. */
void hand_open_text (Hand *hand, const char *text);
void hand_select (Hand *hand, const char *key);
/* Types @text into the field called @path, one character after the other. */
void hand_type (Hand *hand, const char *path, const char *text);
/* Likewise, into any entry. */
void hand_type_into (GtkWidget *entry, const char *text);
/* Gives @widget the key @keyval: whether it took it, instead of leaving it to what it is in. */
gboolean hand_press (GtkWidget *widget, guint keyval);
/* Likewise for the shortcut @keys, as "<Control>z". */
gboolean hand_press_keys (GtkWidget *widget, const char *keys);
/* Picks the word or number @value, "" = absent, in the field called @path. */
void hand_choose (Hand *hand, const char *path, const char *value);
/* "code code code", in their order; free it. */
char *hand_findings (Hand *hand);
void hand_assert_findings (Hand *hand, const char *expected);
RwFinding *hand_find (Hand *hand, const char *code);
/* Presses at a port, moves to another and stops there, the button down. */
void hand_draw_to (Hand *hand, const char *from_device, const char *from_port, const char *to_device,
                   const char *to_port);
void hand_let_go (Hand *hand, const char *device, const char *port);
/* The first visible button in any window that shows @label (mnemonics left out); NULL = none. */
GtkWidget *hand_find_button (const char *label);
void hand_click (const char *label);
/* A key pressed where the keyboard is: on its way down and up it meets the controllers of all that it passes. Returns:
 * whether something took it */
gboolean hand_key (Hand *hand, guint keyval, GdkModifierType state);
/* The pointer pressed on @widget: all that it is in sees it first. */
void hand_press_on (GtkWidget *widget);
/* Whether a label in @widget has @text in it. */
gboolean hand_says (GtkWidget *widget, const char *text);

G_END_DECLS
