/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define RW_RIG_ERROR (rw_rig_error_quark ())
GQuark rw_rig_error_quark (void);

/**
 * RwRigError:
 * @RW_RIG_ERROR_TYPE: a value of the wrong type was given for a field
 * @RW_RIG_ERROR_RANGE: a value is outside its field's range, or an unknown word
 * @RW_RIG_ERROR_ID: an id is malformed, missing, used twice or not there
 * @RW_RIG_ERROR_REFERENCE: an item names a part, device or port that is not there
 * @RW_RIG_ERROR_STALE: a change does not fit the rig that it is applied to
 */
typedef enum
{
  RW_RIG_ERROR_TYPE = 1,
  RW_RIG_ERROR_RANGE,
  RW_RIG_ERROR_ID,
  RW_RIG_ERROR_REFERENCE,
  RW_RIG_ERROR_STALE,
} RwRigError;

G_END_DECLS
