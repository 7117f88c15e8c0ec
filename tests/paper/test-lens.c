/* SPDX-License-Identifier: MIT */
/* What the lenses say of rigs whose networks were worked out by hand, and how they look. */
#include <math.h>
#include <paper/rw-failure-list.h>
#include <paper/rw-scene-index.h>
#include <paper/rw-sheet-parts.h>
#include <rig/rw-edit.h>
#include <string.h>

#include "paper-fixture.h"
#include "rig-builder.h"

/* Two planes and a ring of three switches that run spanning tree, with a VLAN of its own for computer L. */
#define RIG \
  "console A mode=redundant ctrl=1 name='Desk' at=[10,10]; rack B mode=redundant id=1 at=[130,10]; computer L at=[130,60]\n" \
  "switch S ports=5 stp p4=20 p5=[1,20] at=[10,60]; switch T ports=5 stp p4=20 p5=[1,20] at=[130,110]\n" \
  "switch U ports=4 stp at=[10,110]; switch V ports=2 at=[70,160]; computer X at=[200,160]\n" \
  "A.p-S.p1; B.p-T.p1; S.p5-T.p5; S.p2-U.p1; U.p2-T.p2; A.s-V.p1; B.s-V.p2; L.p-T.p4; A.a-B.a"

typedef struct
{
  RwRig *rig;
  RwScene *scene;
  RwLens *lens;
} View;

static View
view_of_rig (RwRig *rig, RwLensKind kind, const char *from)
{
  View view = { .rig = rig };
  const RwNet *net;

  view.scene = fixture_scene (view.rig);
  net = rw_scene_net (view.scene);
  view.lens = rw_lens_new (net, kind, from != NULL ? rw_net_find_device (net, from) : RW_NONE);
  return view;
}

static View
view_of (const char *text, RwLensKind kind, const char *from)
{
  return view_of_rig (rw_test_rig (text), kind, from);
}

static void
view_clear (View *view)
{
  rw_lens_unref (view->lens);
  rw_scene_unref (view->scene);
  g_object_unref (view->rig);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (View, view_clear)

static const char *
mark_of (const View *view, const char *cable)
{
  return rw_lens_cable_mark (view->lens, rw_net_find_cable (rw_scene_net (view->scene), cable));
}

static RwLineStyle
style_of (const View *view, const char *cable)
{
  return rw_lens_cable_style (view->lens, rw_net_find_cable (rw_scene_net (view->scene), cable), RW_LINE_PLAIN);
}

static void
test_planes (void)
{
  g_auto (View) view = view_of (RIG, RW_LENS_PLANES, NULL);

  g_assert_cmpstr (mark_of (&view, "c1"), ==, "A");
  g_assert_cmpstr (mark_of (&view, "c3"), ==, "AC");
  g_assert_cmpstr (mark_of (&view, "c6"), ==, "B");
  g_assert_cmpstr (mark_of (&view, "c8"), ==, "C");
  g_assert_null (mark_of (&view, "c9"));
  g_assert_cmpint (style_of (&view, "c1"), ==, RW_LINE_PRIMARY);
  g_assert_cmpint (style_of (&view, "c3"), ==, RW_LINE_TRUNK);
  g_assert_cmpint (style_of (&view, "c6"), ==, RW_LINE_SECONDARY);
  g_assert_cmpint (style_of (&view, "c8"), ==, RW_LINE_NETWORK);
  g_assert_cmpint (style_of (&view, "c9"), ==, RW_LINE_AUX);
  g_assert_cmpuint (rw_lens_n_samples (view.lens), ==, 4);
  g_assert_cmpstr (rw_lens_sample (view.lens, 0)->text, ==, "Primary network, 5 devices");
  g_assert_cmpstr (rw_lens_sample (view.lens, 1)->text, ==, "Secondary network, 3 devices");
}

/* More networks than letters and lines: each still has a name of its own. */
static void
test_many_planes (void)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < 60; i++)
    g_string_append_printf (text, "computer A%u; computer B%u; A%u.p-B%u.p;", i, i, i, i);
  g_auto (View) view = view_of (text->str, RW_LENS_PLANES, NULL);
  g_assert_cmpuint (rw_lens_n_samples (view.lens), ==, 60);
  for (guint i = 0; i < 60; i++)
    g_assert_true (g_hash_table_add (names, rw_lens_sample (view.lens, i)->mark));
}

static const char *
badge_of (const View *view, const char *device)
{
  return rw_lens_device_badge (view->lens, rw_net_find_device (rw_scene_net (view->scene), device));
}

/* Counted on the drawing: primary through S and T, secondary through V. */
static void
test_hops (void)
{
  g_auto (View) view = view_of (RIG, RW_LENS_HOPS, "A");
  g_auto (View) chain = view_of ("console A ctrl=1; rack B; rack C; A.s-B.p; B.s-C.p; A.p-A.a", RW_LENS_HOPS, NULL);

  g_assert_cmpstr (badge_of (&view, "A"), ==, "0");
  g_assert_cmpstr (badge_of (&view, "S"), ==, "1");
  g_assert_cmpstr (badge_of (&view, "T"), ==, "2");
  g_assert_cmpstr (badge_of (&view, "U"), ==, "2");
  g_assert_cmpstr (badge_of (&view, "V"), ==, "1");
  g_assert_cmpstr (badge_of (&view, "B"), ==, "2/1");
  g_assert_cmpstr (badge_of (&view, "L"), ==, "–");
  g_assert_cmpstr (badge_of (&view, "X"), ==, "–");
  /* a chain device's own bridge counts, at both ends */
  g_assert_cmpuint (rw_lens_from (chain.lens), ==, 0);
  g_assert_cmpstr (badge_of (&chain, "B"), ==, "2");
  g_assert_cmpstr (badge_of (&chain, "C"), ==, "3");
}

static RwRect
badge_rect (const View *view, RwDrawContext *context, guint device, gboolean far)
{
  const char *badge = rw_lens_device_badge (view->lens, device);

  if (badge == NULL)
    return (RwRect) { -1e6, -1e6, 0, 0 };
  return rw_draw_badge_rect (context, rw_scene_device (view->scene, device)->box, rw_lens_device_corner (view->lens, device, far), badge, far);
}

static gboolean
covers_tab (const View *view, guint device, RwRect r)
{
  RwRect box = rw_scene_device (view->scene, device)->box, at = { r.x - box.x, r.y - box.y, r.w, r.h };
  const RwShape *shape = rw_scene_geometry (view->scene, device)->shape;
  gboolean covers = FALSE;

  for (guint p = 0; p < shape->n_ports; p++)
    covers = covers || rw_rects_overlap (rw_rect_grown (at, -0.1), shape->ports[p].tab);
  return covers;
}

/* Neither another device nor its badge; and, where they are written, no label and no tab or name of its own. Returns how
 * many badges do not stand on the usual corner. */
static guint
check_badges (const View *view, gboolean far)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  guint n = rw_scene_n_devices (view->scene), moved = 0;

  for (guint i = 0; i < n; i++)
    {
      RwRect r = badge_rect (view, context, i, far), box = rw_scene_device (view->scene, i)->box;
      RwRect own = rw_rect_grown ((RwRect) { r.x - box.x, r.y - box.y, r.w, r.h }, -0.1);
      const RwGeometry *geometry = rw_scene_geometry (view->scene, i);

      moved += rw_lens_device_corner (view->lens, i, far) != RW_CORNER_TOP_RIGHT;
      for (guint k = 0; k < n; k++)
        {
          g_assert_false (k != i && rw_rects_overlap (r, rw_scene_device (view->scene, k)->box));
          g_assert_false ((k != i || !far) && covers_tab (view, k, r));
          g_assert_false (k != i && rw_rects_overlap (r, badge_rect (view, context, k, far)));
        }
      for (guint c = 0; c < rw_scene_n_cables (view->scene) && !far; c++)
        g_assert_false (rw_rects_overlap (r, rw_scene_cable (view->scene, c)->label));
      g_assert_false (!far && geometry->id.text != NULL && rw_rects_overlap (own, geometry->id_tab));
      g_assert_false (!far && rw_rects_overlap (own, geometry->name[0].rect));
    }
  return moved;
}

/* Labels stand beside lines and near boxes, so not every badge can stand on the same corner; nor can it where the next
 * device is so close that a badge, which is larger far out, would reach into it. */
static void
test_badges_cover_nothing (void)
{
  g_auto (View) view = view_of_rig (fixture_rig ("festival-60.rig"), RW_LENS_HOPS, NULL);
  g_auto (View) stack = view_of ("console A ctrl=1 at=[60,60]; rack B id=1 at=[60,87.5]; rack C id=2 at=[60,115]; rack D id=3 at=[60,142.5]\n"
                                 "A.s-B.p; B.s-C.p; C.s-D.p", RW_LENS_HOPS, NULL);

  rw_lens_place_marks (view.lens, view.scene);
  rw_lens_place_marks (stack.lens, stack.scene);
  for (guint far = 0; far < 2; far++)
    {
      g_assert_cmpuint (check_badges (&view, far != 0), >, 0);
      g_assert_cmpuint (check_badges (&stack, far != 0), >, 1);
    }
}

/* Equal priorities: S, the first in the file, is the root, so of U and T the later one's port is blocked (IEEE
 * 802.1D-2004 17.6: the lower bridge id wins the link). */
static void
test_held (void)
{
  g_auto (View) view = view_of (RIG, RW_LENS_WIRING, NULL);
  guint cable = rw_net_find_cable (rw_scene_net (view.scene), "c5");

  for (guint i = 0; i < rw_scene_n_cables (view.scene); i++)
    g_assert_cmpint (rw_scene_cable (view.scene, i)->held != RW_HELD_NOT, ==, i == cable);
  g_assert_cmpint (rw_scene_cable (view.scene, cable)->held, ==, RW_HELD_FROM);
}

static void
set_system (RwRig *rig, guint field, GVariant *value)
{
  RwEdit *edit = rw_edit_new (rig, "");
  g_autoptr (RwChange) change = NULL;

  g_assert_true (rw_edit_set (edit, RW_SYSTEM_KEY, field, value, NULL));
  change = rw_edit_finish (edit);
  g_assert_true (rw_rig_apply (rig, change, NULL));
}

/* B to E feed A, D also E, each by streams of its own; links of 100 Mb/s, save E's and A's; of F nothing is patched. */
static RwRig *
loaded_rig (void)
{
  RwRig *rig = rw_test_rig ("console A ctrl=1 at=[100,10]; computer B speed=100 at=[10,60]; computer C speed=100 at=[10,110]\n"
                            "computer D speed=100 at=[190,60]; computer E at=[190,110]; computer F at=[100,160]\n"
                            "switch S ports=6 at=[100,85]; B.p-S.p1; C.p-S.p2; D.p-S.p3; E.p-S.p4; F.p-S.p5; S.p6-A.p");

  set_system (rig, RW_SYSTEM_MULTICAST, g_variant_new_boolean (FALSE));
  rw_test_rig_patch (rig, "B", 1, "A", 1, 8);
  rw_test_rig_patch (rig, "C", 1, "A", 9, 32);
  rw_test_rig_patch (rig, "D", 1, "A", 1, 32);
  rw_test_rig_patch (rig, "D", 1, "E", 1, 32);
  rw_test_rig_patch (rig, "E", 1, "A", 41, 8);
  return rig;
}

static void
assert_near (double is, double should)
{
  g_assert_cmpfloat (fabs (is - should), <, 0.001);
}

/* 8 channels of 24 bits at 48 kHz in packets of 125 µs are 14.208 Mb/s on the wire: 144 bytes of samples and 78 of headers,
 * preamble and gap (RFC 3550, 768, 791; the Ethernet part from memory), 8000 times a second. */
static void
test_load (void)
{
  g_auto (View) view = view_of_rig (loaded_rig (), RW_LENS_LOAD, NULL);
  const RwLensFlow *flow = rw_lens_cable_flow (view.lens, 0);
  g_autofree char *text = rw_lens_flow_text (flow, 0, FALSE), *detailed = rw_lens_flow_text (flow, 0, TRUE);

  assert_near (flow->mbps[0], 14.208);
  assert_near (flow->percent[0], 14.208);
  assert_near (flow->mbps[1], 0);
  g_assert_cmpstr (text, ==, "14 %");
  g_assert_cmpstr (detailed, ==, "14 % · 14 Mb/s");
  assert_near (rw_lens_cable_flow (view.lens, 1)->percent[0], 4 * 14.208);
  assert_near (rw_lens_cable_flow (view.lens, 3)->percent[0], 1.4208);
  g_assert_null (rw_lens_cable_flow (view.lens, 4));
  g_assert_cmpint (style_of (&view, "c1"), ==, RW_LINE_LOAD + RW_FLOW_MEDIUM);
  g_assert_cmpint (style_of (&view, "c2"), ==, RW_LINE_LOAD + RW_FLOW_HIGH);
  g_assert_cmpint (style_of (&view, "c3"), ==, RW_LINE_LOAD + RW_FLOW_OVER_SPEED);
  g_assert_cmpint (style_of (&view, "c4"), ==, RW_LINE_LOAD + RW_FLOW_MEDIUM);
  g_assert_cmpint (style_of (&view, "c5"), ==, RW_LINE_QUIET);
}

static void
test_load_ceiling (void)
{
  RwRig *rig = loaded_rig ();

  set_system (rig, RW_SYSTEM_LINK_CEILING_PERCENT, g_variant_new_int32 (50));
  g_auto (View) view = view_of_rig (rig, RW_LENS_LOAD, NULL);
  g_assert_cmpint (style_of (&view, "c2"), ==, RW_LINE_LOAD + RW_FLOW_OVER_CEILING);
  g_assert_cmpint (style_of (&view, "c1"), ==, RW_LINE_LOAD + RW_FLOW_MEDIUM);
}

/* Height in pixels of what is drawn of a flow on a screen of @px_per_mm; 0 = nothing. */
static double
flow_px (double px_per_mm, RwFlowStep step)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  RwDrawOptions options = { .context = context, .px_per_mm = px_per_mm };
  RwLensFlow flow = { .mbps = { 120, 0 }, .percent = { 12, 0 }, .step = step };
  RwLensPlace place = { .centre = { 50, 50 }, .along = { 1, 0 }, .detailed = TRUE };
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  double x, y, w, h;

  cairo_scale (cr, px_per_mm, px_per_mm);
  rw_draw_flow_size (context, &flow, TRUE, FALSE, &place.w, &place.h);
  rw_draw_flow (cr, &place, &flow, &options);
  cairo_recording_surface_ink_extents (surface, &x, &y, &w, &h);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return h;
}

/* From where labels show (53 %) the figures have their own size; further out the larger ones stay readable for a while. */
static void
test_load_far (void)
{
  g_assert_cmpfloat (flow_px (4, RW_FLOW_LOW), >, 12);
  g_assert_cmpfloat (flow_px (2, RW_FLOW_LOW), >, 6);
  g_assert_cmpfloat (flow_px (1.9, RW_FLOW_LOW), ==, 0);
  g_assert_cmpfloat (flow_px (1.9, RW_FLOW_MEDIUM), >, flow_px (2, RW_FLOW_MEDIUM));
  g_assert_cmpfloat (flow_px (1.3, RW_FLOW_HIGH), >, 6);
  g_assert_cmpfloat (flow_px (0.8, RW_FLOW_HIGH), ==, 0);
}

static gboolean
overlap (RwRect a, RwRect b)
{
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}

static RwRect
area_of (const RwLensPlace *place)
{
  return (RwRect) { place->centre.x - place->w / 2, place->centre.y - place->h / 2, place->w, place->h };
}

/* Through T the primary way of B is gone, L behind it has no other; U still reaches S. */
static RwLens *
failure_lens (const View *view)
{
  const RwNet *net = rw_scene_net (view->scene);
  const char *const ids[] = { "T", "c6", NULL };
  g_autoptr (RwFailed) failed = rw_failed_new (net, ids);

  return rw_lens_new_failure (net, failed);
}

static void
test_failure (void)
{
  g_auto (View) view = view_of (RIG, RW_LENS_FAILURE, NULL);
  g_autoptr (RwLens) none = view.lens;

  g_assert_cmpstr (rw_lens_heading (none), ==, "Failure: nothing has failed");
  g_assert_null (badge_of (&view, "B"));
  view.lens = failure_lens (&view);
  g_assert_cmpstr (badge_of (&view, "T"), ==, "×");
  g_assert_cmpstr (badge_of (&view, "B"), ==, "silent");
  g_assert_cmpstr (badge_of (&view, "A"), ==, "cut off");
  g_assert_cmpstr (badge_of (&view, "L"), ==, "cut off");
  g_assert_null (badge_of (&view, "V"));
  g_assert_cmpstr (rw_lens_heading (view.lens), ==, "Failure: 1 device silent, 2 devices cut off");
  g_assert_cmpstr (mark_of (&view, "c6"), ==, "×");
  g_assert_null (mark_of (&view, "c1"));
  g_assert_cmpint (style_of (&view, "c6"), ==, RW_LINE_FAILED);
  g_assert_cmpint (style_of (&view, "c2"), ==, RW_LINE_QUIET);
  g_assert_cmpint (rw_lens_device_fate (view.lens, rw_net_find_device (rw_scene_net (view.scene), "B")), ==, RW_FATE_LOST);
}

/* Once the tree has formed anew, the link that it held open carries what the failed one did: S–T and T–U lead everything,
 * and nothing is held. Which is held is the tree's own matter, compared with real bridges elsewhere. */
static void
test_failure_held (void)
{
  g_auto (View) view = view_of (RIG, RW_LENS_FAILURE, NULL);
  const RwNet *net = rw_scene_net (view.scene);
  const char *const ids[] = { "c4", NULL };
  g_autoptr (RwFailed) failed = rw_failed_new (net, ids);
  g_autoptr (RwLens) lens = rw_lens_new_failure (net, failed);
  guint before = 0;

  for (guint i = 0; i < rw_scene_n_cables (view.scene); i++)
    {
      RwHeld usual = rw_scene_cable (view.scene, i)->held;

      before += usual != RW_HELD_NOT;
      g_assert_cmpint (rw_lens_cable_held (view.lens, i, usual), ==, usual);
      g_assert_cmpint (rw_lens_cable_held (lens, i, usual), ==, RW_HELD_NOT);
    }
  g_assert_cmpuint (before, ==, 1);
}

/* The list names what has failed first, cables too, then what that costs. By hand. */
static void
test_failure_list (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A name=Desk; rack B name=Box; rack C; switch S; A.p-S.p1 label=K1; B.p-S.p2; C.p-S.p3");
  const char *const ids[] = { "c1", "C", NULL };
  const char *const expected[] = { "failed K1 Desk · primary → S · p1", "failed C", "silent Box", "cut off Desk", "lost (null) Box · 1 → Desk · 1",
                                   "lost with its device (null) C · 1 → Desk · 2" };
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwFailed) failed = NULL;
  g_autoptr (RwOutcome) outcome = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  rw_test_rig_patch (rig, "B", 1, "A", 1, 1);
  rw_test_rig_patch (rig, "C", 1, "A", 2, 1);
  net = rw_net_new (rig);
  failed = rw_failed_new (net, ids);
  outcome = rw_outcome_new (net, failed);
  rows = rw_failure_rows (rig, outcome);
  g_assert_cmpuint (rows->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < rows->len; i++)
    {
      const RwFailureRow *row = g_ptr_array_index (rows, i);
      g_autofree char *way = row->from != NULL ? g_strdup_printf (" %s → %s", row->from, row->to) : g_strdup ("");
      g_autofree char *text = g_strdup_printf ("%s %s%s", rw_failure_word (row), row->name != NULL && *row->name != '\0' ? row->name : "(null)", way);

      g_assert_cmpstr (text, ==, expected[i]);
    }
}

/* On the festival, no mark of a lens stands on another's label, a device or another mark. */
static void
test_places (gconstpointer data)
{
  g_auto (View) view = view_of_rig (fixture_rig ("festival-60.rig"), (RwLensKind) GPOINTER_TO_INT (data), NULL);
  guint n = rw_scene_n_cables (view.scene), marks = 0, own = 0;

  rw_lens_place_marks (view.lens, view.scene);
  for (guint i = 0; i < n; i++)
    {
      const RwLensPlace *place = rw_lens_cable_place (view.lens, i, rw_scene_cable (view.scene, i));

      if (place->w <= 0)
        continue;
      marks++;
      for (guint k = 0; k < n; k++)
        {
          g_assert_false (k != i && overlap (area_of (place), rw_scene_cable (view.scene, k)->label));
          own += k == i && overlap (area_of (place), rw_scene_cable (view.scene, k)->label);
          g_assert_false (k < i && overlap (area_of (place), area_of (rw_lens_cable_place (view.lens, k, rw_scene_cable (view.scene, k)))));
        }
      for (guint k = 0; k < rw_scene_n_devices (view.scene); k++)
        g_assert_false (overlap (area_of (place), rw_scene_device (view.scene, k)->box));
    }
  g_assert_cmpuint (own, <=, 1); /* a line that is hardly longer than its label */
  g_assert_cmpuint (marks, >, n / 2);
}

static void
test_empty (void)
{
  for (guint i = 0; i < RW_N_LENSES; i++)
    {
      g_auto (View) view = view_of ("", (RwLensKind) i, NULL);
      RwLensKind found;

      g_assert_true (rw_lens_find (rw_lens_info ((RwLensKind) i)->name, &found) && found == (RwLensKind) i);
      g_assert_cmpuint (rw_lens_n_samples (view.lens), ==, 0);
    }
}

static void
test_picture (gconstpointer data)
{
  const char *name = data;
  RwLensKind kind = strstr (name, "hops") != NULL ? RW_LENS_HOPS : strstr (name, "load") != NULL ? RW_LENS_LOAD
                    : strstr (name, "failure") != NULL ? RW_LENS_FAILURE : RW_LENS_PLANES;
  g_auto (View) view = view_of_rig (kind == RW_LENS_LOAD ? loaded_rig () : rw_test_rig (RIG), kind, NULL);
  g_autoptr (RwLens) failure = kind == RW_LENS_FAILURE ? failure_lens (&view) : NULL;
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  RwDrawOptions options = { .context = context, .lens = failure != NULL ? failure : view.lens, .mono = g_str_has_suffix (name, "mono"),
                            .dark = g_str_has_suffix (name, "dark") };
  RwLegend *legend = rw_legend_new (context, view.scene, options.lens, NULL, FALSE);
  cairo_t *cr = fixture_picture (255, 245, 4);

  rw_lens_place_marks ((RwLens *) options.lens, view.scene);
  rw_ink_set (cr, RW_INK_SHEET, &options);
  cairo_paint (cr);
  rw_legend_draw (legend, cr, (RwRect) { 5, 195, 245, 50 }, &options);
  cairo_translate (cr, 5, 5);
  rw_draw_scene (cr, view.scene, &options);
  fixture_compare (cr, name);
  rw_legend_free (legend);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/paper/lens/planes", test_planes);
  g_test_add_func ("/paper/lens/many-planes", test_many_planes);
  g_test_add_func ("/paper/lens/hops", test_hops);
  g_test_add_func ("/paper/lens/badges-cover-nothing", test_badges_cover_nothing);
  g_test_add_func ("/paper/lens/held", test_held);
  g_test_add_func ("/paper/lens/load", test_load);
  g_test_add_func ("/paper/lens/failure", test_failure);
  g_test_add_func ("/paper/lens/failure-held", test_failure_held);
  g_test_add_func ("/paper/lens/failure-list", test_failure_list);
  g_test_add_func ("/paper/lens/load-ceiling", test_load_ceiling);
  g_test_add_func ("/paper/lens/load-far", test_load_far);
  g_test_add_data_func ("/paper/lens/places/planes", GINT_TO_POINTER (RW_LENS_PLANES), test_places);
  g_test_add_data_func ("/paper/lens/places/load", GINT_TO_POINTER (RW_LENS_LOAD), test_places);
  g_test_add_func ("/paper/lens/empty", test_empty);
  g_test_add_data_func ("/paper/lens/picture/planes", "lens-planes", test_picture);
  g_test_add_data_func ("/paper/lens/picture/planes-mono", "lens-planes-mono", test_picture);
  g_test_add_data_func ("/paper/lens/picture/failure", "lens-failure", test_picture);
  g_test_add_data_func ("/paper/lens/picture/failure-mono", "lens-failure-mono", test_picture);
  g_test_add_data_func ("/paper/lens/picture/load", "lens-load", test_picture);
  g_test_add_data_func ("/paper/lens/picture/load-mono", "lens-load-mono", test_picture);
  g_test_add_data_func ("/paper/lens/picture/hops", "lens-hops", test_picture);
  g_test_add_data_func ("/paper/lens/picture/hops-dark", "lens-hops-dark", test_picture);
  return g_test_run ();
}
