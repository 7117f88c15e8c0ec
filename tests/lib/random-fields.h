/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-field.h>

G_BEGIN_DECLS

int random_fields_integer (GRand *rand);
void random_fields_fill (GRand *rand, gpointer record, const RwTable *table);
void random_fields_add_extras (GRand *rand, gpointer record);

G_END_DECLS
