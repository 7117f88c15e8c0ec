#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds Rigwright and opens RIG (default: the demo rig of about 60 devices).
# Without a display: checks RIG and writes its cable plan as PDF and PNG into build/plans/.
#   sh src/run.sh [RIG]
set -eu

case ${1-} in
  -*) echo "usage: sh src/run.sh [RIG]" >&2; exit 2 ;;
esac

top=$(cd "$(dirname "$0")/.." && pwd)
rig=${1-$top/data/examples/festival-60.rig}
case $rig in
  /*) ;;
  *) rig=$PWD/$rig ;;
esac
[ -f "$rig" ] || { echo "run.sh: $rig: there is no such file; give the path of a .rig file" >&2; exit 2; }

. "$top/src/packages.sh"
need $packages_build

build=$top/build/release
log=$top/build/release.log
mkdir -p "$top/build"
echo "Building (the first time takes a minute or two)…" >&2
{ [ -f "$build/build.ninja" ] || meson setup --buildtype=release "$build" "$top"
  meson compile -C "$build"
} >"$log" 2>&1 || { tail -n 30 "$log" >&2; echo "run.sh: the build failed; all of it: $log" >&2; exit 1; }

RIGWRIGHT_DATADIR=$top/data
export RIGWRIGHT_DATADIR

if [ -n "${DISPLAY-}${WAYLAND_DISPLAY-}" ]
then
  exec "$build/src/ui/rigwright" "$rig"
fi

cli=$build/src/cli/rigwright-cli
plans=$top/build/plans
name=$(basename "$rig" .rig)
mkdir -p "$plans"
verdict=0
"$cli" check "$rig" || verdict=$?
[ "$verdict" -lt 2 ] || exit "$verdict"
"$cli" draw "$rig" --output "$plans/$name.pdf"
"$cli" draw "$rig" --output "$plans/$name.png"
echo "There is no display, so the window was not opened. The cable plan is in:"
echo "  $plans/$name.pdf"
echo "  $plans/$name.png"
