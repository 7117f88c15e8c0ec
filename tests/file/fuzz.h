/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

/*
 * What must hold of any bytes at all, for each of our readers. test-fuzz.c feeds them; so can a fuzzer that looks at
 * coverage, fuzz_csv for example:
 *   clang -g -fsanitize=fuzzer,address,undefined -DTARGET=fuzz_csv -Isrc -Itests/lib -I$BUILD tests/file/fuzz*.c \
 *     tests/lib/random-*.c src/rig/[a-z]*.c src/file/[a-z]*.c $(pkg-config --cflags --libs gio-2.0) -lm and the -D
 *     flags of meson.build
 *   ./a.out -max_len=4096 FOLDER tests/file/corpus
 */
void fuzz_rig (const guint8 *data, gsize size);
void fuzz_csv (const guint8 *data, gsize size);
void fuzz_journal (const guint8 *data, gsize size);

void fuzz_rig_comes_back (RwRig *rig);
RwRig *fuzz_some_rig (void);
