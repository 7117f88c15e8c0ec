/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Exit statuses, the same for all commands. */
enum
{
  RW_EXIT_OK = 0,
  RW_EXIT_FOUND = 1,  /* the command worked, and what it looked for is there */
  RW_EXIT_FAILED = 2, /* something could not be read or written, or was asked for wrongly */
};

typedef struct _RwCommand RwCommand;

/**
 * RwCommand: one row of the table of commands in rw-commands.c.
 * @name: what is typed
 * @arguments: (translatable): what follows it, for the usage line
 * @summary: (translatable): one line
 * @description: (translatable): what else its help says
 * @run: takes the words after the program's name, the command's own first; gives an exit status
 */
struct _RwCommand
{
  const char *name;
  const char *arguments;
  const char *summary;
  const char *description;
  int (*run) (const RwCommand *command, char **words);
};

extern const RwCommand rw_command_check;
extern const RwCommand rw_command_facts;
extern const RwCommand rw_command_draw;
extern const RwCommand rw_command_papers;
extern const RwCommand rw_command_compare;

guint rw_n_commands (void);
const RwCommand *rw_command (guint index);
const RwCommand *rw_command_find (const char *name);

G_END_DECLS
