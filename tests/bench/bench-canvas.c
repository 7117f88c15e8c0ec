/* SPDX-License-Identifier: MIT */
/* Frames of the sheet at 1920×1080: while a device, and while a switch with all its cables, is dragged, while the view is panned and zoomed, and the hand before it. */
#include "canvas-stage.h"
#include "scene-rigs.h"

#include <stdlib.h>
#include <time.h>

#define FRAMES 60

/* Of the processor, in µs: what the display's own process and others take does not count. */
static gint64
processor_time (void)
{
  struct timespec now;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return now.tv_sec * G_USEC_PER_SEC + now.tv_nsec / 1000;
}

typedef struct
{
  Stage stage;
  gint64 started;
  gint64 frames[FRAMES], hands[FRAMES];
  guint n;
} Bench;

static int
compare_times (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return (x > y) - (x < y);
}

static double
median_ms (gint64 *times)
{
  qsort (times, FRAMES, sizeof *times, compare_times);
  return times[FRAMES / 2] / 1000.0;
}

static void
before_paint_cb (GdkFrameClock *clock, Bench *bench)
{
  bench->started = processor_time ();
}

static void
after_paint_cb (GdkFrameClock *clock, Bench *bench)
{
  if (bench->n < FRAMES)
    bench->frames[bench->n] = processor_time () - bench->started;
}

/* One step of the hand, and the frame that it asks for: layout, drawing and handing over to the display. */
typedef void (*Step) (Bench *bench, guint i);

static void
run (Bench *bench, const char *name, Step step, double first[2])
{
  double frame, hand;

  for (bench->n = 0; bench->n < FRAMES; bench->n++)
    {
      gint64 start = processor_time ();

      step (bench, bench->n);
      bench->hands[bench->n] = processor_time () - start;
      gtk_test_widget_wait_for_draw (GTK_WIDGET (bench->stage.canvas));
    }
  frame = median_ms (bench->frames);
  hand = median_ms (bench->hands);
  if (first[0] == 0)
    {
      first[0] = frame;
      first[1] = hand;
    }
  g_print ("  %-6s frame %6.2f ms (×%.1f), hand %6.3f ms (×%.1f)\n", name, frame, frame / first[0], hand, hand / first[1]);
}

static RwPoint drag_from;

static void
drag_step (Bench *bench, guint i)
{
  rw_canvas_motion (bench->stage.canvas, drag_from.x + 4 + 3 * i, drag_from.y + 2 * i, GDK_ALT_MASK);
}

static void
pan_step (Bench *bench, guint i)
{
  rw_canvas_motion (bench->stage.canvas, 900 - 9 * i, 500 - 4 * i, 0);
  gtk_widget_queue_draw (GTK_WIDGET (bench->stage.canvas));
}

static void
zoom_step (Bench *bench, guint i)
{
  if (i % 20 < 10)
    rw_canvas_zoom_in (bench->stage.canvas);
  else
    rw_canvas_zoom_out (bench->stage.canvas);
}

static guint
n_cables_at (const RwNet *net, guint device)
{
  guint n = 0;

  for (guint i = 0; i < net->n_cables; i++)
    for (guint end = 0; end < 2; end++)
      n += net->ports[net->cables[i].port[end]].device == device;
  return n;
}

/* The first one from the middle on to which one or two cables go. */
static guint
plain_device (const RwNet *net)
{
  guint i = net->n_devices / 2;

  while (n_cables_at (net, i) < 1 || n_cables_at (net, i) > 2)
    i++;
  return i;
}

static guint
device_with_most_cables (const RwNet *net)
{
  guint most = 0;

  for (guint i = 1; i < net->n_devices; i++)
    if (n_cables_at (net, i) > n_cables_at (net, most))
      most = i;
  return most;
}

static void
drag (Bench *bench, const char *name, guint device, double first[2])
{
  RwCanvas *canvas = bench->stage.canvas;

  drag_from = stage_device (&bench->stage, rw_item_key (rw_document_net (bench->stage.document)->devices[device].device));
  rw_canvas_press (canvas, GDK_BUTTON_PRIMARY, 1, drag_from.x, drag_from.y, 0);
  drag_step (bench, 0);
  stage_settle (&bench->stage);
  run (bench, name, drag_step, first);
  rw_canvas_key (canvas, GDK_KEY_Escape, 0);
}

static void
pan (Bench *bench, double first[2])
{
  rw_canvas_press (bench->stage.canvas, GDK_BUTTON_MIDDLE, 1, 900, 500, 0);
  run (bench, "pan", pan_step, first);
  rw_canvas_release (bench->stage.canvas, GDK_BUTTON_MIDDLE, 900, 500, 0);
}

static void
measure (guint n, double firsts[4][2])
{
  g_autoptr (RwRig) rig = scene_rig_large (n);
  g_autoptr (RwDocument) document = rw_document_new_for_rig (rig);
  Bench bench = { 0 };
  GdkFrameClock *clock;

  stage_open (&bench.stage, document, 1920, 1080);
  cairo_surface_destroy (stage_picture (&bench.stage));
  clock = gtk_widget_get_frame_clock (GTK_WIDGET (bench.stage.canvas));
  g_signal_connect (clock, "before-paint", G_CALLBACK (before_paint_cb), &bench);
  g_signal_connect_after (clock, "after-paint", G_CALLBACK (after_paint_cb), &bench);
  g_print ("%u devices, %u cables, all in sight\n", rw_rig_n (rig, RW_ITEM_DEVICE), rw_rig_n (rig, RW_ITEM_CABLE));
  drag (&bench, "drag", plain_device (rw_document_net (document)), firsts[0]);
  drag (&bench, "switch", device_with_most_cables (rw_document_net (document)), firsts[1]);
  pan (&bench, firsts[2]);
  run (&bench, "zoom", zoom_step, firsts[3]);
  g_signal_handlers_disconnect_by_data (clock, &bench);
  stage_close (&bench.stage);
}

/* --- What a frame of that size costs at least here: one colour over all of it --- */

#define BENCH_TYPE_FLOOR (bench_floor_get_type ())
G_DECLARE_FINAL_TYPE (BenchFloor, bench_floor, BENCH, FLOOR, GtkWidget)

struct _BenchFloor
{
  GtkWidget parent_instance;
  float shade;
};

G_DEFINE_FINAL_TYPE (BenchFloor, bench_floor, GTK_TYPE_WIDGET)

static void
bench_floor_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  float shade = BENCH_FLOOR (widget)->shade;

  gtk_snapshot_append_color (snapshot, &(GdkRGBA) { shade, shade, shade, 1 },
                             &GRAPHENE_RECT_INIT (0, 0, gtk_widget_get_width (widget), gtk_widget_get_height (widget)));
}

static void
bench_floor_class_init (BenchFloorClass *klass)
{
  GTK_WIDGET_CLASS (klass)->snapshot = bench_floor_snapshot;
}

static void
bench_floor_init (BenchFloor *floor)
{
}

static void
measure_floor (void)
{
  GtkWidget *window = gtk_window_new (), *child = g_object_new (BENCH_TYPE_FLOOR, NULL);
  Bench bench = { 0 };
  GdkFrameClock *clock;

  gtk_window_set_decorated (GTK_WINDOW (window), FALSE);
  gtk_window_set_default_size (GTK_WINDOW (window), 1920, 1080);
  gtk_window_set_child (GTK_WINDOW (window), child);
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (child);
  clock = gtk_widget_get_frame_clock (child);
  g_signal_connect (clock, "before-paint", G_CALLBACK (before_paint_cb), &bench);
  g_signal_connect_after (clock, "after-paint", G_CALLBACK (after_paint_cb), &bench);
  for (bench.n = 0; bench.n < FRAMES; bench.n++)
    {
      BENCH_FLOOR (child)->shade = (float) bench.n / FRAMES;
      gtk_widget_queue_draw (child);
      gtk_test_widget_wait_for_draw (child);
    }
  g_signal_handlers_disconnect_by_data (clock, &bench);
  g_print ("one colour over 1920×1080, without the canvas's hold on the memory for frames: frame %.2f ms\n", median_ms (bench.frames));
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char *argv[])
{
  static const guint sizes[] = { 200, 2000 };
  double firsts[4][2] = { { 0 } };

  gtk_init ();
  measure_floor ();
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    measure (sizes[i], firsts);
  return 0;
}
