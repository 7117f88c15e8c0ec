/* SPDX-License-Identifier: MIT */
#include "rw-finding-list.h"

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
  gboolean same = rw_finding_equal (row->finding, finding);

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

struct _RwFindingList
{
  GObject parent_instance;
  GPtrArray *rows;
};

static GType
list_item_type (GListModel *model)
{
  return RW_TYPE_FINDING_ROW;
}

static guint
list_n_items (GListModel *model)
{
  return RW_FINDING_LIST (model)->rows->len;
}

static gpointer
list_item (GListModel *model, guint position)
{
  GPtrArray *rows = RW_FINDING_LIST (model)->rows;

  return position < rows->len ? g_object_ref (g_ptr_array_index (rows, position)) : NULL;
}

static void
list_interface_init (GListModelInterface *iface)
{
  iface->get_item_type = list_item_type;
  iface->get_n_items = list_n_items;
  iface->get_item = list_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (RwFindingList, rw_finding_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_interface_init))

RwFindingList *
rw_finding_list_new (void)
{
  return g_object_new (RW_TYPE_FINDING_LIST, NULL);
}

/* Same rule, same subjects. */
static gboolean
speaks_of_same (const RwFinding *a, const RwFinding *b)
{
  return a->rule == b->rule
    && g_strv_equal ((const char *const *) a->devices, (const char *const *) b->devices)
    && g_strv_equal ((const char *const *) a->ports, (const char *const *) b->ports)
    && g_strv_equal ((const char *const *) a->cables, (const char *const *) b->cables)
    && g_strv_equal ((const char *const *) a->rows, (const char *const *) b->rows)
    && g_strv_equal ((const char *const *) a->channels, (const char *const *) b->channels);
}

static RwFindingRow *
take_row (GPtrArray *old, RwFinding *finding)
{
  for (guint i = 0; i < old->len; i++)
    {
      RwFindingRow *row = g_ptr_array_index (old, i);
      if (speaks_of_same (row->finding, finding))
        return g_ptr_array_steal_index (old, i);
    }
  return NULL;
}

/* The first and last rows that are the same objects before and after need not be told of. */
static void
tell (RwFindingList *list, GPtrArray *before)
{
  GPtrArray *after = list->rows;
  guint head = 0, tail = 0, least = MIN (before->len, after->len);

  while (head < least && before->pdata[head] == after->pdata[head])
    head++;
  while (tail < least - head
         && before->pdata[before->len - 1 - tail] == after->pdata[after->len - 1 - tail])
    tail++;
  if (before->len - head - tail > 0 || after->len - head - tail > 0)
    g_list_model_items_changed (G_LIST_MODEL (list), head, before->len - head - tail,
                                after->len - head - tail);
}

static gpointer
ref_row (gconstpointer row, gpointer user_data)
{
  return g_object_ref ((gpointer) row);
}

/* Shows @findings; rows of findings that stay are kept. */
void
rw_finding_list_update (RwFindingList *list, const RwFindings *findings)
{
  g_autoptr (GPtrArray) before = NULL;
  g_autoptr (GPtrArray) pool = NULL;

  g_return_if_fail (RW_IS_FINDING_LIST (list));
  before = g_steal_pointer (&list->rows);
  pool = g_ptr_array_copy (before, ref_row, NULL);
  g_ptr_array_set_free_func (pool, g_object_unref);
  list->rows = g_ptr_array_new_with_free_func (g_object_unref);
  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      RwFinding *finding = rw_findings_get (findings, i);
      RwFindingRow *row = take_row (pool, finding);
      if (row == NULL)
        row = row_new (finding, i + 1);
      row_set_number (row, i + 1);
      row_set_finding (row, finding);
      g_ptr_array_add (list->rows, row);
    }
  tell (list, before);
}

RwFindingRow *
rw_finding_list_get (RwFindingList *list, guint index)
{
  g_return_val_if_fail (RW_IS_FINDING_LIST (list), NULL);
  return index < list->rows->len ? g_ptr_array_index (list->rows, index) : NULL;
}

guint
rw_finding_list_n (RwFindingList *list)
{
  g_return_val_if_fail (RW_IS_FINDING_LIST (list), 0);
  return list->rows->len;
}

static void
rw_finding_list_finalize (GObject *object)
{
  g_ptr_array_unref (RW_FINDING_LIST (object)->rows);
  G_OBJECT_CLASS (rw_finding_list_parent_class)->finalize (object);
}

static void
rw_finding_list_class_init (RwFindingListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_finding_list_finalize;
}

static void
rw_finding_list_init (RwFindingList *list)
{
  list->rows = g_ptr_array_new_with_free_func (g_object_unref);
}
