/* SPDX-License-Identifier: MIT */
#include "random-net.h"

typedef struct
{
  guint device;
  char *name;
} Port;

typedef struct
{
  GRand *rand;
  const RandomNet *shape;
  GString *text;
  GArray *ports; /* of Port: those that can still be plugged into, then the taken ones */
  guint n_free;
} Maker;

static gboolean
chance (Maker *maker, double share)
{
  return g_rand_double (maker->rand) < share;
}

static void
add_port (Maker *maker, guint device, char *name)
{
  Port port = { device, name };

  g_array_append_val (maker->ports, port);
}

/* Nothing, " p2=10" or " p2=[1,20]". */
static void
write_vlans (Maker *maker, guint port)
{
  static const int vlans[] = { 10, 1, 20, 30 };
  guint n = maker->shape->n_vlans;
  gboolean trunk = chance (maker, 0.6);
  const char *comma = "";
  guint first;

  g_assert (n <= G_N_ELEMENTS (vlans));
  if (n == 0 || chance (maker, 0.3))
    return;
  first = g_rand_int_range (maker->rand, 0, n);
  g_string_append_printf (maker->text, trunk ? " p%u=[" : " p%u=", port);
  for (guint i = 0; i < n; i++)
    if (i == first || (trunk && chance (maker, 0.5)))
      {
        g_string_append_printf (maker->text, "%s%d", comma, vlans[i]);
        comma = ",";
      }
  g_string_append (maker->text, trunk ? "]" : "");
}

static void
add_forwarder (Maker *maker, guint d, gboolean is_switch)
{
  guint n = is_switch ? g_rand_int_range (maker->rand, 1, 8) : chance (maker, 0.8) ? 2 : 3;

  g_string_append_printf (maker->text, "%s D%u ports=%u", is_switch ? "switch" : "converter", d, n);
  if (is_switch && chance (maker, maker->shape->stp))
    g_string_append (maker->text, " stp");
  for (guint i = 1; i <= n; i++)
    {
      if (is_switch)
        write_vlans (maker, i);
      add_port (maker, d, g_strdup_printf ("p%u", i));
    }
}

static void
add_end_device (Maker *maker, guint d)
{
  static const char *const kinds[] = { "console", "rack", "speaker", "computer" };
  guint kind = g_rand_int_range (maker->rand, 0, G_N_ELEMENTS (kinds));

  g_string_append_printf (maker->text, "%s D%u", kinds[kind], d);
  add_port (maker, d, g_strdup ("primary"));
  if (kind == 3)
    return;
  add_port (maker, d, g_strdup ("secondary"));
  if (maker->shape->untidy)
    add_port (maker, d, g_strdup ("aux"));
  if (chance (maker, maker->shape->redundant))
    g_string_append (maker->text, " mode=redundant");
  else if (chance (maker, 0.15))
    g_string_append (maker->text, " mode=single");
}

static Port *
take_port (Maker *maker)
{
  gboolean taken = maker->n_free == 0 || (maker->shape->untidy && chance (maker, 0.08));
  Port *ports = (Port *) maker->ports->data;
  guint i;

  if (taken)
    return &ports[g_rand_int_range (maker->rand, 0, maker->ports->len)];
  i = g_rand_int_range (maker->rand, 0, maker->n_free--);
  if (i != maker->n_free)
    {
      Port port = ports[i];

      ports[i] = ports[maker->n_free];
      ports[maker->n_free] = port;
    }
  return &ports[maker->n_free];
}

static void
add_cables (Maker *maker, guint n)
{
  maker->n_free = maker->ports->len;
  for (guint i = 0; i < n && (maker->n_free >= 2 || maker->shape->untidy); i++)
    {
      Port a = *take_port (maker), b = *take_port (maker);

      g_string_append_printf (maker->text, "D%u.%s-D%u.%s\n", a.device, a.name, b.device, b.name);
    }
}

/**
 * random_net_text: a rig of chance as rw_test_rig() reads it; devices D0, D1, …
 */
char *
random_net_text (GRand *rand, const RandomNet *shape)
{
  Maker maker = { rand, shape, g_string_new (NULL), g_array_new (FALSE, FALSE, sizeof (Port)), 0 };
  guint n = g_rand_int_range (rand, 1, shape->max_devices + 1);

  for (guint d = 0; d < n; d++)
    {
      if (chance (&maker, shape->switches))
        add_forwarder (&maker, d, TRUE);
      else if (chance (&maker, 0.15))
        add_forwarder (&maker, d, FALSE);
      else
        add_end_device (&maker, d);
      g_string_append_c (maker.text, '\n');
    }
  add_cables (&maker, n * shape->cables_per_device * 2 * g_rand_double (rand));
  for (guint i = 0; i < maker.ports->len; i++)
    g_free (g_array_index (maker.ports, Port, i).name);
  g_array_unref (maker.ports);
  return g_string_free (maker.text, FALSE);
}
