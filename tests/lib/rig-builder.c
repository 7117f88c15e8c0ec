/* SPDX-License-Identifier: MIT */
#include "rig-builder.h"

#include <string.h>

typedef struct
{
  const char *word;
  RwPartKind kind;
  guint n_ports; /* of a kind with network ports */
  int sends, receives, preamps;
  gboolean secondary;
} Kind;

static const Kind kinds[] = {
  { "console", RW_PART_CONTROLLER, 0, 64, 64, 0, TRUE },
  { "rack", RW_PART_RACK, 0, 16, 8, 16, TRUE },
  { "speaker", RW_PART_ENDPOINT, 0, 0, 2, 0, TRUE },
  { "computer", RW_PART_ENDPOINT, 0, 32, 32, 0, FALSE },
  { "switch", RW_PART_SWITCH, 8, 0, 0, 0, FALSE },
  { "converter", RW_PART_CONVERTER, 2, 0, 0, 0, FALSE },
};

/* What of a device's options describes its part. */
typedef struct
{
  const Kind *kind;
  guint n_ports;
  int speed;
  RwMedium medium;
  gboolean stp;
} Shape;

static const Kind *
find_kind (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (g_str_equal (kinds[i].word, word))
      return &kinds[i];
  return NULL;
}

static void
set_port (RwPart *part, guint index, const Shape *shape, char *name, RwSide side)
{
  RwPort *port = (RwPort *) part->ports.items + index;

  rw_record_init (port, &rw_port_table);
  g_free (port->name);
  port->name = name;
  port->side = side;
  port->medium = shape->medium;
  port->speed_mbps = shape->speed;
}

static void
set_ports (RwPart *part, const Shape *shape)
{
  guint n = 0;

  part->ports.n = shape->n_ports > 0 ? shape->n_ports : shape->kind->secondary ? 3 : 1;
  part->ports.items = g_new0 (RwPort, part->ports.n);
  for (guint i = 0; i < shape->n_ports; i++)
    set_port (part, i, shape, g_strdup_printf ("p%u", i + 1), RW_SIDE_NETWORK);
  if (shape->n_ports > 0)
    return;
  set_port (part, n++, shape, g_strdup ("primary"), RW_SIDE_PRIMARY);
  if (!shape->kind->secondary)
    return;
  set_port (part, n++, shape, g_strdup ("secondary"), RW_SIDE_SECONDARY);
  set_port (part, n++, shape, g_strdup ("aux"), RW_SIDE_AUX);
}

static void
append (RwRig *rig, gpointer item)
{
  GError *error = NULL;

  rw_item_seal (item);
  if (!rw_rig_append (rig, item, &error)
      || !rw_rig_check_item (rig, item, NULL, &error))
    g_error ("test rig: %s", error->message);
  rw_item_unref (item);
}

/* Id of the part of that shape, which is put into @rig where it is new. Returns: (transfer full) */
static char *
part_of_shape (RwRig *rig, const Shape *shape)
{
  char *id = g_strdup_printf ("%s-%u-%d-%d%s", shape->kind->word, shape->n_ports, shape->speed,
                              shape->medium, shape->stp ? "-stp" : "");
  RwPart *part;

  if (rw_rig_part (rig, id) != NULL)
    return id;
  part = rw_item_new (RW_ITEM_PART);
  part->item.key = g_strdup (id);
  part->name = g_strdup (shape->kind->word);
  part->kind = shape->kind->kind;
  part->sends = shape->kind->sends;
  part->receives = shape->kind->receives;
  part->preamps = shape->kind->preamps;
  part->spanning_tree = shape->stp;
  set_ports (part, shape);
  append (rig, part);
  return id;
}

static gboolean
set_shape (Shape *shape, const char *name, const char *value)
{
  if (g_str_equal (name, "stp"))
    shape->stp = TRUE;
  else if (g_str_equal (name, "ports"))
    shape->n_ports = atoi (value);
  else if (g_str_equal (name, "speed"))
    shape->speed = atoi (value);
  else if (g_str_equal (name, "medium"))
    shape->medium = rw_field_find_word (&rw_port_table.fields[RW_PORT_MEDIUM], value, -1);
  else
    return FALSE;
  return TRUE;
}

static void
add_vlans (RwDevice *device, const char *port, const char *value)
{
  RwVlans *all = &device->port_vlans;
  RwPortVlans *vlans;
  g_auto (GStrv) numbers = NULL;

  all->ports = g_renew (RwPortVlans, all->ports, all->n + 1);
  vlans = &all->ports[all->n++];
  vlans->tagged = *value == '[';
  numbers = g_strsplit (value + vlans->tagged, ",", -1);
  vlans->port = g_strdup (port);
  vlans->n = g_strv_length (numbers);
  vlans->vlans = g_new (int, vlans->n);
  for (guint i = 0; i < vlans->n; i++)
    vlans->vlans[i] = atoi (numbers[i]);
}

/* "[40,60]" and "[[1,2],[3,4]]", as a rig file has them: of a field that a person does not type. */
static GVariant *
points_parse (const RwField *field, const char *value, GError **error)
{
  gboolean several = field->kind == RW_FIELD_POINTS;
  g_autofree char *text = g_strdup (value);

  for (guint i = several, last = strlen (text); i + several < last; i++)
    if (text[i] == '[' || text[i] == ']')
      text[i] = text[i] == '[' ? '(' : ')';
  return g_variant_parse (several ? G_VARIANT_TYPE ("a(dd)") : G_VARIANT_TYPE ("(dd)"), text, NULL, NULL, error);
}

static GVariant *
value_parse (const RwField *field, const char *value, GError **error)
{
  if (field->kind == RW_FIELD_POINT || field->kind == RW_FIELD_POINTS)
    return points_parse (field, value, error);
  return rw_field_parse (field, value, error);
}

static void
set_member (gpointer item, const char *name, const char *value)
{
  const RwTable *table = rw_item_table (item);
  int index = rw_table_find (table, name, -1, 0);
  GError *error = NULL;
  g_autoptr (GVariant) variant = NULL;

  if (index < 0)
    g_error ("test rig: a %s has no “%s”", table->name, name);
  variant = value_parse (&table->fields[index], value, &error);
  if (variant == NULL || !rw_record_set (item, table, index, variant, &error))
    g_error ("test rig: %s=%s: %s", name, value, error->message);
}

static gboolean
is_port_number (const char *name)
{
  return *name == 'p' && g_ascii_isdigit (name[1]);
}

static void
set_option (RwDevice *device, Shape *shape, char *option)
{
  char *value = strchr (option, '=');

  if (value != NULL)
    *value++ = '\0';
  if (set_shape (shape, option, value))
    return;
  if (value == NULL)
    g_error ("test rig: “%s” needs a value", option);
  if (is_port_number (option))
    add_vlans (device, option, value);
  else if (g_str_equal (option, "id"))
    set_member (device, "unit_id", value);
  else if (g_str_equal (option, "ctrl"))
    set_member (device, "controller_id", value);
  else
    set_member (device, option, value);
}

static void
add_device (RwRig *rig, const Kind *kind, char **words)
{
  RwDevice *device = rw_item_new (RW_ITEM_DEVICE);
  Shape shape = { kind, kind->n_ports, 1000, RW_MEDIUM_COPPER, FALSE };

  if (words[0] == NULL)
    g_error ("test rig: a %s needs an id", kind->word);
  device->item.key = g_strdup (words[0]);
  for (char **option = words + 1; *option != NULL; option++)
    set_option (device, &shape, *option);
  device->part = part_of_shape (rig, &shape);
  append (rig, device);
}

static void
set_end (RwEnd *end, const char *text)
{
  static const char *const shorts[] = { "primary", "secondary", "aux" };
  const char *dot = strrchr (text, '.');

  if (dot == NULL)
    g_error ("test rig: “%s” is no DEVICE.PORT", text);
  end->device = g_strndup (text, dot - text);
  end->port = g_strdup (dot + 1);
  for (guint i = 0; i < G_N_ELEMENTS (shorts); i++)
    if (dot[1] == shorts[i][0] && dot[2] == '\0')
      {
        g_free (end->port);
        end->port = g_strdup (shorts[i]);
      }
}

static void
add_cable (RwRig *rig, char **words)
{
  RwCable *cable = rw_item_new (RW_ITEM_CABLE);
  char *dash = strchr (words[0], '-');

  if (dash == NULL)
    g_error ("test rig: “%s” is neither a kind of device nor a cable", words[0]);
  *dash = '\0';
  set_end (&cable->from, words[0]);
  set_end (&cable->to, dash + 1);
  cable->item.key = g_strdup_printf ("c%u", rw_rig_n (rig, RW_ITEM_CABLE) + 1);
  for (char **option = words + 1; *option != NULL; option++)
    {
      char *value = strchr (*option, '=');

      if (value == NULL)
        g_error ("test rig: “%s” needs a value", *option);
      *value++ = '\0';
      if (g_str_equal (*option, "id"))
        {
          g_free (cable->item.key);
          cable->item.key = g_strdup (value);
        }
      else
        set_member (cable, *option, value);
    }
  append (rig, cable);
}

static void
add_statement (RwRig *rig, const char *statement)
{
  GError *error = NULL;
  g_auto (GStrv) words = NULL;
  const Kind *kind;

  if (!g_shell_parse_argv (statement, NULL, &words, &error))
    g_error ("test rig: %s: %s", statement, error->message);
  kind = find_kind (words[0]);
  if (kind != NULL)
    add_device (rig, kind, words + 1);
  else
    add_cable (rig, words);
}

/* Adds what @text says to @rig. */
void
rw_test_rig_add (RwRig *rig, const char *text)
{
  g_auto (GStrv) statements = g_strsplit_set (text, ";\n", -1);

  for (char **s = statements; *s != NULL; s++)
    if (*g_strstrip (*s) != '\0')
      add_statement (rig, *s);
}

/* Returns: (transfer full): the rig that @text describes */
RwRig *
rw_test_rig (const char *text)
{
  RwRig *rig = rw_rig_new ();

  rw_test_rig_add (rig, text);
  return rig;
}

/* A mistake ends the test program. */
void
rw_test_rig_patch (RwRig *rig, const char *from, int first, const char *to, int first_to, int n)
{
  for (int i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("row-%u", rw_rig_n (rig, RW_ITEM_PATCH) + 1);
      g_autoptr (RwItem) row = rw_item_new (RW_ITEM_PATCH);
      g_assert_true (rw_record_set (row, &rw_patch_table, RW_PATCH_ID, g_variant_new_string (id), NULL));
      g_assert_true (rw_record_set (row, &rw_patch_table, RW_PATCH_FROM, g_variant_new ("(si)", from, first + i), NULL));
      g_assert_true (rw_record_set (row, &rw_patch_table, RW_PATCH_TO, g_variant_new ("(si)", to, first_to + i), NULL));
      g_assert_true (rw_rig_append (rig, row, NULL));
    }
}
