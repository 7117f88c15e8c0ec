/* SPDX-License-Identifier: MIT */
/* What the choices of stock show can be read back, whatever the language writes before its decimals. */
#include <locale.h>
#include <rig/rw-length.h>
#include <stdlib.h>
#include <ui/rw-stock-choices.h>

static void
ignore (gpointer user_data)
{
}

static void
test_read_back (void)
{
  static const char kept[] = "copper:0.5,2.5908x2,15.24x4";
  RwSettings *settings = rw_settings_load (NULL);

  rw_settings_set_string (settings, "papers-stock", kept);
  for (RwUnits units = 0; units < RW_N_UNITS; units++)
    {
      RwStockChoices *choices;
      g_autoptr (RwStock) stock = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;

      rw_length_set_units (units);
      choices = rw_stock_choices_new (settings, ignore, NULL);
      stock = rw_stock_choices_get (choices, &error);
      g_assert_no_error (error);
      text = rw_stock_text (stock);
      g_assert_cmpstr (text, ==, kept);
      rw_stock_choices_free (choices);
    }
  rw_length_set_units (RW_UNITS_METRES);
  rw_settings_free (settings);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  setlocale (LC_ALL, "");
  /* The language that was asked for is there. */
  if (g_strcmp0 (g_getenv ("RIGWRIGHT_TEST_LANGUAGE"), "de") == 0)
    g_assert_cmpfloat (strtod ("0,5", NULL), ==, 0.5);
  g_test_add_func ("/stock-choices/read-back", test_read_back);
  return g_test_run ();
}
