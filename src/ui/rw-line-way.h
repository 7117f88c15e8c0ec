/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-line.h>

#include "rw-document.h"

G_BEGIN_DECLS

/* Devices and cables that a line passes, each once, as indices of the document's net. */
typedef struct
{
  GArray *devices; /* of guint */
  GArray *cables;  /* of guint */
} RwLineWay;

RwLineWay *rw_line_way_new (RwDocument *document, const RwLine *line);
void rw_line_way_free (RwLineWay *way);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwLineWay, rw_line_way_free)

G_END_DECLS
