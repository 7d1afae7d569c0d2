/* SPDX-License-Identifier: MIT */
/* What the parts share: sentences into paragraphs, names, and points that are alike. */
#include "paper/parts.h"

#include <math.h>
#include <stdlib.h>

#define FOLLOW_SHARE 0.6 /* of the page that must be free below */
#define FOLLOW_GAP_MM 8.0

/* --- setting ------------------------------------------------------------------------------------------------------ */

ds_str ds_parts_take(ds_parts *const p)
{
    const ds_str text = ds_text_str(&p->say);
    p->say.len = 0;
    return text;
}

void ds_parts_put(ds_parts *const p, const ds_typeface face, const double indent_mm)
{
    if (p->say.len) {
        ds_pdf_paragraph(&p->pdf, face, indent_mm, ds_parts_take(p));
    }
}

/*
 * A part begins on a page of its own, so that it can be handed on by itself; but those of the inspector's paper belong
 * together, and one may stand below a page's few last rows.
 */
static bool may_follow(const ds_parts *const p)
{
    return p->paper->reader == DS_READER_INSPECTOR && !p->pdf.bare &&
           ds_pdf_room_mm(&p->pdf) > FOLLOW_SHARE * p->pdf.height_mm;
}

void ds_parts_begin(ds_parts *const p, const char *const name)
{
    ds_pdf *const pdf = &p->pdf;
    if (p->headless) {
        p->headless = false;
        return;
    }
    if (may_follow(p)) {
        ds_pdf_gap(pdf, FOLLOW_GAP_MM);
    } else {
        ds_pdf_new_page(pdf);
    }
    ds_pdf_heading(pdf, 1, ds_str_of(name));
    if (pdf->parts_len < DS_PDF_PARTS) {
        pdf->parts[pdf->parts_len++] = (ds_pdf_part){name, pdf->page};
    }
}

/* A counting sort: the job's order stays within each place. */
bool ds_parts_order(ds_parts *const p)
{
    const ds_findings *const f = p->findings;
    const size_t places = f->job->places_len + 1;
    const ds_finding **const points = ds_arena_take_many(p->arena, f->points_len, sizeof *points);
    size_t *const next = ds_arena_take_many(p->arena, places + 1, sizeof *next);
    if (!points || !next) {
        return false;
    }
    for (size_t i = 0; i < f->points_len; i++) {
        const int32_t place = f->points[i].point->place;
        next[(place < 0 ? places - 1 : (size_t)place) + 1]++;
    }
    for (size_t i = 1; i <= places; i++) {
        next[i] += next[i - 1];
    }
    for (size_t i = 0; i < f->points_len; i++) {
        const int32_t place = f->points[i].point->place;
        points[next[place < 0 ? places - 1 : (size_t)place]++] = &f->points[i];
    }
    p->points = points;
    return true;
}

/* --- names -------------------------------------------------------------------------------------------------------- */

void ds_parts_say_verdict(ds_text *const out, const ds_verdict verdict)
{
    ds_text_add(out, ds_verdict_shape(verdict, false));
    ds_text_char(out, ' ');
    ds_text_add(out, ds_verdict_word(verdict));
}

void ds_parts_say_ids(ds_text *const out, const ds_finding *const *const points, const size_t len)
{
    for (size_t i = 0; i < len && i < DS_IDS_NAMED; i++) {
        ds_text_add(out, i ? ", " : "");
        ds_text_adds(out, points[i]->point->id);
    }
    if (len > DS_IDS_NAMED) {
        ds_text_add(out, " and ");
        ds_text_int(out, (int64_t)(len - DS_IDS_NAMED));
        ds_text_add(out, " more");
    }
}

double ds_parts_pieces(const ds_finding *const finding)
{
    return finding->point->count > 1 ? floor(finding->point->count) : 1;
}

void ds_parts_say_name(ds_text *const out, const ds_finding *const finding)
{
    ds_text_adds(out, finding->point->name);
    if (finding->point->count > 1) {
        ds_text_add(out, " (");
        ds_text_number(out, finding->point->count, 0);
        ds_text_add(out, " pieces)");
    }
}

void ds_parts_put_codes(ds_parts *const p, ds_table *const table, const ds_finding *const finding,
                        const int picture, const int needed, const int marked)
{
    if (finding->needed != DS_NEED_NOTHING) {
        ds_rungs rungs;
        ds_rungs_of(&rungs, finding->needed, finding->marked);
        ds_table_picture(table, picture, &rungs);
    }
    ds_say_needed(&p->say, finding);
    ds_table_cell(table, needed, ds_parts_take(p));
    ds_say_marked(&p->say, finding->point);
    ds_table_cell(table, marked, ds_parts_take(p));
}

void ds_parts_say_place(ds_text *const out, const ds_finding *const finding)
{
    const ds_place *const place = finding->place;
    if (!place) {
        ds_text_add(out, "In no place of the job");
        return;
    }
    ds_text_adds(out, place->name.len ? place->name : place->id);
    if (place->name.len && !ds_str_eq(place->name, place->id)) {
        ds_text_add(out, " (");
        ds_text_adds(out, place->id);
        ds_text_char(out, ')');
    }
}

bool ds_parts_place_begins(const ds_parts *const p, const size_t index)
{
    return index == 0 || p->points[index]->place != p->points[index - 1]->place;
}

void ds_parts_say_kind(ds_text *const out, const ds_str kind)
{
    for (size_t i = 0; i < kind.len; i++) {
        ds_text_bytes(out, kind.at[i] == '-' ? " " : kind.at + i, 1);
    }
    ds_text_add(out, kind.len ? "" : "kind not stated");
}

void ds_parts_say_answer(ds_parts *const p, const ds_finding *const finding)
{
    ds_say_deciding(&p->say, p->findings, finding);
    ds_parts_say_remedy(p, finding);
}

void ds_parts_say_remedy(ds_parts *const p, const ds_finding *const finding)
{
    const size_t before = p->say.len;
    ds_text_add(&p->say, "  → ");
    const size_t arrow = p->say.len;
    ds_say_remedy(&p->say, p->findings, finding);
    p->say.len = p->say.len == arrow ? before : p->say.len;
}

void ds_parts_say_installed(ds_text *const out, const ds_finding *const finding)
{
    if (!finding->installed || !finding->installed->entries_stated) {
        ds_text_add(out, "–");
        return;
    }
    const size_t before = out->len;
    ds_finding_shown(out, finding);
    ds_text_add(out, out->len == before ? "no code" : "");
}

/* --- groups ------------------------------------------------------------------------------------------------------- */

static int order_numbers(const double a, const double b)
{
    if (isnan(a) || isnan(b)) {
        return isnan(b) - isnan(a);
    }
    return (a > b) - (a < b);
}

/* Needs that print alike: a numeral asks for its letters whether they were asked for by name or not. */
static ds_need whole_need(const ds_finding *const finding)
{
    ds_need need = ds_finding_code(finding);
    for (int i = 0; i < DS_ACCESS_LEN; i++) {
        need |= need & DS_OBJECT(i + 1) ? DS_ACCESS_TO('A' + i) : 0;
    }
    return need;
}

int ds_alike_by_need(const ds_finding *const a, const ds_finding *const b)
{
    const ds_need need_a = whole_need(a);
    const ds_need need_b = whole_need(b);
    if (need_a != need_b) {
        return need_a < need_b ? -1 : 1;
    }
    const int rated = order_numbers(a->rated_c, b->rated_c);
    const int cold = order_numbers(a->cold_c, b->cold_c);
    return rated ? rated : cold ? cold : (int)a->surface_d - (int)b->surface_d;
}

int ds_alike_by_need_and_kind(const ds_finding *const a, const ds_finding *const b)
{
    const int need = ds_alike_by_need(a, b);
    const ds_str kind_a = a->point->kind;
    const ds_str kind_b = b->point->kind;
    if (need || ds_str_eq(kind_a, kind_b)) {
        return need;
    }
    const size_t shared = kind_a.len < kind_b.len ? kind_a.len : kind_b.len;
    const int order = shared ? memcmp(kind_a.at, kind_b.at, shared) : 0;
    return order ? order : kind_a.len < kind_b.len ? -1 : 1;
}

static int order_reasons(const ds_reason *const a, const ds_reason *const b)
{
    const uintptr_t keys[][2] = {{(uintptr_t)a->rule, (uintptr_t)b->rule},
                                 {a->truth, b->truth},
                                 {a->outcome, b->outcome},
                                 {a->decides, b->decides},
                                 {a->covered, b->covered},
                                 {a->missing.numbers, b->missing.numbers},
                                 {a->missing.families, b->missing.families}};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        if (keys[i][0] != keys[i][1]) {
            return keys[i][0] < keys[i][1] ? -1 : 1;
        }
    }
    return 0;
}

int ds_alike_by_reasons(const ds_finding *const a, const ds_finding *const b)
{
    if (a->reasons_len != b->reasons_len) {
        return a->reasons_len < b->reasons_len ? -1 : 1;
    }
    int order = 0;
    for (size_t i = 0; i < a->reasons_len && !order; i++) {
        order = order_reasons(&a->reasons[i], &b->reasons[i]);
    }
    return order;
}

/* Heads of groups are compared by their first point; which of the two orders they stand in is the caller's. */
typedef struct ranked {
    ds_alike group;
    const ds_finding *head;
    size_t rank; /* place of the head in the papers */
} ranked;

static int order_by_pieces(const void *const left, const void *const right)
{
    const ranked *const a = left;
    const ranked *const b = right;
    if (a->group.pieces != b->group.pieces) {
        return a->group.pieces > b->group.pieces ? -1 : 1;
    }
    return a->rank < b->rank ? -1 : a->rank > b->rank;
}

static int order_by_rank(const void *const left, const void *const right)
{
    const ranked *const a = left;
    const ranked *const b = right;
    return a->rank < b->rank ? -1 : a->rank > b->rank;
}

/* A merge from the bottom up, so that points that are alike stay in their order; qsort promises no such thing. */
static const ds_finding **sorted(const ds_finding **at, const ds_finding **spare, const size_t len,
                                 ds_alike_order *const order)
{
    for (size_t width = 1; width < len; width *= 2) {
        for (size_t low = 0; low < len; low += 2 * width) {
            const size_t middle = low + width < len ? low + width : len;
            const size_t high = low + 2 * width < len ? low + 2 * width : len;
            size_t a = low;
            size_t b = middle;
            for (size_t i = low; i < high; i++) {
                const bool left = a < middle && (b >= high || order(at[a], at[b]) <= 0);
                spare[i] = left ? at[a++] : at[b++];
            }
        }
        const ds_finding **const swap = at;
        at = spare;
        spare = swap;
    }
    return at;
}

/* Runs of points that are alike. */
static size_t cut_groups(ranked *const out, const ds_finding *const *const points, const size_t len,
                         ds_alike_order *const order)
{
    size_t groups = 0;
    for (size_t i = 0; i < len; i++) {
        if (i == 0 || order(points[i - 1], points[i]) != 0) {
            out[groups++] = (ranked){.group = {.first = i}, .head = points[i]};
        }
        out[groups - 1].group.len++;
        out[groups - 1].group.pieces += ds_parts_pieces(points[i]);
    }
    return groups;
}

/* Where the head of each group stands in the papers. */
static bool rank_groups(ranked *const groups, const size_t len, ds_parts *const p)
{
    const size_t points_len = p->findings->points_len;
    size_t *const rank = ds_arena_take_many(p->arena, points_len, sizeof *rank);
    for (size_t i = 0; rank && i < points_len; i++) {
        rank[p->points[i] - p->findings->points] = i;
    }
    for (size_t i = 0; rank && i < len; i++) {
        groups[i].rank = rank[groups[i].head - p->findings->points];
    }
    return rank != NULL;
}

bool ds_alikes_make(ds_alikes *const out, ds_parts *const p, ds_alike_order *const order, const bool by_place)
{
    const size_t len = p->findings->points_len;
    const ds_finding **const at = ds_arena_take_many(p->arena, len, sizeof *at);
    const ds_finding **const spare = ds_arena_take_many(p->arena, len, sizeof *spare);
    ranked *const groups = ds_arena_take_many(p->arena, len, sizeof *groups);
    out->at = ds_arena_take_many(p->arena, len, sizeof *out->at);
    out->len = 0;
    if (!at || !spare || !groups || !out->at) {
        p->pdf.failed = true;
        return false;
    }
    for (size_t i = 0; i < len; i++) {
        at[i] = p->points[i];
    }
    out->points = sorted(at, spare, len, order);
    const size_t groups_len = cut_groups(groups, out->points, len, order);
    if (!rank_groups(groups, groups_len, p)) {
        p->pdf.failed = true;
        return false;
    }
    qsort(groups, groups_len, sizeof *groups, by_place ? order_by_rank : order_by_pieces);
    for (; out->len < groups_len; out->len++) {
        out->at[out->len] = groups[out->len].group;
    }
    return true;
}
