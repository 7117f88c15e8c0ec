/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include "rw-finding-private.h"

/* A finding grows while its rule builds it: the lists' lengths and capacities stand beside it. */
enum
{
  LIST_DEVICES,
  LIST_PORTS,
  LIST_CABLES,
  LIST_ROWS,
  LIST_CHANNELS,
  N_LISTS
};

typedef struct
{
  RwFinding finding;
  guint n[N_LISTS];
  guint capacity[N_LISTS]; /* without the place of the NULL; 0 = still the shared empty list */
} RwGrowing;

static const char *const no_ids[] = { NULL };

static char ***
list_of (RwFinding *finding, guint list)
{
  char ***lists[N_LISTS] = { &finding->devices, &finding->ports, &finding->cables, &finding->rows,
                             &finding->channels };

  return lists[list];
}

static void
append (RwFinding *finding, guint list, const char *text)
{
  RwGrowing *growing = (RwGrowing *) finding;
  char ***strings = list_of (finding, list);

  g_assert (text != NULL);
  if (growing->n[list] == growing->capacity[list])
    {
      gboolean shared = growing->capacity[list] == 0;

      growing->capacity[list] = MAX (3, growing->capacity[list] * 2 + 1);
      *strings = g_renew (char *, shared ? NULL : *strings, growing->capacity[list] + 1);
    }
  (*strings)[growing->n[list]++] = g_strdup (text);
  (*strings)[growing->n[list]] = NULL;
}

/*< private >
 * rw_finding_new: an empty finding of @rule. (transfer full).
 */
RwFinding *
rw_finding_new (const RwRule *rule, RwSeverity severity)
{
  RwGrowing *growing = g_new0 (RwGrowing, 1);
  RwFinding *finding = &growing->finding;

  g_atomic_ref_count_init (&finding->refs);
  finding->rule = rule;
  finding->severity = severity;
  finding->message = g_strdup ("");
  for (guint i = 0; i < N_LISTS; i++)
    *list_of (finding, i) = (char **) no_ids;
  return finding;
}

RwFinding *
rw_finding_ref (RwFinding *finding)
{
  g_return_val_if_fail (finding != NULL, NULL);

  g_atomic_ref_count_inc (&finding->refs);
  return finding;
}

void
rw_finding_unref (RwFinding *finding)
{
  g_return_if_fail (finding != NULL);

  if (!g_atomic_ref_count_dec (&finding->refs))
    return;
  for (guint i = 0; i < N_LISTS; i++)
    if (((RwGrowing *) finding)->capacity[i] > 0)
      g_strfreev (*list_of (finding, i));
  g_free (finding->message);
  g_free (finding);
}

/**
 * rw_finding_speaks_of_same: whether @a and @b are of one rule, about the same things, whatever they say of them.
 */
gboolean
rw_finding_speaks_of_same (const RwFinding *a, const RwFinding *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  if (a->rule != b->rule)
    return FALSE;
  for (guint i = 0; i < N_LISTS; i++)
    if (!g_strv_equal ((const char *const *) *list_of ((RwFinding *) a, i),
                       (const char *const *) *list_of ((RwFinding *) b, i)))
      return FALSE;
  return TRUE;
}

/**
 * rw_finding_equal: whether @a and @b are the same finding: they speak of the same, with one severity.
 * The message does not count: a device that was renamed keeps its finding.
 */
gboolean
rw_finding_equal (const RwFinding *a, const RwFinding *b)
{
  return rw_finding_speaks_of_same (a, b) && a->severity == b->severity;
}

/**
 * rw_finding_hash: agrees with rw_finding_equal() and rw_finding_speaks_of_same().
 */
guint
rw_finding_hash (gconstpointer key)
{
  RwFinding *finding = (RwFinding *) key;
  guint hash = g_direct_hash (finding->rule);

  for (guint i = 0; i < N_LISTS; i++)
    for (char **text = *list_of (finding, i); *text != NULL; text++)
      hash = hash * 31 + g_str_hash (*text);
  return hash;
}

/* Ids are unique over a rig, but names of ports are not: a port is its device and its name. */
static char *
subject_at (char **texts, guint list, guint i)
{
  return list == LIST_PORTS ? g_strdup_printf ("%s\n%s", texts[i], texts[i + 1]) : g_strdup (texts[i]);
}

/*< private >
 * rw_finding_add_subjects: adds to the set @subjects, which owns its strings, all that @finding names.
 */
void
rw_finding_add_subjects (const RwFinding *finding, GHashTable *subjects)
{
  for (guint list = 0; list < N_LISTS; list++)
    {
      char **texts = *list_of ((RwFinding *) finding, list);

      for (guint i = 0; texts[i] != NULL; i += list == LIST_PORTS ? 2 : 1)
        g_hash_table_add (subjects, subject_at (texts, list, i));
    }
}

/*< private >
 * rw_finding_is_within: whether all that @finding names is in the set @subjects.
 */
gboolean
rw_finding_is_within (const RwFinding *finding, GHashTable *subjects)
{
  for (guint list = 0; list < N_LISTS; list++)
    {
      char **texts = *list_of ((RwFinding *) finding, list);

      for (guint i = 0; texts[i] != NULL; i += list == LIST_PORTS ? 2 : 1)
        {
          g_autofree char *subject = subject_at (texts, list, i);

          if (!g_hash_table_contains (subjects, subject))
            return FALSE;
        }
    }
  return TRUE;
}

void
rw_finding_add_device (RwFinding *finding, const char *id)
{
  g_return_if_fail (finding != NULL && id != NULL);

  append (finding, LIST_DEVICES, id);
}

void
rw_finding_add_port (RwFinding *finding, const char *device, const char *port)
{
  g_return_if_fail (finding != NULL && device != NULL && port != NULL);

  append (finding, LIST_PORTS, device);
  append (finding, LIST_PORTS, port);
}

void
rw_finding_add_cable (RwFinding *finding, const char *id)
{
  g_return_if_fail (finding != NULL && id != NULL);

  append (finding, LIST_CABLES, id);
}

void
rw_finding_add_row (RwFinding *finding, const char *id)
{
  g_return_if_fail (finding != NULL && id != NULL);

  append (finding, LIST_ROWS, id);
}

void
rw_finding_add_channel (RwFinding *finding, const char *key)
{
  g_return_if_fail (finding != NULL && key != NULL);

  append (finding, LIST_CHANNELS, key);
}

void
rw_finding_set_message (RwFinding *finding, const char *format, ...)
{
  va_list args;

  g_return_if_fail (finding != NULL && format != NULL);

  va_start (args, format);
  g_free (finding->message);
  finding->message = g_strdup_vprintf (format, args);
  va_end (args);
}

/**
 * rw_finding_take_message: as rw_finding_set_message(), for a text that is ready.
 * @message: (transfer full)
 */
void
rw_finding_take_message (RwFinding *finding, char *message)
{
  g_return_if_fail (finding != NULL && message != NULL);

  g_free (finding->message);
  finding->message = message;
}
