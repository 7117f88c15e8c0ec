#!/bin/sh
# SPDX-License-Identifier: MIT
# The main job on every demo rig: check it, and draw its cable plan as PDF, PNG and SVG.
#   sh tests/demos.sh BUILD_FOLDER OUTPUT_FOLDER
set -u

top=$(cd "$(dirname "$0")/.." && pwd)
cli=$1/src/cli/rigwright-cli
out=$2
passed=0
failed=0

# must NAME COMMAND…: the command has to succeed.
must ()
{
  what=$1
  shift
  if "$@"
  then passed=$((passed + 1))
  else failed=$((failed + 1)); echo "not passed: $what"
  fi
}

# sound RIG: no error is found in it.
sound ()
{
  "$cli" check "$1" >"$out/check.txt" 2>&1 || { cat "$out/check.txt"; return 1; }
}

# trips RIG CODE: the rule CODE speaks up; other rules may, too.
trips ()
{
  "$cli" check --json "$1" >"$out/check.json" 2>&1
  [ $? -le 1 ] && grep -q "\"code\" *: *\"$2\"" "$out/check.json" || { cat "$out/check.json"; return 1; }
}

# starts FILE BYTES: FILE begins with BYTES.
starts ()
{
  [ "$(head -c "$(printf %s "$2" | wc -c)" "$1" | tr -d '\0')" = "$2" ]
}

for rig in "$top"/data/examples/*.rig
do
  name=$(basename "$rig" .rig)
  case $name in
    trip-*) must "check $name" trips "$rig" "${name#trip-}" ;;
    *) must "check $name" sound "$rig" ;;
  esac
  for kind in pdf png svg
  do
    must "draw $name as $kind" "$cli" draw "$rig" --output "$out/$name.$kind"
  done
  must "$name.pdf is a PDF" starts "$out/$name.pdf" '%PDF-1.'
  must "$name.png is a PNG" starts "$out/$name.png" "$(printf '\211PNG')"
  must "$name.svg is an SVG" grep -q '<svg' "$out/$name.svg"
done

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
