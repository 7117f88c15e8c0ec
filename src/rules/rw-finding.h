/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-net.h>

G_BEGIN_DECLS

typedef enum { RW_SEVERITY_ERROR, RW_SEVERITY_WARNING, RW_SEVERITY_NOTE } RwSeverity;

typedef struct _RwRule RwRule;
typedef struct _RwFinding RwFinding;
typedef struct _RwFindings RwFindings;

/**
 * RwFinding: what a rule says of a rig; immutable, refcounted data.
 * @message: names things as the drawing names them, and says the consequence
 * @devices, @cables, @rows: ids, NULL-ended, never NULL
 * @ports: device, port, device, port, …, NULL
 * @channels: keys as rw_channel_key() makes them
 */
struct _RwFinding
{
  gatomicrefcount refs;
  const RwRule *rule;
  RwSeverity severity;
  char *message;
  char **devices;
  char **ports;
  char **cables;
  char **rows;
  char **channels;
};

RwFinding *rw_finding_ref (RwFinding *finding);
void rw_finding_unref (RwFinding *finding);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwFinding, rw_finding_unref)
gboolean rw_finding_speaks_of_same (const RwFinding *a, const RwFinding *b);
gboolean rw_finding_equal (const RwFinding *a, const RwFinding *b);
guint rw_finding_hash (gconstpointer key);
/* The quick fixes of @finding in @rig, as changes whose names label their buttons; may be empty. */
GPtrArray *rw_finding_fixes (const RwFinding *finding, const RwRig *rig);

/*
 * All findings of a rig: errors, then warnings, then notes; in each by rule in registry order, then in the order
 * in which the rule found them.
 */
RwFindings *rw_findings_new (const RwRig *rig, const RwNet *net);
RwFindings *rw_findings_ref (RwFindings *findings);
void rw_findings_unref (RwFindings *findings);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwFindings, rw_findings_unref)
guint rw_findings_n (const RwFindings *findings);
RwFinding *rw_findings_get (const RwFindings *findings, guint index);
guint rw_findings_count (const RwFindings *findings, RwSeverity severity);
/* Those of @after that @before does not hold (by rule and subjects): what a change brought. */
GPtrArray *rw_findings_new_ones (const RwFindings *before, const RwFindings *after);

/* For rules: adds one finding to @findings, to be filled at once; its pieces may come in any order. */
RwFinding *rw_findings_begin (RwFindings *findings, const RwRule *rule, RwSeverity severity);
void rw_finding_add_device (RwFinding *finding, const char *id);
void rw_finding_add_port (RwFinding *finding, const char *device, const char *port);
void rw_finding_add_cable (RwFinding *finding, const char *id);
void rw_finding_add_row (RwFinding *finding, const char *id);
void rw_finding_add_channel (RwFinding *finding, const char *key);
void rw_finding_set_message (RwFinding *finding, const char *format, ...) G_GNUC_PRINTF (2, 3);
void rw_finding_take_message (RwFinding *finding, char *message);

G_END_DECLS
