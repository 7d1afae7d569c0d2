/* SPDX-License-Identifier: MIT */
/*
 * Everything is measured in units of one rung's pitch from the left end of the ground line, upwards, and drawn as filled
 * shapes: a pen has one width on every paper, but here the lines must shrink and grow with the picture.
 */
#include "core/draw/rungs_sheet.h"

#include "core/draw/rungs_words.h"

#define LEAST_TYPE_MM 2.1

/* All in pitches. */
#define KEY_UP (-2.75) /* middle of the line that says how to read the picture */
#define SIGN 0.62      /* width of the triangle at a lost rung */
#define GAP 0.22       /* between the band, a number, a sign and a word */

/* How bars, rails and outlines are made. */
typedef struct build {
    double bar, lift; /* height of a bar, and of its foot above the rung's */
    double dot, dot_pitch, dot_lift;
    double rail;
    double band, band_off; /* the outline around needed rungs, and paper between it and the rails */
    double band_out;       /* how far the outline reaches above and below its rungs, */
    double band_foot;      /* and below the first one */
    double ground, foot;   /* the ground line, and how far the rungs stand above it */
    double above;          /* paper over the ninth rung; has room for the outline */
} build;

/* In FINE what is near is kept apart. In COARSE bars, dots and outlines lie on halves of a pitch: whole pixels at 24. */
static const build FINE = {.bar = 0.66,
                           .lift = 0.17,
                           .dot = 0.3,
                           .dot_pitch = 0.6,
                           .dot_lift = 0.35,
                           .rail = 0.09,
                           .band = 0.17,
                           .band_off = 0.17,
                           .band_out = 0.085,
                           .band_foot = 0.085,
                           .ground = 0.14,
                           .foot = 0.36,
                           .above = 0.34};
static const build COARSE = {.bar = 0.75,
                             .dot = 0.5,
                             .dot_pitch = 1,
                             .rail = 0.15,
                             .band = 0.5,
                             .band_off = 0.35,
                             .band_out = 0.5,
                             .band_foot = 1, /* on the ground line itself */
                             .ground = 0.5,
                             .foot = 0.5,
                             .above = 1};

typedef struct column {
    double left;   /* of the left rail's outer edge */
    double width;  /* rail to rail, both included */
    double number; /* room for a number */
    bool right;    /* numbers and signs stand on its right, not on its left */
} column;

typedef struct form {
    const build *build;
    double width;
    double below; /* what hangs under the ground line */
    double type;  /* 0: none */
    bool worded;
    column columns[DS_LADDERS_LEN];
} form;

static const form FORMS[DS_RUNGS_FORMS_LEN] = {
    [DS_RUNGS_MARK] = {.build = &COARSE,
                       .width = 17,
                       .below = 1,
                       .columns = {{.left = 0.85, .width = 2.8},
                                   {.left = 5.35, .width = 1.8},
                                   {.left = 9.35, .width = 2.8},
                                   {.left = 14.35, .width = 1.8}}},
    [DS_RUNGS_FIGURES] = {.build = &FINE,
                          .width = 20.1,
                          .below = 1.25,
                          .type = 0.8,
                          .columns = {{2.1, 3, 0.55, false},
                                      {6, 0.8, 0.65, true},
                                      {11, 3, 0.55, false},
                                      {15, 1.2, 2.45, true}}},
    [DS_RUNGS_WORDS] = {.build = &FINE,
                        .width = 33.4,
                        .below = 2.9,
                        .type = 0.74,
                        .worded = true,
                        .columns = {{6.4, 4, 0.5, false},
                                    {11.3, 1, 0.5, true},
                                    {19.1, 4, 0.5, false},
                                    {28.2, 1.4, 2.3, true}}},
};

typedef struct easel {
    ds_sheet *sheet;
    const ds_rungs *rungs;
    const form *form;
    double left_mm, ground_mm, pitch_mm; /* of the ladders' feet */
} easel;

/* --- where things are ----------------------------------------------------------------------------------------------- */

static double height_of(const form *const of)
{
    return of->build->above + DS_WATER_LEN + of->build->foot + of->build->ground + of->below;
}

static double pitch_in(const form *const of, const double width_mm, const double height_mm)
{
    const double across = width_mm / of->width;
    const double up = height_mm / height_of(of);
    return across < up ? across : up;
}

ds_rungs_form ds_rungs_form_in(const double width_mm, const double height_mm)
{
    int best = DS_RUNGS_WORDS;
    while (best > DS_RUNGS_MARK &&
           FORMS[best].type * pitch_in(&FORMS[best], width_mm, height_mm) < LEAST_TYPE_MM) {
        best--;
    }
    return (ds_rungs_form)best;
}

double ds_rungs_aspect(const ds_rungs_form which)
{
    return FORMS[which].width / height_of(&FORMS[which]);
}

static double x_mm(const easel *const on, const double x)
{
    return on->left_mm + x * on->pitch_mm;
}

static double y_mm(const easel *const on, const double up)
{
    return on->ground_mm - up * on->pitch_mm;
}

/* A rectangle by its left and lower edge. */
static void add_rect(const easel *const on, const double x, const double up, const double width,
                     const double height)
{
    ds_sheet_rect(on->sheet, x_mm(on, x), y_mm(on, up + height), width * on->pitch_mm, height * on->pitch_mm);
}

static void fill(const easel *const on)
{
    ds_sheet_draw(on->sheet, DS_PEN_NONE, DS_FILL_INK);
}

static void write(const easel *const on, const double x, const double up, const char *const text,
                  const ds_anchor anchor, const bool bold)
{
    const ds_lettering how = {
        .size_mm = on->form->type * on->pitch_mm, .anchor = anchor, .bold = bold, .centred = true};
    ds_sheet_write(on->sheet, x_mm(on, x), y_mm(on, up), ds_str_of(text), how);
}

static double width_of(const easel *const on, const char *const text)
{
    const ds_lettering how = {.size_mm = on->form->type};
    return ds_lettering_width_mm(ds_str_of(text), &how);
}

/* --- one ladder ----------------------------------------------------------------------------------------------------- */

/* Dots as many as fit, the spare room shared at both ends. */
static void add_dots(const easel *const on, const column *const at, const double up)
{
    const build *const by = on->form->build;
    const double inside = at->width - 2 * by->rail;
    const int count = (int)((inside - by->dot) / by->dot_pitch + 1e-9) + 1;
    const double first = at->left + by->rail + (inside - (count - 1) * by->dot_pitch - by->dot) / 2;
    for (int i = 0; i < count; i++) {
        add_rect(on, first + i * by->dot_pitch, up + by->dot_lift, by->dot, by->dot);
    }
}

/* The bars of proven rungs from rail to rail, or the dots of open ones between them. */
static void draw_state(const easel *const on, const column *const at, const ds_rung *const rungs,
                       const int len, const ds_rung_state state)
{
    const build *const by = on->form->build;
    for (int i = 0; i < len; i++) {
        if (rungs[i].state != state) {
            continue;
        }
        if (state == DS_RUNG_PROVEN) {
            add_rect(on, at->left, i + by->lift, at->width, by->bar);
        } else {
            add_dots(on, at, i);
        }
    }
    fill(on);
}

/* One outline around each run of needed rungs: an outer edge and an inner one. */
static void draw_bands(const easel *const on, const column *const at, const ds_rung *const rungs,
                       const int len)
{
    const build *const by = on->form->build;
    const double left = at->left - by->band_off - by->band;
    const double width = at->width + 2 * (by->band_off + by->band);
    for (int i = 0; i < len; i++) {
        const int first = i;
        while (i < len && rungs[i].needed) {
            i++;
        }
        if (i > first) {
            const double low = first ? first - by->band_out : -by->band_foot;
            const double height = i + by->band_out - low;
            add_rect(on, left, low, width, height);
            add_rect(on, left + by->band, low + by->band, width - 2 * by->band, height - 2 * by->band);
        }
    }
    fill(on);
}

static void draw_rails(const easel *const on, const column *const at, const double foot, const double top)
{
    const double rail = on->form->build->rail;
    add_rect(on, at->left, foot, rail, top - foot);
    add_rect(on, at->left + at->width - rail, foot, rail, top - foot);
    fill(on);
}

/* The shape of the verdict: a triangle for short, a question mark for unknown. */
static void draw_sign(const easel *const on, const double x, const double up, const unsigned state)
{
    if (state == DS_RUNG_OPEN) {
        write(on, x + SIGN / 2, up, "?", DS_ANCHOR_MIDDLE, true);
        return;
    }
    const double half = SIGN * 0.45;
    ds_sheet_move(on->sheet, x_mm(on, x), y_mm(on, up - half));
    ds_sheet_line(on->sheet, x_mm(on, x + SIGN), y_mm(on, up - half));
    ds_sheet_line(on->sheet, x_mm(on, x + SIGN / 2), y_mm(on, up + half));
    ds_sheet_close(on->sheet);
    fill(on);
}

/* Outwards from the band: the number, the sign of a lost rung, the word; water's words stand across from its numbers. */
static void draw_labels(const easel *const on, const ds_ladder_kind kind, const ds_rung *const rungs,
                        const int len)
{
    const ds_ladder *const ladder = ds_ladder_of(kind);
    const column *const at = &on->form->columns[kind];
    const build *const by = on->form->build;
    const double off = by->band_off + by->band + GAP;
    const double right = at->left + at->width + off;
    const double number = at->right ? right : at->left - off;
    const double sign = at->right ? number + at->number + GAP : number - at->number - GAP - SIGN;
    const bool words_left = kind == DS_LADDER_SOLIDS;
    const double word = words_left ? sign - GAP : kind == DS_LADDER_WATER ? right : sign + SIGN + GAP;
    for (int i = 0; i < len; i++) {
        const double up = i + 0.5;
        const bool lost = ds_rung_lost(rungs[i]);
        write(on, number, up, ladder->numbers[i], at->right ? DS_ANCHOR_START : DS_ANCHOR_END, lost);
        if (lost) {
            draw_sign(on, sign, up, rungs[i].state);
        }
        if (on->form->worded && ladder->words) {
            write(on, word, up, ladder->words[i], words_left ? DS_ANCHOR_END : DS_ANCHOR_START, lost);
        }
    }
    write(on, at->left, -by->foot - by->ground - on->form->type, ladder->name, DS_ANCHOR_START, true);
}

static void draw_ladder(const easel *const on, const ds_ladder_kind kind)
{
    const column *const at = &on->form->columns[kind];
    int len = 0;
    const ds_rung *const rungs = ds_ladder_rungs(on->rungs, kind, &len);
    draw_rails(on, at, -on->form->build->foot, len);
    draw_state(on, at, rungs, len, DS_RUNG_PROVEN);
    draw_state(on, at, rungs, len, DS_RUNG_OPEN);
    draw_bands(on, at, rungs, len);
    if (on->form->type > 0) {
        draw_labels(on, kind, rungs, len);
    }
}

/* --- how to read it ------------------------------------------------------------------------------------------------- */

/* A lone rung as a sample, its word behind it; returns where the next may stand. */
static double draw_sample(const easel *const on, const double left, const ds_rung rung,
                          const char *const word)
{
    const double off = on->form->build->band_off + on->form->build->band;
    const column at = {.left = left + off, .width = 1.7};
    const easel lowered = {on->sheet, on->rungs, on->form, on->left_mm, y_mm(on, KEY_UP - 0.5), on->pitch_mm};
    draw_rails(&lowered, &at, 0, 1);
    draw_state(&lowered, &at, &rung, 1, DS_RUNG_PROVEN);
    draw_state(&lowered, &at, &rung, 1, DS_RUNG_OPEN);
    draw_bands(&lowered, &at, &rung, 1);
    const double text = at.left + at.width + off + GAP;
    write(on, text, KEY_UP, word, DS_ANCHOR_START, false);
    return text + width_of(on, word) + 1;
}

static void draw_key(const easel *const on)
{
    double at = 1;
    if (on->rungs->need_given) {
        at = draw_sample(on, at, (ds_rung){.state = DS_RUNG_DENIED, .needed = true}, "needed");
    }
    at = draw_sample(on, at, (ds_rung){.state = DS_RUNG_PROVEN}, "proven");
    at = draw_sample(on, at, (ds_rung){.state = DS_RUNG_OPEN}, "open");
    at = draw_sample(on, at, (ds_rung){.state = DS_RUNG_DENIED}, "denied");
    if (on->rungs->need_given) {
        draw_sign(on, at, KEY_UP, DS_RUNG_DENIED);
        draw_sign(on, at + SIGN + GAP, KEY_UP, DS_RUNG_OPEN);
        write(on, at + 2 * (SIGN + GAP), KEY_UP, "missing", DS_ANCHOR_START, false);
    }
}

/* --- the picture ---------------------------------------------------------------------------------------------------- */

static void draw_all(const easel *const on)
{
    const build *const by = on->form->build;
    add_rect(on, 0, -by->foot - by->ground, on->form->width, by->ground);
    fill(on);
    for (int kind = 0; kind < DS_LADDERS_LEN; kind++) {
        draw_ladder(on, (ds_ladder_kind)kind);
    }
    if (on->form->worded) {
        draw_key(on);
    }
}

void ds_rungs_paint(ds_sheet *const sheet, const ds_rungs *const rungs, const ds_rungs_frame frame)
{
    const form *const of = &FORMS[ds_rungs_form_in(frame.width_mm, frame.height_mm)];
    const double pitch_mm = pitch_in(of, frame.width_mm, frame.height_mm);
    if (pitch_mm <= 0) {
        return;
    }
    const easel on = {.sheet = sheet,
                      .rungs = rungs,
                      .form = of,
                      .left_mm = frame.x_mm + (frame.width_mm - of->width * pitch_mm) / 2,
                      .ground_mm = frame.y_mm + (frame.height_mm - height_of(of) * pitch_mm) / 2 +
                                   (of->build->above + DS_WATER_LEN) * pitch_mm,
                      .pitch_mm = pitch_mm};
    ds_text words;
    ds_text_init(&words, sheet->arena->alloc);
    ds_rungs_say(&words, rungs);
    ds_sheet_heed(sheet, &words);
    ds_sheet_begin(sheet, DS_ROLE_RUNGS, DS_STR(""), ds_text_str(&words));
    ds_text_free(&words);
    draw_all(&on);
    ds_sheet_end(sheet);
}
