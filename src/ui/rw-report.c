/* SPDX-License-Identifier: MIT */
#include "rw-report.h"

#include <stdio.h>
#include "rw-application.h"
#include "rw-window-private.h"

struct _RwReport
{
  char *path;
  RwWindow *window;
  guint timer;
  char *last;
};

/* A comma wherever something stands before in this object or array. */
static void
add_comma (GString *json)
{
  char last = json->len > 0 ? json->str[json->len - 1] : '{';

  if (last != '{' && last != '[' && last != ':')
    g_string_append_c (json, ',');
}

static void
add_string (GString *json, const char *text)
{
  g_string_append_c (json, '"');
  for (const char *p = text != NULL ? text : ""; *p != '\0'; p++)
    if (*p == '"' || *p == '\\')
      g_string_append_printf (json, "\\%c", *p);
    else if ((guchar) *p < 0x20)
      g_string_append_printf (json, "\\u%04x", (guint) *p);
    else
      g_string_append_c (json, *p);
  g_string_append_c (json, '"');
}

static void
add_name (GString *json, const char *name)
{
  add_comma (json);
  add_string (json, name);
  g_string_append_c (json, ':');
}

static void
begin (GString *json, char bracket)
{
  add_comma (json);
  g_string_append_c (json, bracket);
}

static void
end (GString *json, char bracket)
{
  g_string_append_c (json, bracket);
}

static void
add_text (GString *json, const char *name, const char *text)
{
  add_name (json, name);
  add_string (json, text);
}

static void
add_number (GString *json, const char *name, double number)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  add_name (json, name);
  g_string_append (json, g_ascii_formatd (text, sizeof text, "%.1f", number));
}

static void
add_boolean (GString *json, const char *name, gboolean value)
{
  add_name (json, name);
  g_string_append (json, value ? "true" : "false");
}

/* Where @widget's middle lies on its window's surface. */
static void
add_place (GString *json, GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  graphene_rect_t bounds = { 0 };
  double dx = 0, dy = 0;

  if (root != NULL && gtk_widget_compute_bounds (widget, GTK_WIDGET (root), &bounds))
    gtk_native_get_surface_transform (GTK_NATIVE (root), &dx, &dy);
  add_number (json, "x", dx + bounds.origin.x + bounds.size.width / 2);
  add_number (json, "y", dy + bounds.origin.y + bounds.size.height / 2);
  add_number (json, "width", bounds.size.width);
  add_number (json, "height", bounds.size.height);
  add_boolean (json, "shown", gtk_widget_get_mapped (widget));
}

static void
add_sheet_place (GString *json, RwWindow *window, double x, double y)
{
  RwPoint place = { 0, 0 };

  rw_canvas_sheet_to_window (window->canvas, (RwPoint) { x, y }, &place);
  add_number (json, "x", place.x);
  add_number (json, "y", place.y);
}

static void
add_devices (GString *json, RwWindow *window)
{
  const RwNet *net = rw_document_net (window->document);
  RwScene *scene = rw_document_scene (window->document);

  add_name (json, "devices");
  begin (json, '[');
  for (guint i = 0; i < net->n_devices; i++)
    {
      RwRect box = rw_scene_device (scene, i)->box;
      begin (json, '{');
      add_text (json, "id", rw_item_key (net->devices[i].device));
      add_text (json, "name", rw_device_title (net->devices[i].device));
      add_sheet_place (json, window, box.x + box.w / 2, box.y + box.h / 2);
      end (json, '}');
    }
  end (json, ']');
}

static void
add_ports (GString *json, RwWindow *window)
{
  const RwNet *net = rw_document_net (window->document);
  RwScene *scene = rw_document_scene (window->document);

  add_name (json, "ports");
  begin (json, '[');
  for (guint i = 0; i < net->n_ports; i++)
    {
      RwRect tab = rw_scene_port (scene, i)->tab;
      begin (json, '{');
      add_text (json, "device", rw_item_key (net->devices[net->ports[i].device].device));
      add_text (json, "port", net->ports[i].port->name);
      add_sheet_place (json, window, tab.x + tab.w / 2, tab.y + tab.h / 2);
      end (json, '}');
    }
  end (json, ']');
}

static void
add_cables (GString *json, RwWindow *window)
{
  const RwNet *net = rw_document_net (window->document);

  add_name (json, "cables");
  begin (json, '[');
  for (guint i = 0; i < net->n_cables; i++)
    {
      const RwCable *cable = net->cables[i].cable;
      begin (json, '{');
      add_text (json, "id", rw_item_key (cable));
      add_text (json, "from", cable->from.device);
      add_text (json, "to", cable->to.device);
      end (json, '}');
    }
  end (json, ']');
}

static void
add_findings (GString *json, RwWindow *window)
{
  const RwFindings *findings = rw_document_findings (window->document);

  add_name (json, "findings");
  begin (json, '[');
  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      RwFinding *finding = rw_findings_get (findings, i);
      begin (json, '{');
      add_text (json, "code", finding->rule->code);
      add_text (json, "severity", rw_severity_word (finding->severity));
      add_text (json, "message", finding->message);
      end (json, '}');
    }
  end (json, ']');
  add_number (json, "finding", rw_findings_view_get_selected (window->findings));
}

static void
add_fixes (GString *json, RwWindow *window)
{
  GtkWidget *button;

  add_name (json, "fixes");
  begin (json, '[');
  for (guint i = 0; (button = rw_findings_view_get_fix_button (window->findings, i)) != NULL; i++)
    {
      begin (json, '{');
      add_text (json, "label", gtk_button_get_label (GTK_BUTTON (button)));
      add_place (json, button);
      end (json, '}');
    }
  end (json, ']');
}

static void
add_shelf (GString *json, RwWindow *window)
{
  RwApplication *application = RW_APPLICATION (gtk_window_get_application (GTK_WINDOW (window)));
  RwRig *catalogue = application != NULL ? rw_application_get_catalogue (application) : NULL;

  add_name (json, "shelf");
  begin (json, '[');
  for (guint i = 0; catalogue != NULL && i < rw_rig_n (catalogue, RW_ITEM_PART); i++)
    {
      const char *id = rw_item_key (rw_rig_items (catalogue, RW_ITEM_PART)[i]);
      GtkWidget *row = rw_shelf_get_row (window->shelf, id);
      if (row == NULL || !gtk_widget_get_mapped (row))
        continue;
      begin (json, '{');
      add_text (json, "part", id);
      add_place (json, row);
      end (json, '}');
    }
  end (json, ']');
}

static void
add_window (GString *json, RwWindow *window)
{
  const RwOverlay *overlay = rw_canvas_overlay (window->canvas);

  add_text (json, "title", gtk_window_get_title (GTK_WINDOW (window)));
  add_text (json, "status", gtk_label_get_text (GTK_LABEL (window->status_label)));
  add_text (json, "verdict", overlay != NULL ? overlay->verdict_text : NULL);
  add_text (json, "message", gtk_label_get_text (GTK_LABEL (window->message_label)));
  add_text (json, "path", rw_document_path (window->document));
  add_boolean (json, "dirty", rw_document_is_dirty (window->document));
  add_name (json, "canvas");
  begin (json, '{');
  add_place (json, GTK_WIDGET (window->canvas));
  end (json, '}');
}

static char *
make_line (RwWindow *window)
{
  GString *json = g_string_new (NULL);

  begin (json, '{');
  add_window (json, window);
  add_devices (json, window);
  add_ports (json, window);
  add_cables (json, window);
  add_findings (json, window);
  add_fixes (json, window);
  add_shelf (json, window);
  end (json, '}');
  return g_string_free (json, FALSE);
}

static gboolean
write_line (gpointer user_data)
{
  RwReport *report = user_data;
  g_autofree char *line = make_line (report->window);
  FILE *file;

  if (g_strcmp0 (line, report->last) == 0)
    return G_SOURCE_CONTINUE;
  file = fopen (report->path, "ae");
  if (file == NULL)
    return G_SOURCE_CONTINUE;
  fprintf (file, "%s\n", line);
  fclose (file);
  g_free (report->last);
  report->last = g_steal_pointer (&line);
  return G_SOURCE_CONTINUE;
}

/* Layout settles a few frames after what caused it, so a test's window looks again and again. */
RwReport *
rw_report_new (const char *path, RwWindow *window)
{
  RwReport *report = g_new0 (RwReport, 1);

  report->path = g_strdup (path);
  report->window = window;
  report->timer = g_timeout_add (100, write_line, report);
  return report;
}

void
rw_report_free (RwReport *report)
{
  g_source_remove (report->timer);
  g_free (report->path);
  g_free (report->last);
  g_free (report);
}
