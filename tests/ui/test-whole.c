/* SPDX-License-Identifier: MIT */
/* The windows that change a whole rig: what they show before, and what is there after. */
#include <file/rw-data-dir.h>
#include <file/rw-file.h>
#include <rig/rw-compare.h>
#include <rig/rw-length.h>
#include <rig/rw-rig-named.h>
#include <string.h>
#include <ui/rw-whole-dialog.h>

#include "rig-builder.h"

#define RIG \
  "console desk ctrl=1 at=[60,60]; rack left at=[130,60]; rack right id=7 at=[200,60]\n" \
  "desk.s-left.p length_m=40 label=A; left.s-right.p length_m=25"

typedef struct
{
  RwDocument *document;
  GtkWindow *parent;
  RwWholeDialog *dialog;
} Asked;

static Asked
ask_about (RwRig *rig, RwWholeKind kind, RwRig *catalogue)
{
  Asked asked = { .document = rw_document_new_for_rig (rig) };

  asked.parent = GTK_WINDOW (gtk_window_new ());
  asked.dialog = RW_WHOLE_DIALOG (rw_whole_dialog_new (asked.parent, asked.document, catalogue, kind));
  gtk_window_present (GTK_WINDOW (asked.dialog));
  return asked;
}

static Asked
ask (RwWholeKind kind, RwRig *catalogue)
{
  g_autoptr (RwRig) rig = rw_test_rig (RIG);

  return ask_about (rig, kind, catalogue);
}

static void
asked_clear (Asked *asked)
{
  gtk_window_destroy (asked->parent);
  g_object_unref (asked->document);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Asked, asked_clear)

static void
test_number (void)
{
  g_auto (Asked) asked = ask (RW_WHOLE_NUMBER, NULL);

  g_assert_cmpstr (rw_whole_dialog_preview (asked.dialog), ==, "left: — → 1\nright: 7 → 2");
  g_assert_true (rw_whole_dialog_apply (asked.dialog));
  g_assert_cmpint (rw_rig_device (rw_document_rig (asked.document), "right")->unit_id, ==, 2);
  g_assert_true (rw_document_undo (asked.document));
  g_assert_cmpint (rw_rig_device (rw_document_rig (asked.document), "right")->unit_id, ==, 7);
}

/* The preview follows the pattern as it is typed. */
static void
test_label (void)
{
  g_auto (Asked) asked = ask (RW_WHOLE_LABEL, NULL);

  g_assert_cmpstr (rw_whole_dialog_preview (asked.dialog), ==, "desk – left: A → N01\nleft – right: — → N02");
  rw_whole_dialog_set_text (asked.dialog, "{to}-#");
  g_assert_cmpstr (rw_whole_dialog_preview (asked.dialog), ==, "desk – left: A → left-1\nleft – right: — → right-2");
  rw_whole_dialog_set_text (asked.dialog, "X");
  g_assert_cmpstr (rw_whole_dialog_problem (asked.dialog), !=, "");
  rw_whole_dialog_set_text (asked.dialog, "{who}");
  g_assert_nonnull (strstr (rw_whole_dialog_problem (asked.dialog), "{who}"));
  g_assert_cmpstr (rw_whole_dialog_preview (asked.dialog), ==, "");
  g_assert_false (rw_whole_dialog_apply (asked.dialog));
}

static void
test_address (void)
{
  g_auto (Asked) asked = ask (RW_WHOLE_ADDRESS, NULL);

  g_assert_nonnull (strstr (rw_whole_dialog_preview (asked.dialog), "right: — → 10.0.10.3/24"));
  rw_whole_dialog_set_text (asked.dialog, "169.254.1.1/16");
  g_assert_cmpstr (rw_whole_dialog_problem (asked.dialog), !=, "");
}

/* A rig whose addresses are good keeps them all, unless somebody says otherwise. */
static void
test_address_keeps (void)
{
  g_autofree char *path = rw_data_path ("examples/festival-60.rig");
  g_autoptr (RwRig) rig = rw_file_read (path, NULL);
  g_auto (Asked) asked = ask_about (rig, RW_WHOLE_ADDRESS, NULL);

  g_assert_cmpstr (rw_whole_dialog_problem (asked.dialog), ==, "");
  g_assert_cmpstr (rw_whole_dialog_preview (asked.dialog), ==, "Everything is so already.");
}

static void
test_chain (void)
{
  g_auto (Asked) asked = ask (RW_WHOLE_CHAIN, NULL);

  g_assert_cmpstr (rw_whole_dialog_preview (asked.dialog), ==, "2 cables stay: they are right already or serve other networks");
}

/* Nothing is asked: the button has the focus, not the text of the preview. */
static void
test_chain_focus (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console desk ctrl=1 at=[60,60]; rack left id=1 at=[130,60]");
  g_auto (Asked) asked = ask_about (rig, RW_WHOLE_CHAIN, NULL);

  g_assert_cmpstr (rw_whole_dialog_preview (asked.dialog), !=, "");
  g_assert_true (GTK_IS_BUTTON (gtk_window_get_focus (GTK_WINDOW (asked.dialog))));
}

/* What it costs is said in the unit that the person chose; the rig's bare lengths are read in it, too. */
static void
test_cost_in_feet (void)
{
  g_autoptr (RwRig) catalogue = rw_catalogue_load (NULL);
  g_auto (Asked) metres = ask (RW_WHOLE_REDUNDANT, catalogue);
  g_auto (Asked) feet = { .document = NULL };

  g_assert_nonnull (strstr (rw_whole_dialog_preview (metres.dialog), ": at most 210 m of cable"));
  rw_length_set_units (RW_UNITS_FEET);
  feet = ask (RW_WHOLE_REDUNDANT, catalogue);
  g_assert_nonnull (strstr (rw_whole_dialog_preview (feet.dialog), ": at most 210′ of cable"));
  rw_length_set_units (RW_UNITS_METRES);
}

/* Switches come from the catalogue and lie clear of the rig. */
static void
test_redundant (void)
{
  g_autoptr (RwRig) catalogue = rw_catalogue_load (NULL);
  g_auto (Asked) asked = ask (RW_WHOLE_REDUNDANT, catalogue);
  RwRig *rig = rw_document_rig (asked.document);

  g_assert_nonnull (strstr (rw_whole_dialog_preview (asked.dialog), "2 cables go\n6 new cables, whose lengths are not known"));
  g_assert_nonnull (strstr (rw_whole_dialog_preview (asked.dialog), "6 switch ports in use"));
  g_assert_true (rw_whole_dialog_apply (asked.dialog));
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_DEVICE), ==, 5);
  for (guint i = 3; i < 5; i++)
    g_assert_cmpfloat (((RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i])->at.y, >, 100);
  g_assert_true (rw_document_undo (asked.document));
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_DEVICE), ==, 3);
}

/* The number before @words in the preview; 0 where it does not speak of that. */
static guint
said (const char *preview, const char *words)
{
  g_auto (GStrv) lines = g_strsplit (preview, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    if (g_ascii_isdigit (lines[i][0]) && strstr (lines[i], words) != NULL)
      return (guint) g_ascii_strtoull (lines[i], NULL, 10);
  return 0;
}

/* How many lines stand under @heading. */
static guint
listed (const char *preview, const char *heading)
{
  g_autofree char *start = g_strdup_printf ("\n\n%s\n", heading);
  const char *at = strstr (preview, start);
  g_autofree char *list = at == NULL ? g_strdup ("") : g_strdup (at + strlen (start));
  char *end = strstr (list, "\n\n");
  g_auto (GStrv) lines = NULL;

  if (end != NULL)
    *end = '\0';
  lines = g_strsplit (list, "\n", -1);
  return g_strv_length (lines);
}

static guint
n_of (const RwChange *change, RwItemType type, gboolean before, gboolean after)
{
  guint n = 0;

  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *entry = rw_change_entry (change, i);
      n += entry->type == type && (entry->before != NULL) == before && (entry->after != NULL) == after;
    }
  return n;
}

/* Two states of the rig are compared: what was said of the change is what became of the rig, in numbers and by name. */
static void
assert_said_is_done (const char *preview, const RwRig *before, const RwRig *after)
{
  g_autoptr (RwChange) change = rw_compare (before, after, "");
  guint gone = n_of (change, RW_ITEM_CABLE, TRUE, FALSE), new = n_of (change, RW_ITEM_CABLE, FALSE, TRUE);
  guint switches = n_of (change, RW_ITEM_DEVICE, FALSE, TRUE), modes = n_of (change, RW_ITEM_DEVICE, TRUE, TRUE);

  g_assert_cmpuint (n_of (change, RW_ITEM_CABLE, TRUE, TRUE) + n_of (change, RW_ITEM_DEVICE, TRUE, FALSE), ==, 0);
  g_assert_cmpuint (said (preview, gone == 1 ? "cable goes" : "cables go"), ==, gone);
  g_assert_cmpuint (said (preview, "length"), ==, new);
  g_assert_cmpuint (said (preview, " stay: "), ==, rw_rig_n (before, RW_ITEM_CABLE) - gone);
  g_assert_cmpuint (said (preview, "new switch"), ==, switches);
  g_assert_cmpuint (said (preview, "change their mode"), ==, modes);
  g_assert_cmpuint (listed (preview, "Cables that go:"), ==, gone);
  g_assert_cmpuint (listed (preview, "New cables:"), ==, new);
  g_assert_cmpuint (listed (preview, "New switches:"), ==, switches);
  g_assert_cmpuint (listed (preview, "New modes:"), ==, modes);
  g_assert_cmpuint (listed (preview, "Left without a cable:"), ==, said (preview, "without a cable"));
  for (guint i = 0; i < rw_change_n (change); i++)
    if (rw_change_entry (change, i)->type == RW_ITEM_CABLE && rw_change_entry (change, i)->after != NULL)
      g_assert_cmpfloat (((const RwCable *) rw_change_entry (change, i)->after)->length_m, ==, 0);
}

static const struct { const char *example; RwWholeKind kind; } rewirings[] = {
  { "festival-60", RW_WHOLE_REDUNDANT },
  { "small-chain", RW_WHOLE_REDUNDANT },
  { "redundant", RW_WHOLE_CHAIN },
};

static void
test_said_is_done (void)
{
  g_autoptr (RwRig) catalogue = rw_catalogue_load (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (rewirings); i++)
    {
      g_autofree char *example = g_strdup_printf ("examples/%s.rig", rewirings[i].example), *path = rw_data_path (example);
      g_autoptr (RwRig) rig = rw_file_read (path, NULL), before = rw_rig_copy (rig);
      g_auto (Asked) asked = ask_about (rig, rewirings[i].kind, catalogue);
      g_autofree char *preview = g_strdup (rw_whole_dialog_preview (asked.dialog));

      g_assert_true (rw_whole_dialog_apply (asked.dialog));
      assert_said_is_done (preview, before, rw_document_rig (asked.document));
    }
}

/* A tablet in the network for control keeps its cable, and the switches on its way theirs. */
static void
test_control_stays (void)
{
  static const char *const stay[] = { "CF3", "CF2", "AT1", "AX2" };
  g_autofree char *path = rw_data_path ("examples/festival-60.rig");
  g_autoptr (RwRig) rig = rw_file_read (path, NULL), catalogue = rw_catalogue_load (NULL);
  g_auto (Asked) asked = ask_about (rig, RW_WHOLE_REDUNDANT, catalogue);

  for (guint i = 0; i < G_N_ELEMENTS (stay); i++)
    g_assert_null (strstr (rw_whole_dialog_preview (asked.dialog), stay[i]));
  g_assert_nonnull (strstr (rw_whole_dialog_preview (asked.dialog), "\nAL01: Stage left 1, Net 1 – Stage left A, 13; 5 m\n"));
  g_assert_true (rw_whole_dialog_apply (asked.dialog));
  for (guint i = 0; i < G_N_ELEMENTS (stay); i++)
    g_assert_nonnull (rw_rig_find_named (rw_document_rig (asked.document), stay[i], TRUE, NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/whole/number", test_number);
  g_test_add_func ("/whole/label", test_label);
  g_test_add_func ("/whole/address", test_address);
  g_test_add_func ("/whole/address-keeps", test_address_keeps);
  g_test_add_func ("/whole/chain", test_chain);
  g_test_add_func ("/whole/chain-focus", test_chain_focus);
  g_test_add_func ("/whole/cost-in-feet", test_cost_in_feet);
  g_test_add_func ("/whole/redundant", test_redundant);
  g_test_add_func ("/whole/said-is-done", test_said_is_done);
  g_test_add_func ("/whole/control-stays", test_control_stays);
  return g_test_run ();
}
