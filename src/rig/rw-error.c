/* SPDX-License-Identifier: MIT */
#include "rw-error.h"

G_DEFINE_QUARK (rw-rig-error-quark, rw_rig_error)
