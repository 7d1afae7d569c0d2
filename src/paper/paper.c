/* SPDX-License-Identifier: MIT */
/* Which parts each reader gets, and the two runs that a paper takes. */
#include "paper/paper.h"

#include "paper/parts.h"

static void put_all(ds_parts *const p)
{
    ds_part_cover(p);
    if (!p->findings->points_len) {
        return;
    }
    ds_part_summary(p);
    ds_part_schedule(p);
    if (ds_parts_list_again(p)) {
        ds_part_client(p);
        ds_part_fitter(p);
    }
    ds_part_buyer(p);
    if (ds_parts_list_again(p)) {
        ds_part_inspector(p);
    }
    ds_part_reasons(p);
    ds_part_plans(p);
    ds_part_boxes(p);
    ds_part_calculations(p);
    ds_part_questions(p);
    ds_part_keeping(p);
}

static void put_parts(ds_parts *const p)
{
    if (p->paper->reader == DS_READER_ALL) {
        put_all(p);
        return;
    }
    ds_part_head(p);
    switch (p->paper->reader) {
    case DS_READER_CLIENT:
        ds_part_client(p);
        ds_part_keeping(p);
        break;
    case DS_READER_FITTER:
        ds_part_fitter(p);
        ds_part_plans(p);
        ds_part_boxes(p);
        ds_part_keeping(p);
        break;
    case DS_READER_BUYER:
        ds_part_buyer(p);
        break;
    default:
        ds_part_inspector(p);
        ds_part_reasons(p);
        ds_part_plans(p);
        ds_part_boxes(p);
        ds_part_calculations(p);
        ds_part_questions(p);
        break;
    }
    ds_part_cautions(p);
}

static void say_editions(ds_text *const out, const ds_findings *const f)
{
    for (size_t i = 0; i < f->packs_len; i++) {
        ds_text_add(out, i ? "; " : "");
        ds_text_adds(out, f->packs[i]->edition);
    }
}

/* One run; pages and parts of a dry one are what the next needs. */
static bool set_once(ds_parts *const p, ds_text *const out, const ds_pdf_subject *const subject,
                     ds_part_put *const put, const bool dry)
{
    ds_pdf_open(&p->pdf, &p->type, out, subject, dry);
    put(p);
    return ds_pdf_close(&p->pdf) && ds_text_ok(&p->say);
}

static bool set_twice(ds_parts *const p, ds_text *const out, ds_pdf_subject *const subject,
                      ds_part_put *const put)
{
    ds_pdf_part contents[DS_PDF_PARTS];
    if (!set_once(p, out, subject, put, true)) {
        return false;
    }
    memcpy(contents, p->pdf.parts, sizeof contents);
    p->contents = contents;
    p->contents_len = p->pdf.parts_len;
    subject->pages = p->pdf.page;
    return set_once(p, out, subject, put, false);
}

ds_status ds_parts_set(ds_text *const out, const ds_parts *const given, const char *const kind,
                       ds_part_put *const put)
{
    ds_arena arena;
    ds_arena_init(&arena, out->alloc);
    ds_text editions;
    ds_text_init(&editions, out->alloc);
    say_editions(&editions, given->findings);
    ds_pdf_subject subject = {.title = given->findings->job->title,
                              .date = given->findings->job->date,
                              .editions = ds_text_str(&editions),
                              .kind = ds_str_of(kind),
                              .size = given->paper->size};
    ds_parts parts = *given;
    parts.arena = &arena;
    ds_text_init(&parts.say, out->alloc);
    ds_type_open(&parts.type, out->alloc);
    bool good = ds_text_ok(&editions) && ds_parts_order(&parts) && set_twice(&parts, out, &subject, put);
    good = ds_type_close(&parts.type) && good;
    ds_text_free(&parts.say);
    ds_text_free(&editions);
    ds_arena_free(&arena);
    return good ? DS_OK : DS_NO_MEMORY;
}

ds_status ds_paper_write(ds_text *const out, const ds_findings *const findings, const ds_paper *const paper)
{
    static const char *const KINDS[DS_READERS_LEN] = {"Papers of the job", "For the client", "For the fitter",
                                                      "For the buyer", "For the inspector"};
    ds_parts parts = {.findings = findings, .paper = paper};
    return ds_parts_set(out, &parts, KINDS[paper->reader], put_parts);
}
