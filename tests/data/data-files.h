/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* (transfer full): paths of the example rigs, by name; at least one. */
GPtrArray *data_examples (void);
/* (transfer full): "trip-loop" for "…/trip-loop.rig". */
char *data_name (const char *path);
/* Adds @test as PREFIX/NAME for each of @paths, with the path as its data. */
void data_add_tests (const char *prefix, GPtrArray *paths, GTestDataFunc test);

G_END_DECLS
