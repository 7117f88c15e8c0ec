/* SPDX-License-Identifier: MIT */
/* One sweep across several devices, without a display. */
#include "tool-hand.h"

static const RwCable *
cable (RwDocument *document, guint index)
{
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), >, index);
  return (const RwCable *) rw_rig_items (rw_document_rig (document), RW_ITEM_CABLE)[index];
}

static void
assert_cable (RwDocument *document, guint index, const char *wanted)
{
  const RwCable *c = cable (document, index);
  g_autofree char *got = g_strdup_printf ("%s.%s-%s.%s", c->from.device, c->from.port, c->to.device, c->to.port);

  g_assert_cmpstr (got, ==, wanted);
}

/* Sweeps through the middles of @devices, in few or in many steps. */
static gboolean
sweep (RwTool *tool, const char *const *devices, guint steps)
{
  RwPoint at = hand_device (tool->document, devices[0]);

  hand_press (tool, at, 0);
  for (guint i = 1; devices[i] != NULL; i++)
    {
      RwPoint next = hand_device (tool->document, devices[i]);

      for (guint s = 1; s <= steps; s++)
        hand_move (tool, (RwPoint) { at.x + (next.x - at.x) * s / steps, at.y + (next.y - at.y) * s / steps }, 0);
      at = next;
    }
  return hand_release (tool, at, 0);
}

#define FOUR \
  "console desk ctrl=1 at=[20,60]; rack a id=1 at=[120,60]; rack b id=2 at=[220,60]; rack c id=3 at=[320,60]"

static void
test_chain (void)
{
  static const char *const way[] = { "desk", "a", "b", "c", NULL };
  g_autoptr (RwDocument) document = hand_document (FOUR);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_THREAD, document);

  g_assert_true (sweep (tool, way, 10));
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 3);
  assert_cable (document, 0, "desk.secondary-a.primary");
  assert_cable (document, 1, "a.secondary-b.primary");
  assert_cable (document, 2, "b.secondary-c.primary");
  g_assert_cmpuint (hand_findings (document, "loop"), ==, 0);
  g_assert_cmpstr (rw_history_undo_name (rw_document_history (document)), ==, "Thread 4 Devices");
  g_assert_true (rw_document_undo (document));
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 0);
}

/* A hand so fast that one motion crosses two devices misses none, in their order. */
static void
test_fast_hand (void)
{
  static const char *const way[] = { "desk", "c", NULL };
  g_autoptr (RwDocument) document = hand_document (FOUR);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_THREAD, document);

  g_assert_true (sweep (tool, way, 1));
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 3);
  assert_cable (document, 0, "desk.secondary-a.primary");
  assert_cable (document, 2, "b.secondary-c.primary");
}

static void
test_backward (void)
{
  static const char *const way[] = { "c", "b", "a", NULL };
  g_autoptr (RwDocument) document = hand_document (FOUR);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_THREAD, document);

  g_assert_true (sweep (tool, way, 7));
  assert_cable (document, 0, "c.secondary-b.primary");
  assert_cable (document, 1, "b.secondary-a.primary");
}

/* Redundant devices pass nothing on: swept after a switch they all hang on it, on its next free ports. */
static void
test_star (void)
{
  static const char *const way[] = { "hub", "a", "b", NULL };
  g_autoptr (RwDocument) document
    = hand_document ("switch hub at=[20,60]; rack a mode=redundant id=1 at=[180,60]; rack b mode=redundant id=2 at=[280,60]");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_THREAD, document);

  g_assert_true (sweep (tool, way, 5));
  assert_cable (document, 0, "hub.p1-a.primary");
  assert_cable (document, 1, "hub.p2-b.primary");
}

/* A sweep that would close a ring over an old cable says so before it ends. */
static void
test_verdict (void)
{
  g_autoptr (RwDocument) document = hand_document (FOUR "; desk.p-b.s");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_THREAD, document);
  const RwOverlay *overlay = rw_tool_overlay (tool);

  hand_press (tool, hand_device (document, "desk"), 0);
  hand_move (tool, hand_device (document, "a"), 0);
  g_assert_cmpint (overlay->verdict, !=, RW_VERDICT_ERROR);
  hand_move (tool, hand_device (document, "b"), 0);
  g_assert_cmpint (overlay->verdict, ==, RW_VERDICT_ERROR);
  g_assert_cmpuint (overlay->named->len, ==, 3);
  rw_tool_cancel (tool);
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 1);
}

/* Sweeps through the middles of @devices and stops there, the button down. */
static const char *
words_over (RwTool *tool, const char *const *devices)
{
  hand_press (tool, hand_device (tool->document, devices[0]), 0);
  for (guint i = 1; devices[i] != NULL; i++)
    hand_move (tool, hand_device (tool->document, devices[i]), 0);
  return rw_tool_overlay (tool)->verdict_text;
}

/* What is joined already is told, not cabled twice and no fault; what is missing in between is cabled. */
static void
test_joined_already (void)
{
  static const char *const two[] = { "desk", "a", NULL }, *const three[] = { "desk", "a", "b", NULL };
  static const char *const all[] = { "desk", "a", "b", "c", NULL };
  g_autoptr (RwDocument) document = hand_document (FOUR "; desk.s-a.p; a.s-b.p");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_THREAD, document);

  g_assert_cmpstr (words_over (tool, two), ==, "“desk” and “a” are joined already.");
  g_assert_cmpint (rw_tool_overlay (tool)->verdict, ==, RW_VERDICT_NOTE);
  rw_tool_cancel (tool);
  g_assert_cmpstr (words_over (tool, three), ==, "3 devices are joined already.");
  hand_release (tool, hand_device (document, "b"), 0);
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 2);
  g_assert_false (rw_document_is_dirty (document));
  g_assert_cmpstr (words_over (tool, all), ==, "1 cable; the others are joined already");
  g_assert_true (hand_release (tool, hand_device (document, "c"), 0));
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 3);
  assert_cable (document, 2, "b.secondary-c.primary");
}

/* Two redundant devices have a second plane to be joined in. */
static void
test_joined_in_one_plane (void)
{
  static const char *const two[] = { "desk", "a", NULL };
  g_autoptr (RwDocument) document
    = hand_document ("console desk mode=redundant ctrl=1 at=[20,60]; rack a mode=redundant id=1 at=[120,60]; desk.p-a.p");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_THREAD, document);

  g_assert_true (sweep (tool, two, 3));
  assert_cable (document, 1, "desk.secondary-a.secondary");
  g_assert_cmpstr (words_over (tool, two), ==, "“desk” and “a” are joined already.");
}

static void
test_one_device_is_nothing (void)
{
  g_autoptr (RwDocument) document = hand_document (FOUR);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_THREAD, document);

  hand_press (tool, hand_device (document, "a"), 0);
  g_assert_false (hand_release (tool, hand_device (document, "a"), 0));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tool/thread/chain", test_chain);
  g_test_add_func ("/tool/thread/fast-hand", test_fast_hand);
  g_test_add_func ("/tool/thread/backward", test_backward);
  g_test_add_func ("/tool/thread/star", test_star);
  g_test_add_func ("/tool/thread/verdict", test_verdict);
  g_test_add_func ("/tool/thread/joined-already", test_joined_already);
  g_test_add_func ("/tool/thread/joined-in-one-plane", test_joined_in_one_plane);
  g_test_add_func ("/tool/thread/one-device-is-nothing", test_one_device_is_nothing);
  return g_test_run ();
}
