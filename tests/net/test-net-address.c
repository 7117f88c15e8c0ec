/* SPDX-License-Identifier: MIT */
/* IPv4 addresses as people write them, and the ranges of RFC 3927. */
#include <net/rw-address.h>

typedef struct { const char *text; gboolean good; guint32 address; guint prefix; } Case;

static const Case cases[] = {
  { "10.0.0.5/24", TRUE, 0x0a000005, 24 },
  { "10.0.0.5", TRUE, 0x0a000005, 0 },
  { "0.0.0.0/1", TRUE, 0, 1 },
  { "0.0.0.0/0", FALSE, 0, 0 },
  { "255.255.255.255/32", TRUE, 0xffffffff, 32 },
  { "169.254.1.0/16", TRUE, 0xa9fe0100, 16 },
  { "", FALSE, 0, 0 },
  { "10.0.0", FALSE, 0, 0 },
  { "10.0.0.256", FALSE, 0, 0 },
  { "10.0.0.5/33", FALSE, 0, 0 },
  { "10.0.0.5/", FALSE, 0, 0 },
  { "10.0.0. 5", FALSE, 0, 0 },
  { "10.0.0.05", FALSE, 0, 0 },
  { "10.0.0.0005", FALSE, 0, 0 },
  { "10.0.0.-1", FALSE, 0, 0 },
  { "10.0.0.5.6", FALSE, 0, 0 },
  { "fe80::1", FALSE, 0, 0 },
  { "ask Ines", FALSE, 0, 0 },
};

static void
test_parse (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      RwAddress address;
      g_autofree char *back = NULL;

      g_assert_true (rw_address_parse (cases[i].text, &address) == cases[i].good);
      if (!cases[i].good)
        continue;
      g_assert_cmpuint (address.host, ==, cases[i].address);
      g_assert_cmpuint (address.prefix, ==, cases[i].prefix);
      back = rw_address_format (address);
      g_assert_cmpstr (back, ==, cases[i].text);
    }
}

static void
test_mask (void)
{
  g_assert_cmphex (rw_address_mask (0), ==, 0);
  g_assert_cmphex (rw_address_mask (8), ==, 0xff000000);
  g_assert_cmphex (rw_address_mask (24), ==, 0xffffff00);
  g_assert_cmphex (rw_address_mask (32), ==, 0xffffffff);
}

/* RFC 3927 2.1: hosts choose from 169.254.1.0 to 169.254.254.255; what is below and above in 169.254/16 is reserved. */
static void
test_link_local (void)
{
  static const struct { const char *text; gboolean local, reserved; } ranges[] = {
    { "169.253.255.255", FALSE, FALSE }, { "169.254.0.0", TRUE, TRUE },      { "169.254.0.255", TRUE, TRUE },
    { "169.254.1.0", TRUE, FALSE },      { "169.254.254.255", TRUE, FALSE }, { "169.254.255.0", TRUE, TRUE },
    { "169.254.255.255", TRUE, TRUE },   { "169.255.0.0", FALSE, FALSE },    { "192.168.254.1", FALSE, FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (ranges); i++)
    {
      RwAddress address;

      g_assert_true (rw_address_parse (ranges[i].text, &address));
      g_assert_true (rw_address_is_link_local (address) == ranges[i].local);
      g_assert_true (rw_address_is_reserved (address) == ranges[i].reserved);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/address/parse", test_parse);
  g_test_add_func ("/net/address/mask", test_mask);
  g_test_add_func ("/net/address/link-local", test_link_local);
  return g_test_run ();
}
