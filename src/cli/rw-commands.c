/* SPDX-License-Identifier: MIT */
#include "rw-command.h"

/* The one list of commands, in the order in which the help shows them. */
static const RwCommand *const commands[] = {
  &rw_command_check,
  &rw_command_facts,
  &rw_command_draw,
  &rw_command_papers,
  &rw_command_compare,
};

guint
rw_n_commands (void)
{
  return G_N_ELEMENTS (commands);
}

const RwCommand *
rw_command (guint index)
{
  g_return_val_if_fail (index < G_N_ELEMENTS (commands), NULL);

  return commands[index];
}

/* The command that is typed as @name, or NULL. */
const RwCommand *
rw_command_find (const char *name)
{
  g_return_val_if_fail (name != NULL, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (commands[i]->name, name))
      return commands[i];
  return NULL;
}
