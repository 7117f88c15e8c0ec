/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "rw-png.h"

/* Signature and header chunk: what stands before the first chunk that may say the size of a pixel (PNG, 5.2 and 11.2.2). */
#define HEAD 33
#define CHUNK 21 /* length, name, two numbers and a byte, checksum */

static void
put_number (guint8 *at, guint32 number)
{
  number = GUINT32_TO_BE (number);
  memcpy (at, &number, sizeof number);
}

/* The cyclic redundancy check of PNG, annex D. */
static guint32
checksum (const guint8 *data, gsize length)
{
  guint32 sum = 0xffffffff;

  for (gsize i = 0; i < length; i++)
    {
      sum ^= data[i];
      for (guint bit = 0; bit < 8; bit++)
        sum = (sum >> 1) ^ ((sum & 1) != 0 ? 0xedb88320 : 0);
    }
  return ~sum;
}

/**
 * rw_png_set_dpi: adds the size of a pixel (chunk pHYs), which cairo does not write, so that the picture is
 * printed at the paper's size.
 */
void
rw_png_set_dpi (GByteArray *png, double dpi)
{
  guint8 chunk[CHUNK] = { 0, 0, 0, 9, 'p', 'H', 'Y', 's' };
  guint32 per_metre = (guint32) lrint (dpi / 0.0254);

  g_return_if_fail (png->len >= HEAD);

  put_number (chunk + 8, per_metre);
  put_number (chunk + 12, per_metre);
  chunk[16] = 1; /* the unit is the metre */
  put_number (chunk + 17, checksum (chunk + 4, 13));
  g_byte_array_set_size (png, png->len + CHUNK);
  memmove (png->data + HEAD + CHUNK, png->data + HEAD, png->len - HEAD - CHUNK);
  memcpy (png->data + HEAD, chunk, CHUNK);
}
