/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  RW_ANSWER_PLAIN,
  RW_ANSWER_SUGGESTED,   /* what Enter picks */
  RW_ANSWER_DESTRUCTIVE,
} RwAnswerStyle;

/* @name is what the callback gets, @label (with a mnemonic) what a person reads. */
typedef struct { const char *name, *label; RwAnswerStyle style; } RwAnswer;

/* @answer: the name of the chosen one; "cancel" for Escape and for closing the window. Called once. */
typedef void (*RwAnswerFunc) (const char *answer, gpointer user_data);

GtkWindow *rw_question_ask (GtkWindow *parent, const char *heading, const char *text,
                            const RwAnswer *answers, guint n_answers, RwAnswerFunc done,
                            gpointer user_data);

G_END_DECLS
