/* SPDX-License-Identifier: MIT */
/* No text of the drawing is clipped: of the examples as they are, and with very long names in them. */
#include <file/rw-file.h>
#include <glib/gstdio.h>
#include <paper/rw-draw-text.h>
#include <paper/rw-papers.h>
#include <paper/rw-scene.h>
#include <rig/rw-edit.h>
#include <string.h>

#include "data-files.h"

#define SLACK 0.1 /* mm that a letter may stand out of its own advance: about half the thinnest pen */

typedef struct
{
  RwScene *scene;
  RwDrawContext *context;
} Drawing;

#define TAIL " beside the uppermost Überlängenbezeichnungsgegenstand of the Łódź grandstand"

static RwRig *
read_rig (const char *path)
{
  g_autoptr (GError) error = NULL;
  RwRig *rig = rw_file_read (path, &error);

  g_assert_no_error (error);
  return rig;
}

static void
lengthen (RwEdit *edit, RwItemType type, const char *field)
{
  guint index = (guint) rw_table_find (rw_item_type_table (type), field, -1, 0);

  for (const char *key = rw_edit_first (edit, type); key != NULL; key = rw_edit_next (edit, type, key))
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *text = g_strconcat (key, TAIL, NULL);

      g_assert_true (rw_edit_set (edit, key, index, g_variant_new_string (text), &error));
      g_assert_no_error (error);
    }
}

/* Every name and every label is longer than there is room for. */
static RwRig *
read_long (const char *path)
{
  RwRig *rig = read_rig (path);
  RwEdit *edit = rw_edit_new (rig, "Lengthen");
  g_autoptr (RwChange) change = NULL;

  lengthen (edit, RW_ITEM_DEVICE, "name");
  lengthen (edit, RW_ITEM_CABLE, "label");
  change = rw_edit_finish (edit);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  return rig;
}

static void
drawing_init (Drawing *drawing, const RwRig *rig)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwFindings) findings = rw_findings_new (rig, net);

  drawing->scene = rw_scene_new (rig, net, findings);
  drawing->context = rw_draw_context_new ();
}

static void
drawing_clear (Drawing *drawing)
{
  rw_scene_unref (drawing->scene);
  rw_draw_context_free (drawing->context);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Drawing, drawing_clear)

static gboolean
lies_in (RwRect inner, RwRect outer)
{
  return inner.x >= outer.x - SLACK && inner.y >= outer.y - SLACK
         && inner.x + inner.w <= outer.x + outer.w + SLACK && inner.y + inner.h <= outer.y + outer.h + SLACK;
}

static gboolean
meet (RwRect a, RwRect b)
{
  return a.x < b.x + b.w - SLACK && b.x < a.x + a.w - SLACK && a.y < b.y + b.h - SLACK && b.y < a.y + a.h - SLACK;
}

/* Where the ink of @text is, as rw_draw_text() sets it: @x its left end, its middle or its right end by @anchor. */
static RwRect
ink_of (const Drawing *drawing, const char *text, RwTextStyle style, double x, double middle, double anchor)
{
  const RwTextRun *run = rw_draw_text_run (drawing->context, text, style, 0);
  PangoRectangle ink;

  pango_layout_line_get_extents (pango_layout_get_line_readonly (run->layout, 0), &ink, NULL);
  return (RwRect) { x - anchor * run->width + (double) ink.x / PANGO_SCALE,
                    middle + style.em * RW_CAPITAL / 2 + (double) ink.y / PANGO_SCALE,
                    (double) ink.width / PANGO_SCALE, (double) ink.height / PANGO_SCALE };
}

/* Of a text of a device, relative to its box. */
static RwRect
ink_of_text (const Drawing *drawing, const RwSceneText *text, double anchor)
{
  RwTextStyle style = { text->em, text->bold };
  double x = text->rect.x + anchor * text->rect.w, y = text->rect.y + text->rect.h / 2;
  RwRect flat;

  if (!text->turned)
    return ink_of (drawing, text->text, style, x, y, anchor);
  flat = ink_of (drawing, text->text, style, 0, 0, 0.5);
  return (RwRect) { x + flat.y, y - flat.x - flat.w, flat.h, flat.w };
}

/* @shown is @whole, or a beginning of it that ends in an ellipsis after a whole letter. */
static void
check_words (const char *shown, const char *whole)
{
  g_autofree char *kept = NULL;

  if (g_str_equal (shown, whole))
    return;
  g_assert_true (g_utf8_validate (shown, -1, NULL));
  if (!g_str_has_suffix (shown, "…"))
    g_error ("“%s” is “%s” without an ellipsis", whole, shown);
  kept = g_strndup (shown, strlen (shown) - strlen ("…"));
  if (!g_str_has_prefix (whole, kept))
    g_error ("“%s” is shown as “%s”", whole, shown);
}

/* (transfer container): what stands in the box of device @index; names and the part first, then the ports. */
static GPtrArray *
texts_of (const Drawing *drawing, guint index)
{
  const RwGeometry *geometry = rw_scene_geometry (drawing->scene, index);
  GPtrArray *texts = g_ptr_array_new ();

  g_ptr_array_add (texts, (gpointer) &geometry->name[0]);
  g_ptr_array_add (texts, (gpointer) &geometry->name[1]);
  g_ptr_array_add (texts, (gpointer) &geometry->part);
  for (guint i = 0; i < geometry->shape->n_ports; i++)
    g_ptr_array_add (texts, &geometry->shape->port_names[i]);
  return texts;
}
#define N_FLUSH_LEFT 3 /* of them begin at the left; ports' names stand in the middle of their room */

/* Each text stands in the box and in the room of its own, past the ID and the other texts. */
static void
check_places (const Drawing *drawing, guint index)
{
  const RwGeometry *geometry = rw_scene_geometry (drawing->scene, index);
  RwRect box = { 0, 0, geometry->shape->w, geometry->shape->h };
  g_autoptr (GPtrArray) texts = texts_of (drawing, index);

  for (guint i = 0; i < texts->len; i++)
    {
      const RwSceneText *text = texts->pdata[i];
      RwRect ink;

      if (text->text == NULL || *text->text == '\0')
        continue;
      ink = ink_of_text (drawing, text, i < N_FLUSH_LEFT ? 0 : 0.5);
      if (!lies_in (ink, text->rect) || !lies_in (ink, box))
        g_error ("“%s” is clipped: %g × %g mm in %g × %g mm", text->text, ink.w, ink.h, text->rect.w, text->rect.h);
      if (geometry->id.text != NULL && meet (ink, geometry->id_tab))
        g_error ("“%s” runs under the ID", text->text);
      for (guint j = 0; j < i; j++)
        {
          const RwSceneText *other = texts->pdata[j];

          if (other->text != NULL && meet (ink, other->rect))
            g_error ("“%s” and “%s” overlap", text->text, other->text);
        }
    }
  if (geometry->id.text != NULL && !lies_in (ink_of_text (drawing, &geometry->id, 0.5), geometry->id_tab))
    g_error ("“%s” is clipped by its tab", geometry->id.text);
}

/* What the texts of one device say. */
static void
check_saying (const Drawing *drawing, guint index)
{
  const RwNetDevice *net = &rw_scene_net (drawing->scene)->devices[index];
  const RwGeometry *geometry = rw_scene_geometry (drawing->scene, index);
  const char *second = geometry->name[1].text;
  g_autofree char *name = g_strconcat (geometry->name[0].text, second != NULL ? " " : "", second, NULL);

  check_words (name, rw_device_title (net->device));
  check_words (geometry->part.text, net->part->name != NULL ? net->part->name : "");
  for (guint i = 0; i < geometry->shape->n_ports; i++)
    check_words (geometry->shape->port_names[i].text, rw_part_port (net->part, i)->name);
}

static void
check_cable (const Drawing *drawing, guint index)
{
  const RwSceneCable *cable = rw_scene_cable (drawing->scene, index);
  g_auto (GStrv) lines = g_strsplit (cable->text != NULL ? cable->text : "", "\n", -1);
  guint n = g_strv_length (lines);
  RwRect box = cable->label;

  for (guint i = 0; i < n && box.w > 0; i++)
    if (!lies_in (ink_of (drawing, lines[i], (RwTextStyle) { cable->label_em, FALSE }, box.x + box.w / 2,
                          box.y + box.h * (i + 0.5) / n, 0.5), box))
      g_error ("the label “%s” is clipped", lines[i]);
}

static void
check_drawing (const RwRig *rig)
{
  g_auto (Drawing) drawing = { NULL };

  drawing_init (&drawing, rig);
  for (guint i = 0; i < rw_scene_n_devices (drawing.scene); i++)
    {
      check_saying (&drawing, i);
      check_places (&drawing, i);
    }
  for (guint i = 0; i < rw_scene_n_cables (drawing.scene); i++)
    check_cable (&drawing, i);
}

static void
test_whole (gconstpointer path)
{
  g_autoptr (RwRig) rig = read_rig (path);

  check_drawing (rig);
}

static void
test_long (gconstpointer path)
{
  g_autoptr (RwRig) rig = read_long (path);
  g_auto (Drawing) drawing = { NULL };
  const RwGeometry *first;

  check_drawing (rig);
  /* And they are too long, indeed. */
  drawing_init (&drawing, rig);
  first = rw_scene_geometry (drawing.scene, 0);
  g_assert_true (g_str_has_suffix (first->name[first->name[1].text != NULL].text, "…"));
}

static char *
read_csv (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;
  char *text;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  g_unlink (path);
  return text;
}

/* What the drawing shortens or leaves out, the lists of the papers say whole. */
static void
test_lists (gconstpointer path)
{
  g_autoptr (RwRig) rig = read_long (path);
  g_autofree char *folder = g_dir_make_tmp ("rigwright-text-XXXXXX", NULL);
  g_autofree char *equipment = NULL, *cables = NULL;
  g_autoptr (GError) error = NULL;
  RwPapersOptions options;

  rw_papers_options_init (&options);
  options.sections = 1u << RW_PAPERS_EQUIPMENT | 1u << RW_PAPERS_CABLES;
  rw_papers_write_csv (rig, folder, &options, &error);
  g_assert_no_error (error);
  equipment = read_csv (folder, "equipment.csv");
  cables = read_csv (folder, "cables.csv");
  g_rmdir (folder);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    g_assert_nonnull (strstr (equipment, ((const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i])->name));
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    g_assert_nonnull (strstr (cables, ((const RwCable *) rw_rig_items (rig, RW_ITEM_CABLE)[i])->label));
}

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) examples = NULL;

  g_test_init (&argc, &argv, NULL);
  examples = data_examples ();
  data_add_tests ("/data/text/whole", examples, test_whole);
  data_add_tests ("/data/text/long", examples, test_long);
  data_add_tests ("/data/text/lists", examples, test_lists);
  return g_test_run ();
}
