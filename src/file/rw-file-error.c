/* SPDX-License-Identifier: MIT */
#include "rw-file.h"

G_DEFINE_QUARK (rw-file-error-quark, rw_file_error)
