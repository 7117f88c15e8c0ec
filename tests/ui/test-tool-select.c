/* SPDX-License-Identifier: MIT */
/* Picking, boxing, dragging, snapping, bending, placing, without a display. */
#include <math.h>

#include "tool-hand.h"
#include <ui/rw-snap.h>

#define THREE \
  "console desk ctrl=1 at=[40,60]; rack left id=1 at=[160,60]; rack right id=2 at=[280,60]; desk.s-left.p; left.s-right.p"

static RwPoint
place_of (RwDocument *document, const char *device)
{
  return rw_rig_device (rw_document_rig (document), device)->at;
}

static void
assert_at (RwPoint at, double x, double y)
{
  g_assert_cmpfloat_with_epsilon (at.x, x, 1e-6);
  g_assert_cmpfloat_with_epsilon (at.y, y, 1e-6);
}

static void
click (RwTool *tool, RwPoint at, RwToolMods mods)
{
  hand_press (tool, at, mods);
  g_assert_false (hand_release (tool, at, mods));
}

static void
test_click (void)
{
  g_autoptr (RwDocument) document = hand_document (THREE);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_SELECT, document);
  RwSelection *selection = rw_document_selection (document);

  click (tool, hand_device (document, "left"), 0);
  g_assert_cmpstr (rw_selection_single (selection), ==, "left");
  click (tool, hand_device (document, "right"), RW_TOOL_MOD_SHIFT);
  g_assert_cmpuint (rw_selection_n (selection), ==, 2);
  click (tool, hand_device (document, "left"), RW_TOOL_MOD_CTRL);
  g_assert_cmpstr (rw_selection_single (selection), ==, "right");
  click (tool, (RwPoint) { 300, 250 }, 0);
  g_assert_cmpuint (rw_selection_n (selection), ==, 0);
}

static void
test_double_click (void)
{
  g_autoptr (RwDocument) document = hand_document (THREE);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_SELECT, document);
  RwToolPoint point = hand_at (hand_device (document, "left"), 0);

  click (tool, point.at, 0);
  g_assert_cmpint (tool->asks, ==, RW_TOOL_ASKS_NOTHING);
  point.presses = 2;
  g_assert_true (rw_tool_begin (tool, &point));
  g_assert_null (rw_tool_end (tool, &point));
  g_assert_cmpint (tool->asks, ==, RW_TOOL_ASKS_PARTICULARS);
}

static void
test_band (void)
{
  g_autoptr (RwDocument) document = hand_document (THREE);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_SELECT, document);
  RwSelection *selection = rw_document_selection (document);
  RwPoint right = hand_device (document, "right");

  hand_press (tool, (RwPoint) { 150, 30 }, 0);
  hand_move (tool, right, 0);
  g_assert_true (rw_tool_overlay (tool)->has_band);
  g_assert_cmpuint (rw_selection_n (selection), ==, 2); /* already while it is drawn */
  g_assert_false (hand_release (tool, right, 0));
  g_assert_true (rw_selection_has (selection, "left"));
  g_assert_false (rw_selection_has (selection, "desk"));

  rw_selection_set (selection, "desk");
  hand_press (tool, (RwPoint) { 150, 30 }, RW_TOOL_MOD_SHIFT);
  hand_move (tool, hand_device (document, "left"), RW_TOOL_MOD_SHIFT);
  g_assert_cmpuint (rw_selection_n (selection), ==, 2);
  rw_tool_cancel (tool);
  g_assert_cmpstr (rw_selection_single (selection), ==, "desk");
}

static void
test_drag (void)
{
  g_autoptr (RwDocument) document = hand_document (THREE);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_SELECT, document);
  RwPoint at = hand_device (document, "left");
  const RwScene *scene = rw_document_scene (document);
  guint index = rw_net_find_device (rw_document_net (document), "left");
  const RwFindings *findings = rw_document_findings (document);

  hand_press (tool, at, 0);
  hand_move (tool, (RwPoint) { at.x + 0.3, at.y }, 0);
  g_assert_cmpuint (rw_tool_overlay (tool)->moved->len, ==, 0); /* a hand shakes */
  hand_move (tool, (RwPoint) { at.x + 6, at.y + 101 }, RW_TOOL_MOD_ALT);
  g_assert_cmpuint (rw_tool_overlay (tool)->moved->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (rw_scene_device (scene, index)->box.x, 166, 1e-6); /* shown there … */
  assert_at (place_of (document, "left"), 160, 60);                                 /* … but not yet moved */
  g_assert_true (hand_release (tool, (RwPoint) { at.x + 11.7, at.y + 101.3 }, 0));
  assert_at (place_of (document, "left"), 170, 160); /* on the grid */
  g_assert_cmpfloat_with_epsilon (rw_scene_device (rw_document_scene (document), index)->box.x, 170, 1e-6);
  g_assert_true (rw_document_findings (document) == findings); /* a move asks no rule again */
  g_assert_cmpstr (rw_history_undo_name (rw_document_history (document)), ==, "Move Device");
  g_assert_true (rw_document_undo (document));
  assert_at (place_of (document, "left"), 160, 60);
}

static void
test_drag_several (void)
{
  g_autoptr (RwDocument) document = hand_document (THREE);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_SELECT, document);
  RwPoint at = hand_device (document, "left");

  click (tool, at, 0);
  click (tool, hand_device (document, "right"), RW_TOOL_MOD_SHIFT);
  hand_press (tool, at, 0);
  hand_move (tool, (RwPoint) { at.x + 50, at.y + 90 }, 0);
  g_assert_true (hand_release (tool, (RwPoint) { at.x + 50, at.y + 90 }, 0));
  assert_at (place_of (document, "left"), 210, 150);
  assert_at (place_of (document, "right"), 330, 150);
  assert_at (place_of (document, "desk"), 40, 60);
  g_assert_cmpstr (rw_history_undo_name (rw_document_history (document)), ==, "Move 2 Devices");
  g_assert_true (rw_document_undo (document));
  g_assert_false (rw_document_undo (document)); /* one step */
}

static void
test_drag_cancel (void)
{
  g_autoptr (RwDocument) document = hand_document (THREE);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_SELECT, document);
  RwPoint at = hand_device (document, "left");

  hand_press (tool, at, 0);
  hand_move (tool, (RwPoint) { at.x + 50, at.y + 90 }, 0);
  rw_tool_cancel (tool);
  assert_at (hand_device (document, "left"), at.x, at.y);
  g_assert_false (rw_document_is_dirty (document));
}

/* The bends of a cable come along when both its ends are dragged, and stay when only one is. */
static void
test_drag_with_bends (void)
{
  g_autoptr (RwDocument) document
    = hand_document ("rack a id=1 at=[40,60]; rack b id=2 at=[240,60]; a.s-b.p bends=[[150,150],[180,150]]");
  const RwCable *cable;
  static const char *const both[] = { "a", "b", NULL }, *const one[] = { "a", NULL };
  g_autoptr (RwChange) move_both = rw_document_move (document, both, 10, 20, NULL);
  g_autoptr (RwChange) move_one = NULL;

  g_assert_true (rw_document_do (document, move_both, NULL));
  cable = rw_rig_cable (rw_document_rig (document), "c1");
  assert_at (cable->bends.points[0], 160, 170);
  move_one = rw_document_move (document, one, 10, 20, NULL);
  g_assert_true (rw_document_do (document, move_one, NULL));
  cable = rw_rig_cable (rw_document_rig (document), "c1");
  assert_at (cable->bends.points[0], 160, 170);
}

/* --- Snapping --- */

static RwPoint
snap (RwRect other, RwRect box, GArray *guides)
{
  g_autoptr (GArray) others = g_array_new (FALSE, FALSE, sizeof (RwRect));

  g_array_append_val (others, other);
  return rw_snap_box (others, box, guides);
}

static void
test_snap (void)
{
  g_autoptr (GArray) guides = g_array_new (FALSE, FALSE, sizeof (RwGuide));
  RwRect other = { 102, 100, 40, 20 };

  /* far from all: the grid */
  assert_at (snap (other, (RwRect) { 511, 513.4, 40, 20 }, guides), -1, 1.6);
  g_assert_cmpuint (guides->len, ==, 0);
  /* the left edge is 1 mm off the neighbour's, which lies off the grid: the neighbour wins, and a line says so */
  assert_at (snap (other, (RwRect) { 103, 143, 50, 20 }, guides), -1, 2);
  g_assert_cmpuint (guides->len, ==, 1);
  assert_at (g_array_index (guides, RwGuide, 0).from, 102, 100);
  assert_at (g_array_index (guides, RwGuide, 0).to, 102, 165);
  /* centres: 122 against 121.4 */
  g_array_set_size (guides, 0);
  assert_at (snap (other, (RwRect) { 91.4, 140, 60, 20 }, guides), 0.6, 0);
  g_assert_cmpuint (guides->len, ==, 1);
  /* right edges: 142 against 141.5 */
  assert_at (snap (other, (RwRect) { 116.5, 140, 25, 20 }, NULL), 0.5, 0);
  /* out of reach */
  assert_at (snap (other, (RwRect) { 103.6, 140, 33, 20 }, NULL), 1.4, 0);
}

static void
test_alt_is_free (void)
{
  g_autoptr (RwDocument) document = hand_document (THREE);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_SELECT, document);
  RwPoint at = hand_device (document, "left");

  hand_press (tool, at, 0);
  g_assert_true (hand_release (tool, (RwPoint) { at.x + 11.7, at.y + 101.3 }, RW_TOOL_MOD_ALT));
  assert_at (place_of (document, "left"), 171.7, 161.3);
}

/* --- Bending --- */

/* Whether a stretch of @line lies at @to, across the way that it was dragged. */
static gboolean
has_stretch_at (const RwSceneCable *line, RwPoint to, gboolean level)
{
  for (guint i = 0; i + 1 < line->n_points; i++)
    {
      const RwPoint *a = &line->points[i], *b = &line->points[i + 1];

      if (level ? fabs (a->y - to.y) <= 2.5 && fabs (b->y - to.y) <= 2.5 : fabs (a->x - to.x) <= 2.5 && fabs (b->x - to.x) <= 2.5)
        return TRUE;
    }
  return FALSE;
}

static void
drag_stretch (guint stretch)
{
  g_autoptr (RwDocument) document = hand_document ("rack a id=1 at=[40,60]; rack b id=2 at=[240,160]; a.s-b.p");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_SELECT, document);
  const RwSceneCable *line = rw_scene_cable (rw_document_scene (document), 0);
  RwPoint a = line->points[stretch], b = line->points[stretch + 1];
  RwPoint middle = { (a.x + b.x) / 2, (a.y + b.y) / 2 };
  gboolean level = a.y == b.y;
  RwPoint to = { middle.x + (level ? 0 : 15), middle.y + (level ? 15 : 0) };

  hand_press (tool, middle, 0);
  hand_move (tool, to, 0);
  g_assert_cmpuint (rw_tool_overlay (tool)->bent_cable, ==, 0);
  g_assert_true (hand_release (tool, to, 0));
  g_assert_cmpuint (rw_rig_cable (rw_document_rig (document), "c1")->bends.n, >, 0);
  g_assert_cmpstr (rw_history_undo_name (rw_document_history (document)), ==, "Bend Cable");
  g_assert_true (has_stretch_at (rw_scene_cable (rw_document_scene (document), 0), to, level));
}

/* Each stretch of a cable, those at its ports too, goes where the hand lets go, within the grid. */
static void
test_bend (void)
{
  g_autoptr (RwDocument) document = hand_document ("rack a id=1 at=[40,60]; rack b id=2 at=[240,160]; a.s-b.p");
  guint n = rw_scene_cable (rw_document_scene (document), 0)->n_points;

  g_assert_cmpuint (n, >, 2);
  for (guint stretch = 0; stretch + 1 < n; stretch++)
    drag_stretch (stretch);
}

/* --- Placing --- */

static void
test_place (void)
{
  g_autoptr (RwDocument) document = hand_document ("rack a id=1 at=[40,60]");
  g_autoptr (RwDocument) other = rw_document_new ();
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_PLACE, other);
  const RwPart *part = rw_rig_part_of (rw_document_rig (document), rw_rig_device (rw_document_rig (document), "a"));
  const RwDevice *device;

  rw_tool_place_set_part (tool, part);
  hand_press (tool, (RwPoint) { 100, 100 }, 0);
  g_assert_true (rw_tool_overlay (tool)->ghost == part);
  g_assert_true (hand_release (tool, (RwPoint) { 153, 121 }, 0));
  g_assert_cmpuint (hand_count (other, RW_ITEM_PART), ==, 1);
  device = (const RwDevice *) rw_rig_items (rw_document_rig (other), RW_ITEM_DEVICE)[0];
  g_assert_cmpfloat (fmod (device->at.x, 5), ==, 0);
  g_assert_cmpfloat (fmod (device->at.y, 5), ==, 0);
  g_assert_cmpstr (device->name, ==, part->name);

  /* a second one: the part is there already, the name is counted on */
  hand_press (tool, (RwPoint) { 100, 200 }, 0);
  g_assert_true (hand_release (tool, (RwPoint) { 153, 221 }, 0));
  g_assert_cmpuint (hand_count (other, RW_ITEM_PART), ==, 1);
  g_assert_cmpuint (hand_count (other, RW_ITEM_DEVICE), ==, 2);
  device = (const RwDevice *) rw_rig_items (rw_document_rig (other), RW_ITEM_DEVICE)[1];
  g_assert_true (g_str_has_suffix (device->name, " 2"));
}

static gboolean
overlap (RwRect a, RwRect b)
{
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}

/* Let go over others, a new device lies beside them, as near as may be, and its ghost shows that before; copies likewise. */
static void
test_place_over (void)
{
  g_autoptr (RwDocument) document = hand_document ("rack a id=1 at=[100,100]; rack b id=2 at=[200,100]");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_PLACE, document);
  RwRig *rig = rw_document_rig (document);
  RwPoint over = hand_device (document, "a"), ghost;
  g_autofree char *text = NULL;
  RwRect box;

  rw_tool_place_set_part (tool, rw_rig_part_of (rig, rw_rig_device (rig, "a")));
  hand_press (tool, over, 0);
  hand_move (tool, (RwPoint) { over.x + 1, over.y + 8 }, 0);
  ghost = rw_tool_overlay (tool)->ghost_at;
  g_assert_true (hand_release (tool, (RwPoint) { over.x + 1, over.y + 8 }, 0));
  box = rw_scene_device (rw_document_scene (document), 2)->box;
  g_assert_cmpfloat (box.x, ==, ghost.x);
  g_assert_cmpfloat (box.y, ==, ghost.y);
  g_assert_cmpfloat (box.x, ==, 100); /* the way down is the shortest */
  g_assert_cmpfloat (box.y, >, 100);
  g_assert_cmpfloat (box.y, <=, 100 + box.h + 20);
  for (guint i = 0; i < 6; i++)
    {
      hand_press (tool, over, 0);
      g_assert_true (hand_release (tool, over, i % 2 == 0 ? RW_TOOL_MOD_ALT : 0));
    }
  rw_selection_set (rw_document_selection (document), "a");
  text = rw_document_copy (document);
  for (guint i = 0; i < 3; i++)
    {
      g_assert_true (rw_document_duplicate_selected (document));
      g_assert_true (rw_document_paste (document, text, NULL, NULL));
    }
  for (guint i = 0; i < hand_count (document, RW_ITEM_DEVICE); i++)
    for (guint j = 0; j < i; j++)
      g_assert_false (overlap (rw_scene_device (rw_document_scene (document), i)->box,
                               rw_scene_device (rw_document_scene (document), j)->box));
}

/* Another part under the same id comes in under a fresh one, and only once. */
static void
test_place_clashing_part (void)
{
  g_autoptr (RwDocument) document = hand_document ("rack a id=1 at=[40,60]");
  RwRig *rig = rw_document_rig (document);
  g_autoptr (RwItem) clash = rw_item_with (rw_rig_items (rig, RW_ITEM_PART)[0], RW_PART_SENDS, g_variant_new_int32 (77), NULL);

  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *id = NULL;
      g_autoptr (RwChange) change = rw_document_place (document, (const RwPart *) clash, (RwPoint) { 200, 60 + 80 * i }, &id);

      g_assert_true (rw_document_do (document, change, NULL));
      g_assert_cmpint (rw_rig_part_of (rig, rw_rig_device (rig, id))->sends, ==, 77);
    }
  g_assert_cmpuint (hand_count (document, RW_ITEM_PART), ==, 2);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tool/select/click", test_click);
  g_test_add_func ("/tool/select/double-click", test_double_click);
  g_test_add_func ("/tool/select/band", test_band);
  g_test_add_func ("/tool/select/drag", test_drag);
  g_test_add_func ("/tool/select/drag-several", test_drag_several);
  g_test_add_func ("/tool/select/drag-cancel", test_drag_cancel);
  g_test_add_func ("/tool/select/drag-with-bends", test_drag_with_bends);
  g_test_add_func ("/tool/select/snap", test_snap);
  g_test_add_func ("/tool/select/alt-is-free", test_alt_is_free);
  g_test_add_func ("/tool/select/bend", test_bend);
  g_test_add_func ("/tool/place/place", test_place);
  g_test_add_func ("/tool/place/over-another", test_place_over);
  g_test_add_func ("/tool/place/clashing-part", test_place_clashing_part);
  return g_test_run ();
}
