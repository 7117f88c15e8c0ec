/* SPDX-License-Identifier: MIT */
/* What the columns of an input list mean, by the words that people put over them. */
#include <string.h>

#include "rw-csv-read.h"

/*
 * Words of the trade for each column, from common practice, in English and German; folded, without anything but letters
 * and digits. Whole headings come before words inside longer ones.
 */
static const char *const input_words[RW_LINE_N_COLUMNS] = {
  [RW_LINE_NAME] = "name|channelname|inputname|instrument|label|title|description|signal|what|beschreibung|instrumente|bezeichnung|quelle|kanalname",
  [RW_LINE_STAGE] = "rack|device|fromdevice|stagebox|box|stage|sourcedevice|buehne|bühne|gerät|geraet|vongerät|unit|subsnake|multicore",
  [RW_LINE_SOCKET] = "send|socket|port|line|linein|input|in|stageinput|boxinput|patch|buchse|sendekanal|eingang|leitung|xlr",
  [RW_LINE_CONSOLE] = "console|desk|mixer|pult|mischpult",
  [RW_LINE_CHANNEL] = "receive|netreceive|networkreceive|networkin|empfangskanal|netin",
  [RW_LINE_STRIP] = "strip|ch|chan|channel|channelno|chno|no|nr|number|inputno|kanal|kanalzug|kanalnr|fader|foh",
  [RW_LINE_SOURCE] = "source|sourcekind|mictype|type|kind|mic|microphone|micdi|mikrofon|mikro|art|typ",
  [RW_LINE_PHANTOM] = "phantom|phantompower|48v|p48|48|phantomspeisung|phantomspannung|power",
  [RW_LINE_GAIN] = "gain|gaindb|preampgain|verstärkung|verstaerkung|pegel",
  [RW_LINE_HIGH_PASS] = "highpass|highpasshz|hpf|lowcut|hochpass|trittschall|locut",
  [RW_LINE_STAND] = "stand|micstand|stativ|clip|stands|boom",
  [RW_LINE_NOTES] = "notes|note|remarks|remark|comment|comments|info|bemerkung|bemerkungen|notizen|anmerkung|kommentar",
};

static const char *const output_words[RW_LINE_N_COLUMNS] = {
  [RW_LINE_NAME] = "name|busname|mix|mixname|outputname|label|title|description|signal|what|beschreibung|bezeichnung",
  [RW_LINE_STAGE] = "rack|device|todevice|stagebox|box|stage|destination|to|buehne|bühne|gerät|geraet|angerät|ziel|unit",
  [RW_LINE_SOCKET] = "receive|socket|port|line|output|out|boxoutput|buchse|empfangskanal|ausgang|leitung|xlr",
  [RW_LINE_CONSOLE] = "console|desk|mixer|fromdevice|from|processor|pult|mischpult|vongerät|prozessor",
  [RW_LINE_CHANNEL] = "send|netsend|networksend|networkout|sendekanal|netout",
  [RW_LINE_STRIP] = "bus|busno|aux|auxno|no|nr|number|summe|mixno|outputno",
  [RW_LINE_STAND] = "stand|stativ",
  [RW_LINE_NOTES] = "notes|note|remarks|remark|comment|comments|info|bemerkung|bemerkungen|notizen|anmerkung|kommentar",
};

static const char *const *const words[RW_N_LINE_SIDES] = { input_words, output_words };

/* Lower case, letters and digits only. */
static char *
essence (const char *heading)
{
  g_autofree char *whole = g_utf8_normalize (heading, -1, G_NORMALIZE_ALL_COMPOSE);
  g_autofree char *lower = g_utf8_strdown (whole != NULL ? whole : "", -1);
  GString *text = g_string_new (NULL);

  for (const char *p = lower; *p != '\0'; p = g_utf8_next_char (p))
    if (g_unichar_isalnum (g_utf8_get_char (p)))
      g_string_append_unichar (text, g_utf8_get_char (p));
  return g_string_free (text, FALSE);
}

static gboolean
is_own_title (RwLineSide side, RwLineColumn column, const char *folded)
{
  g_autofree char *title = essence (rw_line_column_title (side, column));

  return strcmp (title, folded) == 0;
}

static gboolean
is_listed (const char *list, const char *folded)
{
  g_auto (GStrv) parts = g_strsplit (list != NULL ? list : "", "|", -1);

  return g_strv_contains ((const char *const *) parts, folded);
}

/* Length of the longest of the words that stands inside @folded; short ones would be found everywhere. */
static gsize
longest_inside (const char *list, const char *folded)
{
  g_auto (GStrv) parts = g_strsplit (list != NULL ? list : "", "|", -1);
  gsize longest = 0;

  for (guint i = 0; parts[i] != NULL; i++)
    if (strlen (parts[i]) >= 4 && strstr (folded, parts[i]) != NULL)
      longest = MAX (longest, strlen (parts[i]));
  return longest;
}

/**
 * rw_csv_find_column:
 * @side: what the list is of
 * @heading: what stands over a column
 *
 * Returns: the #RwLineColumn that is meant, by our own headings first, then by words of the trade; -1 = none
 */
int
rw_csv_find_column (RwLineSide side, const char *heading)
{
  g_autofree char *folded = essence (heading);
  int found = -1;
  gsize longest = 0;

  if (*folded == '\0')
    return -1;
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    if (is_own_title (side, i, folded))
      return (int) i;
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    if (is_listed (words[side][i], folded))
      return (int) i;
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    if (longest_inside (words[side][i], folded) > longest)
      {
        longest = longest_inside (words[side][i], folded);
        found = (int) i;
      }
  return found;
}

/* Whether the first row names the columns: two at least of its fields, and none is a bare number. */
gboolean
rw_csv_has_heading (const RwCsv *csv, RwLineSide side)
{
  guint known = 0;

  if (csv->rows->len == 0)
    return FALSE;
  for (char **field = g_ptr_array_index (csv->rows, 0); *field != NULL; field++)
    {
      g_autofree char *text = g_strstrip (g_strdup (*field));
      if (*text != '\0' && strspn (text, "0123456789.,") == strlen (text))
        return FALSE;
      known += rw_csv_find_column (side, text) >= 0;
    }
  return known >= 2;
}
