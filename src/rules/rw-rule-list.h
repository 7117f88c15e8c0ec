/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rule.h"

/*
 * The one list of the rules, in the order in which their findings stand. X (loop_held) is the rule
 * "loop-held", which src/rules/rw-rule-loop-held.c defines as rw_rule_loop_held. The registry, the
 * declarations and the build's list of sources are all read from here: one rule a line.
 */
#define RW_RULES(X) \
  X (loop) \
  X (loop_held) \
  X (mixed_modes) \
  X (planes_joined) \
  X (unit_id_clash) \
  X (no_controller_1) \
  X (controller_id_clash) \
  X (id_range) \
  X (no_unit_id) \
  X (port_shared) \
  X (cut_off) \
  X (not_cabled) \
  X (vlan_mismatch) \
  X (dead_port) \
  X (no_second_path) \
  X (too_many_units) \
  X (too_long) \
  X (grade_low) \
  X (medium_mismatch) \
  X (speed_mismatch) \
  X (slow_link) \
  X (no_length) \
  X (label_clash) \
  X (deep_tree) \
  X (tree_cuts_vlan) \
  X (no_tree) \
  X (link_full) \
  X (late) \
  X (latency_uneven) \
  X (rate_clash) \
  X (width_clash) \
  X (stream_too_big) \
  X (clock_astray) \
  X (clock_even) \
  X (clock_split) \
  X (slot_taken) \
  X (no_channel) \
  X (no_path) \
  X (half_patched) \
  X (not_patched) \
  X (phantom_harm) \
  X (phantom_missing) \
  X (gain_shared) \
  X (compensation_idle) \
  X (address_clash) \
  X (address_subnet) \
  X (planes_overlap) \
  X (address_link_local) \
  X (single_point)

#define RW_DECLARE_RULE(name) extern const RwRule rw_rule_##name;
RW_RULES (RW_DECLARE_RULE)
#undef RW_DECLARE_RULE
