/* SPDX-License-Identifier: MIT */
#include "rw-lens-private.h"

#include <glib/gi18n-lib.h>

static const struct
{
  RwLensInfo info;
  void (*fill) (RwLens *lens); /* (nullable) */
} lenses[RW_N_LENSES] = {
  [RW_LENS_WIRING] = { { "wiring", N_("Wiring"), N_("Cables as they are plugged in") }, NULL },
  [RW_LENS_PLANES] = { { "planes", N_("Planes"), N_("Each network in its own line, with its letter") }, rw_lens_fill_planes },
  [RW_LENS_HOPS] = { { "hops", N_("Hops"), N_("How many bridges each device is away") }, rw_lens_fill_hops },
  [RW_LENS_LOAD] = { { "load", N_("Load"), N_("How full each cable is, each way") }, rw_lens_fill_load },
  [RW_LENS_FAILURE] = { { "failure", N_("Failure"), N_("What is lost when cables or devices fail") }, rw_lens_fill_failure },
};

const RwLensInfo *
rw_lens_info (RwLensKind kind)
{
  g_return_val_if_fail ((guint) kind < RW_N_LENSES, NULL);

  return &lenses[kind].info;
}

/* rw_lens_find: by its name on the command line. */
gboolean
rw_lens_find (const char *name, RwLensKind *kind)
{
  for (guint i = 0; i < RW_N_LENSES; i++)
    if (g_str_equal (lenses[i].info.name, name))
      {
        *kind = (RwLensKind) i;
        return TRUE;
      }
  return FALSE;
}

static void
sample_free (gpointer data)
{
  RwLensSample *sample = data;

  g_free (sample->mark);
  g_free (sample->text);
  g_free (sample);
}

/* Takes over its texts. */
void
rw_lens_add_sample (RwLens *lens, RwLensSample sample)
{
  g_ptr_array_add (lens->samples, g_memdup2 (&sample, sizeof sample));
}

static void
copy_failed (RwLens *lens, const RwFailed *failed)
{
  const RwNet *net = lens->net;

  lens->failed = rw_failed_new (net, NULL);
  for (guint i = 0; failed != NULL && i < net->n_devices; i++)
    lens->failed->device[i] = failed->device[i];
  for (guint i = 0; failed != NULL && i < net->n_cables; i++)
    lens->failed->cable[i] = failed->cable[i];
}

static RwLens *
lens_new (const RwNet *net, RwLensKind kind, guint from, const RwFailed *failed)
{
  RwLens *lens = g_new0 (RwLens, 1);

  g_atomic_ref_count_init (&lens->refs);
  lens->kind = kind;
  lens->net = rw_net_ref ((RwNet *) net);
  lens->from = from;
  if (kind == RW_LENS_FAILURE)
    copy_failed (lens, failed);
  lens->samples = g_ptr_array_new_with_free_func (sample_free);
  if (lenses[kind].fill != NULL)
    lenses[kind].fill (lens);
  if (lens->heading == NULL)
    lens->heading = g_strdup (_(lenses[kind].info.label));
  return lens;
}

/**
 * rw_lens_new:
 * @net: a net
 * @kind: which lens
 * @from: device that hops are counted from; RW_NONE = the clock leader, else the first controller
 *
 * Returns: (transfer full): the lens
 */
RwLens *
rw_lens_new (const RwNet *net, RwLensKind kind, guint from)
{
  g_return_val_if_fail (net != NULL && (guint) kind < RW_N_LENSES, NULL);

  return lens_new (net, kind, from, NULL);
}

/**
 * rw_lens_new_failure:
 * @net: a net
 * @failed: what has failed
 *
 * Returns: (transfer full): the lens
 */
RwLens *
rw_lens_new_failure (const RwNet *net, const RwFailed *failed)
{
  return lens_new (net, RW_LENS_FAILURE, RW_NONE, failed);
}

RwLens *
rw_lens_ref (RwLens *lens)
{
  g_atomic_ref_count_inc (&lens->refs);
  return lens;
}

static void
free_texts (char **texts, guint n)
{
  for (guint i = 0; texts != NULL && i < n; i++)
    g_free (texts[i]);
  g_free (texts);
}

void
rw_lens_unref (RwLens *lens)
{
  if (!g_atomic_ref_count_dec (&lens->refs))
    return;
  free_texts (lens->marks, lens->net->n_cables);
  g_free (lens->corners);
  free_texts (lens->badges, lens->net->n_devices);
  g_free (lens->styles);
  g_free (lens->flows);
  g_clear_pointer (&lens->failed, rw_failed_free);
  g_clear_pointer (&lens->outcome, rw_outcome_free);
  g_free (lens->places);
  g_free (lens->depths);
  g_free (lens->heading);
  g_ptr_array_unref (lens->samples);
  rw_net_unref (lens->net);
  g_free (lens);
}

RwLensKind
rw_lens_kind (const RwLens *lens)
{
  return lens->kind;
}

/* rw_lens_from: the device that hops are counted from; RW_NONE where there is none, and of other lenses. */
guint
rw_lens_from (const RwLens *lens)
{
  return lens->kind == RW_LENS_HOPS ? lens->from : RW_NONE;
}

/* rw_lens_heading: what stands over its legend: "Planes". */
const char *
rw_lens_heading (const RwLens *lens)
{
  return lens->heading;
}

gboolean
rw_lens_has_own_lines (const RwLens *lens)
{
  return lens->styles != NULL;
}

RwLineStyle
rw_lens_cable_style (const RwLens *lens, guint cable, RwLineStyle usual)
{
  if (lens == NULL)
    return usual;
  if (lens->failed != NULL)
    return rw_lens_failure_style (lens, cable, usual);
  return lens->styles != NULL ? lens->styles[cable] : usual;
}

/* rw_lens_cable_mark: (nullable): the letters of its networks. */
const char *
rw_lens_cable_mark (const RwLens *lens, guint cable)
{
  return lens != NULL && lens->marks != NULL ? lens->marks[cable] : NULL;
}

/* rw_lens_cable_flow: (nullable): NULL where nothing passes, and of other lenses than Load. */
const RwLensFlow *
rw_lens_cable_flow (const RwLens *lens, guint cable)
{
  if (lens == NULL || lens->flows == NULL)
    return NULL;
  return lens->flows[cable].mbps[0] + lens->flows[cable].mbps[1] > 0 ? &lens->flows[cable] : NULL;
}

const char *
rw_lens_device_badge (const RwLens *lens, guint device)
{
  return lens != NULL && lens->badges != NULL ? lens->badges[device] : NULL;
}

RwCorner
rw_lens_device_corner (const RwLens *lens, guint device, gboolean far)
{
  return lens != NULL && lens->corners != NULL ? (RwCorner) lens->corners[device].at[far ? 1 : 0] : RW_CORNER_TOP_RIGHT;
}

double
rw_lens_device_depth (const RwLens *lens, guint device)
{
  return lens != NULL && lens->depths != NULL ? lens->depths[device] : -1;
}

guint
rw_lens_n_samples (const RwLens *lens)
{
  return lens != NULL ? lens->samples->len : 0;
}

const RwLensSample *
rw_lens_sample (const RwLens *lens, guint index)
{
  g_return_val_if_fail (index < lens->samples->len, NULL);

  return g_ptr_array_index (lens->samples, index);
}
