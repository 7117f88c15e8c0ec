/* SPDX-License-Identifier: MIT */
#include "rw-cli.h"

#include <glib/gi18n-lib.h>

/**
 * rw_cli_choose_paper: what --paper says, put into @paper; NULL = nothing.
 *
 * Returns: FALSE if there is no such paper, which has been said
 */
gboolean
rw_cli_choose_paper (const char *command, const char *word, const RwPaper **paper)
{
  const RwPaper *found = word != NULL ? rw_paper_find (word) : NULL;
  GString *names;

  if (word == NULL || found != NULL)
    {
      *paper = found != NULL ? found : *paper;
      return TRUE;
    }
  names = g_string_new (NULL);
  for (guint i = 0; i < rw_n_papers (); i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", rw_paper (i)->name);
  /* Translators: a command; what was typed; the names that there are */
  rw_cli_error (_("%s: there is no paper “%s”: take one of %s"), command, word, names->str);
  g_string_free (names, TRUE);
  return FALSE;
}

/* "1:2", "2:1", "0.5", "fit". */
static gboolean
read_scale (const char *text, double *scale)
{
  char *end;
  double part = g_ascii_strtod (text, &end), whole = 1;

  if (g_str_equal (text, "fit"))
    {
      *scale = 0;
      return TRUE;
    }
  if (*end == ':')
    {
      const char *second = end + 1;

      whole = g_ascii_strtod (second, &end);
      if (end == second)
        return FALSE;
    }
  *scale = part / whole;
  return end > text && *end == '\0' && *scale >= 0.0001 && *scale <= 1000;
}

/**
 * rw_cli_choose_scale: what --scale says, put into @scale: 0.5 for 1:2, 0 for "fit"; NULL = nothing.
 *
 * Returns: FALSE if it is no scale, which has been said
 */
gboolean
rw_cli_choose_scale (const char *command, const char *word, double *scale)
{
  if (word == NULL || read_scale (word, scale))
    return TRUE;
  /* Translators: a command; what was typed */
  rw_cli_error (_("%s: “%s” is no scale: write 1:2, 0.5 or “fit”"), command, word);
  return FALSE;
}

/**
 * rw_cli_choose_lens: what --lens says, put into @lens: one of the first @n_lenses; NULL = nothing.
 *
 * Returns: FALSE if it is none of them, which has been said
 */
gboolean
rw_cli_choose_lens (const char *command, const char *word, guint n_lenses, RwLensKind *lens)
{
  RwLensKind found = RW_LENS_WIRING;
  GString *names;

  if (word == NULL || (rw_lens_find (word, &found) && found < n_lenses))
    {
      *lens = word != NULL ? found : *lens;
      return TRUE;
    }
  names = g_string_new (NULL);
  for (guint i = 0; i < n_lenses; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", rw_lens_info ((RwLensKind) i)->name);
  /* Translators: a command; what was typed; the names that there are */
  rw_cli_error (_("%s: there is no lens “%s”: take one of %s"), command, word, names->str);
  g_string_free (names, TRUE);
  return FALSE;
}
