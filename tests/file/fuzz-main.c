/* SPDX-License-Identifier: MIT */
/* For libFuzzer only; see fuzz.h. */
#include "fuzz.h"

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  TARGET (data, size);
  return 0;
}
