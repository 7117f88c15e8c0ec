/* SPDX-License-Identifier: MIT */
#include "file/rw-file.h"
#include <cairo.h>
