/* SPDX-License-Identifier: MIT */
/* The fields of Particulars: what stands in the rig while a person types, and after. */
#include "rig-builder.h"
#include "window-hand.h"

#include <rig/rw-length.h>
#include <ui/rw-port-list.h>

static GtkEditable *
entry_of (Hand *hand, const char *path)
{
  return GTK_EDITABLE (rw_field_row_get_control (rw_particulars_find (hand->window->particulars, path)));
}

static double
length_now (Hand *hand)
{
  return rw_rig_cable (rw_document_rig (hand->window->document), "c1")->length_m;
}

/* The rig is as it was opened, and there is nothing to undo. */
static void
assert_untouched (Hand *hand)
{
  g_assert_cmpfloat (length_now (hand), ==, 20);
  g_assert_null (rw_history_undo_name (rw_document_history (hand->window->document)));
  g_assert_false (rw_document_is_dirty (hand->window->document));
}

static void
begin_at_cable (Hand *hand)
{
  hand_begin (hand);
  hand_open_text (hand, HAND_CHAIN);
  hand_select (hand, "c1");
}

/* What cannot stand stays as it was typed, with the reason; the rig keeps what it had. */
static void
test_invalid (void)
{
  Hand hand;
  RwFieldRow *row;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  rw_selection_clear (rw_document_selection (hand.window->document));
  hand_settle ();
  hand_type (&hand, "link_ceiling_percent", "101");
  row = rw_particulars_find (hand.window->particulars, "link_ceiling_percent");
  g_assert_nonnull (rw_field_row_get_error (row));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (rw_field_row_get_control (row))), ==, "101");
  g_assert_cmpint (rw_rig_system (rw_document_rig (hand.window->document))->link_ceiling_percent, ==, 75);
  g_assert_true (gtk_widget_has_css_class (rw_field_row_get_control (row), "error"));
  gtk_test_accessible_assert_state (rw_field_row_get_control (row), GTK_ACCESSIBLE_STATE_INVALID,
                                    GTK_ACCESSIBLE_INVALID_TRUE);
  hand_type (&hand, "link_ceiling_percent", "80");
  g_assert_null (rw_field_row_get_error (row));
  g_assert_cmpint (rw_rig_system (rw_document_rig (hand.window->document))->link_ceiling_percent, ==, 80);
  hand_end (&hand);
}

/* What was typed in another unit stands there in the one that is shown, once the field is left. */
static void
test_length_settles (void)
{
  static const struct { RwUnits units; const char *typed, *left; } cases[] = {
    { RW_UNITS_METRES, "10ft", "3.048" }, { RW_UNITS_METRES, "7,50", "7.5" }, { RW_UNITS_FEET, "40", "40′" },
    { RW_UNITS_FEET, "10' 6\"", "10′ 6″" }, { RW_UNITS_FEET, "1e9", "10′ 6″" },
  };
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  hand_select (&hand, "c1");
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      rw_length_set_units (cases[i].units);
      hand_type (&hand, "length_m", cases[i].typed);
      hand_type (&hand, "label", "N9");
      g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "length_m")), ==, cases[i].left);
    }
  rw_length_set_units (RW_UNITS_METRES);
  hand_end (&hand);
}

/* What gives no value leaves the rig as it was, at each key; once the field is left it shows that again and says so. */
static void
test_goes_back (void)
{
  static const struct { const char *typed, *error; } cases[] = {
    { "abc", "must be a length" },       { "1e9", "must be from 0 m to 100000 m" }, { "3 1/2\"", "must be a length" },
    { "-3", "must be from 0 m" },        { "NaN", "must be a length" },             { "10' 13\"", "fewer than 12 inches" },
    { "3' -2\"", "must be a length" },
  };
  Hand hand;

  begin_at_cable (&hand);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      RwFieldRow *row = rw_particulars_find (hand.window->particulars, "length_m");
      g_autofree char *remark = g_strdup_printf ("“%s” was not taken", cases[i].typed);

      g_test_message ("%s", cases[i].typed);
      hand_type (&hand, "length_m", cases[i].typed);
      g_assert_nonnull (strstr (rw_field_row_get_error (row), cases[i].error));
      g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "length_m")), ==, cases[i].typed);
      assert_untouched (&hand);
      gtk_widget_grab_focus (GTK_WIDGET (entry_of (&hand, "label")));
      hand_settle ();
      g_assert_null (rw_field_row_get_error (row));
      g_assert_true (g_str_has_prefix (rw_field_row_get_remark (row), remark));
      g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "length_m")), ==, "20");
      assert_untouched (&hand);
    }
  hand_type (&hand, "length_m", "12");
  g_assert_null (rw_field_row_get_remark (rw_particulars_find (hand.window->particulars, "length_m")));
  g_assert_cmpfloat (length_now (&hand), ==, 12);
  hand_end (&hand);
}

/* A page that was pasted is quoted by its start. */
static void
test_long_text (void)
{
  g_autofree char *nines = g_strnfill (5000, '9');
  Hand hand;
  RwFieldRow *row;

  begin_at_cable (&hand);
  row = rw_particulars_find (hand.window->particulars, "length_m");
  hand_type (&hand, "length_m", "1");
  gtk_editable_set_text (entry_of (&hand, "length_m"), nines);
  hand_settle ();
  g_assert_cmpstr (rw_field_row_get_error (row), ==, "must be from 0 m to 100000 m");
  assert_untouched (&hand);
  gtk_widget_grab_focus (GTK_WIDGET (entry_of (&hand, "label")));
  hand_settle ();
  g_assert_cmpuint (g_utf8_strlen (rw_field_row_get_remark (row), -1), <, 100);
  hand_end (&hand);
}

/* What could be redone before the typing can be redone after it. */
static void
test_redo_stays (void)
{
  Hand hand;

  begin_at_cable (&hand);
  hand_type (&hand, "label", "N9");
  g_assert_true (rw_document_undo (hand.window->document));
  hand_type (&hand, "length_m", "12");
  g_assert_null (rw_history_redo_name (rw_document_history (hand.window->document)));
  hand_type (&hand, "length_m", "12 k");
  assert_untouched (&hand);
  g_assert_true (rw_document_redo (hand.window->document));
  g_assert_cmpstr (rw_rig_cable (rw_document_rig (hand.window->document), "c1")->label, ==, "N9");
  g_assert_cmpfloat (length_now (&hand), ==, 20);
  hand_end (&hand);
}

/* Escape takes back what was typed, right or wrong; where nothing was, it is for the window. */
static void
test_escape (void)
{
  static const char *const typed[] = { "12", "12 k", "" };
  Hand hand;

  begin_at_cable (&hand);
  g_assert_false (hand_press (GTK_WIDGET (entry_of (&hand, "length_m")), GDK_KEY_Escape));
  for (guint i = 0; i < G_N_ELEMENTS (typed); i++)
    {
      hand_type (&hand, "length_m", typed[i]);
      g_assert_true (hand_press (GTK_WIDGET (entry_of (&hand, "length_m")), GDK_KEY_Escape));
      hand_settle ();
      assert_untouched (&hand);
      g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "length_m")), ==, "20");
      g_assert_null (rw_field_row_get_remark (rw_particulars_find (hand.window->particulars, "length_m")));
      g_assert_false (hand_press (GTK_WIDGET (entry_of (&hand, "length_m")), GDK_KEY_Escape));
    }
  hand_end (&hand);
}

static GtkWidget *
notes_of (Hand *hand)
{
  RwFieldRow *row = rw_particulars_find (hand->window->particulars, "notes");

  return gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (rw_field_row_get_control (row)));
}

static void
write_notes (Hand *hand, const char *text)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (notes_of (hand)));

  gtk_widget_grab_focus (notes_of (hand));
  gtk_text_buffer_begin_user_action (buffer);
  gtk_text_buffer_insert_at_cursor (buffer, text, -1);
  gtk_text_buffer_end_user_action (buffer);
  hand_settle ();
}

/* Escape leaves a long text with all that was typed: one step to undo. */
static void
test_escape_from_notes (void)
{
  Hand hand;
  const RwRig *rig;

  begin_at_cable (&hand);
  rig = rw_document_rig (hand.window->document);
  write_notes (&hand, "Over the roof\n");
  write_notes (&hand, "and down");
  g_assert_true (hand_key (&hand, GDK_KEY_Escape, 0));
  hand_settle ();
  g_assert_cmpstr (rw_rig_cable (rig, "c1")->notes, ==, "Over the roof\nand down");
  g_assert_false (gtk_widget_has_focus (notes_of (&hand)));
  g_assert_cmpint (gtk_text_buffer_get_line_count (gtk_text_view_get_buffer (GTK_TEXT_VIEW (notes_of (&hand)))), ==, 2);
  g_assert_true (rw_document_undo (hand.window->document));
  assert_untouched (&hand);
  g_assert_true (rw_document_redo (hand.window->document));
  g_assert_cmpstr (rw_rig_cable (rig, "c1")->notes, ==, "Over the roof\nand down");
  hand_end (&hand);
}

/* Enter ends a step as leaving the field does, and leaves alone what is wrong. */
static void
test_enter (void)
{
  Hand hand;

  begin_at_cable (&hand);
  hand_type (&hand, "length_m", "10ft");
  g_signal_emit_by_name (entry_of (&hand, "length_m"), "activate");
  g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "length_m")), ==, "3.048");
  hand_type (&hand, "length_m", "x");
  g_signal_emit_by_name (entry_of (&hand, "length_m"), "activate");
  g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "length_m")), ==, "x");
  g_assert_nonnull (rw_field_row_get_error (rw_particulars_find (hand.window->particulars, "length_m")));
  hand_type (&hand, "length_m", "7");
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpfloat (length_now (&hand), ==, 3.048);
  g_assert_true (rw_document_undo (hand.window->document));
  assert_untouched (&hand);
  hand_end (&hand);
}

/* Undoing goes by keys while they are struck, and by steps after. */
static void
test_undo_keys (void)
{
  Hand hand;
  GtkWidget *entry;

  begin_at_cable (&hand);
  hand_type (&hand, "length_m", "12");
  entry = GTK_WIDGET (entry_of (&hand, "length_m"));
  g_assert_false (hand_press_keys (entry, "<Control>z"));
  g_signal_emit_by_name (entry, "activate");
  gtk_widget_activate_action (gtk_widget_get_first_child (entry), "text.undo", NULL);
  g_assert_cmpfloat (length_now (&hand), ==, 12);
  g_assert_true (hand_press_keys (entry, "<Control>z"));
  g_assert_cmpfloat (length_now (&hand), ==, 20);
  g_assert_true (hand_press_keys (entry, "<Control><Shift>z"));
  g_assert_cmpfloat (length_now (&hand), ==, 12);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "12");
  hand_end (&hand);
}

/* What goes into the file is right, and the field shows what went into it. */
static void
test_save (void)
{
  Hand hand;
  g_autoptr (RwRig) saved = NULL;

  begin_at_cable (&hand);
  hand_type (&hand, "length_m", "12");
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.save", NULL);
  hand_settle ();
  hand_type (&hand, "length_m", "1e9");
  g_assert_false (rw_document_is_dirty (hand.window->document));
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.save", NULL);
  hand_settle ();
  g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "length_m")), ==, "12");
  g_assert_nonnull (rw_field_row_get_remark (rw_particulars_find (hand.window->particulars, "length_m")));
  saved = rw_file_read (rw_document_path (hand.window->document), NULL);
  g_assert_cmpfloat (rw_rig_cable (saved, "c1")->length_m, ==, 12);
  hand_end (&hand);
}

/* Another selection and the end of the window find the rig as it was before what is wrong was typed. */
static void
test_left_otherwise (void)
{
  Hand hand;

  begin_at_cable (&hand);
  hand_type (&hand, "length_m", "1e9");
  hand_select (&hand, "left");
  assert_untouched (&hand);
  hand_select (&hand, "c1");
  g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "length_m")), ==, "20");
  gtk_window_close (GTK_WINDOW (hand.window));
  hand_settle ();
  g_assert_null (gtk_application_get_windows (GTK_APPLICATION (hand.application)));
  hand_end (&hand);
}

/* Typing that another selection cut short is a step of its own. */
static void
test_two_steps (void)
{
  Hand hand;

  begin_at_cable (&hand);
  hand_type (&hand, "length_m", "12");
  hand_select (&hand, "left");
  hand_select (&hand, "c1");
  hand_type (&hand, "length_m", "13 k");
  g_assert_cmpfloat (length_now (&hand), ==, 12);
  hand_type (&hand, "length_m", "13");
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpfloat (length_now (&hand), ==, 12);
  g_assert_true (rw_document_undo (hand.window->document));
  assert_untouched (&hand);
  hand_end (&hand);
}

/* What was done before by keys elsewhere is not taken back with the typing, nor joined to it. */
static void
test_keeps_what_was_before (void)
{
  Hand hand;
  RwDocument *document;
  int end = -1;
  double x;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  hand_select (&hand, "left");
  document = hand.window->document;
  x = rw_rig_device (rw_document_rig (document), "left")->at.x;
  g_assert_true (rw_document_nudge_selected (document, 10, 0));
  gtk_widget_grab_focus (GTK_WIDGET (entry_of (&hand, "unit_id")));
  gtk_editable_insert_text (entry_of (&hand, "unit_id"), "x", 1, &end);
  g_assert_nonnull (rw_field_row_get_error (rw_particulars_find (hand.window->particulars, "unit_id")));
  g_assert_cmpfloat (rw_rig_device (rw_document_rig (document), "left")->at.x, ==, x + 10);
  g_assert_true (hand_press (GTK_WIDGET (entry_of (&hand, "unit_id")), GDK_KEY_Escape));
  g_assert_cmpfloat (rw_rig_device (rw_document_rig (document), "left")->at.x, ==, x + 10);
  g_assert_true (rw_document_undo (document));
  g_assert_cmpfloat (rw_rig_device (rw_document_rig (document), "left")->at.x, ==, x);
  hand_end (&hand);
}

/* A value that is typed over with itself is no step. */
static void
test_same_again (void)
{
  Hand hand;

  begin_at_cable (&hand);
  hand_type (&hand, "length_m", "20");
  assert_untouched (&hand);
  hand_end (&hand);
}

/* What is shown is rounded: typed over and typed again it means the value as it was. */
static void
test_same_shown_again (void)
{
  Hand hand;

  begin_at_cable (&hand);
  rw_length_set_units (RW_UNITS_FEET);
  hand_select (&hand, "left");
  hand_select (&hand, "c1");
  g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "length_m")), ==, "65′ 7″");
  hand_type (&hand, "length_m", "66′");
  g_assert_cmpfloat (length_now (&hand), >, 20.1);
  gtk_editable_set_text (entry_of (&hand, "length_m"), "65′ 7″");
  gtk_widget_grab_focus (GTK_WIDGET (entry_of (&hand, "label")));
  hand_settle ();
  assert_untouched (&hand);
  rw_length_set_units (RW_UNITS_METRES);
  hand_end (&hand);
}

/* Each of several things gets its own value back, and a right one is one step though one of them had it already. */
static void
test_several_go_back (void)
{
  Hand hand;
  RwRig *rig;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  rig = rw_document_rig (hand.window->document);
  rw_selection_set_all (rw_document_selection (hand.window->document), (const char *const[]) { "left", "right", NULL });
  hand_settle ();
  hand_type (&hand, "unit_id", "21x");
  assert_untouched (&hand);
  g_assert_cmpint (rw_rig_device (rig, "left")->unit_id, ==, 1);
  g_assert_cmpint (rw_rig_device (rig, "right")->unit_id, ==, 2);
  gtk_widget_grab_focus (GTK_WIDGET (entry_of (&hand, "location")));
  hand_settle ();
  g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "unit_id")), ==, "");
  g_assert_cmpstr (gtk_entry_get_placeholder_text (GTK_ENTRY (entry_of (&hand, "unit_id"))), ==, "Several values");
  hand_type (&hand, "unit_id", "21");
  g_assert_cmpint (rw_rig_device (rig, "left")->unit_id, ==, 21);
  g_assert_cmpint (rw_rig_device (rig, "right")->unit_id, ==, 21);
  g_assert_true (rw_document_undo (hand.window->document));
  assert_untouched (&hand);
  hand_end (&hand);
}

/* Several selected things: their common fields, one change for all of them. */
static void
test_several (void)
{
  Hand hand;
  RwFieldRow *row;
  RwRig *rig;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  rw_selection_set_all (rw_document_selection (hand.window->document), (const char *const[]) { "left", "right", NULL });
  hand_settle ();
  row = rw_particulars_find (hand.window->particulars, "unit_id");
  g_assert_cmpstr (gtk_entry_get_placeholder_text (GTK_ENTRY (rw_field_row_get_control (row))), ==, "Several values");
  hand_type (&hand, "location", "Wings");
  rig = rw_document_rig (hand.window->document);
  g_assert_cmpstr (rw_rig_device (rig, "left")->location, ==, "Wings");
  g_assert_cmpstr (rw_rig_device (rig, "right")->location, ==, "Wings");
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_null (rw_rig_device (rig, "left")->location);
  g_assert_false (rw_document_undo (hand.window->document));
  hand_end (&hand);
}

/* A field that makes no sense on a part can be typed over; emptied, it goes when something else is selected. */
static void
test_line_goes (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, "switch sw id=5; switch other");
  hand_select (&hand, "sw");
  hand_type (&hand, "unit_id", "6");
  g_assert_cmpint (rw_rig_device (rw_document_rig (hand.window->document), "sw")->unit_id, ==, 6);
  g_signal_emit_by_name (entry_of (&hand, "unit_id"), "icon-press", GTK_ENTRY_ICON_SECONDARY);
  hand_settle ();
  g_assert_false (rw_item_has (rw_rig_device (rw_document_rig (hand.window->document), "sw"), RW_DEVICE_UNIT_ID));
  g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "unit_id")), ==, "");
  hand_select (&hand, "other");
  hand_select (&hand, "sw");
  g_assert_null (rw_particulars_find (hand.window->particulars, "unit_id"));
  g_assert_true (rw_document_undo (hand.window->document));
  hand_settle ();
  g_assert_cmpstr (gtk_editable_get_text (entry_of (&hand, "unit_id")), ==, "5");
  hand_end (&hand);
}

/* Each port says what it is cabled to; VLANs of a switch can be typed. */
static void
test_ports (void)
{
  Hand hand;
  const RwPortVlans *vlans;
  GtkWidget *entry;

  hand_begin (&hand);
  hand_open_text (&hand, "switch sw name=Hub\nconsole desk ctrl=1 name=Desk\nrack left id=1 name=Left\ndesk.p-sw.p1\nleft.p-sw.p2\n");
  hand_select (&hand, "sw");
  g_assert_nonnull (hand_find_button ("Desk · primary"));
  g_assert_nonnull (hand_find_button ("free"));
  entry = rw_port_list_get_vlan_entry (rw_particulars_get_ports (hand.window->particulars), "p1");
  g_assert_nonnull (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), "10, 20");
  hand_settle ();
  vlans = rw_device_port_vlans (rw_rig_device (rw_document_rig (hand.window->document), "sw"), "p1");
  g_assert_nonnull (vlans);
  g_assert_true (vlans->tagged);
  g_assert_cmpuint (vlans->n, ==, 2);
  g_assert_cmpint (vlans->vlans[1], ==, 20);
  g_assert_nonnull (hand_find (&hand, "cut-off"));
  gtk_editable_set_text (GTK_EDITABLE (entry), "");
  hand_settle ();
  g_assert_null (rw_device_port_vlans (rw_rig_device (rw_document_rig (hand.window->document), "sw"), "p1"));
  hand_end (&hand);
}

/* VLANs are typed as all else is. */
static void
test_vlans_go_back (void)
{
  Hand hand;
  GtkWidget *entry;
  RwPortList *ports;

  hand_begin (&hand);
  hand_open_text (&hand, "switch sw name=Hub\nrack left id=1 name=Left\nleft.p-sw.p1\n");
  hand_select (&hand, "sw");
  ports = rw_particulars_get_ports (hand.window->particulars);
  entry = rw_port_list_get_vlan_entry (ports, "p1");
  hand_type_into (entry, "10, 4095");
  g_assert_nonnull (rw_port_list_get_error (ports, "p1"));
  g_assert_null (rw_device_port_vlans (rw_rig_device (rw_document_rig (hand.window->document), "sw"), "p1"));
  g_assert_false (rw_document_is_dirty (hand.window->document));
  gtk_widget_grab_focus (GTK_WIDGET (entry_of (&hand, "name")));
  hand_settle ();
  g_assert_null (rw_port_list_get_error (ports, "p1"));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "");
  g_assert_true (hand_says (GTK_WIDGET (ports), "“10, 4095” was not taken"));
  hand_type_into (entry, "10");
  g_assert_true (hand_press (entry, GDK_KEY_Escape));
  g_assert_false (rw_document_is_dirty (hand.window->document));
  hand_end (&hand);
}

/* Beside the latency that is set stands the smallest safe one, for one receiver and for the whole rig; what receives
 * nothing is told nothing. The figures: test-net-load, arrivals. */
static void
test_safe_latency (void)
{
  Hand hand;
  g_autoptr (RwRig) rig = rw_test_rig (HAND_CHAIN);
  const char *fact;

  rw_test_rig_patch (rig, "left", 1, "desk", 1, 1);
  hand_begin (&hand);
  hand_open (&hand, rig);
  hand_select (&hand, "desk");
  fact = rw_field_row_get_fact (rw_particulars_find (hand.window->particulars, "receive_latency_us"));
  g_assert_true (g_str_has_prefix (fact, "Smallest safe: 250 µs. What Stage left sends takes up to 142 µs"));
  hand_select (&hand, "left");
  g_assert_null (rw_field_row_get_fact (rw_particulars_find (hand.window->particulars, "receive_latency_us")));
  rw_selection_clear (rw_document_selection (hand.window->document));
  hand_settle ();
  fact = rw_field_row_get_fact (rw_particulars_find (hand.window->particulars, "receive_latency_us"));
  g_assert_true (g_str_has_prefix (fact, "Smallest safe: 250 µs."));
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/window/fields/invalid", test_invalid);
  g_test_add_func ("/window/fields/length-settles", test_length_settles);
  g_test_add_func ("/window/fields/goes-back", test_goes_back);
  g_test_add_func ("/window/fields/long-text", test_long_text);
  g_test_add_func ("/window/fields/redo-stays", test_redo_stays);
  g_test_add_func ("/window/fields/escape", test_escape);
  g_test_add_func ("/window/fields/escape-from-notes", test_escape_from_notes);
  g_test_add_func ("/window/fields/enter", test_enter);
  g_test_add_func ("/window/fields/undo-keys", test_undo_keys);
  g_test_add_func ("/window/fields/save", test_save);
  g_test_add_func ("/window/fields/left-otherwise", test_left_otherwise);
  g_test_add_func ("/window/fields/two-steps", test_two_steps);
  g_test_add_func ("/window/fields/keeps-what-was-before", test_keeps_what_was_before);
  g_test_add_func ("/window/fields/same-again", test_same_again);
  g_test_add_func ("/window/fields/same-shown-again", test_same_shown_again);
  g_test_add_func ("/window/fields/several", test_several);
  g_test_add_func ("/window/fields/several-go-back", test_several_go_back);
  g_test_add_func ("/window/fields/line-goes", test_line_goes);
  g_test_add_func ("/window/fields/ports", test_ports);
  g_test_add_func ("/window/fields/vlans-go-back", test_vlans_go_back);
  g_test_add_func ("/window/fields/safe-latency", test_safe_latency);
  return g_test_run ();
}
