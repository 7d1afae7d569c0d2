/* SPDX-License-Identifier: MIT */
/* For the buyer: how many pieces of which kind with which code, most first. */
#include "paper/parts.h"

enum { PIECES, PICTURE, KIND, NEEDED, OFFERED, POINTS, COLUMNS_LEN };

static const ds_column COLUMNS[COLUMNS_LEN] = {
    [PIECES] = {"pieces", 0.08, DS_TYPEFACE_STRONG, false},
    [KIND] = {"kind", 0.2, DS_TYPEFACE_BODY, false},
    [PICTURE] = {"", 0.08, DS_TYPEFACE_BODY, false},
    [NEEDED] = {"ask for at least", 0.19, DS_TYPEFACE_STRONG, false},
    [OFFERED] = {"of these fit now", 0.12, DS_TYPEFACE_BODY, false},
    [POINTS] = {"points", 0.33, DS_TYPEFACE_BODY, false}};

static double fitting_pieces(const ds_finding *const *const points, const size_t len)
{
    double pieces = 0;
    for (size_t i = 0; i < len; i++) {
        if (points[i]->verdict == DS_FITS) {
            pieces += ds_parts_pieces(points[i]);
        }
    }
    return pieces;
}

static void put_group(ds_parts *const p, ds_table *const table, const ds_finding *const *const points,
                      const ds_alike *const group)
{
    ds_rungs rungs;
    ds_text_number(&p->say, group->pieces, 0);
    ds_table_cell(table, PIECES, ds_parts_take(p));
    ds_parts_say_kind(&p->say, points[0]->point->kind);
    ds_table_cell(table, KIND, ds_parts_take(p));
    if (points[0]->needed != DS_NEED_NOTHING) {
        ds_rungs_of(&rungs, ds_finding_code(points[0]), DS_MARK_SILENT);
        ds_table_picture(table, PICTURE, &rungs);
    }
    ds_say_needed(&p->say, points[0]);
    ds_table_cell(table, NEEDED, ds_parts_take(p));
    ds_text_number(&p->say, fitting_pieces(points, group->len), 0);
    ds_table_cell(table, OFFERED, ds_parts_take(p));
    ds_parts_say_ids(&p->say, points, group->len);
    ds_table_cell(table, POINTS, ds_parts_take(p));
    ds_table_row(table);
}

enum { STATEMENTS_MOST = 64 };

/* Rules that ask for something that no code says, each once. */
static size_t collect_statements(const ds_rule *list[STATEMENTS_MOST], const ds_parts *const p)
{
    size_t len = 0;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        for (size_t j = 0; j < p->points[i]->reasons_len; j++) {
            const ds_reason *const reason = &p->points[i]->reasons[j];
            const bool asks = reason->rule->needs.qualities_len || reason->rule->needs.material.at;
            size_t k = 0;
            while (k < len && list[k] != reason->rule) {
                k++;
            }
            if (asks && reason->truth == DS_YES && !reason->covered && k == len && len < STATEMENTS_MOST) {
                list[len++] = reason->rule;
            }
        }
    }
    return len;
}

static bool applies(const ds_finding *const finding, const ds_rule *const rule)
{
    bool found = false;
    for (size_t j = 0; j < finding->reasons_len; j++) {
        const ds_reason *const reason = &finding->reasons[j];
        found = found || (reason->rule == rule && reason->truth == DS_YES && !reason->covered);
    }
    return found;
}

/* Two rules that ask for the same in the same words are one line for whoever buys. */
static bool reads_alike(ds_parts *const p, const ds_rule *const a, const ds_rule *const b)
{
    ds_say_rule_effect(&p->say, p->findings->book, a);
    const size_t middle = p->say.len;
    ds_say_rule_effect(&p->say, p->findings->book, b);
    const ds_str both = ds_parts_take(p);
    return a->grade == b->grade && ds_str_eq((ds_str){both.at, middle}, ds_str_from(both, middle));
}

/* One line: what rules[0] and those that read alike ask for, and the points; the latter rules are taken out (NULL). */
static void put_statement(ds_parts *const p, const ds_rule **const rules, const size_t len,
                          const ds_finding **const about)
{
    bool same[STATEMENTS_MOST] = {false};
    for (size_t i = 0; i < len; i++) {
        same[i] = rules[i] && reads_alike(p, rules[0], rules[i]);
    }
    size_t found = 0;
    for (size_t j = 0; j < p->findings->points_len; j++) {
        bool any = false;
        for (size_t i = 0; i < len && !any; i++) {
            any = same[i] && applies(p->points[j], rules[i]);
        }
        if (any) {
            about[found++] = p->points[j];
        }
    }
    ds_say_rule_effect(&p->say, p->findings->book, rules[0]);
    ds_text_add(&p->say, rules[0]->grade == DS_GRADE_RULE ? ": " : " (advice): ");
    ds_parts_say_ids(&p->say, about, found);
    ds_parts_put(p, DS_TYPEFACE_BODY, 0);
    for (size_t i = 0; i < len; i++) {
        rules[i] = same[i] ? NULL : rules[i];
    }
}

static void put_statements(ds_parts *const p)
{
    const ds_rule *list[STATEMENTS_MOST];
    const ds_finding **const about = ds_arena_take_many(p->arena, p->findings->points_len, sizeof *about);
    const size_t len = about ? collect_statements(list, p) : 0;
    p->pdf.failed = p->pdf.failed || !about;
    if (len) {
        ds_pdf_heading(&p->pdf, 2, DS_STR("To be stated by the maker, beside the code"));
    }
    for (size_t i = 0; i < len; i++) {
        if (list[i]) {
            put_statement(p, list + i, len - i, about);
        }
    }
}

void ds_part_buyer(ds_parts *const p)
{
    ds_alikes groups;
    if (!ds_alikes_make(&groups, p, ds_alike_by_need_and_kind, false)) {
        return;
    }
    ds_parts_begin(p, "For the buyer");
    ds_pdf_paragraph(
        &p->pdf, DS_TYPEFACE_BODY, 0,
        DS_STR("Quantities by what is needed and by kind. Several codes on one label count together; one of "
               "7, 8 or 9 alone proves no jets. Goods with a higher figure do unless the row says several."));
    ds_table table;
    ds_table_open(&table, &p->pdf, COLUMNS, COLUMNS_LEN, ds_parts_tag_cells(p));
    for (size_t i = 0; i < groups.len; i++) {
        put_group(p, &table, groups.points + groups.at[i].first, &groups.at[i]);
    }
    ds_table_close(&table);
    put_statements(p);
}
