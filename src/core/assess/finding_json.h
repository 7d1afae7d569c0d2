/* SPDX-License-Identifier: MIT */
/* One finding as JSON, and what its writers share: private to assess/. */
#ifndef DS_ASSESS_FINDING_JSON_H
#define DS_ASSESS_FINDING_JSON_H

#include "core/assess/assess.h"
#include "core/json/write.h"

/* Writer, and a scratch text for one sentence at a time. */
typedef struct ds_finding_writer {
    ds_json_writer w;
    ds_text line;
    const ds_findings *findings;
} ds_finding_writer;

static inline void ds_put_line(ds_finding_writer *const s, const char *const key)
{
    ds_json_put_key(&s->w, key);
    if (s->line.len) {
        ds_json_put_str(&s->w, ds_text_str(&s->line));
    } else {
        ds_json_put_null(&s->w);
    }
    if (!ds_text_ok(&s->line)) {
        s->w.text->failed = true;
    }
    s->line.len = 0;
}

static inline void ds_put_str(ds_finding_writer *const s, const char *const key, const ds_str value)
{
    ds_json_put_key(&s->w, key);
    if (value.at) {
        ds_json_put_str(&s->w, value);
    } else {
        ds_json_put_null(&s->w);
    }
}

static inline void ds_put_text(ds_finding_writer *const s, const char *const key, const char *const value)
{
    ds_json_put_key(&s->w, key);
    ds_json_put_text(&s->w, value);
}

/* "packs": what the findings go by, with a notice where the edition was not in force on the job's date. */
void ds_packs_json(ds_finding_writer *s);

/* The keys of a rule that speaks for or against a point, into the object that is open. */
void ds_put_rule(ds_finding_writer *s, const ds_rule *rule);

/* All that is known of a point. */
void ds_finding_json(ds_finding_writer *s, const ds_finding *finding);

/* What a row of a list shows: id, verdict, zone, what is needed, marked and shown as text, the deciding fact, the remedy. */
void ds_finding_brief_json(ds_finding_writer *s, const ds_finding *finding);

#endif
