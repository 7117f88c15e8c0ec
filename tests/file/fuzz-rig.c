/* SPDX-License-Identifier: MIT */
/*
 * Any bytes are a rig, which then comes back byte for byte from its canonical form, or they are refused with one
 * error.
 */
#include <file/rw-file.h>
#include <string.h>

#include "fuzz.h"
#include "random-rig.h"

void
fuzz_rig_comes_back (RwRig *rig)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GString) first = rw_file_write_bytes (rig);
  g_autoptr (RwRig) again = rw_file_read_bytes (first->str, first->len, "FILE", &error);
  g_autoptr (GString) second = NULL;

  g_assert_no_error (error);
  second = rw_file_write_bytes (again);
  g_assert_cmpstr (first->str, ==, second->str);
}

/* Always the same one. */
RwRig *
fuzz_some_rig (void)
{
  RandomRig want = { .seed = 7, .devices = 8, .cables = 9, .rows = 8, .inside = 6, .channels = 6, .vlans = TRUE,
                     .joined = TRUE };

  return random_rig_new (&want);
}

void
fuzz_rig (const guint8 *data, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_file_read_bytes ((const char *) data, size, "FILE", &error);

  g_assert_true ((rig == NULL) == (error != NULL));
  if (rig != NULL)
    {
      fuzz_rig_comes_back (rig);
      return;
    }
  g_assert_true (error->domain == RW_FILE_ERROR && g_str_has_prefix (error->message, "FILE: "));
  g_assert_true (g_utf8_validate (error->message, -1, NULL) && strchr (error->message, '\n') == NULL);
}
