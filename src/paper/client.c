/* SPDX-License-Identifier: MIT */
/*
 * For the client: what must change, what is not known yet and what is in order, in plain words. No letters of classes and
 * no clauses; a code only where it is what to ask for.
 */
#include "paper/parts.h"

/* The highest test of each track that a need asks for, as something that happens. */
static void say_keeps_out(ds_text *const out, const ds_need need)
{
    static const char *const SOLIDS[] = {"hands", "fingers", "tools", "wires and small things",
                                         "dust",  "all dust"};
    static const char *const ACCESS[] = {"hands", "fingers", "tools", "wires"};
    static const char *const WATER[] = {"dripping water",
                                        "dripping water",
                                        "rain",
                                        "splashes",
                                        "hose jets",
                                        "strong jets",
                                        "a short time under water",
                                        "a long time under water",
                                        "hot high-pressure cleaning"};
    const size_t start = out->len;
    int solid = -1;
    for (int i = 0; i < DS_OBJECTS_LEN; i++) {
        solid = need & DS_OBJECT(i + 1) ? i : solid;
    }
    int access = -1;
    for (int i = 0; i < DS_ACCESS_LEN; i++) {
        access = need & DS_ACCESS('A' + i) ? i : access;
    }
    if (solid >= 0 || access >= 0) {
        ds_text_add(out, solid >= access ? SOLIDS[solid] : ACCESS[access]);
    }
    for (int i = DS_WATER_LEN - 1, jets = 0; i >= 0; i--) {
        if (need & DS_WATER(i + 1) && (i > 5 || !jets)) {
            ds_text_add(out, out->len > start ? ", " : "");
            ds_text_add(out, WATER[i]);
            jets = i <= 5;
        }
    }
    if (ds_mark_impact(need)) {
        ds_text_add(out, out->len > start ? ", " : "");
        ds_text_add(out, "blows");
    }
    ds_text_add(out, out->len > start ? "" : "nothing in particular");
}

/* What is not known, where the usual sentence names keys of the document that are the designer's business. */
static const char *plainly(const ds_obstacle obstacle)
{
    switch (obstacle) {
    case DS_OBSTACLE_PROBLEM:
        return "The notes on it contain something that could not be read; whoever keeps them mends that.";
    case DS_OBSTACLE_HEAT:
        return "How warm it becomes inside cannot be told yet; figures of the box are missing.";
    case DS_OBSTACLE_SWEAT:
        return "Whether water settles inside over the day cannot be told yet; figures of the box or its day "
               "are missing.";
    case DS_OBSTACLE_FLOOD:
        return "Whether high water reaches it cannot be told yet.";
    case DS_OBSTACLE_ZONE:
        return "It has not been measured yet how near to the water it stands.";
    case DS_OBSTACLE_UNANSWERED:
        return "Nobody has noted yet what reaches it there: water, dust, blows, people.";
    case DS_OBSTACLE_MARK:
        return "It shows no code that counts; the label or the maker's sheet has to be read.";
    case DS_OBSTACLE_STATE:
        return "Its code holds in one state only, such as with the lid shut, and nobody has noted how it is "
               "used.";
    case DS_OBSTACLE_TEST:
        return "Its code does not show all that is needed here; the maker is asked, or other goods are "
               "chosen.";
    case DS_OBSTACLE_FACT:
        return "A figure or a statement is still missing; whoever keeps the papers asks for it.";
    case DS_OBSTACLE_RATED:
        return "The maker has not stated it for this use yet.";
    default:
        return NULL;
    }
}

/* Why, and what to do; a rule's own reason says it best. */
static void say_why(ds_parts *const p, const ds_finding *const finding)
{
    const char *const plain = finding->verdict == DS_UNKNOWN ? plainly(finding->obstacle) : NULL;
    if (plain) {
        ds_text_add(&p->say, plain);
        return;
    }
    const bool by_rule = finding->deciding && finding->deciding->because.len && !finding->asked_decides &&
                         finding->verdict != DS_UNKNOWN;
    if (by_rule) {
        ds_text_adds(&p->say, finding->deciding->because);
    } else {
        ds_say_deciding(&p->say, p->findings, finding);
    }
    ds_parts_say_remedy(p, finding);
}

static const ds_column COLUMNS[] = {{"point", 0.1, DS_TYPEFACE_STRONG, false},
                                    {"what and where", 0.55, DS_TYPEFACE_BODY, false},
                                    {"it must keep out", 0.35, DS_TYPEFACE_BODY, false}};

static void say_what(ds_text *const out, const ds_finding *const finding)
{
    ds_parts_say_name(out, finding);
    if (finding->place) {
        ds_text_add(out, finding->point->name.len ? "; " : "");
        ds_text_adds(out, finding->place->name.len ? finding->place->name : finding->place->id);
    }
}

static void put_row(ds_parts *const p, ds_table *const table, const ds_finding *const finding)
{
    ds_table_cell(table, 0, finding->point->id);
    say_what(&p->say, finding);
    ds_table_cell(table, 1, ds_parts_take(p));
    say_keeps_out(&p->say, finding->needed);
    ds_table_cell(table, 2, ds_parts_take(p));
    say_why(p, finding);
    ds_table_note(table, ds_parts_take(p));
    ds_table_row(table);
}

static void put_verdict(ds_parts *const p, const ds_verdict verdict)
{
    static const char *const MEANS[] = {[DS_BARRED] = "must not be there, or not in this form",
                                        [DS_SHORT] = "not protected enough for the place",
                                        [DS_UNKNOWN] =
                                            "nobody can say yet; until then it does not count as safe"};
    ds_text_add(&p->say, ds_verdict_shape(verdict, false));
    ds_text_char(&p->say, ' ');
    ds_text_add(&p->say, ds_verdict_word(verdict));
    ds_text_add(&p->say, ": ");
    ds_text_add(&p->say, MEANS[verdict]);
    ds_pdf_heading(&p->pdf, 2, ds_parts_take(p));
    ds_table table;
    ds_table_open(&table, &p->pdf, COLUMNS, 3, ds_parts_tag_cells(p));
    for (size_t i = 0; i < p->findings->points_len; i++) {
        if (p->points[i]->verdict == verdict) {
            put_row(p, &table, p->points[i]);
        }
    }
    ds_table_close(&table);
}

/* Points that fit, place by place: nothing is to be done, so a line a place is enough. */
static void put_fits(ds_parts *const p)
{
    const size_t len = p->findings->points_len;
    const ds_finding **const alike = ds_arena_take_many(p->arena, len, sizeof *alike);
    p->pdf.failed = p->pdf.failed || !alike;
    ds_text_add(&p->say, ds_verdict_shape(DS_FITS, false));
    ds_text_add(&p->say, " fits: in order as it is");
    ds_pdf_heading(&p->pdf, 2, ds_parts_take(p));
    for (size_t i = 0, end = 0; alike && i < len; i = end) {
        size_t found = 0;
        for (end = i; end < len && p->points[end]->place == p->points[i]->place; end++) {
            if (p->points[end]->verdict == DS_FITS) {
                alike[found++] = p->points[end];
            }
        }
        if (found) {
            ds_parts_say_place(&p->say, p->points[i]);
            ds_text_add(&p->say, ": ");
            ds_parts_say_ids(&p->say, alike, found);
            ds_parts_put(p, DS_TYPEFACE_BODY, 0);
        }
    }
}

static void put_questions(ds_parts *const p)
{
    const ds_findings *const f = p->findings;
    bool begun = false;
    for (size_t i = 0; i < f->questions_len; i++) {
        if (f->questions[i].whom != DS_WHOM_CLIENT) {
            continue;
        }
        if (!begun) {
            ds_pdf_heading(&p->pdf, 2, DS_STR("What we need to know from you"));
        }
        begun = true;
        ds_text_adds(&p->say, f->questions[i].text);
        ds_text_add(&p->say, " (");
        for (size_t j = 0; j < f->questions[i].points_len && j < DS_IDS_NAMED; j++) {
            ds_text_add(&p->say, j ? ", " : "");
            ds_text_adds(&p->say, f->points[f->questions[i].points[j]].point->id);
        }
        ds_text_add(&p->say, f->questions[i].points_len > DS_IDS_NAMED ? " and more)" : ")");
        ds_parts_put(p, DS_TYPEFACE_BODY, 0);
    }
}

void ds_part_client(ds_parts *const p)
{
    ds_parts_begin(p, "For the client");
    ds_pdf_paragraph(
        &p->pdf, DS_TYPEFACE_BODY, 0,
        DS_STR("Each point was looked at for what reaches it where it is: water, dust, blows, and "
               "people's fingers. Below stands what must change first."));
    for (int verdict = DS_BARRED; verdict > DS_FITS; verdict--) {
        if (p->findings->counted[verdict]) {
            put_verdict(p, (ds_verdict)verdict);
        }
    }
    put_questions(p);
    if (p->findings->counted[DS_FITS]) {
        put_fits(p);
    }
}
