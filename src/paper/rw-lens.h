/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-scene.h"

G_BEGIN_DECLS

/* The ways of looking at a sheet. */
typedef enum
{
  RW_LENS_WIRING,
  RW_LENS_PLANES,
  RW_LENS_HOPS,
} RwLensKind;
#define RW_N_LENSES (RW_LENS_HOPS + 1)

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
RwLens *rw_lens_ref (RwLens *lens);
void rw_lens_unref (RwLens *lens);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwLens, rw_lens_unref)

RwLensKind rw_lens_kind (const RwLens *lens);
guint rw_lens_from (const RwLens *lens);
const char *rw_lens_heading (const RwLens *lens);

/* By cable of the scene. @usual: its style in the Wiring lens. */
RwLineStyle rw_lens_cable_style (const RwLens *lens, guint cable, RwLineStyle usual);
const char *rw_lens_cable_mark (const RwLens *lens, guint cable);

/* By device: what its badge says (nullable), and how far it is: 0 = there … 1 = farthest, below 0 = no tint. */
const char *rw_lens_device_badge (const RwLens *lens, guint device);
double rw_lens_device_depth (const RwLens *lens, guint device);

/* What a legend explains. A line: @style and @mark; a badge: @mark and @depth. */
typedef struct
{
  gboolean is_badge;
  RwLineStyle style;
  char *mark; /* (nullable) for a line */
  double depth;
  char *text;
} RwLensSample;
guint rw_lens_n_samples (const RwLens *lens);
const RwLensSample *rw_lens_sample (const RwLens *lens, guint index);

G_END_DECLS
