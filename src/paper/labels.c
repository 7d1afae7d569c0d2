/* SPDX-License-Identifier: MIT */
/*
 * Sheets of labels. A label says which point it is, what is needed there and what is left of the mark, not to drill, when
 * that was worked out, where there is room the place and the job, and carries the point and the job's hash in a code to scan, so that a label can be held against
 * the job it came from.
 */
#include "paper/label_sheet.h"
#include "paper/parts.h"

#include <math.h>
#include <qrencode.h>

#define ROOMY_MM 60.0 /* from this width on a label also names the verdict */
#define QUIET_MM 2.2  /* paper around the code that a reader needs */
#define DATE_MM 16.0
#define PAD_MM 2.0
#define GOOD_MODULE_MM 0.4 /* of the code to scan; smaller ones are hard to read on site */

enum { HASH_DIGITS = 16, CODE_ROWS = 5 }; /* rows that needed and marked may take */

/* --- one label ---------------------------------------------------------------------------------------------------- */

/* As wide as its modules can be made in the given square; returns the width taken. */
static double put_code(ds_parts *const p, const double right_mm, const double top_mm, const double most_mm)
{
    ds_text_bytes(&p->say, "", 1);
    QRcode *const code = ds_text_ok(&p->say) ? QRcode_encodeString8bit(p->say.at, 0, QR_ECLEVEL_M) : NULL;
    p->say.len = 0;
    if (!code) {
        return 0; /* a point's id too long for any code: the label says it in letters */
    }
    const double module = fmin(most_mm / code->width, GOOD_MODULE_MM * 1.5);
    const double left = right_mm - module * code->width;
    for (int i = 0; p->pdf.cr && i < code->width * code->width; i++) {
        const int column = i % code->width;
        const int row = i / code->width;
        if (code->data[i] & 1) {
            cairo_rectangle(p->pdf.cr, left + column * module, top_mm + row * module, module, module);
        }
    }
    if (p->pdf.cr) {
        cairo_set_antialias(p->pdf.cr, CAIRO_ANTIALIAS_NONE);
        cairo_fill(p->pdf.cr);
    }
    const double taken = module * code->width;
    QRcode_free(code);
    return taken;
}

/* Text in at most so many lines, if there is room above the foot; returns y below it. */
static double put_text(ds_parts *const p, const ds_typeface face, const double x, const double y,
                       const double foot, const double width, const int lines)
{
    const ds_str text = ds_parts_take(p);
    const double row = p->type.heights_mm[face];
    const int fitting = (int)((foot - y) / row);
    if (!text.len || fitting < 1) {
        return y;
    }
    PangoLayout *const layout = ds_type_set(&p->type, face, text, width, fitting < lines ? fitting : lines);
    ds_pdf_show(&p->pdf, layout, x, y);
    const double below = y + ds_layout_height_mm(layout) + 0.4;
    g_object_unref(layout);
    return below;
}

static void say_left(ds_text *const out, const ds_finding *const finding)
{
    const bool installed = finding->installed && finding->installed->entries_stated;
    ds_text_add(out, installed ? "installed " : "marked ");
    if (installed) {
        ds_parts_say_installed(out, finding);
    } else {
        ds_say_marked(out, finding->point);
    }
}

/* What matters most first: a low label has no room for the name. */
static void put_lines(ds_parts *const p, const ds_finding *const finding, const double x, const double y,
                      const double foot, const double width)
{
    ds_text_adds(&p->say, finding->point->id);
    double at = put_text(p, DS_TYPEFACE_LARGE, x, y - 0.6, foot, width, 1);
    const int spare = (int)((foot - at) / p->type.heights_mm[DS_TYPEFACE_SMALL]) - CODE_ROWS;
    if (spare > 0) {
        ds_text_adds(&p->say, finding->point->name);
        at = put_text(p, DS_TYPEFACE_SMALL, x, at, foot, width, spare < 2 ? spare : 2);
    }
    ds_text_add(&p->say, "needed ");
    ds_say_needed(&p->say, finding);
    at = put_text(p, DS_TYPEFACE_SMALL_STRONG, x, at, foot, width, 2);
    say_left(&p->say, finding);
    at = put_text(p, DS_TYPEFACE_SMALL_STRONG, x, at, foot, width, 3);
    if (finding->place) {
        ds_text_adds(&p->say, finding->place->name.len ? finding->place->name : finding->place->id);
        at = put_text(p, DS_TYPEFACE_SMALL, x, at, foot, width, 1);
    }
    ds_text_adds(&p->say, p->findings->job->title);
    put_text(p, DS_TYPEFACE_SMALL, x, at, foot, width, 1);
}

/* In words that mean nothing else on electrical goods, where "short" is a short circuit. */
static const char *say_verdict(const ds_verdict verdict)
{
    static const char *const SAY[] = {[DS_FITS] = "",
                                      [DS_SHORT] = "; falls short",
                                      [DS_UNKNOWN] = "; not shown",
                                      [DS_BARRED] = "; not allowed here"};
    return SAY[verdict];
}

static void put_label(ds_parts *const p, const ds_finding *const finding, const ds_label_sheet *const sheet,
                      const char *const hash, const double x, const double y)
{
    const double most = fmin(sheet->height_mm - 2 * PAD_MM - 3 - QUIET_MM, sheet->width_mm * 0.33);
    const double right = x + sheet->width_mm - PAD_MM;
    ds_text_add(&p->say, "dripstone ");
    ds_text_adds(&p->say, finding->point->id);
    ds_text_char(&p->say, ' ');
    ds_text_add(&p->say, hash);
    const double code = put_code(p, right, y + PAD_MM, most);
    const double left = x + PAD_MM;
    const double foot = y + sheet->height_mm - PAD_MM - p->type.heights_mm[DS_TYPEFACE_SMALL];
    ds_pdf_tag(&p->pdf, "P");
    put_lines(p, finding, left, y + PAD_MM, foot, right - left - code - QUIET_MM);
    ds_text_add(&p->say, "Do not drill");
    ds_text_add(&p->say, sheet->width_mm >= ROOMY_MM ? say_verdict(finding->verdict) : "");
    ds_pdf_line(&p->pdf, DS_TYPEFACE_SMALL_STRONG, DS_ANCHOR_START, left, foot, right - left - DATE_MM,
                ds_parts_take(p));
    ds_pdf_line(&p->pdf, DS_TYPEFACE_SMALL, DS_ANCHOR_END, right, foot, DATE_MM,
                p->findings->job->date.len ? p->findings->job->date : DS_STR("undated"));
    ds_pdf_untag(&p->pdf, "P");
}

/* --- all ---------------------------------------------------------------------------------------------------------- */

static void put_labels(ds_parts *const p, const ds_label_sheet *const sheet, const char *const hash)
{
    const ds_label_grid g = ds_label_grid_of(sheet);
    const unsigned on_sheet = sheet->columns * sheet->rows;
    unsigned at = sheet->skip;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        const unsigned pieces = (unsigned)ds_parts_pieces(p->points[i]);
        for (unsigned piece = 0; piece < pieces; piece++, at++) {
            if (at == on_sheet) {
                ds_pdf_new_page(&p->pdf);
                at = 0;
            }
            const unsigned column = at % sheet->columns;
            const unsigned row = at / sheet->columns;
            put_label(p, p->points[i], sheet, hash, g.left + column * g.step_x, g.top + row * g.step_y);
            p->pdf.bare = false;
        }
    }
}

static bool too_many(const ds_findings *const findings)
{
    double pieces = 0;
    for (size_t i = 0; i < findings->points_len; i++) {
        pieces += ds_parts_pieces(&findings->points[i]);
    }
    return pieces > DS_LABELS_MOST;
}

ds_status ds_labels_write(ds_text *const out, const ds_findings *const findings,
                          const ds_label_sheet *const sheet)
{
    if (ds_label_sheet_fault(sheet) || too_many(findings)) {
        return DS_BAD_INPUT;
    }
    const ds_str source = findings->job->source;
    gchar *const sum = g_compute_checksum_for_data(G_CHECKSUM_SHA256, (const guchar *)source.at, source.len);
    sum[HASH_DIGITS] = 0;
    ds_arena arena;
    ds_arena_init(&arena, out->alloc);
    const ds_pdf_subject subject = {.title = findings->job->title,
                                    .date = findings->job->date,
                                    .kind = DS_STR("Labels"),
                                    .size = sheet->size,
                                    .unfurnished = true};
    ds_parts parts = {.findings = findings, .arena = &arena};
    ds_text_init(&parts.say, out->alloc);
    ds_type_open(&parts.type, out->alloc);
    bool good = ds_parts_order(&parts);
    if (good) {
        ds_pdf_open(&parts.pdf, &parts.type, out, &subject, false);
        put_labels(&parts, sheet, sum);
        good = ds_pdf_close(&parts.pdf) && ds_text_ok(&parts.say);
    }
    good = ds_type_close(&parts.type) && good;
    ds_text_free(&parts.say);
    ds_arena_free(&arena);
    g_free(sum);
    return good ? DS_OK : DS_NO_MEMORY;
}
