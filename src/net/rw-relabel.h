/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

/* One of the words that a pattern may hold in braces. @name and @help are translatable; a pattern may say
 * the name as it stands here or as it is translated. */
typedef struct
{
  const char *name;
  const char *help;
} RwPatternWord;

guint rw_n_pattern_words (void);
const RwPatternWord *rw_pattern_word (guint index);

/**
 * RwRelabelOptions:
 * @pattern: text with words in braces, and # for the running number: as many # as it shall have digits at least
 * @first: the number of the first cable
 * @cables: (nullable): ids, NULL-ended: only these; all = NULL
 */
typedef struct
{
  const char *pattern;
  int first;
  const char *const *cables;
} RwRelabelOptions;

RwChange *rw_relabel_cables (const RwRig *rig, const RwNet *net, const RwRelabelOptions *options, GError **error);
guint rw_relabel_n_repeats (const RwRig *rig, const RwChange *change);

G_END_DECLS
