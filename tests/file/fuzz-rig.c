/* SPDX-License-Identifier: MIT */
/*
 * What must hold of any bytes at all: they are a rig, which then comes back byte for byte from its canonical
 * form, or they are refused with one error. test-fuzz.c feeds it; so can a fuzzer that looks at coverage:
 *   clang -g -fsanitize=fuzzer,address,undefined -Isrc -I$BUILD tests/file/fuzz-rig.c src/rig/[a-z]*.c \
 *     src/file/[a-z]*.c $(pkg-config --cflags --libs gio-2.0) -lm and the -D flags of meson.build
 *   ./a.out -max_len=4096 FOLDER tests/file/corpus
 */
#include "fuzz-rig.h"

#include <file/rw-file.h>
#include <string.h>

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_file_read_bytes ((const char *) data, size, "FILE", &error);
  g_autoptr (RwRig) again = NULL;
  g_autoptr (GString) first = NULL;
  g_autoptr (GString) second = NULL;

  g_assert_true ((rig == NULL) == (error != NULL));
  if (rig == NULL)
    {
      g_assert_true (error->domain == RW_FILE_ERROR && g_str_has_prefix (error->message, "FILE: "));
      g_assert_true (g_utf8_validate (error->message, -1, NULL) && strchr (error->message, '\n') == NULL);
      return 0;
    }
  first = rw_file_write_bytes (rig);
  again = rw_file_read_bytes (first->str, first->len, "FILE", &error);
  g_assert_no_error (error);
  second = rw_file_write_bytes (again);
  g_assert_cmpstr (first->str, ==, second->str);
  return 0;
}
