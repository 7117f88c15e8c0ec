/* SPDX-License-Identifier: MIT */
#include "cli/rw-cli.h"
#include <cairo.h>
