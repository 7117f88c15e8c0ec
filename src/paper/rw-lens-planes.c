/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-lens-private.h"

#define MOST_LETTERS 3 /* in the mark of a cable that several networks share */

/* By network: its style, and its number among those that have a cable; RW_NONE = it has none. */
typedef struct
{
  RwLineStyle *styles;
  guint *ranks;
} Planes;

/* A, B, … Z, A2, B2, … */
static char *
letter_of (guint rank)
{
  char letter = (char) ('A' + rank % 26);

  return rank < 26 ? g_strdup_printf ("%c", letter) : g_strdup_printf ("%c%u", letter, rank / 26 + 1);
}

/* A network of mixed devices goes by the gravest: planes that meet are a mistake and are named as one. */
static const char *
base_name (RwPlanes planes)
{
  if ((planes & RW_PLANE_PRIMARY) && (planes & RW_PLANE_SECONDARY))
    return _("Both planes, joined");
  if (planes & RW_PLANE_PRIMARY)
    return _("Primary network");
  if (planes & RW_PLANE_SECONDARY)
    return _("Secondary network");
  return planes & RW_PLANE_CHAIN ? _("Chain") : _("Other network");
}

/* The first network of each plane has the line that it has in the Wiring lens; the others take turns. */
static RwLineStyle
choose_style (RwPlanes planes, gboolean *taken, guint *n_others)
{
  RwLineStyle usual = planes & RW_PLANE_PRIMARY ? RW_LINE_PRIMARY : planes & RW_PLANE_SECONDARY ? RW_LINE_SECONDARY
                      : planes & RW_PLANE_CHAIN ? RW_LINE_CHAIN : RW_LINE_NETWORK;

  if (usual == RW_LINE_NETWORK || taken[usual])
    return RW_LINE_NETWORK + (RwLineStyle) ((*n_others)++ % RW_N_NETWORK_LINES);
  taken[usual] = TRUE;
  return usual;
}

static char *
vlan_text (const RwNetwork *network)
{
  GString *list;

  if (network->vlans.n == 0)
    return g_strdup ("");
  list = g_string_new (NULL);
  for (guint i = 0; i < network->vlans.n; i++)
    g_string_append_printf (list, "%s%u", i > 0 ? "+" : "", network->vlans.v[i]);
  return g_string_free (list, FALSE);
}

/**
 * rw_network_text: what a person knows a network by: "Primary network, VLAN 10, 12 devices". (transfer full).
 */
char *
rw_network_text (const RwNetwork *network)
{
  g_autofree char *vlans = vlan_text (network);
  const char *name = base_name (network->planes);
  guint n = network->devices.n;

  if (*vlans == '\0' || g_str_equal (vlans, "1"))
    /* Translators: in a legend: a network, and how many devices are in it */
    return g_strdup_printf (ngettext ("%s, %u device", "%s, %u devices", n), name, n);
  /* Translators: in a legend: a network, its VLANs ("10" or "10+20"), and how many devices are in it */
  return g_strdup_printf (ngettext ("%s, VLAN %s, %u device", "%s, VLAN %s, %u devices", n), name, vlans, n);
}

static void
name_networks (RwLens *lens, Planes *planes)
{
  const RwNet *net = lens->net;
  gboolean taken[RW_LINE_AUX + 1] = { FALSE };
  guint n = 0, n_others = 0;

  for (guint i = 0; i < net->n_networks; i++)
    {
      planes->ranks[i] = RW_NONE;
      if (net->networks[i].cables.n == 0)
        continue;
      planes->ranks[i] = n++;
      planes->styles[i] = choose_style (net->networks[i].planes, taken, &n_others);
      rw_lens_add_sample (lens, (RwLensSample) { .style = planes->styles[i], .mark = letter_of (planes->ranks[i]),
                                                 .text = rw_network_text (&net->networks[i]) });
    }
}

/* The networks that a cable carries, each once, in order. */
static GArray *
cable_networks (const RwNet *net, const RwNetCable *cable)
{
  GArray *networks = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = cable->first_link; i < cable->first_link + cable->n_links; i++)
    {
      guint network = net->nodes[net->links[i].node[0]].network;
      gboolean known = FALSE;

      for (guint k = 0; k < networks->len && !known; k++)
        known = g_array_index (networks, guint, k) == network;
      if (!known)
        g_array_append_val (networks, network);
    }
  return networks;
}

static char *
mark_of (const GArray *networks, const Planes *planes)
{
  GString *mark = g_string_new (NULL);

  for (guint i = 0; i < networks->len; i++)
    {
      g_autofree char *letter = letter_of (planes->ranks[g_array_index (networks, guint, i)]);

      if (i == MOST_LETTERS)
        {
          g_string_append (mark, "…");
          break;
        }
      g_string_append (mark, letter);
    }
  return g_string_free (mark, FALSE);
}

static void
mark_cable (RwLens *lens, guint cable, const Planes *planes, gboolean *has_trunk)
{
  const RwNetCable *c = &lens->net->cables[cable];
  g_autoptr (GArray) networks = cable_networks (lens->net, c);

  lens->styles[cable] = c->audio ? RW_LINE_PLAIN : RW_LINE_AUX;
  if (networks->len == 0)
    return;
  lens->marks[cable] = mark_of (networks, planes);
  lens->styles[cable] = networks->len > 1 ? RW_LINE_TRUNK : planes->styles[g_array_index (networks, guint, 0)];
  *has_trunk |= networks->len > 1;
}

void
rw_lens_fill_planes (RwLens *lens)
{
  const RwNet *net = lens->net;
  g_autofree RwLineStyle *styles = g_new0 (RwLineStyle, net->n_networks + 1);
  g_autofree guint *ranks = g_new (guint, net->n_networks + 1);
  Planes planes = { styles, ranks };
  gboolean has_trunk = FALSE;

  lens->styles = g_new0 (RwLineStyle, net->n_cables + 1);
  lens->marks = g_new0 (char *, net->n_cables + 1);
  name_networks (lens, &planes);
  for (guint i = 0; i < net->n_cables; i++)
    mark_cable (lens, i, &planes, &has_trunk);
  if (has_trunk)
    rw_lens_add_sample (lens, (RwLensSample) { .style = RW_LINE_TRUNK, .text = g_strdup (_("Cable that several networks share")) });
}
