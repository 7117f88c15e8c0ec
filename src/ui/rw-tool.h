/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-document.h"

G_BEGIN_DECLS

typedef enum
{
  RW_TOOL_MOD_SHIFT = 1 << 0,
  RW_TOOL_MOD_CTRL = 1 << 1,
  RW_TOOL_MOD_ALT = 1 << 2,
} RwToolMods;

/**
 * RwToolPoint: where a hand is.
 * @at: on the sheet, mm
 * @slack_mm: how far a hand may miss a small thing at this zoom
 * @presses: 2 = the second press of a double click
 */
typedef struct
{
  RwPoint at;
  RwToolMods mods;
  double slack_mm;
  guint presses;
} RwToolPoint;

typedef enum
{
  RW_TOOL_KEY_LEFT,
  RW_TOOL_KEY_RIGHT,
  RW_TOOL_KEY_UP,
  RW_TOOL_KEY_DOWN,
  RW_TOOL_KEY_ENTER,
  RW_TOOL_KEY_ESCAPE,
  RW_TOOL_KEY_CABLE, /* C */
} RwToolKey;

/* A thin line that shows what a drag snapped to. */
typedef struct { RwPoint from, to; } RwGuide;

/* A cable in the air. @to_port: where it would end, RW_NONE = it hangs. */
typedef struct
{
  RwPoint *points;
  guint n_points;
  guint to_port;
  gboolean bad;
} RwLooseCable;

typedef enum { RW_VERDICT_NONE, RW_VERDICT_FINE, RW_VERDICT_NOTE, RW_VERDICT_WARNING, RW_VERDICT_ERROR } RwVerdict;

/**
 * RwOverlay: what a tool wants shown above the still sheet while it works. All in sheet mm; indices are the net's.
 * @moved: devices that are shown off their place (the document's scene already has them there)
 * @lit_ports: ports that can take the cable; with @dim_ports all other ports are dimmed
 * @named: devices that the verdict names
 * @brought: what letting go would bring, worst first; another array whenever that is looked at anew
 * @from_port: where the cable in the air starts, RW_NONE = no port
 * @swept: devices that a thread goes through, in its order; the far end that keys chose
 */
typedef struct
{
  GArray *moved;
  guint bent_cable; /* bent or re-plugged: it is drawn as loose[0] instead; else RW_NONE */
  GArray *guides;   /* of RwGuide */
  GArray *loose;    /* of RwLooseCable */
  gboolean has_band;
  RwRect band;
  gboolean dim_ports;
  guint from_port;
  GArray *lit_ports;
  GArray *named;
  GArray *swept;
  RwVerdict verdict;
  char *verdict_text; /* (nullable) */
  GPtrArray *brought; /* (nullable): of RwFinding */
  RwPoint verdict_at;
  const RwPart *ghost; /* (nullable) borrowed */
  char *ghost_name;
  RwPoint ghost_at;
} RwOverlay;

typedef enum { RW_TOOL_ASKS_NOTHING, RW_TOOL_ASKS_PARTICULARS, RW_TOOL_ASKS_NO_FINDING } RwToolAsks;

typedef struct _RwTool RwTool;

/**
 * RwToolClass: a way of working with the hand, without a display.
 * @begin: a press; FALSE = not this tool's business
 * @motion: moved while pressed
 * @hover: moved while not pressed
 * @end: let go; the change to be done (transfer full), or NULL
 * @cancel: leave everything as it was before begin
 * @drop: the document became another meanwhile: let go without putting anything back; NULL = as @cancel
 * @key: FALSE = not this tool's key; *change (transfer full) is to be done
 */
typedef struct
{
  const char *name;
  gsize size;
  void (*init) (RwTool *tool);
  gboolean (*begin) (RwTool *tool, const RwToolPoint *point);
  void (*motion) (RwTool *tool, const RwToolPoint *point);
  void (*hover) (RwTool *tool, const RwToolPoint *point);
  RwChange *(*end) (RwTool *tool, const RwToolPoint *point);
  void (*cancel) (RwTool *tool);
  void (*drop) (RwTool *tool);
  gboolean (*key) (RwTool *tool, RwToolKey key, RwToolMods mods, RwChange **change);
  void (*clear) (RwTool *tool);
} RwToolClass;

struct _RwTool
{
  const RwToolClass *klass;
  RwDocument *document; /* (not owned) */
  RwOverlay overlay;
  gboolean active;      /* between begin and end or cancel, or working by keys */
  RwToolAsks asks;      /* set by end: the canvas does it and resets it */
};

typedef enum
{
  RW_TOOL_SELECT, /* also starts cables at ports */
  RW_TOOL_CABLE,
  RW_TOOL_THREAD,
  RW_TOOL_PAN,    /* moves the view only: the canvas does it */
  RW_TOOL_PLACE,  /* a part from the shelf */
} RwToolKind;
#define RW_N_TOOLS (RW_TOOL_PLACE + 1)

RwTool *rw_tool_new (RwToolKind kind, RwDocument *document);
void rw_tool_free (RwTool *tool);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwTool, rw_tool_free)

gboolean rw_tool_begin (RwTool *tool, const RwToolPoint *point);
void rw_tool_motion (RwTool *tool, const RwToolPoint *point);
void rw_tool_hover (RwTool *tool, const RwToolPoint *point);
RwChange *rw_tool_end (RwTool *tool, const RwToolPoint *point);
void rw_tool_cancel (RwTool *tool);
void rw_tool_drop (RwTool *tool);
gboolean rw_tool_key (RwTool *tool, RwToolKey key, RwToolMods mods, RwChange **change);
const RwOverlay *rw_tool_overlay (const RwTool *tool);

/* RW_TOOL_PLACE: what is placed; takes a reference. */
void rw_tool_place_set_part (RwTool *tool, const RwPart *part);

G_END_DECLS
