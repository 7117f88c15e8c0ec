/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

/*
 * Rigs for tests, written as text. Statements end with ';' or a new line:
 *
 *   KIND ID [NAME=VALUE …]           a device, of a part that is made to measure
 *   ID.PORT-ID.PORT [NAME=VALUE …]   a cable; its id is c1, c2, … unless id=… is given
 *
 * Kinds: "console" (controller), "rack", "speaker" (endpoint): ports primary, secondary, aux;
 * "computer" (endpoint): primary only; "switch": ports p1 … p8, or as many as ports=N says;
 * "converter": p1 and p2, likewise. In a cable p, s and a are short for primary, secondary and aux.
 * NAME is a member of the file format (mode=redundant, unit_id=3, name='Stage left', length_m=20, at=[40,60]), or
 *   id=, ctrl= of a device: short for unit_id, controller_id
 *   ports=N, speed=N (Mb/s), medium=WORD, stp: of its part: stp = runs spanning tree
 *   p1=10, p1=[10,20] of a switch: an access port, a trunk
 *
 * A mistake in the text ends the test program.
 */
RwRig *rw_test_rig (const char *text);
void rw_test_rig_add (RwRig *rig, const char *text);
/* @n rows from send @first of one device to receive @first_to of another. */
void rw_test_rig_patch (RwRig *rig, const char *from, int first, const char *to, int first_to, int n);

G_END_DECLS
