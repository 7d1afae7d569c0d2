/* SPDX-License-Identifier: MIT */
/* What a paper begins with: the answer in one line, what it goes by, how to read it; and what it ends with. */
#include "paper/parts.h"

#include <stdio.h>

#define LABEL_MM 28.0
#define CONTENTS_ROW_MM 5.4

/* Room for every part, whether it is there or not: a dry run does not know them yet and must come out alike. */
enum { CONTENTS_ROWS = 13 };

static void put_answer(ds_parts *const p)
{
    ds_text_add(&p->say, ds_verdict_shape(ds_findings_worst(p->findings), false));
    ds_text_add(&p->say, "  ");
    ds_say_headline(&p->say, p->findings);
    ds_parts_put(p, DS_TYPEFACE_LARGE, 0);
}

void ds_part_notices(ds_parts *const p)
{
    const ds_findings *const f = p->findings;
    for (size_t i = 0; i < f->packs_len; i++) {
        if (ds_pack_notice(&p->say, f->packs[i], f->job->date)) {
            ds_pdf_labelled(&p->pdf, "edition", LABEL_MM, DS_TYPEFACE_STRONG, ds_parts_take(p));
        }
    }
    if (f->job->problems.len) {
        ds_text_int(&p->say, (int64_t)(f->job->problems.len + f->job->problems_unlisted));
        ds_text_add(&p->say,
                    f->job->problems.len + f->job->problems_unlisted == 1
                        ? " thing in the job is not understood; its points are unknown until it is mended "
                          "(dripstone check says where)."
                        : " things in the job are not understood; their points are unknown until they are "
                          "mended (dripstone check says where).");
        ds_pdf_labelled(&p->pdf, "not understood", LABEL_MM, DS_TYPEFACE_STRONG, ds_parts_take(p));
    }
}

static void put_facts(ds_parts *const p)
{
    const ds_findings *const f = p->findings;
    for (size_t i = 0; i < f->packs_len; i++) {
        ds_text_adds(&p->say, f->packs[i]->title);
        ds_text_add(&p->say, f->packs[i]->title.len ? ": " : "");
        ds_text_adds(&p->say, f->packs[i]->edition);
        ds_pdf_labelled(&p->pdf, i ? "" : "rules", LABEL_MM, DS_TYPEFACE_BODY, ds_parts_take(p));
    }
    ds_pdf_labelled(&p->pdf, "date of the job", LABEL_MM, DS_TYPEFACE_BODY,
                    f->job->date.len ? f->job->date : DS_STR("none given"));
    ds_part_notices(p);
}

/* --- contents ----------------------------------------------------------------------------------------------------- */

static void put_contents(ds_parts *const p)
{
    ds_pdf *const pdf = &p->pdf;
    const double right = pdf->width_mm - DS_PAPER_MARGIN_MM;
    const double below = pdf->y_mm + CONTENTS_ROWS * CONTENTS_ROW_MM;
    char page[24];
    for (int i = 0; i < p->contents_len; i++) {
        snprintf(page, sizeof page, "%d", p->contents[i].page);
        ds_pdf_tag(pdf, "P");
        ds_pdf_line(pdf, DS_TYPEFACE_BODY, DS_ANCHOR_START, DS_PAPER_MARGIN_MM + LABEL_MM, pdf->y_mm, 120,
                    ds_str_of(p->contents[i].name));
        ds_pdf_line(pdf, DS_TYPEFACE_BODY, DS_ANCHOR_END, right, pdf->y_mm, 20, ds_str_of(page));
        ds_pdf_untag(pdf, "P");
        pdf->y_mm += CONTENTS_ROW_MM;
        ds_pdf_rule(pdf, DS_PEN_HAIR, DS_PAPER_MARGIN_MM + LABEL_MM, pdf->y_mm - 0.7, right, pdf->y_mm - 0.7);
    }
    pdf->y_mm = below;
    pdf->bare = false;
}

void ds_part_cautions(ds_parts *const p)
{
    ds_pdf_heading(&p->pdf, 2, DS_STR("Cautions"));
    for (size_t i = 0; i < ds_cautions_len(); i++) {
        ds_pdf_paragraph(&p->pdf, DS_TYPEFACE_BODY, 0, ds_str_of(ds_caution(i)));
    }
}

static void put_key(ds_parts *const p)
{
    static const char *const MEANS[] = {
        [DS_BARRED] =
            "a rule on position, voltage, kind or rated temperature forbids it; no better code cures that",
        [DS_SHORT] = "what is marked or left after installing falls short of what is needed",
        [DS_UNKNOWN] = "not shown: evidence or a fact is missing; this is no pass",
        [DS_FITS] = "what is needed is shown to be met"};
    for (int verdict = DS_BARRED; verdict >= DS_FITS; verdict--) {
        char label[32];
        snprintf(label, sizeof label, "%s %s", ds_verdict_shape((ds_verdict)verdict, false),
                 ds_verdict_word((ds_verdict)verdict));
        ds_pdf_labelled(&p->pdf, label, LABEL_MM, DS_TYPEFACE_BODY, ds_str_of(MEANS[verdict]));
    }
}

void ds_part_title(ds_parts *const p)
{
    const ds_str title = p->findings->job->title;
    ds_pdf_heading(&p->pdf, 1, title.len ? title : DS_STR("Untitled job"));
}

void ds_part_cover(ds_parts *const p)
{
    ds_pdf_gap(&p->pdf, 0);
    p->pdf.y_mm += 24;
    ds_part_title(p);
    p->pdf.y_mm += 4;
    put_answer(p);
    p->pdf.y_mm += 8;
    put_facts(p);
    p->pdf.y_mm += 6;
    if (!ds_parts_list_again(p)) {
        ds_pdf_paragraph(&p->pdf, DS_TYPEFACE_BODY, LABEL_MM,
                         DS_STR("So many points are listed once, in the schedule. The lists for client, "
                                "fitter and inspector are papers of their own."));
        p->pdf.y_mm += 2;
    }
    put_contents(p);
    p->pdf.y_mm += 4;
    ds_pdf_heading(&p->pdf, 2, DS_STR("How to read the verdicts"));
    put_key(p);
    ds_part_cautions(p);
}

void ds_part_head(ds_parts *const p)
{
    ds_part_title(p);
    put_answer(p);
    p->pdf.y_mm += 1;
    ds_part_notices(p);
    p->headless = true;
}
