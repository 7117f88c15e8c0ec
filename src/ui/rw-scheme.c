/* SPDX-License-Identifier: MIT */
#include "rw-scheme.h"

#define PORTAL_NAME "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_INTERFACE "org.freedesktop.portal.Settings"
#define APPEARANCE "org.freedesktop.appearance"

struct _RwScheme
{
  GObject parent_instance;
  RwSchemeChoice choice;
  gboolean desktop_dark;
  gboolean dark;
  GCancellable *cancellable;
  GDBusConnection *bus;
  guint subscription;
};

enum { PROP_DARK = 1, N_PROPS };
static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (RwScheme, rw_scheme, G_TYPE_OBJECT)

gboolean
rw_scheme_parse_preference (GVariant *value, gboolean *dark)
{
  g_autoptr (GVariant) inner = g_variant_ref (value);

  /* The portal's older method "Read" wraps the value twice. */
  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT))
    {
      GVariant *child = g_variant_get_variant (inner);
      g_variant_unref (inner);
      inner = child;
    }
  if (!g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32))
    return FALSE;
  *dark = g_variant_get_uint32 (inner) == 1;
  return TRUE;
}

static void
update (RwScheme *scheme)
{
  gboolean dark = scheme->choice == RW_SCHEME_DESKTOP ? scheme->desktop_dark
                                                      : scheme->choice == RW_SCHEME_DARK;

  if (dark == scheme->dark)
    return;
  scheme->dark = dark;
  g_object_notify_by_pspec (G_OBJECT (scheme), props[PROP_DARK]);
}

static void
take_preference (RwScheme *scheme, GVariant *value)
{
  if (rw_scheme_parse_preference (value, &scheme->desktop_dark))
    update (scheme);
}

static void
setting_changed (GDBusConnection *bus, const char *sender, const char *path, const char *interface,
                 const char *signal, GVariant *parameters, gpointer user_data)
{
  const char *space, *key;
  g_autoptr (GVariant) value = NULL;

  if (!g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(ssv)")))
    return;
  g_variant_get (parameters, "(&s&sv)", &space, &key, &value);
  if (g_str_equal (space, APPEARANCE) && g_str_equal (key, "color-scheme"))
    take_preference (RW_SCHEME (user_data), value);
}

static void
preference_read (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GVariant) reply = g_dbus_connection_call_finish (G_DBUS_CONNECTION (source), result, NULL);
  g_autoptr (GVariant) value = NULL;

  /* Without a portal, and after the object has gone, there is nothing to follow. */
  if (reply == NULL)
    return;
  g_variant_get (reply, "(v)", &value);
  take_preference (RW_SCHEME (user_data), value);
}

static void
bus_ready (GObject *source, GAsyncResult *result, gpointer user_data)
{
  GDBusConnection *bus = g_bus_get_finish (result, NULL);
  RwScheme *scheme;

  if (bus == NULL)
    return;
  scheme = RW_SCHEME (user_data);
  scheme->bus = bus;
  scheme->subscription = g_dbus_connection_signal_subscribe (
    bus, PORTAL_NAME, PORTAL_INTERFACE, "SettingChanged", PORTAL_PATH, APPEARANCE,
    G_DBUS_SIGNAL_FLAGS_NONE, setting_changed, scheme, NULL);
  g_dbus_connection_call (bus, PORTAL_NAME, PORTAL_PATH, PORTAL_INTERFACE, "Read",
                          g_variant_new ("(ss)", APPEARANCE, "color-scheme"), G_VARIANT_TYPE ("(v)"),
                          G_DBUS_CALL_FLAGS_NONE, 2000, scheme->cancellable, preference_read, scheme);
}

RwScheme *
rw_scheme_new (RwSchemeChoice choice)
{
  RwScheme *scheme = g_object_new (RW_TYPE_SCHEME, NULL);

  rw_scheme_set_choice (scheme, choice);
  /* A test run has no session bus, and asking for one would start one. */
  if (g_getenv ("DBUS_SESSION_BUS_ADDRESS") != NULL || g_getenv ("XDG_RUNTIME_DIR") != NULL)
    g_bus_get (G_BUS_TYPE_SESSION, scheme->cancellable, bus_ready, scheme);
  return scheme;
}

void
rw_scheme_set_choice (RwScheme *scheme, RwSchemeChoice choice)
{
  g_return_if_fail (RW_IS_SCHEME (scheme));
  scheme->choice = choice;
  update (scheme);
}

gboolean
rw_scheme_get_dark (RwScheme *scheme)
{
  g_return_val_if_fail (RW_IS_SCHEME (scheme), FALSE);
  return scheme->dark;
}

static void
rw_scheme_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_DARK)
    g_value_set_boolean (value, RW_SCHEME (object)->dark);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
rw_scheme_dispose (GObject *object)
{
  RwScheme *scheme = RW_SCHEME (object);

  g_cancellable_cancel (scheme->cancellable);
  if (scheme->subscription != 0)
    g_dbus_connection_signal_unsubscribe (scheme->bus, scheme->subscription);
  scheme->subscription = 0;
  g_clear_object (&scheme->bus);
  g_clear_object (&scheme->cancellable);
  G_OBJECT_CLASS (rw_scheme_parent_class)->dispose (object);
}

static void
rw_scheme_class_init (RwSchemeClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = rw_scheme_dispose;
  object_class->get_property = rw_scheme_get_property;
  props[PROP_DARK] = g_param_spec_boolean ("dark", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
rw_scheme_init (RwScheme *scheme)
{
  scheme->cancellable = g_cancellable_new ();
}
