/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <rig/rw-length.h>
#include <math.h>
#include <rules/rw-rule-phantom.h>

#include "rw-papers-parts.h"

static const struct
{
  const char *name;
  const char *title;
} sections[] = {
#define SECTION(id, name, title) { name, title },
  RW_PAPERS_SECTIONS (SECTION)
#undef SECTION
};

/* As the command line names it. */
const char *
rw_papers_section_name (RwPapersSection section)
{
  g_return_val_if_fail ((guint) section < RW_N_PAPERS_SECTIONS, NULL);

  return sections[section].name;
}

/* Translated. */
const char *
rw_papers_section_title (RwPapersSection section)
{
  g_return_val_if_fail ((guint) section < RW_N_PAPERS_SECTIONS, NULL);

  return _(sections[section].title);
}

/**
 * rw_papers_section_find: the section called @name, -1 = there is none.
 */
int
rw_papers_section_find (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (sections); i++)
    if (g_ascii_strcasecmp (sections[i].name, name) == 0)
      return (int) i;
  return -1;
}

gboolean
rw_papers_has (const RwPapersSource *source, RwPapersSection section)
{
  return (source->options->sections >> section) & 1;
}

const RwChannel *
rw_papers_channel (const RwPapersSource *source, const char *device, RwChannelSide side, int number)
{
  g_autofree char *key = rw_channel_key (device, side, number);

  return g_hash_table_lookup (source->channels, key);
}

/* "" where it has none. */
const char *
rw_papers_channel_name (const RwPapersSource *source, const char *device, RwChannelSide side, int number)
{
  const RwChannel *channel = rw_papers_channel (source, device, side, number);

  return channel != NULL && channel->name != NULL ? channel->name : "";
}

char *
rw_cell_text (const char *text)
{
  return g_strdup (text != NULL ? text : "");
}

char *
rw_cell_count (guint count)
{
  return count == 0 ? g_strdup ("—") : g_strdup_printf ("%u", count);
}

char *
rw_cell_number (double number, guint digits)
{
  return number == 0 ? g_strdup ("—") : g_strdup_printf ("%.*f", (int) digits, number);
}

/* As many digits as it needs; "—" for 0. */
char *
rw_cell_plain (double number)
{
  return number == 0 ? g_strdup ("—") : g_strdup_printf ("%.10g", number);
}

/* @digits: behind the point, of metres; below 0: as many as it needs. "—" for 0. */
char *
rw_cell_length (double metres, int digits)
{
  if (metres == 0)
    return g_strdup ("—");
  return digits < 0 || rw_length_units () == RW_UNITS_FEET ? rw_length_number (metres) : rw_cell_number (metres, (guint) digits);
}

char *
rw_cell_word (const RwField *field, int index)
{
  if (index < 0)
    return g_strdup ("—");
  return g_strdup (_(field->word_labels != NULL ? field->word_labels[index] : field->words[index]));
}

/**
 * rw_digits_needed: digits after the point, at most two, with which all of @numbers are written alike, so that their
 * points stand under each other.
 */
guint
rw_digits_needed (const double *numbers, guint n)
{
  guint digits = 0;

  for (guint i = 0; i < n; i++)
    while (digits < 2 && fabs (numbers[i] * pow (10, digits) - round (numbers[i] * pow (10, digits))) > 1e-6)
      digits++;
  return digits;
}

char *
rw_plane_word (RwLineStyle style)
{
  switch (style)
    {
    case RW_LINE_CHAIN:
      return g_strdup (_("chain"));
    case RW_LINE_PRIMARY:
      return g_strdup (_("primary"));
    case RW_LINE_SECONDARY:
      return g_strdup (_("secondary"));
    case RW_LINE_AUX:
      return g_strdup (_("apart"));
    case RW_LINE_PLAIN:
    case RW_LINE_NETWORK:
    case RW_LINE_QUIET:
    case RW_LINE_FAILED:
    case RW_LINE_LOAD:
    case RW_LINE_TRUNK:
    default:
      return g_strdup ("—");
    }
}

/**
 * rw_cell_phantom: @on, and a word to whoever switches it where the rules have something against it on what is plugged in.
 * @channel: has phantom power on. @on: what says that here.
 */
char *
rw_cell_phantom (const RwChannel *channel, const char *on)
{
  if (rw_phantom_suits (channel->source))
    return g_strdup (on);
  /* Translators: "on" or "phantom on", "Ribbon microphone" or another source that this may harm. */
  return g_strdup_printf (_("%s – check: %s"), on, _(rw_channel_table.fields[RW_CHANNEL_SOURCE].word_labels[channel->source]));
}

char *
rw_place (const char *kind, guint index)
{
  return g_strdup_printf ("%s-%u", kind, index);
}

/* Which section holds the places of a kind. */
static RwPapersSection
home_of (const char *kind)
{
  if (g_str_equal (kind, RW_PLACE_CARD))
    return RW_PAPERS_CARDS;
  return g_str_equal (kind, RW_PLACE_ROW) ? RW_PAPERS_CABLES : RW_PAPERS_PLAN;
}

char *
rw_papers_link (const RwPapersSource *source, const char *kind, guint index)
{
  RwPapersSection home = home_of (kind);

  if (index == RW_NONE || !rw_papers_has (source, home))
    return NULL;
  return g_strdup_printf ("%s%s-%u", home == RW_PAPERS_PLAN && source->tiled ? RW_PLACE_TILED : "", kind, index);
}

guint
rw_length_digits (const RwNet *net)
{
  guint digits = 0;

  for (guint i = 0; i < net->n_cables; i++)
    digits = MAX (digits, rw_digits_needed (&net->cables[i].cable->length_m, 1));
  return digits;
}
