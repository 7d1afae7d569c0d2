/* SPDX-License-Identifier: MIT */
/* Differences as JSON: the form that page and tests read (docs/differ.md). */
#include "core/assess/differ.h"
#include "core/assess/finding_json.h"
#include "core/assess/say.h"

typedef void say_of(ds_text *out, const ds_findings *findings, const ds_finding *finding);

static void say_verdict(ds_text *const out, const ds_findings *const findings,
                        const ds_finding *const finding)
{
    (void)findings;
    ds_text_add(out, ds_verdict_word(finding->verdict));
}

static void say_zone(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    (void)findings;
    ds_text_adds(out, finding->zone);
}

static void say_needed(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    (void)findings;
    ds_say_needed(out, finding);
}

static void say_marked(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    (void)findings;
    ds_say_marked(out, finding->point);
}

static void say_shown(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    (void)findings;
    ds_finding_shown(out, finding);
}

/* "key": {"before": …, "after": …}, null where the point is not there or there is nothing to say. */
static void put_both(ds_finding_writer *const s, const ds_differ *const differ, const ds_difference *const it,
                     const char *const key, say_of *const say)
{
    ds_json_put_key(&s->w, key);
    ds_json_begin_object(&s->w);
    if (it->before) {
        say(&s->line, differ->before, it->before);
    }
    ds_put_line(s, "before");
    if (it->after) {
        say(&s->line, differ->after, it->after);
    }
    ds_put_line(s, "after");
    ds_json_end_object(&s->w);
}

static void put_why(ds_finding_writer *const s, const ds_differ *const differ, const ds_difference *const it)
{
    ds_json_put_key(&s->w, "why");
    ds_json_begin_array(&s->w);
    for (int cause = 0; cause < DS_CAUSES; cause++) {
        if (ds_differ_say_cause(&s->line, differ, it, (ds_cause)cause)) {
            ds_json_put_str(&s->w, ds_text_str(&s->line));
            s->line.len = 0;
        }
    }
    ds_json_end_array(&s->w);
}

static void put_reasons(ds_finding_writer *const s, const char *const key,
                        const ds_reason *const *const reasons, const size_t len)
{
    ds_json_put_key(&s->w, key);
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < len; i++) {
        ds_json_begin_object(&s->w);
        ds_put_rule(s, reasons[i]->rule);
        ds_json_put_key(&s->w, "open");
        ds_json_put_bool(&s->w, reasons[i]->truth == DS_MAYBE);
        ds_json_end_object(&s->w);
    }
    ds_json_end_array(&s->w);
}

static void put_point(ds_finding_writer *const s, const ds_differ *const differ,
                      const ds_difference *const it)
{
    const ds_point *const point = it->after ? it->after->point : it->before->point;
    ds_json_begin_object(&s->w);
    ds_put_str(s, "id", point->id);
    ds_put_str(s, "name", point->name);
    ds_put_str(s, "place", point->place_id);
    ds_put_text(s, "turn", ds_turn_word(it->turn));
    put_both(s, differ, it, "verdict", say_verdict);
    put_both(s, differ, it, "needed", say_needed);
    put_both(s, differ, it, "zone", say_zone);
    put_both(s, differ, it, "marked", say_marked);
    put_both(s, differ, it, "shown", say_shown);
    put_both(s, differ, it, "deciding", ds_say_deciding);
    put_why(s, differ, it);
    put_reasons(s, "came", it->came, it->came_len);
    put_reasons(s, "went", it->went, it->went_len);
    ds_json_end_object(&s->w);
}

static void put_version(ds_finding_writer *const s, const char *const key, const ds_findings *const findings)
{
    s->findings = findings;
    ds_json_put_key(&s->w, key);
    ds_json_begin_object(&s->w);
    ds_put_str(s, "title", findings->job->title);
    ds_put_str(s, "date", findings->job->date);
    ds_packs_json(s);
    ds_json_end_object(&s->w);
}

static void put_counted(ds_finding_writer *const s, const ds_differ *const differ)
{
    ds_json_put_key(&s->w, "counted");
    ds_json_begin_object(&s->w);
    for (int turn = 0; turn < DS_TURNS; turn++) {
        ds_json_put_key(&s->w, ds_turn_word((ds_turn)turn));
        ds_json_put_int(&s->w, (int64_t)differ->counted[turn]);
    }
    ds_json_put_key(&s->w, "same");
    ds_json_put_int(&s->w, (int64_t)(differ->points_all - differ->points_len));
    ds_json_end_object(&s->w);
}

void ds_differ_json(ds_text *const out, const ds_differ *const differ)
{
    ds_finding_writer s = {.w = ds_json_writer_on(out)};
    ds_text_init(&s.line, out->alloc);
    ds_json_begin_object(&s.w);
    ds_put_text(&s, "program", "dripstone " DS_PROGRAM_VERSION);
    put_version(&s, "before", differ->before);
    put_version(&s, "after", differ->after);
    ds_differ_say(&s.line, differ);
    ds_put_line(&s, "summary");
    put_counted(&s, differ);
    ds_json_put_key(&s.w, "points");
    ds_json_begin_array(&s.w);
    for (size_t i = 0; i < differ->points_len; i++) {
        put_point(&s, differ, &differ->points[i]);
    }
    ds_json_end_array(&s.w);
    ds_json_end_object(&s.w);
    ds_text_char(out, '\n');
    ds_text_free(&s.line);
}
