/* SPDX-License-Identifier: MIT */
/* Saves the rig NEW as OLD, for save-killed.py: a getppid() stands before the save and another after it. */
#include <file/rw-file.h>
#include <sys/syscall.h>
#include <unistd.h>

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = argc == 3 ? rw_file_read (argv[1], &error) : NULL;
  gboolean saved;

  if (rig == NULL)
    {
      g_printerr ("usage: save-once NEW OLD (%s)\n", error != NULL ? error->message : "two files");
      return 2;
    }
  syscall (SYS_getppid);
  saved = rw_file_write (rig, argv[2], &error);
  syscall (SYS_getppid);
  if (!saved)
    g_printerr ("%s\n", error->message);
  return saved ? 0 : 1;
}
