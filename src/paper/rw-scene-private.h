/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-label.h"
#include "rw-route.h"
#include "rw-scene.h"

G_BEGIN_DECLS

/* What a balloon hangs on. */
typedef enum { RW_SUBJECT_CABLE, RW_SUBJECT_PORT, RW_SUBJECT_DEVICE } RwSubjectKind;
typedef struct { RwSubjectKind kind; guint index; guint turn; /* of those on this subject */ } RwSubject;

struct _RwScene
{
  gatomicrefcount refs;
  RwNet *net;
  RwFindings *findings;
  guint n_devices, n_ports, n_cables;
  RwSceneDevice *devices;
  RwPoint *places;          /* by device: of its box's top left corner while nothing is shifted */
  RwGeometry *geometries;   /* by device */
  RwScenePort *ports;
  RwSceneCable *cables;
  GArray *balloons;         /* of RwSceneBalloon */
  RwRouter *router;         /* knows the boxes and the ways of the cables */
  RwLabeller *labeller;     /* knows where labels and balloons stand */
  GHashTable *shapes;       /* of RwShape by part and class */
  GArray *subjects;         /* of RwSubject, by balloon */
  guint *ends, *end_start;  /* cables at device i: ends[end_start[i] … end_start[i + 1]) */
  guint8 *marks;            /* by cable: in hand in rw_scene_shift() */
};

/* rw-scene-place.c */
void rw_scene_find_places (RwScene *scene);

/* rw-scene-balloon.c */
void rw_scene_place_balloons (RwScene *scene);
void rw_scene_move_balloons (RwScene *scene, const guint *devices, guint n_devices, const guint *cables, guint n_cables);

G_END_DECLS
