/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>
#include <stdlib.h>
#include <time.h>

/* Of this process alone, in ms: the machine may be busy otherwise. */
static inline double
bench_now_ms (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return now.tv_sec * 1e3 + now.tv_nsec / 1e6;
}

static inline int
bench_compare (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Sorts @times. */
static inline double
bench_median (double *times, guint n)
{
  qsort (times, n, sizeof *times, bench_compare);
  return times[n / 2];
}
