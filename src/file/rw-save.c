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

static gboolean
set_error (Save *save, const char *what, int code)
{
  g_autofree char *name = g_filename_display_name (save->shown);

  /* Translators: a file, what became of saving it, and the system's reason. */
  g_set_error (save->error, RW_FILE_ERROR, RW_FILE_ERROR_IO, _("%s: %s: %s"), name, what, g_strerror (code));
  return FALSE;
}

/* Reads errno. @step is what failed. */
static gboolean
fail (Save *save, const char *step)
{
  int code = errno;
  /* Translators: the step of saving that failed. */
  g_autofree char *what = g_strdup_printf (_("not saved: %s"), step);

  return set_error (save, what, code);
}

static gboolean
refuse (Save *save, const char *why)
{
  g_autofree char *name = g_filename_display_name (save->shown);

  /* Translators: a file and why it was not saved. */
  g_set_error (save->error, RW_FILE_ERROR, RW_FILE_ERROR_IO, _("%s: not saved: %s"), name, why);
  return FALSE;
}

/* Goes one step along a symbolic link; *followed tells whether the target was one. */
static gboolean
follow_link (Save *save, gboolean *followed)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *link = g_file_read_link (save->target, &error);
  g_autofree char *folder = NULL;

  *followed = link != NULL;
  if (link == NULL)
    /* EINVAL: it is no link. Other failures must not be taken for that: the link would be overwritten. */
    return g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_INVAL)
           || g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT) || refuse (save, error->message);
  folder = g_path_get_dirname (save->target);
  g_free (save->target);
  save->target = g_path_is_absolute (link) ? g_strdup (link) : g_build_filename (folder, link, NULL);
  return TRUE;
}

static gboolean
find_target (Save *save)
{
  gboolean followed = TRUE;

  save->target = g_strdup (save->shown);
  for (int links = 0; followed; links++)
    {
      errno = ELOOP;
      if (links > MAX_LINKS)
        return fail (save, _("finding the file"));
      if (!follow_link (save, &followed))
        return FALSE;
    }
  save->folder = g_path_get_dirname (save->target);
  return TRUE;
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
    return set_error (save, _("saved, but may not outlast a loss of power now"), errno);
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
 * untouched and nothing is left beside it; but for one, which the message tells of: the new file is there and
 * the disk could not confirm that it would outlast a loss of power.
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
