/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-tree.h>
#include <rules/rw-rule.h>
#include "rw-geometry.h"

G_BEGIN_DECLS

/**
 * RwScene: where everything of a rig lies on the sheet, in millimetres: boxes, port tabs, routed cables,
 * labels, balloons. Made from a rig, its net and its findings; the canvas, the PDF and hit tests read the same
 * scene, so the screen is the paper. It holds no cairo objects. Device, port and cable indices are the net's.
 */
typedef struct _RwScene RwScene;

typedef struct
{
  RwRect box;    /* the outline; tabs stick out of it */
  RwRect bounds; /* with tabs */
} RwSceneDevice;

/* How a cable's line is told apart. */
typedef enum
{
  RW_LINE_PLAIN,     /* single or unknown: thin solid */
  RW_LINE_CHAIN,     /* solid, a bead in the middle */
  RW_LINE_PRIMARY,   /* solid */
  RW_LINE_SECONDARY, /* long dashes */
  RW_LINE_AUX,       /* dots */
  RW_LINE_TRUNK,     /* two rails: several networks; this one and the next ones only in the Planes lens */
  RW_LINE_NETWORK,   /* the first of RW_N_NETWORK_LINES for networks beyond the first of each plane */
  RW_LINE_QUIET = RW_LINE_NETWORK + 5, /* carries nothing: only in the Load and the Failure lens */
  RW_LINE_FAILED,    /* only in the Failure lens */
  RW_LINE_LOAD,      /* the first of five, by how full a cable is: only in the Load lens */
} RwLineStyle;
#define RW_N_NETWORK_LINES (RW_LINE_QUIET - RW_LINE_NETWORK)
#define RW_N_LINES (RW_LINE_LOAD + 5)

/* Which end of a cable the spanning tree keeps blocked. */
typedef enum { RW_HELD_NOT, RW_HELD_FROM, RW_HELD_TO } RwHeld;

typedef struct
{
  RwPoint *points; /* right-angled polyline from the from tip to the to tip */
  guint n_points;
  RwRect bounds;
  RwLineStyle style;
  gboolean fault;  /* an error finding names it */
  RwHeld held;
  char *text;      /* (nullable): what the label says; '\n' parts two lines */
  RwRect label;    /* its lines stand in the middle of it; w = 0: there is no room for it, it is not drawn */
  double label_em; /* font size, mm */
} RwSceneCable;

typedef struct
{
  guint finding;  /* index into the findings; the balloon shows index + 1 */
  RwSeverity severity;
  RwPoint centre;
  double radius;
  RwPoint foot;   /* on the thing that it speaks of */
} RwSceneBalloon;

RwScene *rw_scene_new (const RwRig *rig, const RwNet *net, const RwFindings *findings);
RwScene *rw_scene_ref (RwScene *scene);
RwHeld rw_scene_held (const RwNet *net, const RwTree *tree, guint cable);
void rw_scene_unref (RwScene *scene);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwScene, rw_scene_unref)

const RwNet *rw_scene_net (const RwScene *scene);
const RwFindings *rw_scene_findings (const RwScene *scene);
guint rw_scene_n_devices (const RwScene *scene);
guint rw_scene_n_cables (const RwScene *scene);
guint rw_scene_n_balloons (const RwScene *scene);
const RwSceneDevice *rw_scene_device (const RwScene *scene, guint index);
/* Of the top left corner of a device's box. Devices that the rig has no place for stand tidily beside the others. */
RwPoint rw_scene_place (const RwScene *scene, guint index);
RwChange *rw_scene_settle (const RwScene *scene, const RwRig *rig);
/* Texts and tabs of a device, relative to its box's top left corner. */
const RwGeometry *rw_scene_geometry (const RwScene *scene, guint index);
const RwScenePort *rw_scene_port (const RwScene *scene, guint index);
const RwSceneCable *rw_scene_cable (const RwScene *scene, guint index);
const RwSceneBalloon *rw_scene_balloon (const RwScene *scene, guint index);
RwRect rw_scene_bounds (const RwScene *scene);

/* Shifts @n devices by (dx, dy) mm from their places and routes anew only the cables that end at them. */
void rw_scene_shift (RwScene *scene, const guint *devices, guint n, double dx, double dy);
/* The way a cable would take between two points, leaving @from square to its edge; for one in the air. Free with g_free(). */
RwPoint *rw_scene_route_loose (const RwScene *scene, RwPoint from, RwEdge edge, RwPoint to, guint *n_points);
/* The way that a new cable between two ports would take, past all boxes. Free with g_free(). */
RwPoint *rw_scene_route_ports (const RwScene *scene, guint from, guint to, guint *n_points);
/* Size and ports of a part not yet on the sheet, its box's top left at (0, 0): for ghosts while it is dragged in. */
RwRect rw_scene_part_box (const RwPart *part, const char *name);

typedef enum { RW_HIT_NOTHING, RW_HIT_DEVICE, RW_HIT_PORT, RW_HIT_CABLE, RW_HIT_BEND, RW_HIT_BALLOON } RwHitKind;
typedef struct
{
  RwHitKind kind;
  guint index;   /* of the device, port, cable or balloon */
  guint segment; /* RW_HIT_CABLE: which stretch of the polyline; RW_HIT_BEND: which bend */
} RwHit;
/* What lies at (x, y); ports before balloons before devices before cables; @slack in mm round small things. */
RwHit rw_scene_hit (const RwScene *scene, double x, double y, double slack);
/* Devices whose box meets @area, ascending. */
GArray *rw_scene_devices_in (const RwScene *scene, RwRect area);

G_END_DECLS
