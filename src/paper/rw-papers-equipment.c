/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-papers-parts.h"

/* Devices of one kind and part at one place. */
typedef struct
{
  const RwPart *part;
  const char *place;
  guint count;
  GString *names;
} Batch;

static void
batch_free (gpointer data)
{
  Batch *batch = data;

  g_string_free (batch->names, TRUE);
  g_free (batch);
}

static const char *
place_of (const RwDevice *device)
{
  return device->location != NULL ? device->location : "";
}

static const char *
part_title (const RwPart *part)
{
  return part->name != NULL && *part->name != '\0' ? part->name : rw_item_key (part);
}

static void
add_device (GPtrArray *batches, GHashTable *known, const RwNetDevice *device)
{
  g_autofree char *key = g_strconcat (rw_item_key (device->part), "\n", place_of (device->device), NULL);
  Batch *batch = g_hash_table_lookup (known, key);

  if (batch == NULL)
    {
      batch = g_new0 (Batch, 1);
      batch->part = device->part;
      batch->place = place_of (device->device);
      batch->names = g_string_new (NULL);
      g_ptr_array_add (batches, batch);
      g_hash_table_insert (known, g_steal_pointer (&key), batch);
    }
  batch->count++;
  g_string_append_printf (batch->names, "%s%s", batch->names->len > 0 ? ", " : "", rw_device_title (device->device));
}

static int
compare_batches (gconstpointer a, gconstpointer b)
{
  const Batch *p = *(Batch *const *) a, *q = *(Batch *const *) b;
  int order = p->part->kind - q->part->kind;

  if (order == 0)
    order = g_utf8_collate (part_title (p->part), part_title (q->part));
  return order != 0 ? order : g_utf8_collate (p->place, q->place);
}

static GPtrArray *
batches_new (const RwNet *net)
{
  GPtrArray *batches = g_ptr_array_new_with_free_func (batch_free);
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < net->n_devices; i++)
    add_device (batches, known, &net->devices[i]);
  g_ptr_array_sort (batches, compare_batches);
  return batches;
}

static RwListing *
equipment_list (const GPtrArray *batches)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Kind"), RW_ALIGN_LEFT, 16, 0 }, 0 },
    { { C_("column", "Part"), RW_ALIGN_LEFT, 30, 1 }, 0 },
    { { C_("column", "Place"), RW_ALIGN_LEFT, 24, 1, 0, 3 }, 0 },
    { { C_("column", "Count"), RW_ALIGN_RIGHT, 12, 0 }, 0 },
    { { C_("column", "Devices"), RW_ALIGN_LEFT, 40, 3, RW_TABLE_LINES_LIST }, 0 },
    { { C_("column", "Rack units, U"), RW_ALIGN_RIGHT, 14, 0, 0, 1 }, 0 },
    { { C_("column", "Power, W"), RW_ALIGN_RIGHT, 14, 0, 0, 2 }, 0 },
    /* Translators: gathered. */
    { { C_("column", "Here"), RW_ALIGN_MIDDLE, 9, 0 }, RW_MARK_TICK },
  };
  RwListing *listing = rw_listing_new ("equipment", _("Equipment by kind and place"), columns, G_N_ELEMENTS (columns));

  listing->empty = _("There are no devices in this rig.");
  for (guint i = 0; i < batches->len; i++)
    {
      const Batch *batch = batches->pdata[i];

      rw_listing_take (listing, rw_cell_word (&rw_part_table.fields[RW_PART_KIND], batch->part->kind), rw_cell_text (part_title (batch->part)),
                       rw_cell_text (batch->place), rw_cell_count (batch->count), rw_cell_text (batch->names->str),
                       rw_cell_plain (batch->count * batch->part->rack_units), rw_cell_plain (batch->count * batch->part->watts),
                       NULL, RW_LISTING_END);
    }
  return listing;
}

typedef struct { const char *place; guint count; double rack_units, watts; } Sum;

static RwListing *
place_list (const GPtrArray *batches)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Place"), RW_ALIGN_LEFT, 40, 1 }, 0 },
    { { C_("column", "Devices"), RW_ALIGN_RIGHT, 16, 0 }, 0 },
    { { C_("column", "Rack units, U"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
    { { C_("column", "Power, W"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
  };
  RwListing *listing = rw_listing_new ("places", _("By place"), columns, G_N_ELEMENTS (columns));
  g_autoptr (GArray) sums = g_array_new (FALSE, TRUE, sizeof (Sum));
  Sum all = { "", 0, 0, 0 };

  for (guint i = 0; i < batches->len; i++)
    {
      const Batch *batch = batches->pdata[i];
      guint k = 0;

      while (k < sums->len && strcmp (g_array_index (sums, Sum, k).place, batch->place) != 0)
        k++;
      if (k == sums->len)
        g_array_append_val (sums, ((Sum) { batch->place, 0, 0, 0 }));
      g_array_index (sums, Sum, k).count += batch->count;
      g_array_index (sums, Sum, k).rack_units += batch->count * batch->part->rack_units;
      g_array_index (sums, Sum, k).watts += batch->count * batch->part->watts;
    }
  for (guint i = 0; i < sums->len; i++)
    {
      const Sum *sum = &g_array_index (sums, Sum, i);

      rw_listing_take (listing, rw_cell_text (*sum->place != '\0' ? sum->place : _("No place given")), rw_cell_count (sum->count),
                       rw_cell_plain (sum->rack_units), rw_cell_plain (sum->watts), RW_LISTING_END);
      all = (Sum) { "", all.count + sum->count, all.rack_units + sum->rack_units, all.watts + sum->watts };
    }
  rw_listing_take (listing, rw_cell_text (_("In all")), rw_cell_count (all.count), rw_cell_plain (all.rack_units),
                   rw_cell_plain (all.watts), RW_LISTING_END);
  return listing;
}

RwFlow *
rw_papers_equipment (const RwPapersSource *source)
{
  RwFlow *flow = rw_flow_new (RW_PAPERS_EQUIPMENT);
  g_autoptr (GPtrArray) batches = batches_new (source->net);

  rw_flow_add_text (flow, RW_BLOCK_CAUTION,
                    _("Mains and temporary distribution: only by a competent and, where that is required, licensed person under local "
                      "regulations. Flown and stacked equipment: only by qualified riggers. Local rules come first."));
  rw_flow_take_listing (flow, equipment_list (batches));
  if (batches->len > 0)
    rw_flow_take_listing (flow, place_list (batches));
  return flow;
}
