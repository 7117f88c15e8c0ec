/* SPDX-License-Identifier: MIT */
const char *rw_spoken[] = { N_("Spoken"), N_("%d left") };
