/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-survival.h>

#include "rw-scene.h"

G_BEGIN_DECLS

/* The ways of looking at a sheet. */
typedef enum
{
  RW_LENS_WIRING,
  RW_LENS_PLANES,
  RW_LENS_HOPS,
  RW_LENS_LOAD,
  RW_LENS_FAILURE,
} RwLensKind;
#define RW_N_LENSES (RW_LENS_FAILURE + 1)

/* @name: on the command line; @label, @help: translatable */
typedef struct { const char *name, *label, *help; } RwLensInfo;
const RwLensInfo *rw_lens_info (RwLensKind kind);
gboolean rw_lens_find (const char *name, RwLensKind *kind);

/**
 * RwLens: what a lens says of each cable and device of a net, for drawing. It holds a reference to the net and is
 * only read once it is made.
 */
typedef struct _RwLens RwLens;

/* @from: net index of the device that hops are counted from; RW_NONE = the clock leader, else the first controller. */
RwLens *rw_lens_new (const RwNet *net, RwLensKind kind, guint from);
/* The Failure lens, with what has failed. */
RwLens *rw_lens_new_failure (const RwNet *net, const RwFailed *failed);
RwLens *rw_lens_ref (RwLens *lens);
void rw_lens_unref (RwLens *lens);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwLens, rw_lens_unref)

RwLensKind rw_lens_kind (const RwLens *lens);
guint rw_lens_from (const RwLens *lens);
const char *rw_lens_heading (const RwLens *lens);

/* By cable of the scene. @usual: its style in the Wiring lens. */
gboolean rw_lens_has_own_lines (const RwLens *lens);
RwLineStyle rw_lens_cable_style (const RwLens *lens, guint cable, RwLineStyle usual);
const char *rw_lens_cable_mark (const RwLens *lens, guint cable);

/* How full a cable is in its fuller direction; the first three are within the rig's link ceiling. */
typedef enum
{
  RW_FLOW_LOW,
  RW_FLOW_MEDIUM,
  RW_FLOW_HIGH,
  RW_FLOW_OVER_CEILING,
  RW_FLOW_OVER_SPEED,
} RwFlowStep;
#define RW_N_FLOW_STEPS (RW_FLOW_OVER_SPEED + 1)

/* What passes a cable each way: [0] = from → to. */
typedef struct
{
  double mbps[2], percent[2];
  RwFlowStep step;
} RwLensFlow;
const RwLensFlow *rw_lens_cable_flow (const RwLens *lens, guint cable);
char *rw_lens_flow_text (const RwLensFlow *flow, guint direction, gboolean detailed);
char *rw_network_text (const RwNetwork *network);

/* Room for the mark of each cable, clear of labels and of one another. */
typedef struct
{
  RwPoint centre; /* on the cable's line */
  double w, h;    /* mm; w = 0: there is no room */
  RwPoint along;  /* the line's direction there, from → to, of length 1 */
  gboolean detailed;
} RwLensPlace;
void rw_lens_place_marks (RwLens *lens, const RwScene *scene);
const RwLensPlace *rw_lens_cable_place (const RwLens *lens, guint cable, const RwSceneCable *now);

/* By device: what its badge says (nullable), and how far it is: 0 = there … 1 = farthest, below 0 = no tint. */
const char *rw_lens_device_badge (const RwLens *lens, guint device);
/* On which corner of a device its badge stands: first the edge that it sticks out of the most. */
typedef enum
{
  RW_CORNER_TOP_RIGHT,
  RW_CORNER_RIGHT_TOP,
  RW_CORNER_BOTTOM_RIGHT,
  RW_CORNER_RIGHT_BOTTOM,
  RW_CORNER_TOP_LEFT,
  RW_CORNER_LEFT_TOP,
  RW_CORNER_BOTTOM_LEFT,
  RW_CORNER_LEFT_BOTTOM,
  RW_N_CORNERS
} RwCorner;
/* Where it covers the least, as rw_lens_place_marks() found; @far: so far out that it is drawn larger than it is. */
RwCorner rw_lens_device_corner (const RwLens *lens, guint device, gboolean far);
double rw_lens_device_depth (const RwLens *lens, guint device);

/* What becomes of everything in the Failure lens; NULL in others. */
const RwOutcome *rw_lens_outcome (const RwLens *lens);
RwFate rw_lens_device_fate (const RwLens *lens, guint device);
RwHeld rw_lens_cable_held (const RwLens *lens, guint cable, RwHeld usual);
gboolean rw_lens_cable_failed (const RwLens *lens, guint cable);

/* What a legend explains. A line: @style and @mark; a badge: @mark and @depth; a flow: @flow, on a line of @style. */
typedef struct
{
  gboolean is_badge;
  gboolean is_flow;
  RwLensFlow flow;
  RwLineStyle style;
  char *mark; /* (nullable) for a line */
  double depth;
  char *text;
} RwLensSample;
guint rw_lens_n_samples (const RwLens *lens);
const RwLensSample *rw_lens_sample (const RwLens *lens, guint index);

G_END_DECLS
