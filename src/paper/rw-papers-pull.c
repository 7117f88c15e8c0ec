/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <rig/rw-length.h>
#include <math.h>
#include <net/rw-path.h>
#include <net/rw-reach.h>

#include "rw-papers-parts.h"

/* The cables of one medium: what they need and what they get. */
typedef struct
{
  GArray *cables;  /* of guint, index in the net */
  GArray *needs;   /* of RwPullNeed */
  const GArray *stock;
  RwPull *pull;
  guint *taken;    /* of each length in stock */
} Pull;

static void
pull_init (Pull *pull, const RwNet *net, RwMedium medium, const GArray *stock)
{
  pull->cables = g_array_new (FALSE, FALSE, sizeof (guint));
  pull->needs = g_array_new (FALSE, FALSE, sizeof (RwPullNeed));
  pull->stock = stock;
  for (guint i = 0; i < net->n_cables; i++)
    {
      const RwRun *run = &net->cables[i].run;
      RwPullNeed need = { run->length_m, rw_reach_most_m (run) };

      if (run->medium != medium || run->length_m <= 0)
        continue;
      g_array_append_val (pull->cables, i);
      g_array_append_val (pull->needs, need);
    }
  pull->pull = rw_pull_new ((const RwStockLength *) stock->data, stock->len, (const RwPullNeed *) pull->needs->data, pull->needs->len);
  pull->taken = g_new0 (guint, stock->len + 1);
  for (guint i = 0; i < pull->needs->len; i++)
    {
      const RwPullChoice *choice = &pull->pull->choices[i];

      if (choice->first != RW_PULL_NONE)
        pull->taken[choice->first]++;
      if (choice->second != RW_PULL_NONE)
        pull->taken[choice->second]++;
    }
}

static void
pull_clear (Pull *pull)
{
  g_array_unref (pull->cables);
  g_array_unref (pull->needs);
  rw_pull_free (pull->pull);
  g_free (pull->taken);
}

/* Spares round up: one of few is still one. */
static guint
spares_for (guint taken, double percent)
{
  return taken == 0 ? 0 : (guint) ceil (taken * percent / 100 - 1e-9);
}

static char *
in_stock (const RwStockLength *length)
{
  return length->count == RW_PULL_ANY ? g_strdup (_("any number")) : g_strdup_printf ("%d", length->count);
}

static void
add_lengths (RwListing *listing, const Pull *pull, RwMedium medium, double percent)
{
  for (guint i = 0; i < pull->stock->len; i++)
    {
      const RwStockLength *length = &g_array_index (pull->stock, RwStockLength, i);
      guint taken = pull->taken[i], spares = spares_for (taken, percent);

      if (length->count != RW_PULL_ANY)
        spares = MIN (spares, (guint) length->count - taken);
      if (taken > 0)
        rw_listing_take (listing, rw_cell_word (&rw_cable_table.fields[RW_CABLE_MEDIUM], (int) medium),
                         rw_cell_length (length->length_m, -1), rw_cell_count (taken), rw_cell_count (spares),
                         rw_cell_count (taken + spares), in_stock (length), NULL, RW_LISTING_END);
    }
}

static RwListing *
length_list (const Pull *pulls, double percent)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Medium"), RW_ALIGN_LEFT, 30, 1 }, 0 },
    { { rw_length_heading (C_("column", "Length, m"), C_("column", "Length")), RW_ALIGN_RIGHT, 18, 0 }, 0 },
    { { C_("column", "For the plan"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
    { { C_("column", "Spares"), RW_ALIGN_RIGHT, 16, 0 }, 0 },
    { { C_("column", "To take"), RW_ALIGN_RIGHT, 16, 0 }, 0 },
    { { C_("column", "In stock"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
    { { C_("column", "Packed"), RW_ALIGN_MIDDLE, 12, 0 }, RW_MARK_TICK },
  };
  RwListing *listing = rw_listing_new ("pull", _("Cables to take"), columns, G_N_ELEMENTS (columns));

  listing->empty = _("No cable of this rig has a length yet.");
  for (guint i = 0; i <= RW_MEDIUM_SINGLEMODE; i++)
    add_lengths (listing, &pulls[i], i, percent);
  return listing;
}

static char *
choice_text (const Pull *pull, const RwPullChoice *choice)
{
  const RwStockLength *stock = (const RwStockLength *) pull->stock->data;
  g_autofree char *first = NULL, *second = NULL;

  if (choice->first == RW_PULL_NONE)
    return g_strdup (_("to be made or bought"));
  first = rw_length_number (stock[choice->first].length_m);
  if (choice->second == RW_PULL_NONE)
    return g_steal_pointer (&first);
  second = rw_length_number (stock[choice->second].length_m);
  /* Translators: two lengths of cable. */
  return g_strdup_printf (_("%s + %s, joined"), second, first);
}

static char *
left_over (const Pull *pull, guint need)
{
  const RwStockLength *stock = (const RwStockLength *) pull->stock->data;
  const RwPullChoice *choice = &pull->pull->choices[need];
  double sum;

  if (choice->first == RW_PULL_NONE)
    return g_strdup ("—");
  sum = stock[choice->first].length_m + (choice->second != RW_PULL_NONE ? stock[choice->second].length_m : 0);
  return rw_length_number (round ((sum - g_array_index (pull->needs, RwPullNeed, need).length_m) * 1000) / 1000);
}

static void
add_choice (RwListing *listing, const RwPapersSource *source, guint index, char *taken, char *left)
{
  const RwNetCable *c = &source->net->cables[index];
  const RwNet *net = source->net;
  RwListingRow *row;

  row = rw_listing_take (listing, rw_cell_text (rw_cable_title (c->cable)),
                         g_strdup_printf ("%s – %s", rw_device_title (net->devices[net->ports[c->port[0]].device].device),
                                          rw_device_title (net->devices[net->ports[c->port[1]].device].device)),
                         rw_cell_word (&rw_cable_table.fields[RW_CABLE_MEDIUM], c->cable->medium),
                         rw_cell_word (&rw_cable_table.fields[RW_CABLE_GRADE], (int) rw_cable_grade (c->cable)),
                         rw_cell_length (MAX (c->cable->length_m, 0), -1), taken, left, rw_cell_text (c->cable->notes), RW_LISTING_END);
  row->link = rw_papers_link (source, RW_PLACE_CABLE, index);
}

static RwListing *
choice_list (const RwPapersSource *source, const Pull *pulls)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Label"), RW_ALIGN_LEFT, 18, 1 }, 0 },
    { { C_("column", "From – to"), RW_ALIGN_LEFT, 50, 3 }, 0 },
    { { C_("column", "Medium"), RW_ALIGN_LEFT, 18, 0 }, 0 },
    { { C_("column", "Grade at least"), RW_ALIGN_LEFT, 14, 0 }, 0 },
    { { rw_length_heading (C_("column", "Needed, m"), C_("column", "Needed")), RW_ALIGN_RIGHT, 16, 0 }, 0 },
    { { rw_length_heading (C_("column", "Take, m"), C_("column", "Take")), RW_ALIGN_RIGHT, 24, 1 }, 0 },
    { { rw_length_heading (C_("column", "Left over, m"), C_("column", "Left over")), RW_ALIGN_RIGHT, 16, 0 }, 0 },
    { { C_("column", "Notes"), RW_ALIGN_LEFT, 30, 2, RW_TABLE_LINES_TEXT, 1 }, 0 },
  };
  RwListing *listing = rw_listing_new ("pull-cables", _("Which cable where"), columns, G_N_ELEMENTS (columns));
  guint at[RW_MEDIUM_SINGLEMODE + 1] = { 0 };

  for (guint i = 0; i < source->net->n_cables; i++)
    {
      const RwCable *cable = source->net->cables[i].cable;
      const Pull *pull = &pulls[cable->medium];

      if (cable->length_m <= 0)
        {
          add_choice (listing, source, i, g_strdup (_("length not known yet")), g_strdup ("—"));
          continue;
        }
      add_choice (listing, source, i, choice_text (pull, &pull->pull->choices[at[cable->medium]]), left_over (pull, at[cable->medium]));
      at[cable->medium]++;
    }
  return listing;
}

static void
add_waste (RwFlow *flow, const Pull *pulls)
{
  double waste = 0;
  guint unmet = 0;
  gboolean exact = TRUE;
  g_autofree char *line = NULL, *left = NULL;

  for (guint i = 0; i <= RW_MEDIUM_SINGLEMODE; i++)
    {
      waste += pulls[i].pull->waste_m;
      unmet += pulls[i].needs->len - pulls[i].pull->n_met;
      exact &= pulls[i].pull->exact;
    }
  left = rw_length_text (round (waste * 100) / 100);
  if (exact)
    /* Translators: a length */
    line = g_strdup_printf (_("Cables are taken whole, so that in all the least is left over: %s."), left);
  else
    /* Translators: a length */
    line = g_strdup_printf (_("Cables are taken whole. %s is left over in all; so many have to be joined that not every way was tried, "
                              "so there may be one that leaves less."), left);
  rw_flow_add_text (flow, RW_BLOCK_TEXT, line);
  if (unmet > 0)
    {
      g_autofree char *more = g_strdup_printf (ngettext ("The stock has nothing for %u cable: make or buy it.",
                                                         "The stock has nothing for %u cables: make or buy them.", unmet), unmet);

      rw_flow_add_text (flow, RW_BLOCK_TEXT, more);
    }
}

/* What has to sit in the cages, by the cable's medium and the port's speed. */
static RwListing *
transceiver_list (const RwNet *net)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Transceivers for"), RW_ALIGN_LEFT, 40, 1 }, 0 },
    { { C_("column", "Speed, Mb/s"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
    { { C_("column", "Count"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
  };
  RwListing *listing = rw_listing_new ("transceivers", _("Transceivers"), columns, G_N_ELEMENTS (columns));

  for (int medium = 0; medium <= RW_MEDIUM_SINGLEMODE; medium++)
    {
      const int *speeds = rw_port_table.fields[RW_PORT_SPEED_MBPS].allowed;

      for (guint s = 0; speeds[s] != 0; s++)
        {
          guint n = 0;

          for (guint i = 0; i < net->n_cables; i++)
            for (guint e = 0; e < 2; e++)
              {
                const RwPort *port = net->ports[net->cables[i].port[e]].port;

                n += net->cables[i].cable->medium == medium && port->medium == RW_MEDIUM_CAGE && port->speed_mbps == speeds[s];
              }
          if (n > 0)
            rw_listing_take (listing, rw_cell_word (&rw_cable_table.fields[RW_CABLE_MEDIUM], medium), g_strdup_printf ("%d", speeds[s]),
                             rw_cell_count (n), RW_LISTING_END);
        }
    }
  return listing;
}

/* What the devices that hang on its ports take. */
static double
poe_drawn (const RwNet *net, const RwNetDevice *device)
{
  double drawn = 0;

  for (guint i = 0; i < device->n_ports; i++)
    {
      guint port = device->first_port + i, cable = net->ports[port].cable, far;

      if (cable == RW_NONE)
        continue;
      far = net->cables[cable].port[net->cables[cable].port[0] == port];
      drawn += net->devices[net->ports[far].device].part->poe_draw_w;
    }
  return drawn;
}

static RwListing *
switch_list (const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Switch"), RW_ALIGN_LEFT, 40, 1 }, 0 },
    { { C_("column", "Ports"), RW_ALIGN_RIGHT, 14, 0 }, 0 },
    { { C_("column", "Used"), RW_ALIGN_RIGHT, 14, 0 }, 0 },
    { { C_("column", "Spare"), RW_ALIGN_RIGHT, 14, 0 }, 0 },
    { { C_("column", "PoE supply, W"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
    { { C_("column", "PoE drawn, W"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
    { { C_("column", "PoE left, W"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
  };
  RwListing *listing = rw_listing_new ("switches", _("Switch ports and PoE"), columns, G_N_ELEMENTS (columns));
  const RwNet *net = source->net;

  for (guint i = 0; i < net->n_devices; i++)
    {
      const RwNetDevice *d = &net->devices[i];
      double drawn = poe_drawn (net, d), supply = d->part->poe_supply_w;
      guint used = 0;
      RwListingRow *row;

      if (d->part->kind != RW_PART_SWITCH)
        continue;
      for (guint k = 0; k < d->n_ports; k++)
        used += net->ports[d->first_port + k].cable != RW_NONE;
      row = rw_listing_take (listing, rw_cell_text (rw_device_title (d->device)), rw_cell_count (d->n_ports), rw_cell_count (used),
                             rw_cell_count (d->n_ports - used), rw_cell_plain (supply), rw_cell_plain (drawn),
                             rw_cell_plain (supply - drawn), RW_LISTING_END);
      row->link = rw_papers_link (source, RW_PLACE_DEVICE, i);
    }
  return listing;
}

RwFlow *
rw_papers_pull (const RwPapersSource *source)
{
  RwFlow *flow = rw_flow_new (RW_PAPERS_PULL);
  g_autoptr (RwStock) stock = source->options->stock != NULL ? rw_stock_copy (source->options->stock) : rw_stock_new ();
  Pull pulls[RW_MEDIUM_SINGLEMODE + 1];

  for (guint i = 0; i < G_N_ELEMENTS (pulls); i++)
    pull_init (&pulls[i], source->net, i, stock->lengths[i]);
  rw_flow_take_listing (flow, length_list (pulls, stock->spares_percent));
  add_waste (flow, pulls);
  rw_flow_take_listing (flow, transceiver_list (source->net));
  rw_flow_take_listing (flow, switch_list (source));
  rw_flow_take_listing (flow, choice_list (source, pulls));
  for (guint i = 0; i < G_N_ELEMENTS (pulls); i++)
    pull_clear (&pulls[i]);
  return flow;
}
