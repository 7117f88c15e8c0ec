/* SPDX-License-Identifier: MIT */
#include "scene-rigs.h"

#include <file/rw-file.h>

struct _SceneRig
{
  GString *devices, *cables;
  guint n_cables;
};

static void
add_ports (GString *text, const char *stem, guint n, const char *side, const char *medium)
{
  for (guint i = 1; i <= n; i++)
    g_string_append_printf (text, "%s{\"name\": \"%s%u\", \"side\": \"%s\", \"medium\": \"%s\"}", text->str[text->len - 1] == '[' ? "" : ", ", stem, i, side, medium);
}

static void
add_part (GString *text, const char *id, const char *name, const char *kind, guint copper, guint fibre, gboolean aux)
{
  gboolean network = copper + fibre > 0;

  g_string_append_printf (text, "%s{\"id\": \"%s\", \"name\": \"%s\", \"kind\": \"%s\", \"ports\": [", text->str[text->len - 1] == '[' ? "" : ", ", id, name, kind);
  if (!network)
    g_string_append (text, "{\"name\": \"Primary\", \"side\": \"primary\"}, {\"name\": \"Secondary\", \"side\": \"secondary\"}");
  add_ports (text, "", copper, "network", "copper");
  add_ports (text, "F", fibre, "network", "cage");
  if (aux)
    g_string_append (text, ", {\"name\": \"Control\", \"side\": \"aux\"}");
  g_string_append (text, "]}");
}

SceneRig *
scene_rig_begin (void)
{
  SceneRig *rig = g_new0 (SceneRig, 1);

  rig->devices = g_string_new ("[");
  rig->cables = g_string_new ("[");
  return rig;
}

void
scene_rig_device (SceneRig *rig, const char *id, const char *part, const char *name, double x, double y)
{
  char bx[G_ASCII_DTOSTR_BUF_SIZE], by[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append_printf (rig->devices, "%s{\"id\": \"%s\", \"part\": \"%s\", \"name\": \"%s\", \"at\": [%s, %s]}", rig->devices->len > 1 ? ",\n" : "", id, part, name,
                          g_ascii_dtostr (bx, sizeof bx, x), g_ascii_dtostr (by, sizeof by, y));
}

void
scene_rig_cable (SceneRig *rig, const char *from, const char *from_port, const char *to, const char *to_port, const char *more)
{
  g_string_append_printf (rig->cables, "%s{\"id\": \"cable-%u\", \"from\": [\"%s\", \"%s\"], \"to\": [\"%s\", \"%s\"]%s}", rig->n_cables > 0 ? ",\n" : "", rig->n_cables + 1,
                          from, from_port, to, to_port, more != NULL ? more : "");
  rig->n_cables++;
}

/* Frees @rig. (transfer full). */
RwRig *
scene_rig_end (SceneRig *rig)
{
  g_autoptr (GString) text = g_string_new ("{\"rigwright\": 1, \"parts\": [");
  g_autoptr (GError) error = NULL;
  RwRig *read;

  add_part (text, "desk", "Console 64", "controller", 0, 0, TRUE);
  add_part (text, "rack", "Stage rack 32 by 16", "rack", 0, 0, FALSE);
  add_part (text, "amp", "Amplifier 4", "endpoint", 0, 0, FALSE);
  add_part (text, "switch8", "Switch 8", "switch", 8, 0, FALSE);
  add_part (text, "switch24", "Switch 24 with 4 fibre", "switch", 24, 4, FALSE);
  add_part (text, "converter", "Fibre converter", "converter", 1, 1, FALSE);
  g_string_append_printf (text, "], \"devices\": %s], \"cables\": %s]}", rig->devices->str, rig->cables->str);
  read = rw_file_read_bytes (text->str, text->len, "scene-rigs", &error);
  g_assert_no_error (error);
  g_string_free (rig->devices, TRUE);
  g_string_free (rig->cables, TRUE);
  g_free (rig);
  return read;
}

#define ROW 40

static void
large_cables (SceneRig *rig, guint i, guint n)
{
  g_autofree char *id = g_strdup_printf ("d%u", i), *next = g_strdup_printf ("d%u", i + 1), *below = g_strdup_printf ("d%u", i + ROW);
  g_autofree char *label = g_strdup_printf (", \"label\": \"N-%u\", \"length_m\": %u, \"colour\": \"BU\"", i, 5 + i % 20);
  char port[8];

  if (i % ROW == 0)
    {
      for (guint k = 1; k <= 4 && i + ROW + 3 * k < n; k++)
        {
          g_autofree char *far = g_strdup_printf ("d%u", i + ROW + 3 * k);

          g_snprintf (port, sizeof port, "%u", k);
          scene_rig_cable (rig, id, port, far, k % 2 == 1 ? "Primary" : "Secondary", label);
        }
      if (i + ROW < n)
        scene_rig_cable (rig, id, "F1", below, "F3", label);
    }
  else if (i % ROW + 1 < ROW && i + 1 < n && i % 7 != 0)
    scene_rig_cable (rig, id, "Secondary", next, "Primary", label);
  if (i % 4 == 1 && i + ROW < n)
    scene_rig_cable (rig, id, "Primary", below, "Secondary", label);
}

RwRig *
scene_rig_large (guint n)
{
  SceneRig *rig = scene_rig_begin ();

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("d%u", i), *name = g_strdup_printf ("Stage box %u", i);

      scene_rig_device (rig, id, i % ROW == 0 ? "switch24" : i % 3 == 0 ? "amp" : "rack", name, 20.0 + (i % ROW) * 95.0, 20.0 + (i / ROW) * 55.0);
    }
  for (guint i = 0; i < n; i++)
    large_cables (rig, i, n);
  return scene_rig_end (rig);
}

/* (transfer full) */
RwRig *
scene_rig_demo (const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_strdup_printf ("%s/examples/%s.rig", g_getenv ("RIGWRIGHT_DATADIR"), name);
  RwRig *rig = rw_file_read (path, &error);

  g_assert_no_error (error);
  return rig;
}

RwScene *
scene_of (const RwRig *rig)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwFindings) findings = rw_findings_new (rig, net);

  return rw_scene_new (rig, net, findings);
}
