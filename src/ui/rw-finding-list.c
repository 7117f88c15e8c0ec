/* SPDX-License-Identifier: MIT */
#include "rw-finding-list.h"

#include "rw-row-store.h"

struct _RwFindingRow
{
  GObject parent_instance;
  RwFinding *finding;
  guint number;
};

enum { PROP_NUMBER = 1, PROP_TEXT, N_PROPS };
static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (RwFindingRow, rw_finding_row, G_TYPE_OBJECT)

RwFinding *
rw_finding_row_get_finding (RwFindingRow *row)
{
  g_return_val_if_fail (RW_IS_FINDING_ROW (row), NULL);
  return row->finding;
}

guint
rw_finding_row_get_number (RwFindingRow *row)
{
  g_return_val_if_fail (RW_IS_FINDING_ROW (row), 0);
  return row->number;
}

static RwFindingRow *
row_new (RwFinding *finding, guint number)
{
  RwFindingRow *row = g_object_new (RW_TYPE_FINDING_ROW, NULL);

  row->finding = rw_finding_ref (finding);
  row->number = number;
  return row;
}

static void
row_set_number (RwFindingRow *row, guint number)
{
  if (row->number == number)
    return;
  row->number = number;
  g_object_notify_by_pspec (G_OBJECT (row), props[PROP_NUMBER]);
}

/* The same finding in other words, as while a name is typed. */
static void
row_set_finding (RwFindingRow *row, RwFinding *finding)
{
  gboolean same = rw_finding_equal (row->finding, finding) && g_str_equal (row->finding->message, finding->message);

  rw_finding_ref (finding);
  rw_finding_unref (row->finding);
  row->finding = finding;
  if (!same)
    g_object_notify_by_pspec (G_OBJECT (row), props[PROP_TEXT]);
}

static void
rw_finding_row_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_NUMBER)
    g_value_set_uint (value, RW_FINDING_ROW (object)->number);
  else if (id == PROP_TEXT)
    g_value_set_string (value, RW_FINDING_ROW (object)->finding->message);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
rw_finding_row_finalize (GObject *object)
{
  rw_finding_unref (RW_FINDING_ROW (object)->finding);
  G_OBJECT_CLASS (rw_finding_row_parent_class)->finalize (object);
}

static void
rw_finding_row_class_init (RwFindingRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->finalize = rw_finding_row_finalize;
  object_class->get_property = rw_finding_row_get_property;
  props[PROP_NUMBER] = g_param_spec_uint ("number", NULL, NULL, 0, G_MAXUINT, 0,
                                          G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_TEXT] = g_param_spec_string ("text", NULL, NULL, NULL,
                                          G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
rw_finding_row_init (RwFindingRow *row)
{
}

static void
queue_free (gpointer queue)
{
  g_queue_free_full (queue, g_object_unref);
}

/* The rows of @list by what they speak of, those of the same in their order: there may be as many as a great rig has things. */
static GHashTable *
rows_by_subject (GListStore *list)
{
  g_autoptr (GPtrArray) rows = rw_row_store_rows (list);
  GHashTable *pool = g_hash_table_new_full (rw_finding_hash, (GEqualFunc) rw_finding_speaks_of_same,
                                            (GDestroyNotify) rw_finding_unref, queue_free);

  for (guint i = 0; i < rows->len; i++)
    {
      RwFindingRow *row = g_ptr_array_index (rows, i);
      GQueue *queue = g_hash_table_lookup (pool, row->finding);

      if (queue == NULL)
        {
          queue = g_queue_new ();
          g_hash_table_insert (pool, rw_finding_ref (row->finding), queue);
        }
      g_queue_push_tail (queue, g_object_ref (row));
    }
  return pool;
}

/* (transfer full) (nullable) */
static RwFindingRow *
take_row (GHashTable *pool, const RwFinding *finding)
{
  GQueue *queue = g_hash_table_lookup (pool, finding);

  return queue != NULL ? g_queue_pop_head (queue) : NULL;
}

GListStore *
rw_finding_list_new (void)
{
  return g_list_store_new (RW_TYPE_FINDING_ROW);
}

void
rw_finding_list_update (GListStore *list, const RwFindings *findings)
{
  g_autoptr (GHashTable) pool = NULL;
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (g_object_unref);

  g_return_if_fail (G_IS_LIST_STORE (list));
  pool = rows_by_subject (list);
  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      RwFinding *finding = rw_findings_get (findings, i);
      RwFindingRow *row = take_row (pool, finding);
      if (row == NULL)
        row = row_new (finding, i + 1);
      row_set_number (row, i + 1);
      row_set_finding (row, finding);
      g_ptr_array_add (rows, row);
    }
  rw_row_store_show (list, rows);
}

/* A hand that holds a cable cannot scroll: more than this would not be seen. */
#define WOULD_BE_SHOWN 4

void
rw_finding_list_show_would_be (GListStore *list, const GPtrArray *brought)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (g_object_unref);

  g_return_if_fail (G_IS_LIST_STORE (list));
  for (guint i = 0; brought != NULL && i < MIN (brought->len, WOULD_BE_SHOWN); i++)
    g_ptr_array_add (rows, row_new (g_ptr_array_index (brought, i), 0));
  if (rows->len > 0 || g_list_model_get_n_items (G_LIST_MODEL (list)) > 0)
    g_list_store_splice (list, 0, g_list_model_get_n_items (G_LIST_MODEL (list)), rows->pdata, rows->len);
}
