/* SPDX-License-Identifier: MIT */
#include "rw-label.h"

#include <math.h>
#include <rig/rw-length.h>
#include <string.h>

#define GAP 1.2            /* mm between the middle of a line and its label */
#define LEVEL_GAP 0.8      /* the same above and below a level line: a line of text has some room of its own */
#define LABEL_GAP 0.8      /* least, between two labels */
#define LINE_GAP 0.5       /* least, between a label and other lines */
#define BOX_GAP 0.3        /* least, between a label and a box */
#define CLEAN 6.0          /* a place this cheap is taken without a look at smaller lettering */
#define COST_LABEL 100.0   /* on another label */
#define COST_OWN_LINE 20.0
#define COST_LINE 9.0      /* on another cable */
#define COST_STRUCK 30.0   /* along another cable, as if struck out */
#define COST_OVERHANG 3.0  /* for each mm that sticks out of the stretch */
#define COST_UPRIGHT 2.5
#define COST_TWO_LINES 3.0
#define COST_SMALL 5.0
#define N_LONGEST 6        /* stretches that are looked at */

struct _RwLabeller
{
  RwRouter *router;
  RwSceneIndex *labels;   /* by cable */
  RwSceneIndex *balloons; /* by balloon */
};

/* @router is borrowed. */
RwLabeller *
rw_labeller_new (RwRouter *router)
{
  RwLabeller *labeller = g_new0 (RwLabeller, 1);

  labeller->router = router;
  labeller->labels = rw_scene_index_new (40.0, rw_router_looks (router));
  labeller->balloons = rw_scene_index_new (40.0, rw_router_looks (router));
  return labeller;
}

void
rw_labeller_free (RwLabeller *labeller)
{
  if (labeller == NULL)
    return;
  rw_scene_index_free (labeller->labels);
  rw_scene_index_free (labeller->balloons);
  g_free (labeller);
}

/**
 * rw_label_text: what stands beside @cable: its label, its length and its jacket's colour code, as far as known.
 * NULL if it has neither label nor length nor colour. Free with g_free().
 */
char *
rw_label_text (const RwCable *cable)
{
  g_autofree char *length = NULL;
  const char *pieces[4] = { NULL };
  guint n = 0;

  g_return_val_if_fail (cable != NULL, NULL);

  if (cable->label != NULL && *cable->label != '\0')
    pieces[n++] = cable->label;
  if (cable->length_m > 0.0)
    {
      length = rw_length_text (cable->length_m);
      pieces[n++] = length;
    }
  if (cable->colour != NULL && *cable->colour != '\0')
    pieces[n++] = cable->colour;
  return n > 0 ? g_strjoinv (" · ", (char **) pieces) : NULL;
}

/* One way to set a label. */
typedef struct
{
  char *text;
  double em, w, h, cost;
} Setting;

static void
setting_init (Setting *setting, const char *text, gboolean two_lines, gboolean small)
{
  const char *part = two_lines ? strstr (text, " · ") : NULL;

  setting->em = small ? RW_EM_LEAST : RW_EM_LABEL;
  setting->cost = (small ? COST_SMALL : 0.0) + (part != NULL ? COST_TWO_LINES : 0.0);
  setting->h = rw_text_height (setting->em) * (part != NULL ? 2.0 : 1.0);
  if (part == NULL)
    {
      setting->text = g_strdup (text);
      setting->w = rw_text_width (text, setting->em, FALSE);
    }
  else
    {
      g_autofree char *head = g_strndup (text, part - text);
      const char *tail = part + strlen (" · ");

      setting->text = g_strdup_printf ("%s\n%s", head, tail);
      setting->w = MAX (rw_text_width (head, setting->em, FALSE), rw_text_width (tail, setting->em, FALSE));
    }
}

/* < 0: on a box. */
static double
cost_of_place (RwLabeller *labeller, guint cable, RwRect rect)
{
  guint n;
  const guint *ids = rw_router_boxes_in (labeller->router, rect, &n);
  double cost = 0.0;

  for (guint i = 0; i < n; i++)
    if (rw_rects_overlap (rw_rect_grown (rw_router_bounds (labeller->router, ids[i]), BOX_GAP), rect))
      return -1.0;
  ids = rw_scene_index_query (labeller->labels, rw_rect_grown (rect, LABEL_GAP), &n);
  for (guint i = 0; i < n; i++)
    cost += ids[i] != cable ? COST_LABEL : 0.0;
  rw_scene_index_query (labeller->balloons, rect, &n);
  cost += n * COST_LABEL;
  ids = rw_router_segments_in (labeller->router, rw_rect_grown (rect, LINE_GAP), &n);
  for (guint i = 0; i < n; i++)
    {
      const RwRouteSegment *s = rw_router_segment (labeller->router, ids[i]);
      RwRect line = s->upright ? (RwRect) { s->at, s->lo, 0.0, s->hi - s->lo } : (RwRect) { s->lo, s->at, s->hi - s->lo, 0.0 };

      if (s->cable != cable)
        cost += !s->upright && rw_rects_touch (rect, line) ? COST_STRUCK : COST_LINE;
      else if (rw_rects_touch (rw_rect_grown (rect, -0.1), line))
        cost += COST_OWN_LINE;
    }
  return cost;
}

guint
rw_labeller_n_balloons (RwLabeller *labeller, RwRect rect)
{
  guint n;

  rw_scene_index_query (labeller->balloons, rect, &n);
  return n;
}

guint
rw_labeller_n_words (RwLabeller *labeller, RwRect rect)
{
  guint n_labels;

  rw_scene_index_query (labeller->labels, rw_rect_grown (rect, BOX_GAP), &n_labels);
  return n_labels + rw_labeller_n_balloons (labeller, rect);
}

double
rw_labeller_mark_cost (RwLabeller *labeller, guint cable, RwRect rect)
{
  guint n;
  const guint *ids = rw_router_boxes_in (labeller->router, rect, &n);
  double cost = 0.0;

  for (guint i = 0; i < n; i++)
    if (rw_rects_overlap (rw_rect_grown (rw_router_bounds (labeller->router, ids[i]), BOX_GAP), rect))
      cost = RW_MARK_ON_BOX;
  cost += rw_labeller_n_words (labeller, rect) * COST_LABEL;
  ids = rw_router_segments_in (labeller->router, rect, &n);
  for (guint i = 0; i < n; i++)
    cost += rw_router_segment (labeller->router, ids[i])->cable != cable ? COST_LINE : 0.0;
  return cost;
}

typedef struct { RwPoint a, b; double length; } Stretch;

static int
compare_stretches (gconstpointer a, gconstpointer b)
{
  double x = ((const Stretch *) a)->length, y = ((const Stretch *) b)->length;

  return x > y ? -1 : x < y;
}

/* The longest straight pieces, longest first, at most N_LONGEST. */
static guint
longest_stretches (const RwPoint *points, guint n_points, Stretch *longest)
{
  guint n = 0;

  for (guint i = 0; i + 1 < n_points; i++)
    {
      Stretch s = { points[i], points[i + 1], fabs (points[i].x - points[i + 1].x) + fabs (points[i].y - points[i + 1].y) };

      if (n < N_LONGEST)
        longest[n++] = s;
      else if (s.length > longest[N_LONGEST - 1].length)
        longest[N_LONGEST - 1] = s;
      else
        continue;
      for (guint k = n - 1; k > 0 && compare_stretches (&longest[k], &longest[k - 1]) < 0; k--)
        {
          Stretch t = longest[k];

          longest[k] = longest[k - 1];
          longest[k - 1] = t;
        }
    }
  return n;
}

typedef struct
{
  RwLabeller *labeller;
  guint cable;
  double cost;
  RwRect rect;
} Choice;

/* Tries both sides of @stretch, @share of the way along it. TRUE if it took the place. */
static gboolean
try_beside (Choice *choice, const Setting *setting, const Stretch *stretch, double share, double extra)
{
  gboolean upright = fabs (stretch->a.x - stretch->b.x) < 1e-6, taken = FALSE;
  double x = stretch->a.x + (stretch->b.x - stretch->a.x) * share, y = stretch->a.y + (stretch->b.y - stretch->a.y) * share;
  double overhang = MAX (0.0, (upright ? setting->h : setting->w) + 1.0 - stretch->length);
  double base = setting->cost + extra + overhang * COST_OVERHANG + (upright ? COST_UPRIGHT : 0.0);

  for (guint side = 0; side < 2; side++, base += 0.5)
    {
      RwRect rect = { x - setting->w / 2.0, y - setting->h / 2.0, setting->w, setting->h };
      double cost;

      if (upright)
        rect.x = side == 0 ? x + GAP : x - GAP - setting->w;
      else
        rect.y = side == 0 ? y - LEVEL_GAP - setting->h : y + LEVEL_GAP;
      if (base >= choice->cost)
        continue;
      cost = cost_of_place (choice->labeller, choice->cable, rect);
      if (cost < 0.0 || base + cost >= choice->cost)
        continue;
      choice->cost = base + cost;
      choice->rect = rect;
      taken = TRUE;
    }
  return taken;
}

static gboolean
try_setting (Choice *choice, const Setting *setting, const Stretch *stretches, guint n)
{
  static const double shares[] = { 0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88 };
  gboolean taken = FALSE;

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < G_N_ELEMENTS (shares); k++)
      taken |= try_beside (choice, setting, &stretches[i], shares[k], i * 1.0 + k * 0.3);
  return taken;
}

void
rw_labeller_forget (RwLabeller *labeller, guint cable)
{
  rw_scene_index_remove (labeller->labels, cable);
}

/**
 * rw_labeller_place: finds room for @text: (nullable) beside the way of @cable: at full size on one line, on two lines,
 * then in the least lettering; never on a box. Fills @label, whose text the caller frees.
 */
void
rw_labeller_place (RwLabeller *labeller, guint cable, const char *text, const RwPoint *points, guint n_points, RwLabel *label)
{
  Stretch stretches[N_LONGEST];
  Choice choice = { labeller, cable, G_MAXDOUBLE, { 0 } };
  guint n = longest_stretches (points, n_points, stretches);

  rw_labeller_forget (labeller, cable);
  *label = (RwLabel) { NULL, { 0 }, RW_EM_LABEL };
  for (guint i = 0; text != NULL && i < 4 && choice.cost > CLEAN && !rw_router_is_spent (labeller->router); i++)
    {
      Setting setting;

      setting_init (&setting, text, i % 2 == 1, i >= 2);
      if (try_setting (&choice, &setting, stretches, n))
        {
          g_free (label->text);
          label->text = g_steal_pointer (&setting.text);
          label->em = setting.em;
        }
      g_free (setting.text);
    }
  label->rect = choice.rect;
  if (label->text == NULL)
    label->text = g_strdup (text);
  else
    rw_scene_index_insert (labeller->labels, cable, choice.rect);
}

void
rw_labeller_forget_balloon (RwLabeller *labeller, guint balloon)
{
  rw_scene_index_remove (labeller->balloons, balloon);
}

static double
cost_of_circle (RwLabeller *labeller, RwPoint centre, double radius)
{
  RwRect rect = { centre.x - radius, centre.y - radius, 2.0 * radius, 2.0 * radius };
  guint n;
  const guint *ids;
  double cost = 0.0;

  rw_scene_index_query (labeller->balloons, rect, &n);
  cost += n * 1000.0;
  rw_scene_index_query (labeller->labels, rect, &n);
  cost += n * 200.0;
  ids = rw_router_boxes_in (labeller->router, rect, &n);
  for (guint i = 0; i < n; i++)
    cost += rw_rects_overlap (rw_router_bounds (labeller->router, ids[i]), rect) ? 250.0 : 0.0;
  rw_router_segments_in (labeller->router, rect, &n);
  return cost + n * 12.0;
}

RwPoint
rw_labeller_place_balloon (RwLabeller *labeller, guint balloon, const RwPoint *feet, guint n_feet, double radius, RwPoint *foot)
{
  static const double angles[] = { -45, -135, 45, 135, -90, 90, 0, 180, -67, -113, 67, 113 };
  static const double clear[] = { 1.0, 3.0, 6.0, 10.0, 15.0, 22.0, 30.0 };
  RwPoint best = feet[0];
  double best_cost = G_MAXDOUBLE;

  *foot = feet[0];
  for (guint r = 0; r < G_N_ELEMENTS (clear); r++)
    for (guint f = 0; f < n_feet; f++)
      for (guint a = 0; a < G_N_ELEMENTS (angles); a++)
        {
          double angle = angles[a] * G_PI / 180.0, reach = radius + clear[r];
          RwPoint c = { feet[f].x + reach * cos (angle), feet[f].y + reach * sin (angle) };
          double cost = 2.0 * clear[r] + 2.0 * f + 0.3 * a;

          if (cost < best_cost && !rw_router_is_spent (labeller->router))
            cost += cost_of_circle (labeller, c, radius);
          if (cost >= best_cost)
            continue;
          best_cost = cost;
          best = c;
          *foot = feet[f];
        }
  rw_labeller_forget_balloon (labeller, balloon);
  rw_scene_index_insert (labeller->balloons, balloon, (RwRect) { best.x - radius, best.y - radius, 2.0 * radius, 2.0 * radius });
  return best;
}
