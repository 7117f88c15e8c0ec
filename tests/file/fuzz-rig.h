/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);
