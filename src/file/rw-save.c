/* SPDX-License-Identifier: MIT */
#include "rw-save.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "rw-file.h"

/* As many links as Linux follows in one path (path_resolution(7)). */
#define MAX_LINKS 40
#define MAX_TRIES 100

typedef struct
{
  const char *shown; /* the path that the caller gave, for messages */
  char *target;      /* the file itself, no symbolic link */
  char *folder;
  char *temporary;   /* NULL = there is none on the disk */
  int folder_fd;
  int fd;            /* of the temporary file */
  gboolean replaces; /* @old is what is there now */
  struct stat old;
  GError **error;
} Save;

/* Reads errno. @what says which step failed. */
static gboolean
fail (Save *save, const char *what)
{
  int code = errno;
  g_autofree char *name = g_filename_display_name (save->shown);

  /* Translators: a file, the step of saving that failed, and the system's reason. */
  g_set_error (save->error, RW_FILE_ERROR, RW_FILE_ERROR_IO, _("%s: not saved: %s: %s"), name, what, g_strerror (code));
  return FALSE;
}

static gboolean
refuse (Save *save, const char *why)
{
  g_autofree char *name = g_filename_display_name (save->shown);

  g_set_error (save->error, RW_FILE_ERROR, RW_FILE_ERROR_IO, _("%s: not saved: %s"), name, why);
  return FALSE;
}

/* The path that a symbolic link at @path leads to in one step; NULL = it is none. */
static char *
follow_link (const char *path)
{
  g_autofree char *link = g_file_read_link (path, NULL);
  g_autofree char *folder = NULL;

  if (link == NULL || g_path_is_absolute (link))
    return g_steal_pointer (&link);
  folder = g_path_get_dirname (path);
  return g_build_filename (folder, link, NULL);
}

static gboolean
find_target (Save *save)
{
  save->target = g_strdup (save->shown);
  for (int links = 0; links <= MAX_LINKS; links++)
    {
      char *next = follow_link (save->target);
      if (next == NULL)
        {
          save->folder = g_path_get_dirname (save->target);
          return TRUE;
        }
      g_free (save->target);
      save->target = next;
    }
  errno = ELOOP;
  return fail (save, _("finding the file"));
}

static gboolean
look_at_target (Save *save)
{
  if (stat (save->target, &save->old) != 0)
    return errno == ENOENT || fail (save, _("finding the file"));
  save->replaces = TRUE;
  if (!S_ISREG (save->old.st_mode))
    return refuse (save, _("it is no regular file"));
  /* A rename would get past this; who write-protected a file meant it. */
  return access (save->target, W_OK) == 0 || fail (save, _("it may not be written"));
}

/* open() and not g_mkstemp(), so that a new file gets the permissions that the umask says. */
static gboolean
open_temporary (Save *save)
{
  g_autofree char *name = g_path_get_basename (save->target);

  for (int tries = 0; tries < MAX_TRIES; tries++)
    {
      g_autofree char *path = g_strdup_printf ("%s/.%.200s.%08x", save->folder, name, g_random_int ());
      save->fd = g_open (path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (save->fd >= 0)
        {
          save->temporary = g_steal_pointer (&path);
          return TRUE;
        }
      if (errno != EEXIST)
        break;
    }
  return fail (save, _("making a file in its folder"));
}

static gboolean
open_folder (Save *save)
{
  save->folder_fd = g_open (save->folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);
  return save->folder_fd >= 0 || fail (save, _("opening its folder"));
}

/* Owner and group are kept where the system lets us; where not, the group's rights are not given to
 * another group. */
static gboolean
keep_permissions (Save *save)
{
  mode_t mode = save->old.st_mode & 07777;

  if (!save->replaces)
    return TRUE;
  if (fchown (save->fd, save->old.st_uid, save->old.st_gid) != 0)
    {
      mode &= ~(mode_t) (S_ISUID | S_ISGID);
      if (fchown (save->fd, (uid_t) -1, save->old.st_gid) != 0)
        mode &= ~(mode_t) S_IRWXG;
    }
  return fchmod (save->fd, mode) == 0 || fail (save, _("keeping its permissions"));
}

static gboolean
write_all (Save *save, const char *data, gsize length)
{
  while (length > 0)
    {
      gssize n = write (save->fd, data, length);
      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return fail (save, _("writing"));
      data += n;
      length -= (gsize) n;
    }
  return TRUE;
}

static gboolean
sync_and_close (Save *save)
{
  int fd = save->fd;

  if (fsync (fd) != 0)
    return fail (save, _("writing to the disk"));
  save->fd = -1;
  return close (fd) == 0 || fail (save, _("closing"));
}

static gboolean
put_in_place (Save *save)
{
  if (g_rename (save->temporary, save->target) != 0)
    return fail (save, _("putting it in place of the old one"));
  g_clear_pointer (&save->temporary, g_free);
  /* Some file systems have no such call for folders. */
  if (fsync (save->folder_fd) != 0 && errno != EINVAL && errno != ENOTSUP)
    return fail (save, _("the new file is in place, but may not outlast a loss of power now"));
  return TRUE;
}

static gboolean
save_bytes (Save *save, const char *data, gsize length)
{
  return find_target (save) && look_at_target (save) && open_folder (save) && open_temporary (save)
         && keep_permissions (save) && write_all (save, data, length) && sync_and_close (save)
         && put_in_place (save);
}

static void
clean_up (Save *save)
{
  if (save->fd >= 0)
    close (save->fd);
  if (save->folder_fd >= 0)
    close (save->folder_fd);
  if (save->temporary != NULL)
    g_unlink (save->temporary);
  g_free (save->temporary);
  g_free (save->folder);
  g_free (save->target);
}

/**
 * rw_save_bytes:
 * @path: a file, whether or not it is there; a symbolic link leads to the file that is written
 * @data: what the file shall hold
 * @length: bytes of @data
 * @error: RW_FILE_ERROR_IO with the file, the step and the system's reason
 *
 * Replaces a file at one blow: whoever looks finds the old content or the new one, also after a crash or a
 * loss of power at any moment. Keeps the permissions and, where allowed, the owner of an existing file; a
 * file with several hard links leaves the others with the old content. After a failure the old file is
 * untouched and nothing is left beside it.
 */
gboolean
rw_save_bytes (const char *path, const char *data, gsize length, GError **error)
{
  Save save = { .shown = path, .folder_fd = -1, .fd = -1, .error = error };
  gboolean saved;

  g_return_val_if_fail (path != NULL, FALSE);

  saved = save_bytes (&save, data, length);
  clean_up (&save);
  return saved;
}
