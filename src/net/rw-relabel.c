/* SPDX-License-Identifier: MIT */
#include "rw-relabel.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-edit.h>
#include <rig/rw-error.h>
#include <string.h>

/* What a pattern is filled in for. */
typedef struct
{
  const RwNet *net;
  guint cable;
  int number;
} Filling;

static char *
end_device (const Filling *f, guint end)
{
  const RwNetDevice *device = &f->net->devices[f->net->ports[f->net->cables[f->cable].port[end]].device];

  return g_strdup (rw_device_title (device->device));
}

static char *
end_port (const Filling *f, guint end)
{
  return g_strdup (f->net->ports[f->net->cables[f->cable].port[end]].port->name);
}

static char *fill_from (const Filling *f) { return end_device (f, 0); }
static char *fill_to (const Filling *f) { return end_device (f, 1); }
static char *fill_from_port (const Filling *f) { return end_port (f, 0); }
static char *fill_to_port (const Filling *f) { return end_port (f, 1); }

/* A cable that carries several VLANs takes the first network's. */
static char *
fill_plane (const Filling *f)
{
  const RwNetCable *cable = &f->net->cables[f->cable];
  RwPlanes planes = 0;

  if (cable->n_links > 0)
    planes = f->net->networks[f->net->nodes[f->net->links[cable->first_link].node[0]].network].planes;
  if (planes & RW_PLANE_PRIMARY)
    /* Translators: one letter for the primary network, on a cable's label */
    return g_strdup (C_("plane letter", "P"));
  if (planes & RW_PLANE_SECONDARY)
    /* Translators: one letter for the secondary network, on a cable's label */
    return g_strdup (C_("plane letter", "S"));
  if (planes & RW_PLANE_CHAIN)
    /* Translators: one letter for a chain, on a cable's label */
    return g_strdup (C_("plane letter", "C"));
  return g_strdup ("");
}

static const struct
{
  RwPatternWord word;
  char *(*fill) (const Filling *);
} words[] = {
  { { N_("from"), N_("the device at its start") }, fill_from },
  { { N_("to"), N_("the device at its end") }, fill_to },
  { { N_("from port"), N_("the port at its start") }, fill_from_port },
  { { N_("to port"), N_("the port at its end") }, fill_to_port },
  { { N_("plane"), N_("P, S or C: primary, secondary, chain") }, fill_plane },
};

guint
rw_n_pattern_words (void)
{
  return G_N_ELEMENTS (words);
}

const RwPatternWord *
rw_pattern_word (guint index)
{
  g_return_val_if_fail (index < G_N_ELEMENTS (words), NULL);

  return &words[index].word;
}

static int
find_word (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_equal (name, words[i].word.name) || g_str_equal (name, _(words[i].word.name)))
      return (int) i;
  return -1;
}

static char *
list_words (void)
{
  GString *list = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    g_string_append_printf (list, "%s{%s}", i > 0 ? ", " : "", _(words[i].word.name));
  return g_string_free (list, FALSE);
}

/* A word in braces; gives what follows it, or NULL. */
static const char *
add_word (GString *label, const char *at, const Filling *filling, GError **error)
{
  const char *end = strchr (at, '}');
  g_autofree char *name = end != NULL ? g_strstrip (g_strndup (at + 1, (gsize) (end - at - 1))) : NULL;
  g_autofree char *text = NULL;
  int index = name != NULL ? find_word (name) : -1;

  if (index < 0)
    {
      g_autofree char *list = list_words ();

      if (name == NULL)
        /* Translators: of a pattern such as “{from} #” */
        g_set_error_literal (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("A brace “{” is not closed with “}”"));
      else
        /* Translators: what was typed, and the words that there are */
        g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("There is no word “{%s}”: take one of %s"), name, list);
      return NULL;
    }
  text = words[index].fill (filling);
  g_string_append (label, text);
  return end + 1;
}

static char *
fill_pattern (const char *pattern, const Filling *filling, GError **error)
{
  g_autoptr (GString) label = g_string_new (NULL);
  const char *at = pattern;

  while (at != NULL && *at != '\0')
    if (*at == '{')
      at = add_word (label, at, filling, error);
    else if (*at == '#')
      {
        int digits = (int) strspn (at, "#");

        g_string_append_printf (label, "%0*d", digits, filling->number);
        at += digits;
      }
    else
      g_string_append_c (label, *at++);
  return at != NULL ? g_strdup (label->str) : NULL;
}

static gboolean
check_pattern (const char *pattern, GError **error)
{
  g_autofree char *bare = g_strstrip (g_strdup (pattern));

  if (*bare != '\0')
    return TRUE;
  g_set_error_literal (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("The pattern is empty: write for example “N##”"));
  return FALSE;
}

static RwChange *
finish (RwEdit *edit, guint n)
{
  /* Translators: stands after “Undo”; %u is a number of cables */
  g_autofree char *name = g_strdup_printf (ngettext ("Label %u Cable", "Label %u Cables", n), n);

  rw_edit_set_name (edit, name);
  return rw_edit_finish (edit);
}

/**
 * rw_relabel_cables:
 * @rig: a rig
 * @net: its net
 * @options: how
 * @error: RW_RIG_ERROR_RANGE: a pattern that cannot be read, or no cable
 *
 * Labels cables by a pattern, in file order.
 *
 * Returns: (transfer full) (nullable): the change
 */
RwChange *
rw_relabel_cables (const RwRig *rig, const RwNet *net, const RwRelabelOptions *options, GError **error)
{
  g_autoptr (RwEdit) edit = rw_edit_new (rig, "");
  guint n = 0;

  if (!check_pattern (options->pattern, error))
    return NULL;
  for (guint i = 0; i < net->n_cables; i++)
    {
      const char *key = rw_item_key (net->cables[i].cable);
      Filling filling = { net, i, options->first + (int) n };
      g_autofree char *label = NULL;

      if (options->cables != NULL && !g_strv_contains (options->cables, key))
        continue;
      label = fill_pattern (options->pattern, &filling, error);
      if (label == NULL || !rw_edit_set (edit, key, RW_CABLE_LABEL, g_variant_new_string (label), error))
        return NULL;
      n++;
    }
  if (n > 0)
    return finish (g_steal_pointer (&edit), n);
  g_set_error_literal (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("There is no cable to label here"));
  return NULL;
}

/**
 * rw_relabel_n_repeats:
 * @rig: the rig that @change is for
 * @change: what rw_relabel_cables() gave
 *
 * Returns: how many cables would have a label that a cable before them has
 */
guint
rw_relabel_n_repeats (const RwRig *rig, const RwChange *change)
{
  g_autoptr (GHashTable) labels = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) after = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = 0;

  for (guint i = 0; i < rw_change_n (change); i++)
    g_hash_table_insert (after, rw_change_entry (change, i)->key, rw_change_entry (change, i)->after);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    {
      RwItem *item = rw_rig_items (rig, RW_ITEM_CABLE)[i];
      RwItem *changed = g_hash_table_lookup (after, rw_item_key (item));
      const char *label = ((const RwCable *) (changed != NULL ? changed : item))->label;

      if (label != NULL && *label != '\0' && !g_hash_table_add (labels, (gpointer) label))
        n++;
    }
  return n;
}
