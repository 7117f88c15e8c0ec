/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-document.h"
#include "rw-field-row.h"
#include "rw-port-list.h"

G_BEGIN_DECLS

#define RW_TYPE_PARTICULARS (rw_particulars_get_type ())
G_DECLARE_FINAL_TYPE (RwParticulars, rw_particulars, RW, PARTICULARS, GtkWidget)

/**
 * RwParticulars: the fields of what is selected, made from the field tables; with nothing selected, those of
 * the show and of the system. Each keystroke that gives a value is a change of the rig, joined to the one before; see
 * RwTyping for what becomes of others.
 *
 * Property "document" (RwDocument).
 * Signal "picked" (const char *key): the person wants to see that device or cable.
 */
GtkWidget *rw_particulars_new (void);
void rw_particulars_set_document (RwParticulars *particulars, RwDocument *document);
/* Puts the keyboard focus into the first field. */
void rw_particulars_focus_first (RwParticulars *particulars);
/* As if the field that is being typed into was left: what stands in it is taken, or gone and told of in the window.
 * Returns: whether all that was typed was taken */
gboolean rw_particulars_settle (RwParticulars *particulars);
/* The row of the field called @path ("unit_id"), for tests; (nullable). */
RwFieldRow *rw_particulars_find (RwParticulars *particulars, const char *path);
/* The ports of the one selected device, for tests; (nullable). */
RwPortList *rw_particulars_get_ports (RwParticulars *particulars);

G_END_DECLS
