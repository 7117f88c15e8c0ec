/* SPDX-License-Identifier: MIT */
#include <rules/rw-rule.h>
#include <gtk/gtk.h>
