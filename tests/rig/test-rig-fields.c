/* SPDX-License-Identifier: MIT */
#include <rig/rw-length.h>
#include <math.h>
#include <rig/rw-error.h>
#include <rig/rw-rig.h>
#include <rig/rw-state.h>

/* Some value that the field may hold and that is not its default. */
static GVariant *
some_value (const RwField *field)
{
  const char *word = field->words != NULL ? field->words[field->has_def && field->def == 0 ? 1 : 0] : NULL;
  double number = field->allowed != NULL ? field->allowed[field->def == field->allowed[1] ? 0 : 1] : field->step > 1 ? field->step : field->min > 0 ? field->min : 1;
  GVariantBuilder dict, list;

  switch (field->kind)
    {
    case RW_FIELD_ID:
      return g_variant_new_string ("some-id");
    case RW_FIELD_TEXT:
      return g_variant_new_string ("Zoë’s “text”");
    case RW_FIELD_INTEGER:
      return g_variant_new_int32 ((int) number);
    case RW_FIELD_REAL:
      return g_variant_new_double (number / 2);
    case RW_FIELD_BOOLEAN:
      return g_variant_new_boolean (field->def == 0);
    case RW_FIELD_WORD:
      return g_variant_new_string (word);
    case RW_FIELD_POINT:
      return g_variant_new ("(dd)", 1.5, -2.0);
    case RW_FIELD_POINTS:
      return g_variant_new_parsed ("[(1.0, 2.0), (3.5, -4.0)]");
    case RW_FIELD_END:
      return g_variant_new ("(ss)", "device", "port");
    case RW_FIELD_SLOT:
      return g_variant_new ("(si)", "device", -7);
    case RW_FIELD_PLACE:
      return g_variant_new ("(si)", word, 3);
    case RW_FIELD_RECORD:
    case RW_FIELD_RECORDS:
      g_variant_builder_init (&dict, G_VARIANT_TYPE_VARDICT);
      for (guint i = 0; i < field->sub->n_fields; i++)
        g_variant_builder_add (&dict, "{sv}", field->sub->fields[i].name, some_value (&field->sub->fields[i]));
      if (field->kind == RW_FIELD_RECORD)
        return g_variant_builder_end (&dict);
      g_variant_builder_init (&list, G_VARIANT_TYPE ("aa{sv}"));
      g_variant_builder_add_value (&list, g_variant_builder_end (&dict));
      return g_variant_builder_end (&list);
    case RW_FIELD_VLANS:
      return g_variant_new_parsed ("{'1': <10>, '2': <[10, 20]>}");
    case RW_FIELD_STATE:
      return g_variant_new_parsed ("{'show': <{'title': <'Then'>}>, 'parts': <[{'id': <'box'>}]>,"
                                   " 'devices': <[{'id': <'some-id'>, 'part': <'box'>}]>, 'cables': <@aa{sv} []>}");
    }
  g_return_val_if_reached (NULL);
}

/* An item with nothing but what its key is made of. */
static RwItem *
bare_item (RwItemType type)
{
  RwItem *item = rw_item_new (type);

  for (guint i = 0; type == RW_ITEM_CHANNEL && i <= RW_CHANNEL_NUMBER; i++)
    g_assert_true (rw_record_set (item, &rw_channel_table, i, some_value (&rw_channel_table.fields[i]), NULL));
  return rw_item_seal (item);
}

static void
check_field (RwItemType type, guint field)
{
  const RwTable *table = rw_item_type_table (type);
  g_autoptr (RwItem) empty = bare_item (type);
  g_autoptr (GVariant) value = g_variant_ref_sink (some_value (&table->fields[field]));
  g_autoptr (GVariant) back = NULL;
  g_autoptr (GVariant) absent = rw_item_get (empty, field);
  g_autoptr (GError) error = NULL;
  g_autoptr (RwItem) changed = rw_item_with (empty, field, value, &error);
  g_autoptr (RwItem) copy = NULL;
  g_autoptr (RwItem) cleared = NULL;

  g_assert_no_error (error);
  g_assert_null (absent);
  g_assert_true (rw_record_is_default (empty, table, field));
  back = rw_item_get (changed, field);
  g_assert_nonnull (back);
  g_assert_cmpvariant (back, value);
  g_assert_false (rw_record_is_default (changed, table, field));
  g_assert_false (rw_item_equal (empty, changed));
  copy = rw_item_seal (rw_item_dup (changed));
  g_assert_true (rw_item_equal (copy, changed));
  cleared = rw_item_with (changed, field, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (rw_item_equal (cleared, empty));
}

static void
test_every_field (gconstpointer data)
{
  RwItemType type = (RwItemType) GPOINTER_TO_UINT (data);
  const RwTable *table = rw_item_type_table (type);

  g_assert_cmpuint (table->n_fields, >, 0);
  g_assert_cmpuint (table->n_fields, <=, 64);
  for (guint i = 0; i < table->n_fields; i++)
    {
      if (type == RW_ITEM_CHANNEL && i <= RW_CHANNEL_NUMBER)
        continue;
      check_field (type, i);
    }
}

static void
check_words (const RwTable *table)
{
  for (guint i = 0; i < table->n_fields; i++)
    {
      const RwField *f = &table->fields[i];
      g_assert_nonnull (f->name);
      g_assert_nonnull (f->label);
      g_assert_nonnull (f->help);
      g_assert_cmpint (rw_table_find (table, f->name, -1, 17), ==, i);
      if (f->kind == RW_FIELD_WORD || f->kind == RW_FIELD_PLACE)
        {
          g_assert_nonnull (f->words);
          g_assert_cmpuint (g_strv_length ((char **) f->words), ==, g_strv_length ((char **) f->word_labels));
        }
      if (f->sub != NULL)
        check_words (f->sub);
    }
}

static void
test_tables_are_whole (void)
{
  for (guint t = 0; t < RW_N_ITEM_TYPES; t++)
    check_words (rw_item_type_table (t));
  g_assert_cmpint (rw_table_find (&rw_device_table, "nam", 3, 0), ==, -1);
  g_assert_cmpint (rw_table_find (&rw_device_table, "names", 4, 0), ==, RW_DEVICE_NAME);
}

typedef struct { RwItemType type; guint field; const char *value; int code; } Refusal;

static void
test_refusals (void)
{
  /* the ranges that the file format names, just outside each */
  static const Refusal refusals[] = {
    { RW_ITEM_SYSTEM, RW_SYSTEM_SAMPLE_RATE_HZ, "44101", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SYSTEM, RW_SYSTEM_WORD_BITS, "20", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SYSTEM, RW_SYSTEM_PACKET_TIME_US, "500", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SYSTEM, RW_SYSTEM_RECEIVE_LATENCY_US, "0", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SYSTEM, RW_SYSTEM_RECEIVE_LATENCY_US, "100001", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SYSTEM, RW_SYSTEM_LINK_CEILING_PERCENT, "101", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SYSTEM, RW_SYSTEM_UNIT_ID_MAX, "1000", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SYSTEM, RW_SYSTEM_CLOCK_DOMAIN, "128", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SYSTEM, RW_SYSTEM_CLOCK_DOMAIN, "'0'", RW_RIG_ERROR_TYPE },
    { RW_ITEM_DEVICE, RW_DEVICE_BRIDGE_PRIORITY, "4097", RW_RIG_ERROR_RANGE },
    { RW_ITEM_DEVICE, RW_DEVICE_BRIDGE_PRIORITY, "65536", RW_RIG_ERROR_RANGE },
    { RW_ITEM_DEVICE, RW_DEVICE_MODE, "'ring'", RW_RIG_ERROR_RANGE },
    { RW_ITEM_DEVICE, RW_DEVICE_ID, "'no blanks'", RW_RIG_ERROR_ID },
    { RW_ITEM_DEVICE, RW_DEVICE_AT, "(100001.0, 0.0)", RW_RIG_ERROR_RANGE },
    { RW_ITEM_DEVICE, RW_DEVICE_PORT_VLANS, "{'1': <4095>}", RW_RIG_ERROR_RANGE },
    { RW_ITEM_DEVICE, RW_DEVICE_PORT_VLANS, "{'1': <[7, 7]>}", RW_RIG_ERROR_RANGE },
    { RW_ITEM_DEVICE, RW_DEVICE_PORT_VLANS, "{'1': <@ai []>}", RW_RIG_ERROR_TYPE },
    { RW_ITEM_DEVICE, RW_DEVICE_CLOCK, "{'priority1': <256>}", RW_RIG_ERROR_RANGE },
    { RW_ITEM_DEVICE, RW_DEVICE_CLOCK, "{'priority3': <1>}", RW_RIG_ERROR_TYPE },
    { RW_ITEM_CABLE, RW_CABLE_LENGTH_M, "-0.5", RW_RIG_ERROR_RANGE },
    { RW_ITEM_CABLE, RW_CABLE_MEDIUM, "'cage'", RW_RIG_ERROR_RANGE },
    { RW_ITEM_CHANNEL, RW_CHANNEL_GAIN_DB, "90.5", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SET, RW_SET_SCOPE, "'some'", RW_RIG_ERROR_RANGE },
    { RW_ITEM_SET, RW_SET_STATE, "{'sets': <@aa{sv} []>}", RW_RIG_ERROR_TYPE },
    { RW_ITEM_REVISION, RW_REVISION_STATE, "{'parts': <@a{sv} {}>}", RW_RIG_ERROR_TYPE },
    { RW_ITEM_REVISION, RW_REVISION_STATE, "{'parts': <[{'name': <'no id'>}]>}", RW_RIG_ERROR_ID },
    { RW_ITEM_REVISION, RW_REVISION_STATE, "{'devices': <[{'id': <'d'>, 'part': <'gone'>}]>}", RW_RIG_ERROR_REFERENCE },
    { RW_ITEM_PART, RW_PART_SENDS, "4097", RW_RIG_ERROR_RANGE },
    { RW_ITEM_PART, RW_PART_FABRIC_NS, "1000001", RW_RIG_ERROR_RANGE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      const Refusal *r = &refusals[i];
      RwItem *item = rw_item_new (r->type);
      g_autoptr (GError) error = NULL;
      gboolean taken = rw_record_set (item, rw_item_type_table (r->type), r->field, g_variant_new_parsed (r->value), &error);
      g_assert_false (taken);
      g_assert_error (error, RW_RIG_ERROR, r->code);
      g_assert_true (g_str_has_prefix (error->message, rw_item_type_table (r->type)->fields[r->field].name));
      g_assert_false (rw_item_has (item, r->field));
      g_assert_true (rw_record_is_default (item, rw_item_type_table (r->type), r->field));
      rw_item_unref (item);
    }
}

static void
test_not_a_number (void)
{
  g_assert_false (rw_field_check_number (&rw_cable_table.fields[RW_CABLE_LENGTH_M], NAN, NULL));
  g_assert_false (rw_field_check_number (&rw_cable_table.fields[RW_CABLE_LENGTH_M], INFINITY, NULL));
}

static void
check_typed (const RwField *field, const char *typed, const char *shown)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GVariant) value = rw_field_parse (field, typed, &error);
  g_autofree char *text = NULL;

  if (shown == NULL)
    {
      g_assert_null (value);
      g_assert_nonnull (error);
      return;
    }
  g_assert_no_error (error);
  text = rw_field_format (field, value);
  g_assert_cmpstr (text, ==, shown);
}

static void
test_typed_text (void)
{
  const RwField *unit = &rw_device_table.fields[RW_DEVICE_UNIT_ID];
  const RwField *length = &rw_cable_table.fields[RW_CABLE_LENGTH_M];
  const RwField *mode = &rw_device_table.fields[RW_DEVICE_MODE];
  const RwField *querier = &rw_device_table.fields[RW_DEVICE_QUERIER];

  check_typed (unit, " 12 ", "12");
  check_typed (unit, "1.5", NULL);
  check_typed (unit, "", NULL);
  check_typed (unit, "4294967296", NULL);
  check_typed (length, "2,5", "2.5");
  check_typed (length, "1e3", "1000");
  check_typed (length, "inf", NULL);
  check_typed (length, "nan", NULL);
  check_typed (length, "-1", NULL);
  check_typed (mode, "redundant", "Redundant");
  check_typed (mode, "Single", "Single");
  check_typed (mode, "other", NULL);
  check_typed (querier, "yes", "yes");
  check_typed (querier, "0", "no");
  check_typed (querier, "maybe", NULL);
}

static void
test_ids (void)
{
  char long_id[66];

  memset (long_id, 'x', sizeof long_id - 1);
  long_id[65] = '\0';
  g_assert_true (rw_id_is_valid ("A-z.0_9", -1));
  g_assert_true (rw_id_is_valid (long_id, 64));
  g_assert_false (rw_id_is_valid (long_id, 65));
  g_assert_false (rw_id_is_valid ("", 0));
  g_assert_false (rw_id_is_valid ("a/b", -1));
  g_assert_false (rw_id_is_valid ("a\0b", 3));
  g_assert_false (rw_id_is_valid ("é", -1));
}

static void
test_what_holds (void)
{
  g_autoptr (RwPart) one_port = rw_item_seal (rw_item_new (RW_ITEM_PART));
  g_autoptr (RwPart) two_ports = rw_item_with (
    one_port, RW_PART_PORTS,
    g_variant_new_parsed ("[{'name': <'A'>, 'side': <'primary'>}, {'name': <'B'>, 'side': <'secondary'>}]"), NULL);
  g_autoptr (RwDevice) device = rw_item_seal (rw_item_new (RW_ITEM_DEVICE));
  g_autoptr (RwCable) copper = rw_item_seal (rw_item_new (RW_ITEM_CABLE));
  g_autoptr (RwCable) fibre = rw_item_with (copper, RW_CABLE_MEDIUM, g_variant_new_string ("multimode"), NULL);

  g_assert_cmpint (rw_device_mode (device, one_port), ==, RW_MODE_SINGLE);
  g_assert_cmpint (rw_device_mode (device, two_ports), ==, RW_MODE_CHAIN);
  g_assert_cmpint (rw_part_find_side (two_ports, RW_SIDE_SECONDARY), ==, 1);
  g_assert_cmpint (rw_cable_grade (copper), ==, RW_GRADE_CAT5E);
  g_assert_cmpint (rw_cable_grade (fibre), ==, RW_GRADE_OM3);
}

/* A foot is 0.3048 m, an inch a twelfth of it (international yard and pound agreement, 1959). */
static void
test_lengths (void)
{
  static const struct { const char *text; double metres; } good[] = {
    { "70", 70 }, { "70 m", 70 }, { " 7,5m ", 7.5 }, { "0", 0 }, { "100 ft", 30.48 }, { "100'", 30.48 }, { "1 in", 0.0254 },
    { "229 ft 8 in", 70.0024 }, { "229' 8\"", 70.0024 }, { "229′8″", 70.0024 }, { "3 feet 6 inches", 1.0668 },
    { "10’ 6”", 3.2004 }, { "10 FT", 3.048 }, { "1 foot 1 inch", 0.3302 }, { "2 metres", 2 }, { "250 cm", 2.5 }, { "1500mm", 1.5 },
    { "10' 11.5\"", 3.3401 }, { "10' 0\"", 3.048 }, { "13\"", 0.3302 },
  };
  static const char *const bad[] = { "", "m", "7 km", "8 in 2 ft", "2 ft 2 ft", "2 m 3 in", "2 ft -3 in", "2 ft 3", "-1", "nan", "1e9 ft",
                                      "3' -2\"", "10' 12\"", "10' 13\"", "3 1/2\"" };
  const RwField *field = &rw_cable_table.fields[RW_CABLE_LENGTH_M];

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autoptr (GVariant) value = rw_field_parse (field, good[i].text, NULL);

      g_assert_nonnull (value);
      g_assert_cmpfloat_with_epsilon (g_variant_get_double (value), good[i].metres, 1e-9);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (rw_field_parse (field, bad[i], &error));
      g_assert_nonnull (error);
    }
}

/* A foot is 0.3048 m exactly (international yard and pound agreement, 1959; NIST SP 811 B.8), an inch a twelfth of it. */
static void
test_shown_lengths (void)
{
  static const struct { double metres; const char *in_metres, *in_feet; } lengths[] = {
    { 0.3048, "0.3048 m", "1′" }, { 30.48, "30.48 m", "100′" }, { 2.5908, "2.5908 m", "8′ 6″" }, { 0.0254, "0.0254 m", "1″" },
    { 12.5, "12.5 m", "41′" }, { 0.2, "0.2 m", "8″" }, { 70, "70 m", "229′ 8″" }, { 0.30, "0.3 m", "1′" }, { 0, "0 m", "0″" },
  };
  RwUnits units;

  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    {
      g_autofree char *metres = rw_length_text (lengths[i].metres), *feet = NULL;

      rw_length_set_units (RW_UNITS_FEET);
      feet = rw_length_text (lengths[i].metres);
      rw_length_set_units (RW_UNITS_METRES);
      g_assert_cmpstr (metres, ==, lengths[i].in_metres);
      g_assert_cmpstr (feet, ==, lengths[i].in_feet);
    }
  g_assert_true (rw_units_find ("ft", &units) && units == RW_UNITS_FEET);
  g_assert_false (rw_units_find ("yd", &units));
}

/* A number alone is of the unit that the person chose, and so are the ends of what can be. */
static void
test_bare_lengths (void)
{
  const RwField *field = &rw_cable_table.fields[RW_CABLE_LENGTH_M];
  g_autoptr (GVariant) value = NULL;
  g_autoptr (GError) error = NULL;
  double metres;

  rw_length_set_units (RW_UNITS_FEET);
  value = rw_field_parse (field, "40", NULL);
  g_assert_null (rw_field_parse (field, "1e9", &error));
  rw_length_set_units (RW_UNITS_METRES);
  g_assert_cmpfloat_with_epsilon (g_variant_get_double (value), 12.192, 1e-9);
  g_assert_cmpstr (error->message, ==, "must be from 0″ to 328084′");
  g_assert_true (rw_length_parse ("40", RW_UNITS_METRES, &metres, NULL) && metres == 40);
}

/* A person is told which of the two was meant: no length, or one that is a slip of the hand. */
static void
test_complaints (void)
{
  static const struct { const char *text; int code; const char *says; } cases[] = {
    { "10' 13\"", RW_RIG_ERROR_RANGE, "must have fewer than 12 inches behind the feet" },
    { "10ft 12in", RW_RIG_ERROR_RANGE, "must have fewer than 12 inches behind the feet" },
    { "3' -2\"", RW_RIG_ERROR_TYPE, "must be a length, such as 70, 70 m, 229 ft 8 in or 229' 8\"" },
    { "-3' 2\"", RW_RIG_ERROR_RANGE, "must be from 0 m to 100000 m" },
    { "1e9", RW_RIG_ERROR_RANGE, "must be from 0 m to 100000 m" },
    { "1e999", RW_RIG_ERROR_RANGE, "must be from 0 m to 100000 m" },
    { "inf", RW_RIG_ERROR_TYPE, "must be a length, such as 70, 70 m, 229 ft 8 in or 229' 8\"" },
  };
  const RwField *unit = &rw_device_table.fields[RW_DEVICE_UNIT_ID];
  g_autoptr (GError) too_long = NULL;
  double metres;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (rw_field_parse (&rw_cable_table.fields[RW_CABLE_LENGTH_M], cases[i].text, &error));
      g_assert_error (error, RW_RIG_ERROR, cases[i].code);
      g_assert_cmpstr (error->message, ==, cases[i].says);
    }
  g_assert_true (rw_length_parse ("-3' 6\"", RW_UNITS_METRES, &metres, NULL));
  g_assert_cmpfloat_with_epsilon (metres, -1.0668, 1e-9);
  g_assert_null (rw_field_parse (unit, "99999999999999999999999", &too_long));
  g_assert_error (too_long, RW_RIG_ERROR, RW_RIG_ERROR_RANGE);
}

/* What is shown is read back, to the inch. */
static void
test_lengths_are_read_back (void)
{
  const RwField *field = &rw_cable_table.fields[RW_CABLE_LENGTH_M];

  rw_length_set_units (RW_UNITS_FEET);
  for (guint inches = 1; inches < 4000; inches += 7)
    {
      g_autoptr (GVariant) value = g_variant_ref_sink (g_variant_new_double (round (inches * 2540) / 1e5)), back = NULL;
      g_autofree char *text = rw_field_format (field, value);

      back = rw_field_parse (field, text, NULL);
      g_assert_nonnull (back);
      g_assert_cmpfloat (fabs (g_variant_get_double (back) - g_variant_get_double (value)), <, 1e-9);
    }
  rw_length_set_units (RW_UNITS_METRES);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint t = 0; t < RW_N_ITEM_TYPES; t++)
    {
      g_autofree char *path = g_strconcat ("/rig/fields/", rw_item_type_member (t), NULL);
      g_test_add_data_func (path, GUINT_TO_POINTER (t), test_every_field);
    }
  g_test_add_func ("/rig/fields/tables-are-whole", test_tables_are_whole);
  g_test_add_func ("/rig/fields/refusals", test_refusals);
  g_test_add_func ("/rig/fields/not-a-number", test_not_a_number);
  g_test_add_func ("/rig/fields/typed-text", test_typed_text);
  g_test_add_func ("/rig/fields/ids", test_ids);
  g_test_add_func ("/rig/fields/what-holds", test_what_holds);
  g_test_add_func ("/rig/fields/lengths", test_lengths);
  g_test_add_func ("/rig/fields/shown-lengths", test_shown_lengths);
  g_test_add_func ("/rig/fields/bare-lengths", test_bare_lengths);
  g_test_add_func ("/rig/fields/complaints", test_complaints);
  g_test_add_func ("/rig/fields/lengths-read-back", test_lengths_are_read_back);
  return g_test_run ();
}
