/* SPDX-License-Identifier: MIT */
/* Depth and time of water test 8 as the codes that stand in a mark or need: private to mark/. */
#ifndef DS_MARK_IMMERSION_H
#define DS_MARK_IMMERSION_H

#include "core/base/text.h"

/* Codes of test 7's own 1 m and 30 min, and of a need beyond every step. 0 is "not declared". */
enum { DS_DEPTH_OF_7 = 100, DS_TIME_OF_7 = 30, DS_DEPTH_BEYOND = 1023, DS_TIME_BEYOND = 255 };

/*
 * The code of a depth or time, rounded down (a mark) or up (a need). Codes grow with what they stand for, so
 * they are compared as they are. A mark stops at the longest step, a need beyond it gets the BEYOND code that
 * no mark has. What is not above zero is "not declared"; of an infinite value that holds for a mark only.
 */
unsigned ds_depth_down(double depth_m);
unsigned ds_depth_up(double depth_m);
unsigned ds_time_down(double minutes);
unsigned ds_time_up(double minutes);

/* What a code stands for; INFINITY for the BEYOND codes. */
double ds_depth_of(unsigned code);
double ds_time_of(unsigned code);

/* "1.5 m", "more than 122 m"; "30 min", "24 h", "7 days", "10 weeks", "more than 63 weeks". */
void ds_depth_print(ds_text *out, double depth_m);
void ds_time_print(ds_text *out, double minutes);

#endif
