/* SPDX-License-Identifier: MIT */
#pragma once

gboolean rw_lonely_is_alone (void);
