#!/bin/sh
# SPDX-License-Identifier: MIT
# Runs a program on a virtual display and in a home folder of its own: with-display.sh PROGRAM [ARGUMENT…]
# RIGWRIGHT_TEST_SCREEN is the size of the display, 1280x800 by default.
# (GLib's isolated folders would hide the media types, by which GTK knows that an icon is an SVG.)
set -eu
GTK_A11Y=test GSK_RENDERER=cairo GDK_BACKEND=x11 GSETTINGS_BACKEND=memory GIO_USE_VFS=local
export GTK_A11Y GSK_RENDERER GDK_BACKEND GSETTINGS_BACKEND GIO_USE_VFS
# Without an address GLib would start a bus of its own and leave it running.
DBUS_SESSION_BUS_ADDRESS=disabled:
export DBUS_SESSION_BUS_ADDRESS
unset WAYLAND_DISPLAY
home=$(mktemp -d)
trap 'rm -rf "$home"' EXIT INT TERM
XDG_CONFIG_HOME=$home/config XDG_STATE_HOME=$home/state XDG_DATA_HOME=$home/data XDG_CACHE_HOME=$home/cache
export XDG_CONFIG_HOME XDG_STATE_HOME XDG_DATA_HOME XDG_CACHE_HOME
xvfb-run -a -s "-screen 0 ${RIGWRIGHT_TEST_SCREEN:-1280x800}x24" "$@"
