/* SPDX-License-Identifier: MIT */
#include "rw-weak.h"

gpointer
rw_weak_new (gpointer object)
{
  GWeakRef *weak = g_new0 (GWeakRef, 1);

  g_weak_ref_init (weak, object);
  return weak;
}

gpointer
rw_weak_take (gpointer weak)
{
  gpointer object = g_weak_ref_get (weak);

  g_weak_ref_clear (weak);
  g_free (weak);
  return object;
}
