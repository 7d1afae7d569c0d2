/* SPDX-License-Identifier: MIT */
/* dripstone compare: does one mark cover one need. */
#include "cli/commands.h"
#include "cli/page.h"
#include "core/assess/render.h"
#include "core/assess/say.h"

static const ds_option OPTIONS[] = {
    {"json", 0, NULL, "the answer as JSON"},
    {0},
};

enum { INDENT = 2 };

static void take(ds_page *const page, ds_text *const say, const ds_style style)
{
    ds_page_adds(page, style, ds_text_str(say));
    say->len = 0;
}

/* Each part of a mark that holds under a condition, judged alone. */
static void put_parts(ds_page *const page, ds_text *const say, const ds_need need,
                      const ds_reading *const reading)
{
    for (uint8_t i = 0; i < reading->parts_len; i++) {
        const ds_mark_part *const part = &reading->parts[i];
        ds_page_verdict(page, ds_mark_compare(need, part->mark, NULL));
        ds_mark_print(say, part->mark);
        take(page, say, DS_STRONG);
        ds_page_add(page, DS_PLAIN, "  ");
        ds_page_add(page, DS_PLAIN, part->when ? part->when : "always");
        ds_page_break(page, INDENT, INDENT + DS_VERDICT_COLUMNS);
    }
}

static void put_page(ds_page *const page, ds_text *const say, const ds_need need, const ds_str mark_text)
{
    ds_reading reading;
    ds_mark_read(mark_text, &reading);
    const ds_verdict verdict = ds_mark_compare(need, reading.mark, NULL);
    ds_page_verdict(page, verdict);
    ds_page_add(page, DS_QUIET, "needed ");
    ds_need_print(say, need);
    take(page, say, DS_STRONG);
    ds_page_add(page, DS_QUIET, "   offered ");
    ds_page_adds(page, DS_STRONG, mark_text);
    ds_page_break(page, 0, DS_VERDICT_COLUMNS);
    ds_say_comparison(say, need, &reading);
    take(page, say, DS_PLAIN);
    ds_page_break(page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS);
    put_parts(page, say, need, &reading);
    ds_page_gap(page);
    ds_rungs rungs;
    ds_rungs_of(&rungs, need, reading.mark);
    ds_page_rungs(page, &rungs, INDENT);
}

static int fail_need(ds_host *const host, const ds_str need_text, const ds_reading *const reading)
{
    ds_host_fail(host, "no need can be read in", need_text, ":");
    ds_text why;
    ds_text_init(&why, host->alloc);
    ds_reading_because(&why, reading);
    ds_text_add(&host->err, "  ");
    ds_clean(&host->err, ds_text_str(&why), host->ascii);
    ds_text_add(&host->err, why.len ? "\n  " : "");
    ds_text_add(&host->err, "Write a code such as IP44, IPX5, IPXXB or IK08.\n");
    ds_text_free(&why);
    return DS_EXIT_UNREADABLE;
}

static int run(ds_host *const host, const ds_args *const args)
{
    if (args->words_len != 2) {
        return ds_fail_usage(host, &DS_COMPARE, "compare takes a need and a mark; put blanks in quotes.");
    }
    const ds_str need_text = ds_args_word(args, 0);
    const ds_str mark_text = ds_args_word(args, 1);
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading;
    if (!ds_need_read(need_text, &need, &reading)) {
        return fail_need(host, need_text, &reading);
    }
    if (ds_args_has(args, "json")) {
        ds_compare_json(&host->out, need_text, mark_text);
    } else {
        ds_page page;
        ds_text say;
        ds_page_open(&page, host, args);
        ds_text_init(&say, host->alloc);
        put_page(&page, &say, need, mark_text);
        page.line.failed = page.line.failed || !ds_text_ok(&say);
        ds_text_free(&say);
        ds_page_close(&page);
    }
    ds_mark_read(mark_text, &reading);
    return ds_mark_compare(need, reading.mark, NULL) == DS_FITS ? DS_EXIT_FINE : DS_EXIT_NOT_ALL;
}

const ds_command DS_COMPARE = {
    .name = "compare",
    .usage = "NEED MARK [--json]",
    .summary = "does a mark cover a need",
    .help = "Compares what is needed with what is offered, test by test. A lone 7 or 8 proves nothing of "
            "jets: IP67 does not "
            "cover IP65.\n"
            "\n"
            "Exit status: 0 it fits; 1 it falls short or cannot be told; 2 the need could not be read.\n"
            "\n"
            "  dripstone compare IP55 IP67\n"
            "  dripstone compare \"IPX5 IK08\" \"IP65/IP67 IK10\"\n",
    .options = OPTIONS,
    .run = run,
};
