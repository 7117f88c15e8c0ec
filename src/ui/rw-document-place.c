/* SPDX-License-Identifier: MIT */
/* New devices: their parts, names, ids and places. */
#include "rw-document.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <rig/rw-clip.h>

#include "rw-document-names.h"

#define MARGIN_MM 10.0 /* left free round a device that is put in a free spot */
#define RINGS 200      /* of cells that are tried: more than any sheet has */
#define TOUCH_MM 0.01  /* two devices may lie edge to edge */
#define STEPS 4000     /* of the grid that are tried: more than any sheet is long */

/* The rig's own copy of @part, whatever its id there, else @part. */
static const RwPart *
known_part (const RwRig *rig, const RwPart *part)
{
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_PART); i++)
    {
      RwItem *own = rw_rig_items (rig, RW_ITEM_PART)[i];
      g_autoptr (RwItem) renamed = rw_item_with (part, RW_PART_ID, g_variant_new_string (rw_item_key (own)), NULL);

      if (rw_item_equal (renamed, own))
        return (const RwPart *) own;
    }
  return part;
}

static RwItem *
new_device (const RwRig *rig, const RwPart *part, RwPoint at)
{
  g_autoptr (GHashTable) taken = rw_document_names (rig);
  g_autofree char *name = rw_document_fresh_name (taken, part->name != NULL ? part->name : rw_item_key (part), part->name);
  const char *kind = rw_field_word (&rw_part_table.fields[RW_PART_KIND], part->kind);
  /* pasting puts a fresh number in place of this one */
  g_autofree char *id = g_strconcat (kind, g_str_has_suffix (rw_item_key (part), "-0") ? "-00" : "-0", NULL);
  RwItem *device = rw_item_new (RW_ITEM_DEVICE);

  rw_record_set (device, &rw_device_table, RW_DEVICE_ID, g_variant_new_string (id), NULL);
  rw_record_set (device, &rw_device_table, RW_DEVICE_PART, g_variant_new_string (rw_item_key (part)), NULL);
  rw_record_set (device, &rw_device_table, RW_DEVICE_NAME, g_variant_new_string (name), NULL);
  rw_record_set (device, &rw_device_table, RW_DEVICE_AT, g_variant_new ("(dd)", at.x, at.y), NULL);
  return rw_item_seal (device);
}

RwChange *
rw_document_place (RwDocument *self, const RwPart *part, RwPoint at, char **device_id)
{
  RwRig *rig = rw_document_rig (self);
  const RwPart *own = known_part (rig, part);
  g_autoptr (RwRig) clip = rw_rig_new ();
  g_autoptr (GPtrArray) keys = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (RwItem) device = new_device (rig, own, at);
  /* Translators: stands after “Undo”; %s is the name of a part, for example “Rack 16×8” */
  g_autofree char *name = g_strdup_printf (_("Add “%s”"), part->name);
  RwChange *change;

  rw_rig_append (clip, (RwItem *) own, NULL);
  rw_rig_append (clip, device, NULL);
  change = rw_clip_paste (rig, clip, name, 0, 0, keys);
  if (device_id != NULL)
    *device_id = g_strdup (g_ptr_array_index (keys, 0));
  return change;
}

/* Where @box, of a device at (0, 0), lies for one at @at, with @margin left round it. */
static RwRect
widened (RwRect box, RwPoint at, double margin)
{
  return (RwRect) { at.x + box.x - margin, at.y + box.y - margin, box.w + 2 * margin, box.h + 2 * margin };
}

static gboolean
is_free (RwScene *scene, RwRect area)
{
  g_autoptr (GArray) there = rw_scene_devices_in (scene, area);

  return there->len == 0;
}

static gboolean
is_placed (const RwRig *rig)
{
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    if (!rw_item_has (rw_rig_items (rig, RW_ITEM_DEVICE)[i], RW_DEVICE_AT))
      return FALSE;
  return TRUE;
}

void
rw_document_settle (RwRig *rig)
{
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwFindings) findings = NULL;
  g_autoptr (RwScene) scene = NULL;
  g_autoptr (RwChange) change = NULL;

  g_return_if_fail (RW_IS_RIG (rig));
  if (is_placed (rig))
    return;
  net = rw_net_new (rig);
  findings = rw_findings_new (rig, net);
  scene = rw_scene_new (rig, net, findings);
  change = rw_scene_settle (scene, rig);
  rw_rig_apply (rig, change, NULL);
}

RwPoint
rw_document_free_spot (RwDocument *self, const RwPart *part, RwPoint near)
{
  RwRect box = rw_scene_part_box (part, part->name);
  double step_x = ceil ((box.w + 2 * MARGIN_MM) / RW_GRID_MM) * RW_GRID_MM;
  double step_y = ceil ((box.h + 2 * MARGIN_MM) / RW_GRID_MM) * RW_GRID_MM;
  RwPoint start = { round ((near.x - box.w / 2) / RW_GRID_MM) * RW_GRID_MM,
                    round ((near.y - box.h / 2) / RW_GRID_MM) * RW_GRID_MM };

  for (int ring = 0; ring < RINGS; ring++)
    for (int row = -ring; row <= ring; row++)
      for (int column = -ring; column <= ring; column += ABS (row) == ring ? 1 : MAX (2 * ring, 1))
        {
          RwPoint at = { start.x + column * step_x, start.y + row * step_y };

          if (at.x >= 0 && at.y >= 0 && is_free (rw_document_scene (self), widened (box, at, MARGIN_MM)))
            return at;
        }
  return start;
}

/* Of the free places on the rim of a square of @ring steps about @at, the nearest that is nearer than @best steps. */
static void
search_rim (RwScene *scene, RwRect box, RwPoint at, int ring, double *best, RwPoint *found)
{
  for (int row = -ring; row <= ring; row++)
    for (int column = -ring; column <= ring; column += ABS (row) == ring ? 1 : MAX (2 * ring, 1))
      {
        RwPoint there = { at.x + column * RW_GRID_MM, at.y + row * RW_GRID_MM };
        double away = hypot (column, row);

        if (away >= *best || !is_free (scene, widened (box, there, MARGIN_MM)))
          continue;
        *best = away;
        *found = there;
      }
}

RwPoint
rw_document_clear_spot (RwDocument *self, const RwPart *part, RwPoint at)
{
  RwScene *scene = rw_document_scene (self);
  RwRect box = rw_scene_part_box (part, part->name);
  double best = G_MAXDOUBLE;
  RwPoint found = at;

  if (is_free (scene, widened (box, at, -TOUCH_MM)))
    return at;
  for (int ring = 1; ring < STEPS && ring < best; ring++)
    search_rim (scene, box, at, ring, &best, &found);
  return found;
}

/* The boxes of @clip's devices, with the room that is left round each. */
static GArray *
clip_areas (const RwRig *clip)
{
  GArray *areas = g_array_new (FALSE, FALSE, sizeof (RwRect));

  for (guint i = 0; i < rw_rig_n (clip, RW_ITEM_DEVICE); i++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (clip, RW_ITEM_DEVICE)[i];
      RwRect box = rw_scene_part_box (rw_rig_part_of (clip, device), rw_device_title (device));
      RwRect area = { device->at.x - MARGIN_MM, device->at.y - MARGIN_MM, box.w + 2 * MARGIN_MM, box.h + 2 * MARGIN_MM };

      g_array_append_val (areas, area);
    }
  return areas;
}

static gboolean
are_free (RwScene *scene, const GArray *areas, double dx, double dy)
{
  for (guint i = 0; i < areas->len; i++)
    {
      RwRect area = g_array_index (areas, RwRect, i);

      area.x += dx;
      area.y += dy;
      if (!is_free (scene, area))
        return FALSE;
    }
  return TRUE;
}

RwPoint
rw_document_free_shift (RwDocument *self, const RwRig *clip)
{
  RwScene *scene = rw_document_scene (self);
  g_autoptr (GArray) areas = clip_areas (clip);

  /* straight down or straight right: the copy of a row lies in line with it */
  for (guint step = 0; step < STEPS; step++)
    {
      if (are_free (scene, areas, 0, step * RW_GRID_MM))
        return (RwPoint) { 0, step * RW_GRID_MM };
      if (are_free (scene, areas, step * RW_GRID_MM, 0))
        return (RwPoint) { step * RW_GRID_MM, 0 };
    }
  return (RwPoint) { 0, 0 };
}
