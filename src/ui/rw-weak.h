/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/* For what a thread gives back later: it must not keep a window alive whose parent has gone. */
gpointer rw_weak_new (gpointer object);
/* Ends @weak. (transfer full) (nullable): the object, if it is still there */
gpointer rw_weak_take (gpointer weak);

G_END_DECLS
