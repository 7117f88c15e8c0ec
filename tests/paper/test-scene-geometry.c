/* SPDX-License-Identifier: MIT */
/* Boxes of devices: what stands in them fits, whatever the part and the name. */
#include "scene-rigs.h"

#include <file/rw-file.h>
#include <math.h>
#include <paper/rw-scene-index.h>
#include <pango/pangocairo.h>
#include <string.h>

static const char *const names[] = {
  "",
  "FOH",
  "Front of house desk",
  "Stage left upper gallery amplifier room two",
  "The longest name that anybody has ever given to a rack of inputs and outputs on a stage anywhere",
  "Unbreakablelongnamewithoutanyspaceinitwhatsoeverandthensome",
  "Пульт звукорежиссёра на главной сцене",
  "主調整卓ステージ左側入出力ラック",
  "WWWWWWWWWWWW MMMMMMMMMMMM",
};

static const char *const ids[] = { NULL, "1", "C1", "C12/345", "-2147483648" };

static gboolean
is_within (RwRect inner, RwRect outer)
{
  const double eps = 0.01;

  return inner.x >= outer.x - eps && inner.y >= outer.y - eps && inner.x + inner.w <= outer.x + outer.w + eps && inner.y + inner.h <= outer.y + outer.h + eps;
}

static gboolean
is_multiple (double value, double of)
{
  return fabs (value / of - round (value / of)) < 1e-6;
}

static gboolean
has_fill (const RwSceneText *text)
{
  return text->text != NULL && *text->text != '\0';
}

static guint
collect_texts (const RwGeometry *g, const RwSceneText **texts)
{
  guint n = 0;
  const RwSceneText *own[] = { &g->name[0], &g->name[1], &g->part, &g->id };

  for (guint i = 0; i < G_N_ELEMENTS (own); i++)
    if (has_fill (own[i]))
      texts[n++] = own[i];
  for (guint i = 0; i < g->shape->n_ports; i++)
    if (has_fill (&g->shape->port_names[i]))
      texts[n++] = &g->shape->port_names[i];
  return n;
}

static RwRect
narrowed (RwRect r)
{
  return rw_rect_grown (r, -0.02);
}

static void
check_texts (const RwPart *part, const char *name, const RwGeometry *g)
{
  g_autofree const RwSceneText **texts = g_new (const RwSceneText *, g->shape->n_ports + 4);
  guint n = collect_texts (g, texts);
  RwRect box = { 0, 0, g->shape->w, g->shape->h };

  for (guint i = 0; i < n; i++)
    {
      if (!is_within (texts[i]->rect, box))
        g_error ("part %s, name “%s”: “%s” leaves the box", part->name, name, texts[i]->text);
      g_assert_cmpfloat (texts[i]->em, >=, RW_EM_LEAST - 1e-9);
      for (guint k = 0; k < i; k++)
        if (rw_rects_overlap (narrowed (texts[i]->rect), narrowed (texts[k]->rect)))
          g_error ("part %s, name “%s”: “%s” lies on “%s”", part->name, name, texts[i]->text, texts[k]->text);
      if (g->id.text != NULL && texts[i] != &g->id && rw_rects_overlap (narrowed (texts[i]->rect), narrowed (g->id_tab)))
        g_error ("part %s, name “%s”: “%s” lies on the ID tab", part->name, name, texts[i]->text);
    }
  if (g->id.text != NULL)
    {
      g_assert_true (is_within (g->id_tab, box));
      g_assert_true (is_within (g->id.rect, g->id_tab));
    }
}

static void
check_ports (const RwPart *part, const RwShape *shape)
{
  RwRect box = { 0, 0, shape->w, shape->h };

  g_assert_cmpuint (shape->n_ports, ==, rw_part_n_ports (part));
  g_assert_true (is_multiple (shape->w, 5.0) && is_multiple (shape->h, 5.0));
  for (guint i = 0; i < shape->n_ports; i++)
    {
      const RwScenePort *port = &shape->ports[i];

      g_assert_true (is_multiple (port->tip.x, 2.5) && is_multiple (port->tip.y, 2.5));
      g_assert_false (rw_rects_overlap (port->tab, box));
      g_assert_true (rw_rects_touch (port->tab, box));
      g_assert_true (is_within (port->tab, shape->bounds));
      for (guint k = 0; k < i; k++)
        if (rw_rects_overlap (port->tab, shape->ports[k].tab))
          g_error ("part %s: ports %u and %u overlap", part->name, k, i);
    }
}

static void
check_part (const RwPart *part)
{
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (RwShape) shape = rw_shape_new (part, rw_shape_class (part, names[i]));

      check_ports (part, shape);
      for (guint k = 0; k < G_N_ELEMENTS (ids); k++)
        {
          RwGeometry geometry;

          rw_geometry_init (&geometry, shape, part, names[i], ids[k]);
          check_texts (part, names[i], &geometry);
          rw_geometry_clear (&geometry);
        }
    }
}

static void
test_catalogue (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) catalogue = rw_catalogue_load (&error);

  g_assert_no_error (error);
  g_assert_cmpuint (rw_rig_n (catalogue, RW_ITEM_PART), >, 20);
  for (guint i = 0; i < rw_rig_n (catalogue, RW_ITEM_PART); i++)
    check_part ((const RwPart *) rw_rig_items (catalogue, RW_ITEM_PART)[i]);
}

/* Parts that a person may make: many ports, long names, ports of every side at once. */
static void
test_odd_parts (void)
{
  static const char *const odd[] = {
    "[]",
    "[{\"name\": \"A port of a very long name indeed\", \"side\": \"primary\"}, {\"name\": \"Another port of a very long name\", \"side\": \"secondary\"}]",
    "[{\"name\": \"P\", \"side\": \"primary\"}, {\"name\": \"S\", \"side\": \"secondary\"}, {\"name\": \"Control\", \"side\": \"aux\"}, {\"name\": \"Word clock out\", \"side\": \"aux\"},"
    " {\"name\": \"Remote\", \"side\": \"aux\"}, {\"name\": \"Service\", \"side\": \"aux\"}, {\"name\": \"Expansion\", \"side\": \"aux\"}]",
    "[{\"name\": \"SFP 1\", \"side\": \"network\", \"medium\": \"cage\"}, {\"name\": \"SFP 2\", \"side\": \"network\", \"medium\": \"cage\"}, {\"name\": \"SFP 3\", \"side\": \"network\","
    " \"medium\": \"cage\"}, {\"name\": \"1\", \"side\": \"network\"}, {\"name\": \"2\", \"side\": \"network\"}, {\"name\": \"M\", \"side\": \"aux\"}]",
  };

  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    {
      g_autofree char *json = g_strdup_printf ("{\"id\": \"odd\", \"name\": \"A part whose name goes on and on, far beyond any box\", \"kind\": \"%s\", \"ports\": %s}", i == 3 ? "switch" : "rack", odd[i]);
      g_autoptr (GError) error = NULL;
      g_autoptr (RwItem) part = rw_file_item_from_json (RW_ITEM_PART, json, &error);

      g_assert_no_error (error);
      check_part ((const RwPart *) part);
    }
}

static RwItem *
switch_of (guint n, const char *format)
{
  g_autoptr (GString) json = g_string_new ("{\"id\": \"s\", \"name\": \"Switch\", \"kind\": \"switch\", \"ports\": [");
  g_autoptr (GError) error = NULL;
  RwItem *part;

  for (guint i = 1; i <= n; i++)
    {
      g_string_append (json, i > 1 ? ", {\"name\": \"" : "{\"name\": \"");
      g_string_append (json, format);
      g_string_append_printf (json, "%u\", \"side\": \"network\"}", i);
    }
  g_string_append (json, "]}");
  part = rw_file_item_from_json (RW_ITEM_PART, json->str, &error);
  g_assert_no_error (error);
  return part;
}

/* Every port of a large switch keeps its whole name, and the box stays narrower than a sheet of A4 is high. */
static void
test_large_switches (void)
{
  for (guint n = 1; n <= 52; n++)
    {
      g_autoptr (RwItem) bare = switch_of (n, ""), worded = switch_of (n, "Port ");
      const RwPart *parts[] = { (const RwPart *) bare, (const RwPart *) worded };

      for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
        {
          g_autoptr (RwShape) shape = rw_shape_new (parts[i], 0);

          check_part (parts[i]);
          g_assert_cmpfloat (shape->w, <=, 210.0);
          for (guint k = 0; k < n; k++)
            g_assert_cmpstr (shape->port_names[k].text, ==, rw_part_port (parts[i], k)->name);
        }
    }
}

/* The box goes by the part and the name's length alone. */
static void
test_width_class (void)
{
  g_autoptr (RwItem) item = switch_of (8, "");
  const RwPart *part = (const RwPart *) item;
  g_autoptr (RwShape) narrow = rw_shape_new (part, rw_shape_class (part, "iiiiiiiiii")), wide = rw_shape_new (part, rw_shape_class (part, "WWWWWWWWWW"));
  g_autoptr (RwShape) longer = rw_shape_new (part, rw_shape_class (part, names[4]));

  g_assert_cmpfloat (narrow->w, ==, wide->w);
  g_assert_cmpmem (narrow->ports, sizeof *narrow->ports * narrow->n_ports, wide->ports, sizeof *wide->ports * wide->n_ports);
  g_assert_cmpfloat (longer->w, >, wide->w);
}

/* Pango itself, asked for the whole text at another size, is the judge. */
static void
ask_pango (const char *text, gboolean bold, RwRect *ink, RwRect *logical)
{
  PangoFontMap *map = pango_cairo_font_map_new ();
  PangoContext *context = pango_font_map_create_context (map);
  PangoLayout *layout = pango_layout_new (context);
  PangoFontDescription *font = pango_font_description_from_string (bold ? RW_TEXT_FAMILY " Bold" : RW_TEXT_FAMILY);
  const double em = 50.0 * PANGO_SCALE;
  PangoRectangle i, l;

  pango_context_set_round_glyph_positions (context, FALSE);
  pango_font_description_set_absolute_size (font, em);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, text, -1);
  pango_layout_get_extents (layout, &i, &l);
  *ink = (RwRect) { i.x / em, i.y / em, i.width / em, i.height / em };
  *logical = (RwRect) { l.x / em, l.y / em, l.width / em, l.height / em };
  pango_font_description_free (font);
  g_object_unref (layout);
  g_object_unref (context);
  g_object_unref (map);
}

static double
width_by_pango (const char *text, double em, gboolean bold)
{
  RwRect ink, logical;

  ask_pango (text, bold, &ink, &logical);
  return logical.w * em;
}

static RwRect
ink_by_pango (const char *text, gboolean bold)
{
  RwRect ink, logical;

  ask_pango (text, bold, &ink, &logical);
  return ink;
}

static void
test_measure (void)
{
  static const char *const texts[] = { "Stage left", "AVATAR To Wave Ty.", "N-04 · 20 m · BU", "Größe ÄÖÜ ßéñ", "Пульт", "Ενισχυτής", "1234567890", "“Quoted” — dash…" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    for (gboolean bold = FALSE; bold <= TRUE; bold++)
      {
        double own = rw_text_width (texts[i], 3.5, bold), real = width_by_pango (texts[i], 3.5, bold);

        g_assert_cmpfloat (own, >=, real * 0.985);
        g_assert_cmpfloat (own, <=, real * 1.15);
      }
}

/* Capitals stand in the middle of a line's box; then the ink of accents and tails stays within it. */
static void
test_line_height (void)
{
  for (gboolean bold = FALSE; bold <= TRUE; bold++)
    {
      RwRect capital = ink_by_pango ("H", bold), all = ink_by_pango ("ÅÇÉÜgjpqy", bold);
      double middle = capital.y + capital.h / 2.0;

      g_assert_cmpfloat (middle - all.y, <=, rw_text_height (1.0) / 2.0 + 0.02);
      g_assert_cmpfloat (all.y + all.h - middle, <=, rw_text_height (1.0) / 2.0 + 0.02);
    }
}

static void
test_shorten (void)
{
  for (double width = 3.0; width < 80.0; width += 3.7)
    for (guint i = 0; i < G_N_ELEMENTS (names); i++)
      {
        g_autofree char *cut = rw_text_shorten (names[i], 3.5, TRUE, width);

        g_assert_true (g_utf8_validate (cut, -1, NULL));
        g_assert_true (g_str_equal (cut, names[i]) || g_str_has_suffix (cut, "…"));
        if (width > 4.5)
          g_assert_cmpfloat (rw_text_width (cut, 3.5, TRUE), <=, width + 1e-6);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/geometry/catalogue", test_catalogue);
  g_test_add_func ("/scene/geometry/odd-parts", test_odd_parts);
  g_test_add_func ("/scene/geometry/large-switches", test_large_switches);
  g_test_add_func ("/scene/geometry/width-class", test_width_class);
  g_test_add_func ("/scene/geometry/measure", test_measure);
  g_test_add_func ("/scene/geometry/line-height", test_line_height);
  g_test_add_func ("/scene/geometry/shorten", test_shorten);
  return g_test_run ();
}
