/* SPDX-License-Identifier: MIT */
/*
 * What changed between two answers: how many points turned which way, and which; then point by point, worst first, the
 * answer before and now, what to do now, and why it changed. The words are those of `dripstone differ`.
 */
#include "paper/parts.h"

#define LABEL_MM 28.0
#define POINT_MM 30.0 /* room for a point's heading and what must stand below it */

static const char *const HEADS[DS_TURNS] = {
    "Worse than before",  "Added", "Removed", "Better than before", "Another need, the same verdict",
    "Otherwise different"};

static void put(ds_parts *const p, const char *const label, const ds_typeface face)
{
    if (p->say.len) {
        ds_pdf_labelled(&p->pdf, label, LABEL_MM, face, ds_parts_take(p));
    }
}

static const ds_finding *shown(const ds_difference *const it)
{
    return it->after ? it->after : it->before;
}

/* --- the first lines ---------------------------------------------------------------------------------------------- */

static void put_headline(ds_parts *const p)
{
    const ds_differ *const differ = p->differ;
    const ds_finding *const first = differ->points_len ? differ->points[0].after : NULL;
    const ds_verdict worst = first && ds_differ_exit(differ) ? first->verdict : DS_FITS;
    ds_text_add(&p->say, ds_verdict_shape(worst, false));
    ds_text_add(&p->say, "  ");
    ds_differ_say(&p->say, differ);
    ds_parts_put(p, DS_TYPEFACE_LARGE, 0);
    p->pdf.y_mm += 2;
}

/* "Title; BS 7671:2018; 2019-05-04", and what is wrong with it. */
static void put_version(ds_parts *const p, const char *const label, const ds_findings *const f)
{
    ds_text_adds(&p->say, f->job->title.len ? f->job->title : DS_STR("Untitled job"));
    for (size_t i = 0; i < f->packs_len; i++) {
        ds_text_add(&p->say, "; ");
        ds_text_adds(&p->say, f->packs[i]->edition);
    }
    ds_text_add(&p->say, f->job->date.len ? "; " : "; no date");
    ds_text_adds(&p->say, f->job->date);
    put(p, label, DS_TYPEFACE_BODY);
    const ds_findings *const now = p->findings;
    p->findings = f;
    ds_part_notices(p);
    p->findings = now;
}

/* "worse     P3, P7 and 2 more" */
static void put_ids(ds_parts *const p, const ds_turn turn)
{
    size_t told = 0;
    for (size_t i = 0; i < p->differ->points_len && told < DS_IDS_NAMED; i++) {
        if (p->differ->points[i].turn == turn) {
            ds_text_add(&p->say, told++ ? ", " : "");
            ds_text_adds(&p->say, shown(&p->differ->points[i])->point->id);
        }
    }
    if (p->differ->counted[turn] > told) {
        ds_text_add(&p->say, " and ");
        ds_text_int(&p->say, (int64_t)(p->differ->counted[turn] - told));
        ds_text_add(&p->say, " more");
    }
    put(p, ds_turn_word(turn), DS_TYPEFACE_STRONG);
}

static void put_head(ds_parts *const p)
{
    ds_part_title(p);
    put_headline(p);
    for (int turn = 0; turn < DS_TURNS; turn++) {
        put_ids(p, (ds_turn)turn);
    }
    p->pdf.y_mm += 2;
    put_version(p, "before", p->differ->before);
    put_version(p, "now", p->differ->after);
}

/* --- a point ------------------------------------------------------------------------------------------------------ */

static bool is_restated(const ds_difference *const it, const char *const key)
{
    for (size_t i = 0; i < it->point.len; i++) {
        if (ds_str_is(it->point.at[i].key, key)) {
            return true;
        }
    }
    return false;
}

/* "▲ short; needed IPX4; marked IP44; zone 1": mark and zone where the two sides differ in them, or there is one side. */
static void put_side(ds_parts *const p, const ds_difference *const it, const char *const label,
                     const ds_finding *const finding)
{
    const bool alone = !it->before || !it->after;
    ds_parts_say_verdict(&p->say, finding->verdict);
    ds_text_add(&p->say, "; needed ");
    ds_say_needed(&p->say, finding);
    if (alone || is_restated(it, "marked")) {
        ds_text_add(&p->say, "; marked ");
        ds_say_marked(&p->say, finding->point);
    }
    if (!alone && !ds_str_eq(it->before->zone, it->after->zone)) {
        ds_text_add(&p->say, "; zone ");
        ds_text_adds(&p->say, finding->zone);
    }
    put(p, label, DS_TYPEFACE_BODY);
}

/* Nothing where both would read the same. */
static void put_sides(ds_parts *const p, const ds_difference *const it)
{
    const bool both = it->before && it->after;
    if (both && it->turn == DS_TURN_OTHER && !is_restated(it, "marked") &&
        ds_str_eq(it->before->zone, it->after->zone)) {
        return;
    }
    if (it->before) {
        put_side(p, it, "before", it->before);
    }
    if (it->after) {
        put_side(p, it, "now", it->after);
    }
}

static void put_answer(ds_parts *const p, const ds_difference *const it)
{
    if (it->after && it->turn != DS_TURN_OTHER) {
        ds_parts_say_answer(p, it->after);
        put(p, "answer", DS_TYPEFACE_BODY);
    }
}

/* Where reasons came or went, each names its edition, and the rules need no sentence of their own. */
static void put_causes(ds_parts *const p, const ds_difference *const it)
{
    const int end = it->came_len || it->went_len ? DS_CAUSE_RULES : DS_CAUSES;
    bool told = false;
    for (int cause = 0; cause < end; cause++) {
        ds_text_add(&p->say, told ? " " : "");
        told = ds_differ_say_cause(&p->say, p->differ, it, (ds_cause)cause) || told;
    }
    put(p, "why", DS_TYPEFACE_BODY);
}

static void put_reason(ds_parts *const p, const char *const label, const ds_reason *const reason)
{
    ds_text_adds(&p->say, reason->rule->because);
    ds_text_add(&p->say, reason->truth == DS_MAYBE ? " This is still open. [" : " [");
    ds_text_adds(&p->say, reason->rule->id);
    ds_text_add(&p->say, "; ");
    ds_say_origin(&p->say, reason->rule);
    ds_text_char(&p->say, ']');
    put(p, label, DS_TYPEFACE_BODY);
}

/* What decides comes first. */
static void put_reasons(ds_parts *const p, const char *const label, const ds_reason *const *const reasons,
                        const size_t len)
{
    for (int pass = 0; pass < 2; pass++) {
        for (size_t i = 0; i < len; i++) {
            if (reasons[i]->decides == (pass == 0)) {
                put_reason(p, label, reasons[i]);
            }
        }
    }
}

static void put_point(ds_parts *const p, const ds_difference *const it)
{
    const ds_finding *const finding = shown(it);
    ds_pdf_need(&p->pdf, POINT_MM);
    ds_text_adds(&p->say, finding->point->id);
    ds_text_add(&p->say, "  ");
    ds_parts_say_name(&p->say, finding);
    ds_text_add(&p->say, finding->point->name.len ? ", " : "");
    ds_parts_say_place(&p->say, finding);
    ds_pdf_heading(&p->pdf, 3, ds_parts_take(p));
    put_sides(p, it);
    put_answer(p, it);
    put_causes(p, it);
    put_reasons(p, "new", it->came, it->came_len);
    put_reasons(p, "no longer", it->went, it->went_len);
}

/* --- all ---------------------------------------------------------------------------------------------------------- */

static void put_turn(ds_parts *const p, const ds_turn turn)
{
    ds_pdf_heading(&p->pdf, 2, ds_str_of(HEADS[turn]));
    if (turn == DS_TURN_BETTER) {
        ds_pdf_paragraph(&p->pdf, DS_TYPEFACE_BODY, 0,
                         DS_STR("Better is not fit: from short to unknown is better, and still no pass."));
    }
}

static void put_changes(ds_parts *const p)
{
    const ds_differ *const differ = p->differ;
    put_head(p);
    for (size_t i = 0; i < differ->points_len; i++) {
        if (i == 0 || differ->points[i].turn != differ->points[i - 1].turn) {
            put_turn(p, differ->points[i].turn);
        }
        const ds_findings *const now = p->findings;
        p->findings = differ->points[i].after ? now : differ->before;
        put_point(p, &differ->points[i]);
        p->findings = now;
    }
    ds_part_cautions(p);
}

ds_status ds_changes_write(ds_text *const out, const ds_differ *const differ, const ds_paper_size size)
{
    const ds_paper paper = {.reader = DS_READER_ALL, .size = size};
    ds_parts parts = {.findings = differ->after, .paper = &paper, .differ = differ};
    return ds_parts_set(out, &parts, "What changed", put_changes);
}
