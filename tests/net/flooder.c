/* SPDX-License-Identifier: MIT */
#include "flooder.h"

#include <string.h>

/* Tags are 0 (none) … 4094. */
#define N_TAGS 4095

typedef enum
{
  SOCKET_DEAD,   /* frames end here: aux, or a port that is not used */
  SOCKET_HOST,   /* leads to the device's own host and no further */
  SOCKET_PASS,   /* to all other such sockets of the device unchanged; to the host too in chain mode */
  SOCKET_ACCESS,
  SOCKET_TRUNK,
} SocketKind;

typedef struct
{
  guint device;
  SocketKind kind;
  gboolean has_host;
  int vlan;                /* of an access port */
  const RwPortVlans *list; /* of a trunk */
  int far;                 /* socket at the other end of the cable that carries, or -1 */
} Socket;

struct _Flooder
{
  RwRig *rig;
  GArray *sockets; /* of Socket */
  guint *first;    /* by device, and one past the last */
};

/* A frame about to enter a socket from its cable. */
typedef struct
{
  guint socket;
  int tag;
} Frame;

static Socket *
socket_at (const Flooder *flooder, guint index)
{
  return &g_array_index (flooder->sockets, Socket, index);
}

static void
set_switch_socket (Socket *socket, const RwDevice *device, const char *port)
{
  const RwPortVlans *vlans = rw_device_port_vlans (device, port);

  socket->kind = vlans != NULL && vlans->tagged ? SOCKET_TRUNK : SOCKET_ACCESS;
  socket->vlan = vlans == NULL ? 1 : vlans->vlans[0];
  socket->list = vlans;
}

static Socket
make_socket (guint index, const RwDevice *device, const RwPart *part, const RwPort *port)
{
  Socket socket = { .device = index, .kind = SOCKET_DEAD, .far = -1 };
  RwMode mode = rw_device_mode (device, part);

  if (port->side == RW_SIDE_AUX)
    return socket;
  if (part->kind == RW_PART_SWITCH)
    set_switch_socket (&socket, device, port->name);
  else if (part->kind == RW_PART_CONVERTER)
    socket.kind = SOCKET_PASS;
  else if (mode == RW_MODE_CHAIN)
    {
      socket.kind = SOCKET_PASS;
      socket.has_host = TRUE;
    }
  else if (mode == RW_MODE_REDUNDANT || port->side == RW_SIDE_PRIMARY)
    {
      socket.kind = SOCKET_HOST;
      socket.has_host = TRUE;
    }
  return socket;
}

static int
find_socket (const Flooder *flooder, const RwEnd *end)
{
  const RwDevice *device = rw_rig_device (flooder->rig, end->device);
  int index = rw_rig_index (flooder->rig, end->device);

  return flooder->first[index] + rw_part_find_port (rw_rig_part_of (flooder->rig, device), end->port);
}

static gboolean
is_aux (const Flooder *flooder, const RwEnd *end)
{
  const RwPart *part = rw_rig_part_of (flooder->rig, rw_rig_device (flooder->rig, end->device));

  return rw_part_port (part, rw_part_find_port (part, end->port))->side == RW_SIDE_AUX;
}

/* Only the first cable in a port carries. */
static void
plug_cables (Flooder *flooder)
{
  RwItem *const *cables = rw_rig_items (flooder->rig, RW_ITEM_CABLE);
  g_autofree gboolean *taken = g_new0 (gboolean, flooder->sockets->len + 1);

  for (guint c = 0; c < rw_rig_n (flooder->rig, RW_ITEM_CABLE); c++)
    {
      const RwCable *cable = (const RwCable *) cables[c];
      int a = find_socket (flooder, &cable->from), b = find_socket (flooder, &cable->to);

      if (a != b && !taken[a] && !taken[b] && !is_aux (flooder, &cable->from)
          && !is_aux (flooder, &cable->to))
        {
          socket_at (flooder, a)->far = b;
          socket_at (flooder, b)->far = a;
        }
      taken[a] = taken[b] = TRUE;
    }
}

Flooder *
flooder_new (const RwRig *rig)
{
  Flooder *flooder = g_new0 (Flooder, 1);
  guint n = rw_rig_n (rig, RW_ITEM_DEVICE);

  flooder->rig = g_object_ref ((RwRig *) rig);
  flooder->sockets = g_array_new (FALSE, FALSE, sizeof (Socket));
  flooder->first = g_new (guint, n + 1);
  for (guint d = 0; d < n; d++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[d];
      const RwPart *part = rw_rig_part_of (rig, device);

      flooder->first[d] = flooder->sockets->len;
      for (guint i = 0; i < rw_part_n_ports (part); i++)
        {
          Socket socket = make_socket (d, device, part, rw_part_port (part, i));

          g_array_append_val (flooder->sockets, socket);
        }
    }
  flooder->first[n] = flooder->sockets->len;
  plug_cables (flooder);
  return flooder;
}

void
flooder_free (Flooder *flooder)
{
  g_object_unref (flooder->rig);
  g_array_unref (flooder->sockets);
  g_free (flooder->first);
  g_free (flooder);
}

static void
leave_by (const Flooder *flooder, guint socket, int tag, GArray *frames)
{
  Frame frame = { socket_at (flooder, socket)->far, tag };

  if (socket_at (flooder, socket)->far >= 0)
    g_array_append_val (frames, frame);
}

static gboolean
lists (const RwPortVlans *trunk, int vlan)
{
  for (guint i = 0; i < trunk->n; i++)
    if (trunk->vlans[i] == vlan)
      return TRUE;
  return FALSE;
}

/* Takes the tag off, or finds the VLAN of an untagged frame. Returns: 0 where the frame is dropped. */
static int
enter_switch (const Socket *socket, int tag)
{
  if (socket->kind == SOCKET_ACCESS)
    return tag == 0 ? socket->vlan : 0;
  return tag != 0 && lists (socket->list, tag) ? tag : 0;
}

static void
leave_switch (const Flooder *flooder, guint index, int vlan, GArray *frames)
{
  const Socket *socket = socket_at (flooder, index);

  if (socket->kind == SOCKET_ACCESS && socket->vlan == vlan)
    leave_by (flooder, index, 0, frames);
  else if (socket->kind == SOCKET_TRUNK && lists (socket->list, vlan))
    leave_by (flooder, index, vlan, frames);
}

static void
enter (const Flooder *flooder, Frame frame, gboolean *heard, GArray *frames)
{
  const Socket *socket = socket_at (flooder, frame.socket);
  int vlan = socket->kind >= SOCKET_ACCESS ? enter_switch (socket, frame.tag) : 0;

  if (socket->has_host && frame.tag == 0)
    heard[socket->device] = TRUE;
  for (guint i = flooder->first[socket->device]; i < flooder->first[socket->device + 1]; i++)
    if (i == frame.socket)
      continue;
    else if (vlan != 0)
      leave_switch (flooder, i, vlan, frames);
    else if (socket->kind == SOCKET_PASS && socket_at (flooder, i)->kind == SOCKET_PASS)
      leave_by (flooder, i, frame.tag, frames);
}

gboolean *
flooder_send (const Flooder *flooder, guint from)
{
  gboolean *heard = g_new0 (gboolean, rw_rig_n (flooder->rig, RW_ITEM_DEVICE));
  g_autofree guint8 *seen = g_malloc0 ((gsize) flooder->sockets->len * N_TAGS + 1);
  g_autoptr (GArray) frames = g_array_new (FALSE, FALSE, sizeof (Frame));

  for (guint i = flooder->first[from]; i < flooder->first[from + 1]; i++)
    if (socket_at (flooder, i)->has_host)
      leave_by (flooder, i, 0, frames);
  for (guint i = 0; i < frames->len; i++)
    {
      Frame frame = g_array_index (frames, Frame, i);
      gsize at = (gsize) frame.socket * N_TAGS + frame.tag;

      /* The same frame at the same place again is a loop going round. */
      if (!seen[at])
        enter (flooder, frame, heard, frames);
      seen[at] = TRUE;
    }
  return heard;
}
