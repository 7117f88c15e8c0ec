/* SPDX-License-Identifier: MIT */
/* Cables drawn by hand and by keys, without a display. */
#include "tool-hand.h"

#define CHAIN \
  "console desk ctrl=1 at=[40,60]; rack left id=1 at=[160,60]; rack right id=2 at=[280,60]; " \
  "desk.s-left.p; left.s-right.p"

static const RwCable *
last_cable (RwDocument *document)
{
  RwRig *rig = rw_document_rig (document);

  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_CABLE), >, 0);
  return (const RwCable *) rw_rig_items (rig, RW_ITEM_CABLE)[rw_rig_n (rig, RW_ITEM_CABLE) - 1];
}

static void
assert_joins (const RwCable *cable, const char *from, const char *from_port, const char *to, const char *to_port)
{
  g_assert_cmpstr (cable->from.device, ==, from);
  g_assert_cmpstr (cable->from.port, ==, from_port);
  g_assert_cmpstr (cable->to.device, ==, to);
  g_assert_cmpstr (cable->to.port, ==, to_port);
}

static gboolean
names (RwDocument *document, const RwOverlay *overlay, const char *device)
{
  guint wanted = rw_net_find_device (rw_document_net (document), device);

  for (guint i = 0; i < overlay->named->len; i++)
    if (g_array_index (overlay->named, guint, i) == wanted)
      return TRUE;
  return FALSE;
}

/* The third cable of a chain of three, from its last device to its first, closes a ring: that is said before it is let go. */
static void
test_loop_in_the_air (void)
{
  g_autoptr (RwDocument) document = hand_document (CHAIN);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);
  const RwOverlay *overlay = rw_tool_overlay (tool);
  RwPoint end = hand_port (document, "desk", "primary");

  hand_press (tool, hand_port (document, "right", "secondary"), 0);
  hand_move (tool, (RwPoint) { 200, 150 }, 0);
  g_assert_cmpint (overlay->verdict, ==, RW_VERDICT_NONE);
  hand_move (tool, end, 0);
  g_assert_cmpint (overlay->verdict, ==, RW_VERDICT_ERROR);
  g_assert_cmpuint (overlay->named->len, ==, 3);
  g_assert_true (names (document, overlay, "desk"));
  g_assert_true (names (document, overlay, "left"));
  g_assert_true (names (document, overlay, "right"));
  g_assert_nonnull (strstr (overlay->verdict_text, "desk"));
  g_assert_nonnull (strstr (overlay->verdict_text, "left"));
  g_assert_nonnull (strstr (overlay->verdict_text, "right"));
  g_assert_true (g_array_index (overlay->loose, RwLooseCable, 0).bad);
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 2);
  g_assert_cmpuint (hand_findings (document, "loop"), ==, 0);

  hand_move (tool, (RwPoint) { 200, 150 }, 0);
  g_assert_cmpint (overlay->verdict, ==, RW_VERDICT_NONE);
  g_assert_cmpuint (overlay->named->len, ==, 0);

  g_assert_true (hand_release (tool, end, 0));
  g_assert_cmpuint (hand_findings (document, "loop"), ==, 1);
  assert_joins (last_cable (document), "right", "secondary", "desk", "primary");
  g_assert_true (rw_document_undo (document));
  g_assert_cmpuint (hand_findings (document, "loop"), ==, 0);
}

static void
test_cancel (void)
{
  g_autoptr (RwDocument) document = hand_document (CHAIN);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);

  hand_press (tool, hand_port (document, "right", "secondary"), 0);
  hand_move (tool, hand_port (document, "desk", "primary"), 0);
  g_assert_false (hand_key (tool, RW_TOOL_KEY_ESCAPE));
  g_assert_false (tool->active);
  g_assert_cmpuint (rw_tool_overlay (tool)->loose->len, ==, 0);
  g_assert_false (hand_release (tool, hand_port (document, "desk", "primary"), 0));
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 2);
  g_assert_false (rw_document_is_dirty (document));
}

static void
test_nothing_on_empty_sheet (void)
{
  g_autoptr (RwDocument) document = hand_document (CHAIN);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);
  RwToolPoint empty = hand_at ((RwPoint) { 200, 250 }, 0);

  g_assert_false (rw_tool_begin (tool, &empty));
  hand_press (tool, hand_port (document, "right", "secondary"), 0);
  g_assert_false (hand_release (tool, empty.at, 0));
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 2);
}

/* Letting go over a device, not a port. Each row: rig, where the cable starts, the device, the port that it must take. */
static const struct { const char *name, *rig, *from, *from_port, *to, *to_port; } choices[] = {
  { "chain-secondary", "console a ctrl=1 at=[40,60]; rack b id=1 at=[200,60]", "a", "secondary", "b", "primary" },
  { "chain-primary", "console a ctrl=1 at=[40,60]; rack b id=1 at=[200,60]", "a", "primary", "b", "secondary" },
  { "redundant-primary", "console a mode=redundant ctrl=1 at=[40,60]; rack b mode=redundant id=1 at=[200,60]", "a",
    "primary", "b", "primary" },
  { "redundant-secondary", "console a mode=redundant ctrl=1 at=[40,60]; rack b mode=redundant id=1 at=[200,60]", "a",
    "secondary", "b", "secondary" },
  { "first-free-of-a-switch",
    "switch a at=[40,60]; rack b id=1 at=[200,60]; rack c id=2 at=[200,140]; c.p-a.p1", "b", "primary", "a", "p2" },
  { "secondary-plane-switch",
    "switch a at=[40,60]; rack b mode=redundant id=1 at=[200,60]; rack c mode=redundant id=2 at=[200,140]; c.s-a.p1",
    "a", "p2", "b", "secondary" },
  { "primary-plane-switch",
    "switch a at=[40,60]; rack b mode=redundant id=1 at=[200,60]; rack c mode=redundant id=2 at=[200,140]; c.p-a.p1",
    "a", "p2", "b", "primary" },
  { "plane-by-vlan",
    "switch a p1=10 p2=10 p3=20 p4=20 at=[40,60]; rack b mode=redundant id=1 at=[200,60]; "
    "rack c mode=redundant id=2 at=[200,140]; c.p-a.p1; c.s-a.p3",
    "b", "secondary", "a", "p4" },
  { "single-has-primary-only", "console a mode=single ctrl=1 at=[40,60]; rack b mode=single id=1 at=[200,60]", "a",
    "primary", "b", "primary" },
  { "aux-to-aux", "console a ctrl=1 at=[40,60]; rack b id=1 at=[200,60]", "a", "aux", "b", "aux" },
};

static void
test_choice (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (RwDocument) document = hand_document (choices[i].rig);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);

  hand_press (tool, hand_port (document, choices[i].from, choices[i].from_port), 0);
  g_assert_true (hand_release (tool, hand_device (document, choices[i].to), 0));
  assert_joins (last_cable (document), choices[i].from, choices[i].from_port, choices[i].to, choices[i].to_port);
}

static void
test_full_device (void)
{
  g_autoptr (RwDocument) document = hand_document (CHAIN "; rack extra id=3 at=[160,160]");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);

  hand_press (tool, hand_port (document, "extra", "primary"), 0);
  hand_move (tool, hand_device (document, "left"), 0);
  g_assert_cmpint (rw_tool_overlay (tool)->verdict, ==, RW_VERDICT_ERROR);
  g_assert_nonnull (strstr (rw_tool_overlay (tool)->verdict_text, "left"));
  g_assert_false (hand_release (tool, hand_device (document, "left"), 0));
}

static void
test_media (void)
{
  g_autoptr (RwDocument) document
    = hand_document ("converter a medium=multimode at=[40,60]; switch b medium=copper at=[200,60]; "
                     "switch c medium=cage at=[200,160]; switch d medium=cage at=[40,160]");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);

  hand_press (tool, hand_port (document, "a", "p1"), 0);
  hand_move (tool, hand_port (document, "b", "p1"), 0);
  g_assert_cmpint (rw_tool_overlay (tool)->verdict, ==, RW_VERDICT_ERROR);
  g_assert_false (hand_release (tool, hand_port (document, "b", "p1"), 0));

  hand_press (tool, hand_port (document, "a", "p1"), 0);
  g_assert_true (hand_release (tool, hand_port (document, "c", "p1"), 0));
  g_assert_cmpint (last_cable (document)->medium, ==, RW_MEDIUM_MULTIMODE);

  hand_press (tool, hand_port (document, "b", "p1"), 0);
  g_assert_true (hand_release (tool, hand_port (document, "c", "p2"), 0));
  g_assert_cmpint (last_cable (document)->medium, ==, RW_MEDIUM_COPPER);

  hand_press (tool, hand_port (document, "d", "p1"), 0);
  g_assert_true (hand_release (tool, hand_port (document, "c", "p3"), 0));
  g_assert_cmpint (last_cable (document)->medium, ==, RW_MEDIUM_MULTIMODE);
}

static gboolean
is_lit (RwDocument *document, const RwOverlay *overlay, const char *device, const char *port)
{
  guint wanted = rw_net_find_port (rw_document_net (document), device, port);

  for (guint i = 0; i < overlay->lit_ports->len; i++)
    if (g_array_index (overlay->lit_ports, guint, i) == wanted)
      return TRUE;
  return FALSE;
}

static void
test_lights (void)
{
  g_autoptr (RwDocument) document = hand_document (CHAIN "; rack extra id=3 at=[160,160]");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);
  const RwOverlay *overlay = rw_tool_overlay (tool);

  hand_press (tool, hand_port (document, "right", "secondary"), 0);
  g_assert_true (overlay->dim_ports);
  g_assert_true (is_lit (document, overlay, "extra", "primary"));
  g_assert_true (is_lit (document, overlay, "desk", "primary"));
  g_assert_false (is_lit (document, overlay, "desk", "secondary")); /* taken */
  g_assert_false (is_lit (document, overlay, "desk", "aux"));       /* apart from the audio network */
  g_assert_false (is_lit (document, overlay, "right", "primary"));  /* of the same device */
}

/* C, an arrow toward the device, Enter: the desk's free end to the new rack. */
static void
test_keys (void)
{
  g_autoptr (RwDocument) document
    = hand_document ("console desk ctrl=1 at=[40,60]; rack east id=1 at=[200,60]; rack south id=2 at=[40,180]");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);
  RwChange *change;

  g_assert_false (rw_tool_key (tool, RW_TOOL_KEY_CABLE, 0, &change)); /* nothing is selected */
  rw_selection_set (rw_document_selection (document), "desk");
  hand_key (tool, RW_TOOL_KEY_CABLE);
  g_assert_true (tool->active);
  hand_key (tool, RW_TOOL_KEY_RIGHT);
  g_assert_cmpint (rw_tool_overlay (tool)->verdict, !=, RW_VERDICT_NONE);
  g_assert_cmpuint (rw_tool_overlay (tool)->loose->len, ==, 1);
  hand_key (tool, RW_TOOL_KEY_LEFT); /* from the east rack there is only the south one to the left */
  g_assert_true (hand_key (tool, RW_TOOL_KEY_ENTER));
  g_assert_false (tool->active);
  assert_joins (last_cable (document), "desk", "secondary", "south", "primary");
  g_assert_cmpstr (rw_history_undo_name (rw_document_history (document)), ==, "Draw Cable");
}

/* --- Taking a cable out of its port --- */

/* The plugged end comes along to another port; what else is known of the cable stays. */
static void
test_replug (void)
{
  g_autoptr (RwDocument) document
    = hand_document ("console desk ctrl=1 at=[40,60]; switch sw at=[160,60]; rack left id=1 at=[280,60]; "
                     "desk.p-sw.p1 label=T-1 length_m=12 bends=[[100,40]]; left.p-sw.p2");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);
  const RwOverlay *overlay = rw_tool_overlay (tool);
  const RwCable *cable;

  hand_press (tool, hand_port (document, "sw", "p1"), 0);
  g_assert_cmpuint (overlay->bent_cable, ==, 0);
  g_assert_cmpuint (overlay->from_port, ==, rw_net_find_port (rw_document_net (document), "desk", "primary"));
  hand_move (tool, hand_port (document, "sw", "p7"), 0);
  g_assert_cmpint (overlay->verdict, ==, RW_VERDICT_FINE);
  g_assert_true (hand_release (tool, hand_port (document, "sw", "p7"), 0));
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 2);
  cable = rw_rig_cable (rw_document_rig (document), "c1");
  assert_joins (cable, "desk", "primary", "sw", "p7");
  g_assert_cmpstr (cable->label, ==, "T-1");
  g_assert_cmpfloat (cable->length_m, ==, 12);
  g_assert_cmpuint (cable->bends.n, ==, 0); /* they led along the old way */
  g_assert_cmpstr (rw_selection_single (rw_document_selection (document)), ==, "c1");
  g_assert_cmpstr (rw_history_undo_name (rw_document_history (document)), ==, "Re-plug Cable");
  g_assert_true (rw_document_undo (document));

  /* the other end, over a device */
  hand_press (tool, hand_port (document, "desk", "primary"), 0);
  g_assert_true (hand_release (tool, hand_device (document, "left"), 0));
  assert_joins (rw_rig_cable (rw_document_rig (document), "c1"), "left", "secondary", "sw", "p1");
}

/* The arrows pass over what has no free port to the next that has, and say so where there is none. */
static void
test_keys_pass_over (void)
{
  g_autoptr (RwDocument) document
    = hand_document ("console desk ctrl=1 at=[40,60]; rack full id=1 at=[160,60]; rack more id=2 at=[280,60]; "
                     "rack last id=3 at=[400,60]; full.p-more.p; full.s-more.s; full.a-more.a");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);
  const RwOverlay *overlay = rw_tool_overlay (tool);

  rw_selection_set (rw_document_selection (document), "desk");
  hand_key (tool, RW_TOOL_KEY_CABLE);
  hand_key (tool, RW_TOOL_KEY_DOWN);
  g_assert_cmpint (overlay->verdict, ==, RW_VERDICT_ERROR);
  g_assert_cmpuint (overlay->loose->len, ==, 0);
  hand_key (tool, RW_TOOL_KEY_RIGHT);
  g_assert_cmpuint (overlay->swept->len, ==, 1);
  g_assert_cmpuint (g_array_index (overlay->swept, guint, 0), ==, rw_net_find_device (rw_document_net (document), "last"));
  g_assert_cmpuint (overlay->from_port, ==, rw_net_find_port (rw_document_net (document), "desk", "secondary"));
  hand_key (tool, RW_TOOL_KEY_RIGHT); /* nothing beyond it: what is chosen stays */
  g_assert_true (hand_key (tool, RW_TOOL_KEY_ENTER));
  assert_joins (last_cable (document), "desk", "secondary", "last", "primary");
}

/* A press that comes to nothing leaves the cable plugged. */
static void
test_replug_home (void)
{
  g_autoptr (RwDocument) document = hand_document (CHAIN);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);
  RwPoint port = hand_port (document, "left", "primary");
  const RwPoint ends[] = { port, hand_device (document, "left"), { 200, 150 }, hand_port (document, "desk", "secondary") };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      hand_press (tool, port, 0);
      g_assert_false (hand_release (tool, ends[i], 0));
      g_assert_cmpstr (rw_selection_single (rw_document_selection (document)), ==, "c1");
    }
  g_assert_false (rw_document_is_dirty (document));
}

/* With Ctrl a second cable is drawn from the port, and said to be one too many; then the second is the one that comes out. */
static void
test_replug_shared (void)
{
  g_autoptr (RwDocument) document = hand_document (CHAIN);
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);

  hand_press (tool, hand_port (document, "left", "primary"), RW_TOOL_MOD_CTRL);
  g_assert_true (hand_release (tool, hand_port (document, "right", "secondary"), RW_TOOL_MOD_CTRL));
  g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 3);
  g_assert_cmpuint (hand_findings (document, "port-shared"), ==, 1);
  hand_press (tool, hand_port (document, "left", "primary"), 0);
  g_assert_true (hand_release (tool, hand_port (document, "desk", "primary"), 0));
  assert_joins (last_cable (document), "desk", "primary", "right", "secondary");
  g_assert_cmpuint (hand_findings (document, "port-shared"), ==, 0);
}

/* Fibre that is plugged into copper becomes copper, without the fibre's grade. */
static void
test_replug_medium (void)
{
  g_autoptr (RwDocument) document
    = hand_document ("switch a at=[40,60] medium=cage; switch b at=[160,60] medium=multimode; switch d at=[280,60]; "
                     "a.p1-b.p1 medium=multimode grade=om4");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, document);

  hand_press (tool, hand_port (document, "b", "p1"), 0);
  g_assert_true (hand_release (tool, hand_port (document, "d", "p3"), 0));
  assert_joins (last_cable (document), "a", "p1", "d", "p3");
  g_assert_cmpint (last_cable (document)->medium, ==, RW_MEDIUM_COPPER);
  g_assert_false (rw_item_has (last_cable (document), RW_CABLE_GRADE));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tool/cable/loop-in-the-air", test_loop_in_the_air);
  g_test_add_func ("/tool/cable/cancel", test_cancel);
  g_test_add_func ("/tool/cable/nothing-on-empty-sheet", test_nothing_on_empty_sheet);
  for (guint i = 0; i < G_N_ELEMENTS (choices); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tool/cable/choice/%s", choices[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_choice);
    }
  g_test_add_func ("/tool/cable/full-device", test_full_device);
  g_test_add_func ("/tool/cable/media", test_media);
  g_test_add_func ("/tool/cable/lights", test_lights);
  g_test_add_func ("/tool/cable/keys", test_keys);
  g_test_add_func ("/tool/cable/keys-pass-over", test_keys_pass_over);
  g_test_add_func ("/tool/cable/re-plug/to-another-port", test_replug);
  g_test_add_func ("/tool/cable/re-plug/home", test_replug_home);
  g_test_add_func ("/tool/cable/re-plug/shared-port", test_replug_shared);
  g_test_add_func ("/tool/cable/re-plug/medium", test_replug_medium);
  return g_test_run ();
}
