/* SPDX-License-Identifier: MIT */
#include "rw-draw.h"

/* Hues after Okabe and Ito (Color Universal Design, 2008), with greys of our own. */
#define BLACK { 0.0, 0.0, 0.0 }
#define WHITE { 1.0, 1.0, 1.0 }
#define RGB(hex) { (((hex) >> 16) & 255) / 255.0, (((hex) >> 8) & 255) / 255.0, ((hex) & 255) / 255.0 }
#define ORANGE RGB (0xe69f00)
#define SKY_BLUE RGB (0x56b4e9)
#define BLUISH_GREEN RGB (0x009e73)
#define BLUE RGB (0x0072b2)
#define VERMILION RGB (0xd55e00)
#define REDDISH_PURPLE RGB (0xcc79a7)

/* Columns: light sheet, dark sheet, black and white. */
static const RwInk inks[RW_N_INK_ROLES][3] = {
  [RW_INK_TEXT] = { RGB (0x1a1a1a), RGB (0xeeeeec), BLACK },
  [RW_INK_FAINT] = { RGB (0x5e5e62), RGB (0xa8a8ae), RGB (0x505050) },
  [RW_INK_SHEET] = { WHITE, RGB (0x1d1e21), WHITE },
  [RW_INK_BOX] = { RGB (0xf7f7f5), RGB (0x2a2b30), WHITE },
  [RW_INK_BOX_LINE] = { RGB (0x1a1a1a), RGB (0xc9c9cc), BLACK },
  [RW_INK_CHAIN] = { BLUISH_GREEN, RGB (0x1fb98c), BLACK },
  [RW_INK_PRIMARY] = { BLACK, RGB (0xf4f4f2), BLACK },
  [RW_INK_SECONDARY] = { ORANGE, ORANGE, BLACK },
  [RW_INK_CASING] = { RGB (0x1a1a1a), BLACK, BLACK },
  [RW_INK_PLAIN] = { RGB (0x4a4a4e), RGB (0xb4b4ba), BLACK },
  [RW_INK_FAULT] = { VERMILION, RGB (0xf07a22), BLACK },
  [RW_INK_WARNING] = { ORANGE, ORANGE, WHITE },
  [RW_INK_NOTE] = { SKY_BLUE, SKY_BLUE, WHITE },
  [RW_INK_SELECTED] = { BLUE, SKY_BLUE, BLACK },
  [RW_INK_REVISION] = { RGB (0x8f2d6b), RGB (0xe39ac4), BLACK },
  [RW_INK_RULE] = { RGB (0xb8b8bc), RGB (0x55565c), RGB (0xa0a0a0) },
  [RW_INK_ON_FAULT] = { BLACK, BLACK, WHITE },
  [RW_INK_ON_WARNING] = { BLACK, BLACK, BLACK },
  [RW_INK_ON_NOTE] = { BLACK, BLACK, BLACK },
  [RW_INK_NETWORK] = { BLUE, RGB (0x4ea3d8), BLACK },
  [RW_INK_NETWORK + 1] = { RGB (0xb04f86), REDDISH_PURPLE, BLACK },
  [RW_INK_NETWORK + 2] = { RGB (0x006b4f), RGB (0x1fb98c), BLACK },
  [RW_INK_NETWORK + 3] = { RGB (0x8a5a00), RGB (0xe0a33a), BLACK },
  [RW_INK_DEPTH] = { SKY_BLUE, BLUE, WHITE },
};

/**
 * rw_ink: the colour of @role. Black and white is for paper: it wins over the dark sheet.
 * Contrast against the sheet holds WCAG 2.2: text at least 4.5:1, lines at least 3:1, an orange line by its casing.
 */
RwInk
rw_ink (RwInkRole role, const RwDrawOptions *options)
{
  g_return_val_if_fail ((guint) role < RW_N_INK_ROLES, inks[RW_INK_TEXT][0]);

  return inks[role][options->mono ? 2 : options->dark ? 1 : 0];
}

void
rw_ink_set (cairo_t *cr, RwInkRole role, const RwDrawOptions *options)
{
  RwInk ink = rw_ink (role, options);

  cairo_set_source_rgb (cr, ink.r, ink.g, ink.b);
}
