/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

/* Left and top edge, width and height, in millimetres. */
typedef struct { double x, y, w, h; } RwRect;

typedef enum { RW_EDGE_LEFT, RW_EDGE_RIGHT, RW_EDGE_TOP, RW_EDGE_BOTTOM } RwEdge;

/* Font sizes (em, mm): the capitals of a usual sans face are 0.71 em high, so these give the lettering
 * heights 1.8, 2 and 2.5 mm of ISO 3098-1. No text on the sheet is smaller than the least. */
#define RW_EM_LEAST 2.55
#define RW_EM_LABEL 2.8
#define RW_EM_NAME 3.5
#define RW_TEXT_FAMILY "Sans"

typedef struct
{
  RwRect tab;
  RwPoint tip; /* where a cable starts: the middle of the tab's outer side */
  RwEdge edge; /* of the device's box on which it sits; cables leave square to it */
} RwScenePort;

/**
 * RwSceneText: one line of text that is known to fit.
 * @text: (nullable): what is drawn, already shortened; NULL = nothing
 * @rect: the box of its line: its capitals stand in the middle. A turned text reads from bottom to top: @rect is as
 *   wide as the text is high
 * @em: font size in mm of RW_TEXT_FAMILY, measured without hinting
 */
typedef struct
{
  char *text;
  RwRect rect;
  double em;
  gboolean bold;
  gboolean turned;
} RwSceneText;

/**
 * RwShape: what a part looks like, whatever stands in it: relative to its box's top left corner,
 * immutable, refcounted, shared by all devices of one part and one width.
 */
typedef struct
{
  grefcount refs;
  double w, h;             /* of the box: multiples of 5 mm */
  RwRect bounds;           /* box and tabs */
  RwRect title;            /* where the name and the part's name stand */
  RwRect id_tab;           /* room for the ID in a round tab */
  guint n_ports;
  RwScenePort *ports;      /* in the part's order; tips on a 2.5 mm grid */
  RwSceneText *port_names; /* likewise */
} RwShape;

/* A device's box with its texts, relative to the box's top left corner. */
typedef struct
{
  RwShape *shape;
  RwSceneText name[2]; /* one or two lines */
  RwSceneText part;
  RwSceneText id;      /* text NULL: no ID tab */
  RwRect id_tab;       /* within shape->id_tab, as wide as the ID needs */
} RwGeometry;

guint rw_shape_class (const RwPart *part, const char *name);
RwShape *rw_shape_new (const RwPart *part, guint width_class);
RwShape *rw_shape_ref (RwShape *shape);
void rw_shape_unref (RwShape *shape);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwShape, rw_shape_unref)

void rw_geometry_init (RwGeometry *geometry, RwShape *shape, const RwPart *part, const char *name, const char *id);
void rw_geometry_clear (RwGeometry *geometry);
char *rw_geometry_id_text (const RwDevice *device);

/* rw-geometry-text.c: width and height in mm of one line set in RW_TEXT_FAMILY. */
double rw_text_width (const char *text, double em, gboolean bold);
double rw_text_height (double em);
char *rw_text_shorten (const char *text, double em, gboolean bold, double width);

G_END_DECLS
