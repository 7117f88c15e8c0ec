#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds Rigwright and runs every test; the last line is "N passed, N failed".
#   sh tests/run.sh [MESON OPTION…]          for example -Dwerror=true
# RIGWRIGHT_BUILD names the build folder (default: build/test), RIGWRIGHT_TESTS what meson test gets besides,
# as "--suite net".
set -eu

top=$(cd "$(dirname "$0")/.." && pwd)
build=${RIGWRIGHT_BUILD-$top/build/test}

. "$top/src/packages.sh"
need $packages_build $packages_test

# Python keeps no caches in the source folder, and no desktop of the machine's reaches the tests.
PYTHONDONTWRITEBYTECODE=1
export PYTHONDONTWRITEBYTECODE
unset DISPLAY WAYLAND_DISPLAY

if [ -f "$build/build.ninja" ]
then
  [ $# -eq 0 ] || meson configure "$build" "$@"
else
  meson setup "$build" "$top" "$@"
fi
if ! meson compile -C "$build"
then
  echo "tests/run.sh: the build failed" >&2
  echo "0 passed, 1 failed"
  exit 1
fi

logs=$build/meson-logs
rm -f "$logs/testlog.junit.xml" "$logs/testlog.json"
ran=0
meson test -C "$build" --no-rebuild --print-errorlogs ${RIGWRIGHT_TESTS-} || ran=$?
python3 "$top/tests/count.py" "$logs" "$ran"
