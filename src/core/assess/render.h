/* SPDX-License-Identifier: MIT */
/* Findings as JSON and as CSV. Both write point by point, so that a host can drain the text as it grows. */
#ifndef DS_ASSESS_RENDER_H
#define DS_ASSESS_RENDER_H

#include "core/assess/assess.h"

/* Called between points: may take what stands in the text and set its len to 0. Returns false to stop. */
typedef struct ds_drain {
    bool (*take)(void *ctx, ds_text *text);
    void *ctx;
} ds_drain;

/* The findings document (docs/findings.md). drain may be NULL. */
void ds_findings_json(ds_text *out, const ds_findings *findings, const ds_drain *drain);

/* The same with points as rows of a list: id, verdict, zone, needed, marked, shown, judged_on, deciding, remedy. */
void ds_findings_brief_json(ds_text *out, const ds_findings *findings);

/* One row a point, RFC 4180, first row names; cells that a spreadsheet could take for a formula are quoted with '. */
void ds_findings_csv(ds_text *out, const ds_findings *findings, const ds_drain *drain);

/* {"reading": …} for one mark text, and {"verdict": …} for a need text against a mark text. */
void ds_reading_json(ds_text *out, ds_str text);

/* False when the need cannot be read: then *reading of the need says why and nothing is written. */
bool ds_compare_json(ds_text *out, ds_str need, ds_str mark);

/* A place that is asked about beside the points. */
typedef struct ds_zone_spot {
    double at_m[3];
} ds_zone_spot;

/* The zones of the job's place of this index: shapes, points, spots; "zones": null when it has no map. */
void ds_zones_json(ds_text *out, const ds_findings *findings, size_t place, const ds_zone_spot *spots,
                   size_t spots_len);

#endif
