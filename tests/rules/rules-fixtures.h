/* SPDX-License-Identifier: MIT */
#pragma once

#include <rules/rw-rule.h>

/*
 * The fixtures lie in tests/rules/CODE: "bad-SCENARIO.rig" trips the rule CODE, "good-SCENARIO.rig" does not; beside
 * each, under the same name, "….json" is what check --json says of it, worked out by hand. There "why"
 * and "remedy" are left out, and "fixes" gives the names of a finding's quick fixes.
 */
GPtrArray *fixtures_of (const RwRule *rule);
gboolean fixture_is_bad (const char *path);
char *fixture_test_path (const char *path, const char *group);
RwRig *fixture_read (const char *path);
RwFindings *analyse (const RwRig *rig);
