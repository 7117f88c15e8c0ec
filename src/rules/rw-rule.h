/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-finding.h"

G_BEGIN_DECLS

/**
 * RwRule: one row of the registry; src/rules/rw-rule-CODE.c defines it.
 * @title, @why, @remedy: translatable
 * @check: adds its findings; pure
 * @can_wait: speaks of what is seen to when the drawing is done, as a length: no verdict on a gesture
 * @fix: (nullable): adds (RwChange *) quick fixes of one of its findings to @fixes
 */
struct _RwRule
{
  const char *code;
  RwSeverity severity;
  const char *title;
  const char *why;
  const char *remedy;
  gboolean can_wait;
  void (*check) (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings);
  void (*fix) (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes);
};

guint rw_n_rules (void);
const RwRule *rw_rule (guint index);
const RwRule *rw_rule_find (const char *code);
const char *rw_severity_word (RwSeverity severity); /* "error", "warning", "note": JSON, not translated */
const char *rw_severity_title (RwSeverity severity); /* "Error", "Warning", "Note": for people */

G_END_DECLS
