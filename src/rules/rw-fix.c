/* SPDX-License-Identifier: MIT */
#include "rw-fix.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-edit.h>
#include <string.h>

#include "rw-rule-ids.h"
#include "rw-rule-words.h"

static void
take_change (GPtrArray *fixes, RwEdit *edit)
{
  g_ptr_array_add (fixes, rw_edit_finish (edit));
}

/* The fields that fixes set hold the values given here whatever the rig, so a refusal is a mistake in this file. */
static void
set (RwEdit *edit, const char *key, guint field, GVariant *value)
{
  g_autoptr (GError) error = NULL;

  if (!rw_edit_set (edit, key, field, value, &error))
    g_error ("%s", error->message);
}

static RwEdit *
begin (const RwRig *rig, char *name)
{
  RwEdit *edit = rw_edit_new (rig, name);

  g_free (name);
  return edit;
}

/* "Remove Cable N-05" */
void
rw_fix_remove_cable (const RwRig *rig, const char *cable, GPtrArray *fixes)
{
  g_autofree char *title = rw_words_rig_cable (rig, rw_rig_cable (rig, cable));
  /* Translators: a button, and after "Undo"; a cable */
  RwEdit *edit = begin (rig, g_strdup_printf (_("Remove Cable %s"), title));

  rw_edit_remove (edit, cable);
  take_change (fixes, edit);
}

/* The cable becomes one of @medium and @grade; -1 = the grade that is usual. */
void
rw_fix_set_grade (const RwRig *rig, const char *cable, int medium, int grade, GPtrArray *fixes)
{
  const RwField *fields = rw_cable_table.fields;
  const char *kind = grade >= 0 ? fields[RW_CABLE_GRADE].word_labels[grade] : fields[RW_CABLE_MEDIUM].word_labels[medium];
  g_autofree char *title = rw_words_rig_cable (rig, rw_rig_cable (rig, cable));
  /* Translators: a button, and after "Undo"; a cable, "Cat 5e" or "Copper" */
  RwEdit *edit = begin (rig, g_strdup_printf (_("Make Cable %s %s"), title, _(kind)));
  GVariant *word = grade >= 0 ? g_variant_new_string (rw_field_word (&fields[RW_CABLE_GRADE], grade)) : NULL;

  set (edit, cable, RW_CABLE_MEDIUM, g_variant_new_string (rw_field_word (&fields[RW_CABLE_MEDIUM], medium)));
  set (edit, cable, RW_CABLE_GRADE, word);
  take_change (fixes, edit);
}

/* Gives @device a priority 1 that wins; what else its clock has stays. */
void
rw_fix_lead_clock (const RwRig *rig, const RwDevice *device, int priority1, GPtrArray *fixes)
{
  /* Translators: a button, and after "Undo"; a device */
  RwEdit *edit = begin (rig, g_strdup_printf (_("Let %s Lead the Clock"), rw_device_title (device)));
  g_autoptr (GVariant) clock = rw_item_get (device, RW_DEVICE_CLOCK);
  g_auto (GVariantDict) members = G_VARIANT_DICT_INIT (clock);

  g_variant_dict_insert (&members, rw_clock_table.fields[RW_CLOCK_PRIORITY1].name, "i", priority1);
  set (edit, rw_item_key (device), RW_DEVICE_CLOCK, g_variant_dict_end (&members));
  take_change (fixes, edit);
}

void
rw_fix_set_latency (const RwRig *rig, const RwDevice *device, int latency_us, GPtrArray *fixes)
{
  /* Translators: a button, and after "Undo"; a device, a time in µs */
  RwEdit *edit = begin (rig, g_strdup_printf (_("Let %s Wait %d µs"), rw_device_title (device), latency_us));

  set (edit, rw_item_key (device), RW_DEVICE_RECEIVE_LATENCY_US, g_variant_new_int32 (latency_us));
  take_change (fixes, edit);
}

void
rw_fix_set_compensation (const RwRig *rig, const RwDevice *device, gboolean on, GPtrArray *fixes)
{
  /* Translators: buttons, and after "Undo"; a device */
  RwEdit *edit = begin (rig, g_strdup_printf (on ? _("Switch Gain Compensation of %s On")
                                                 : _("Switch Gain Compensation of %s Off"), rw_device_title (device)));

  set (edit, rw_item_key (device), RW_DEVICE_GAIN_COMPENSATION, g_variant_new_boolean (on));
  take_change (fixes, edit);
}

void
rw_fix_set_phantom (const RwRig *rig, const RwChannel *channel, gboolean on, GPtrArray *fixes)
{
  const char *device = rw_device_title (rw_rig_device (rig, channel->device));
  /* Translators: buttons, and after "Undo"; the number of a send, a device */
  RwEdit *edit = begin (rig, g_strdup_printf (on ? _("Switch Phantom Power of Send %d of %s On")
                                                 : _("Switch Phantom Power of Send %d of %s Off"), channel->number, device));

  set (edit, rw_item_key (channel), RW_CHANNEL_PHANTOM, g_variant_new_boolean (on));
  take_change (fixes, edit);
}

/* The addresses of @device with one of them set, or taken away where @text is NULL. */
static GVariant *
addresses_with (const RwDevice *device, RwSide side, const char *text)
{
  g_autoptr (GVariant) addresses = rw_item_get (device, RW_DEVICE_ADDRESSES);
  g_auto (GVariantDict) members = G_VARIANT_DICT_INIT (addresses);
  const char *name = rw_addresses_table.fields[side == RW_SIDE_SECONDARY ? RW_ADDRESSES_SECONDARY : RW_ADDRESSES_PRIMARY].name;

  if (text != NULL)
    g_variant_dict_insert (&members, name, "s", text);
  else
    g_variant_dict_remove (&members, name);
  return g_variant_dict_end (&members);
}

/* @side: primary or secondary. */
void
rw_fix_set_address (const RwRig *rig, const RwDevice *device, RwSide side, RwAddress address, GPtrArray *fixes)
{
  g_autofree char *text = rw_address_format (address);
  /* Translators: a button, and after "Undo"; a device, an address */
  RwEdit *edit = begin (rig, g_strdup_printf (_("Give %s the Address %s"), rw_device_title (device), text));

  set (edit, rw_item_key (device), RW_DEVICE_ADDRESSES, addresses_with (device, side, text));
  take_change (fixes, edit);
}

void
rw_fix_clear_address (const RwRig *rig, const RwDevice *device, RwSide side, GPtrArray *fixes)
{
  const char *text = side == RW_SIDE_SECONDARY ? device->addresses.secondary : device->addresses.primary;
  /* Translators: a button, and after "Undo"; an address, a device */
  RwEdit *edit = begin (rig, g_strdup_printf (_("Clear the Address %s of %s"), text, rw_device_title (device)));

  set (edit, rw_item_key (device), RW_DEVICE_ADDRESSES, addresses_with (device, side, NULL));
  take_change (fixes, edit);
}

static char *
name_mode_fix (const RwRig *rig, const char *const *devices, guint n, RwMode mode)
{
  const char *title = rw_device_title (rw_rig_device (rig, devices[0]));

  if (n == 1 && mode == RW_MODE_CHAIN)
    /* Translators: a button, and after "Undo"; a device */
    return g_strdup_printf (_("Set %s to Chain Mode"), title);
  if (n == 1)
    /* Translators: a button, and after "Undo"; a device */
    return g_strdup_printf (_("Set %s to Redundant Mode"), title);
  if (mode == RW_MODE_CHAIN)
    /* Translators: a button, and after "Undo" */
    return g_strdup_printf (ngettext ("Set %u Device to Chain Mode", "Set %u Devices to Chain Mode", n), n);
  /* Translators: a button, and after "Undo" */
  return g_strdup_printf (ngettext ("Set %u Device to Redundant Mode", "Set %u Devices to Redundant Mode", n), n);
}

/* @mode: chain or redundant. */
void
rw_fix_set_mode (const RwRig *rig, const char *const *devices, guint n, RwMode mode, GPtrArray *fixes)
{
  const RwField *field = &rw_device_table.fields[RW_DEVICE_MODE];
  RwEdit *edit;

  if (n == 0)
    return;
  edit = begin (rig, name_mode_fix (rig, devices, n, mode));
  for (guint i = 0; i < n; i++)
    set (edit, devices[i], RW_DEVICE_MODE, g_variant_new_string (rw_field_word (field, mode)));
  take_change (fixes, edit);
}

static char *
name_id_fix (const RwDevice *device, guint field, int id)
{
  if (field == RW_DEVICE_UNIT_ID)
    /* Translators: a button, and after "Undo"; a device, an ID */
    return g_strdup_printf (_("Give %s Unit ID %d"), rw_device_title (device), id);
  /* Translators: a button, and after "Undo"; a device, an ID */
  return g_strdup_printf (_("Give %s Controller ID %d"), rw_device_title (device), id);
}

/* @field: RW_DEVICE_UNIT_ID or RW_DEVICE_CONTROLLER_ID. */
void
rw_fix_set_id (const RwRig *rig, const RwDevice *device, guint field, int id, GPtrArray *fixes)
{
  RwEdit *edit = begin (rig, name_id_fix (device, field, id));

  set (edit, rw_item_key (device), field, g_variant_new_int32 (id));
  take_change (fixes, edit);
}

/* Each of @devices (NULL-ended) gets the lowest ID still free; nothing is proposed where they do not suffice. */
void
rw_fix_give_ids (const RwRig *rig, const char *const *devices, guint field, GPtrArray *fixes)
{
  guint n = g_strv_length ((char **) devices);
  g_autoptr (RwEdit) edit = NULL;
  g_auto (RwIdsFree) ids = { 0 };
  int id = 0;

  rw_ids_free_init (&ids, rig, field);
  edit = rw_edit_new (rig, "");
  for (guint i = 0; i < n; i++)
    {
      id = rw_ids_free_take (&ids);
      if (id == 0)
        return;
      set (edit, devices[i], field, g_variant_new_int32 (id));
    }
  if (n > 0)
    {
      g_autofree char *name = NULL;

      if (n == 1)
        name = name_id_fix (rw_rig_device (rig, devices[0]), field, id);
      else if (field == RW_DEVICE_UNIT_ID)
        /* Translators: a button, and after "Undo" */
        name = g_strdup_printf (ngettext ("Give %u Device a Free Unit ID", "Give %u Devices Free Unit IDs", n), n);
      else
        /* Translators: a button, and after "Undo" */
        name = g_strdup_printf (ngettext ("Give %u Device a Free Controller ID",
                                          "Give %u Devices Free Controller IDs", n), n);
      rw_edit_set_name (edit, name);
      take_change (fixes, g_steal_pointer (&edit));
    }
}

/**
 * rw_fix_mend_ids: gives @device the IDs that are not 0 and takes its controller ID away if asked, in one change.
 */
void
rw_fix_mend_ids (const RwRig *rig, const RwDevice *device, int unit_id, int controller_id,
                 gboolean drop_controller_id, GPtrArray *fixes)
{
  const char *key = rw_item_key (device);
  RwEdit *edit;

  if (unit_id != 0 && (controller_id != 0 || drop_controller_id))
    /* Translators: a button, and after "Undo"; a device */
    edit = begin (rig, g_strdup_printf (_("Mend the IDs of %s"), rw_device_title (device)));
  else if (drop_controller_id)
    /* Translators: a button, and after "Undo"; a device */
    edit = begin (rig, g_strdup_printf (_("Take the Controller ID from %s"), rw_device_title (device)));
  else
    edit = begin (rig, name_id_fix (device, unit_id != 0 ? RW_DEVICE_UNIT_ID : RW_DEVICE_CONTROLLER_ID,
                                    unit_id != 0 ? unit_id : controller_id));
  if (unit_id != 0)
    set (edit, key, RW_DEVICE_UNIT_ID, g_variant_new_int32 (unit_id));
  if (controller_id != 0)
    set (edit, key, RW_DEVICE_CONTROLLER_ID, g_variant_new_int32 (controller_id));
  if (drop_controller_id)
    set (edit, key, RW_DEVICE_CONTROLLER_ID, NULL);
  take_change (fixes, edit);
}

static gboolean
ends_at (const RwEnd *end, const char *device, const char *port)
{
  return g_str_equal (end->device, device) && g_str_equal (end->port, port);
}

/* Plugs each end of @cable that is in @port of @device into @other, and the other way round if @swap. */
static void
replug (RwEdit *edit, const RwCable *cable, const char *device, const char *port, const char *other, gboolean swap)
{
  const RwEnd *ends[] = { &cable->from, &cable->to };
  const guint fields[] = { RW_CABLE_FROM, RW_CABLE_TO };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    if (ends_at (ends[i], device, port))
      set (edit, rw_item_key (cable), fields[i], g_variant_new ("(ss)", device, other));
    else if (swap && ends_at (ends[i], device, other))
      set (edit, rw_item_key (cable), fields[i], g_variant_new ("(ss)", device, port));
}

static GPtrArray *
cables_in (const RwRig *rig, const char *device, const char *port)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_CABLE);
  GPtrArray *cables = g_ptr_array_new ();

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    {
      const RwCable *cable = (const RwCable *) items[i];

      if (ends_at (&cable->from, device, port) || ends_at (&cable->to, device, port))
        g_ptr_array_add (cables, items[i]);
    }
  return cables;
}

static char *
name_move (const RwRig *rig, const RwCable *cable, const RwDevice *device, const char *port)
{
  g_autofree char *title = rw_words_rig_cable (rig, cable);

  /* Translators: a button, and after "Undo"; a cable, a port, a device */
  return g_strdup_printf (_("Move Cable %s to Port %s of %s"), title, port, rw_device_title (device));
}

/**
 * rw_fix_move_to_side: moves @cable's end from @port of @device to the device's port of @side; a cable that is
 * there already changes places with it. Nothing is proposed where several are.
 */
void
rw_fix_move_to_side (const RwRig *rig, const char *cable, const char *device, const char *port, RwSide side,
                     GPtrArray *fixes)
{
  const RwCable *moved = rw_rig_cable (rig, cable);
  const RwDevice *d = rw_rig_device (rig, device);
  const RwPart *part = rw_rig_part_of (rig, d);
  int index = rw_part_find_side (part, side);
  const char *other = index >= 0 ? rw_part_port (part, index)->name : NULL;
  g_autoptr (GPtrArray) there = NULL;
  RwEdit *edit;

  if (other == NULL)
    return;
  there = cables_in (rig, device, other);
  if (there->len > 1)
    return;
  if (there->len == 0 || there->pdata[0] == (gpointer) moved)
    {
      edit = begin (rig, name_move (rig, moved, d, other));
      replug (edit, moved, device, port, other, FALSE);
    }
  else
    {
      const RwCable *swapped = there->pdata[0];
      g_autofree char *one = rw_words_rig_cable (rig, moved), *other_one = rw_words_rig_cable (rig, swapped);

      /* Translators: a button, and after "Undo"; two cables, a device */
      edit = begin (rig, g_strdup_printf (_("Swap Cables %s and %s at %s"), one, other_one, rw_device_title (d)));
      replug (edit, moved, device, port, other, TRUE);
      replug (edit, swapped, device, port, other, TRUE);
    }
  take_change (fixes, edit);
}

static gboolean
vlans_are_alike (const RwPortVlans *a, const RwPortVlans *b)
{
  static const int default_vlan[] = { 1 };
  const int *x = a != NULL ? a->vlans : default_vlan, *y = b != NULL ? b->vlans : default_vlan;
  guint n = a != NULL ? a->n : 1;

  return (a != NULL && a->tagged) == (b != NULL && b->tagged) && n == (b != NULL ? b->n : 1)
         && memcmp (x, y, n * sizeof *x) == 0;
}

/* The first empty port of a switch that takes the same plug and belongs to the same VLANs as @port; or NULL. */
static const RwPort *
find_like_port (const RwRig *rig, const RwDevice *device, const RwPart *part, const char *port)
{
  const RwPort *like = rw_part_port (part, rw_part_find_port (part, port));
  const RwPortVlans *vlans = rw_device_port_vlans (device, port);
  g_autoptr (GHashTable) used = g_hash_table_new (g_str_hash, g_str_equal);
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_CABLE);

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    {
      const RwCable *cable = (const RwCable *) items[i];

      if (g_str_equal (cable->from.device, rw_item_key (device)))
        g_hash_table_add (used, cable->from.port);
      if (g_str_equal (cable->to.device, rw_item_key (device)))
        g_hash_table_add (used, cable->to.port);
    }
  for (guint i = 0; i < rw_part_n_ports (part); i++)
    {
      const RwPort *p = rw_part_port (part, i);

      if (!g_hash_table_contains (used, p->name) && p->side == like->side && p->medium == like->medium
          && p->speed_mbps == like->speed_mbps
          && vlans_are_alike (rw_device_port_vlans (device, p->name), vlans))
        return p;
    }
  return NULL;
}

/* Moves @cable from @port of a switch to a free port like it. */
void
rw_fix_move_to_like_port (const RwRig *rig, const char *cable, const char *device, const char *port,
                          GPtrArray *fixes)
{
  const RwCable *moved = rw_rig_cable (rig, cable);
  const RwDevice *d = rw_rig_device (rig, device);
  const RwPart *part = rw_rig_part_of (rig, d);
  const RwPort *free_port;
  RwEdit *edit;

  if (part->kind != RW_PART_SWITCH)
    return;
  free_port = find_like_port (rig, d, part, port);
  if (free_port == NULL)
    return;
  edit = begin (rig, name_move (rig, moved, d, free_port->name));
  replug (edit, moved, device, port, free_port->name, FALSE);
  take_change (fixes, edit);
}

/* How many errors, and findings at all, each rule has. */
static void
count_by_rule (const RwFindings *findings, guint *errors, guint *all)
{
  for (guint rule = 0, i = 0; i < rw_findings_n (findings); i++)
    {
      const RwFinding *finding = rw_findings_get (findings, i);

      /* Findings stand by severity, and in each by rule. */
      if (i > 0 && finding->severity != rw_findings_get (findings, i - 1)->severity)
        rule = 0;
      while (rw_rule (rule) != finding->rule)
        rule++;
      all[rule]++;
      errors[rule] += finding->severity == RW_SEVERITY_ERROR;
    }
}

static RwFindings *
analyse (const RwRig *rig)
{
  g_autoptr (RwNet) net = rw_net_new (rig);

  return rw_findings_new (rig, net);
}

/*
 * Whether @change mends @finding without harm: its rule finds less, this finding is gone, and no rule finds more
 * errors. (Findings are not compared one by one: of two loops that share cables, the second is another loop
 * once the first is open, and still no new error.)
 */
static gboolean
helps (const RwFinding *finding, const RwRig *rig, const RwFindings *before, RwChange *change)
{
  g_autoptr (RwRig) copy = rw_rig_copy (rig);
  g_autoptr (RwFindings) after = NULL;
  g_autofree guint *counts = g_new0 (guint, 4 * rw_n_rules ());
  guint n = rw_n_rules ();

  if (!rw_rig_apply (copy, change, NULL))
    return FALSE;
  after = analyse (copy);
  count_by_rule (before, counts, counts + n);
  count_by_rule (after, counts + 2 * n, counts + 3 * n);
  for (guint i = 0; i < n; i++)
    if (counts[2 * n + i] > counts[i] || (rw_rule (i) == finding->rule && counts[3 * n + i] >= counts[n + i]))
      return FALSE;
  for (guint i = 0; i < rw_findings_n (after); i++)
    if (rw_finding_equal (rw_findings_get (after, i), finding))
      return FALSE;
  return TRUE;
}

/* Whether everything that @finding names is in @rig. */
static gboolean
is_about (const RwFinding *finding, const RwRig *rig)
{
  for (char **id = finding->devices; *id != NULL; id++)
    if (rw_rig_device (rig, *id) == NULL)
      return FALSE;
  for (char **id = finding->cables; *id != NULL; id++)
    if (rw_rig_cable (rig, *id) == NULL)
      return FALSE;
  for (char **id = finding->rows; *id != NULL; id++)
    if (rw_rig_find (rig, *id) == NULL)
      return FALSE;
  return TRUE;
}

/**
 * rw_finding_fixes: what would mend @finding, as changes whose names read on a button and after "Undo".
 * @rig: the rig in which @finding was made; if things that it names have gone since, there are no fixes
 *
 * Each was tried on a copy of the rig: it takes the finding away and brings no new error. That costs one
 * analysis a proposal, of which there are few. (transfer full) (element-type RwChange): may be empty.
 */
GPtrArray *
rw_finding_fixes (const RwFinding *finding, const RwRig *rig)
{
  g_autoptr (GPtrArray) proposals = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_change_unref);
  g_autoptr (RwFindings) before = NULL;
  GPtrArray *fixes = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_change_unref);

  g_return_val_if_fail (finding != NULL && rig != NULL, fixes);

  if (finding->rule->fix == NULL || !is_about (finding, rig))
    return fixes;
  finding->rule->fix (finding, rig, proposals);
  before = analyse (rig);
  for (guint i = 0; i < proposals->len; i++)
    if (helps (finding, rig, before, proposals->pdata[i]))
      g_ptr_array_add (fixes, rw_change_ref (proposals->pdata[i]));
  return fixes;
}
