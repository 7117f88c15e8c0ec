/* SPDX-License-Identifier: MIT */
#pragma once

#include <paper/rw-scene.h>

G_BEGIN_DECLS

/* Rigs for tests and benchmarks of the sheet, written down as the text of a rig file and read. */
typedef struct _SceneRig SceneRig;

SceneRig *scene_rig_begin (void);
/* @part: "desk", "rack", "amp", "switch8", "switch24" or "converter". */
void scene_rig_device (SceneRig *rig, const char *id, const char *part, const char *name, double x, double y);
/* @more: (nullable): further members of the cable, as JSON beginning with a comma. */
void scene_rig_cable (SceneRig *rig, const char *from, const char *from_port, const char *to, const char *to_port, const char *more);
RwRig *scene_rig_end (SceneRig *rig);

/* About @n devices in rows of 40 stage boxes with a switch at each row's beginning: chains along the rows and cables across. */
RwRig *scene_rig_large (guint n);
/* @name: of a demo, without its ending. */
RwRig *scene_rig_demo (const char *name);
RwScene *scene_of (const RwRig *rig);

G_END_DECLS
