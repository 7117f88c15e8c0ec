#!/bin/sh
# SPDX-License-Identifier: MIT
# Runs a program in German: in-german.sh PROGRAM [ARGUMENT…]
# gettext takes no notice of LANGUAGE in the C locale, and a bare machine has no other: one is made.
set -eu
locales=$(mktemp -d)
trap 'rm -rf "$locales"' EXIT INT TERM
localedef -i de_DE -f UTF-8 "$locales/de_DE.UTF-8"
unset LANGUAGE
LC_ALL=de_DE.UTF-8 LOCPATH=$locales "$@"
