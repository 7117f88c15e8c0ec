/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

void rw_png_set_dpi (GByteArray *png, double dpi);

G_END_DECLS
