/* SPDX-License-Identifier: MIT */
/* What keeps the rating, in plain words: lids, holes, cleaning, spares. Left with whoever uses the place. */
#include "paper/parts.h"

#include <math.h>

static const char *const KEEP[] = {
    "Keep lids and doors shut and every screw in; a code counts for the closed box only.",
    "Leave every hole as it is. Do not drill, cut or enlarge anything on a marked box; a new cable comes in "
    "through an entry "
    "that was made for it.",
    "An entry that is no longer used gets the maker's blank, put in with a tool; tape, foam and sealant do "
    "not count.",
    "Look at gaskets whenever a lid was open: clean, soft, lying in their groove. Replace a hard, cut or "
    "flat one by the "
    "maker's own.",
    "Keep drain holes open and at the lowest place; keep the box the way up in which it was mounted.",
    "Paint, grease or glue on a seal may spoil it.",
    "After a blow, a flood or a fire the code no longer counts until somebody competent has looked.",
    "Isolate and prove dead before opening anything; that is work for a competent person.",
};

typedef enum cleaning { CLEAN_DRY, CLEAN_WIPE, CLEAN_JET, CLEAN_STRONG, CLEAN_HOT, CLEANINGS } cleaning;

static const char *const CLEAN_SAY[CLEANINGS] = {
    [CLEAN_DRY] = "dry or damp cloth; no water",
    [CLEAN_WIPE] = "wet cloth or splashes; no hose",
    [CLEAN_JET] = "a garden hose from a distance; no pressure cleaner",
    [CLEAN_STRONG] = "a strong hose; no pressure cleaner",
    [CLEAN_HOT] = "also a pressure cleaner, no nearer and no hotter than the maker says",
};

/* By what is proven and left after installing; what is not shown is not allowed. */
static cleaning cleaning_of(const ds_finding *const finding)
{
    const uint64_t proven = ds_mark_proven(finding->marked);
    const bool spoilt = finding->verdict == DS_UNKNOWN && finding->obstacle == DS_OBSTACLE_SPOILT;
    if (spoilt || !(proven & DS_WATER(4))) {
        return proven & DS_WATER(9) && !spoilt ? CLEAN_HOT : CLEAN_DRY;
    }
    return proven & DS_WATER(9)   ? CLEAN_HOT
           : proven & DS_WATER(6) ? CLEAN_STRONG
           : proven & DS_WATER(5) ? CLEAN_JET
                                  : CLEAN_WIPE;
}

static void put_cleaning(ds_parts *const p)
{
    static const ds_column COLUMNS[] = {{"clean with at most", 0.42, DS_TYPEFACE_STRONG, false},
                                        {"points", 0.58, DS_TYPEFACE_BODY, false}};
    const size_t len = p->findings->points_len;
    const ds_finding **const alike = ds_arena_take_many(p->arena, len, sizeof *alike);
    p->pdf.failed = p->pdf.failed || !alike;
    ds_pdf_heading(&p->pdf, 2, DS_STR("How each may be cleaned"));
    ds_table table;
    ds_table_open(&table, &p->pdf, COLUMNS, 2, true);
    for (int limit = CLEAN_DRY; alike && limit < CLEANINGS; limit++) {
        size_t found = 0;
        for (size_t i = 0; i < len; i++) {
            if (cleaning_of(p->points[i]) == (cleaning)limit) {
                alike[found++] = p->points[i];
            }
        }
        if (found) {
            ds_table_cell(&table, 0, ds_str_of(CLEAN_SAY[limit]));
            ds_parts_say_ids(&p->say, alike, found);
            ds_table_cell(&table, 1, ds_parts_take(p));
            ds_table_row(&table);
        }
    }
    ds_table_close(&table);
}

/* --- what a code depends on --------------------------------------------------------------------------------------- */

static void put_conditions(ds_parts *const p)
{
    size_t put = 0;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        const ds_point *const point = p->points[i]->point;
        bool conditional = false;
        for (size_t j = 0; j < point->marked_len; j++) {
            conditional = conditional || (point->marked[j].when && point->marked[j].when->first);
        }
        if (!conditional || put == DS_IDS_NAMED) {
            continue;
        }
        if (!put++) {
            ds_pdf_heading(&p->pdf, 2, DS_STR("Codes that hold in one state only"));
        }
        ds_text_adds(&p->say, point->id);
        ds_text_add(&p->say, ": ");
        ds_say_marked(&p->say, point);
        ds_parts_put(p, DS_TYPEFACE_BODY, 0);
    }
}

/* --- spares ------------------------------------------------------------------------------------------------------- */

enum { SPARES_MOST = 40 };

typedef struct spare {
    ds_str size;
    ds_holds holds;
    double pieces;
} spare;

static void note_spare(spare *const list, size_t *const len, const ds_entry *const entry, const double pieces)
{
    const bool kept =
        entry->holds == DS_HOLDS_GLAND || entry->holds == DS_HOLDS_BLANK || entry->holds == DS_HOLDS_INSERT;
    size_t i = 0;
    while (i < *len && (list[i].holds != entry->holds || !ds_str_eq(list[i].size, entry->size))) {
        i++;
    }
    if (!kept || i == SPARES_MOST) {
        return;
    }
    if (i == *len) {
        list[(*len)++] = (spare){.size = entry->size, .holds = entry->holds};
    }
    list[i].pieces += pieces;
}

static void put_spares(ds_parts *const p)
{
    spare list[SPARES_MOST];
    size_t len = 0;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        const ds_box *const box = p->points[i]->point->box;
        for (size_t j = 0; box && j < box->entries_len; j++) {
            note_spare(list, &len, &box->entries[j], ds_parts_pieces(p->points[i]));
        }
    }
    ds_pdf_heading(&p->pdf, 2, DS_STR("Spares to keep on site"));
    ds_pdf_paragraph(
        &p->pdf, DS_TYPEFACE_BODY, 0,
        DS_STR("For each make of box one lid gasket and one set of lid screws, the maker's own."));
    for (size_t i = 0; i < len; i++) {
        ds_parts_say_kind(&p->say, ds_str_of(ds_holds_word(list[i].holds)));
        ds_text_char(&p->say, ' ');
        ds_text_adds(&p->say, list[i].size.len ? list[i].size : DS_STR("of a size that is not stated"));
        ds_text_add(&p->say, ": one or two with seals; fitted are ");
        ds_text_number(&p->say, list[i].pieces, 0);
        ds_text_char(&p->say, '.');
        ds_parts_put(p, DS_TYPEFACE_BODY, 0);
    }
}

void ds_part_keeping(ds_parts *const p)
{
    ds_parts_begin(p, "What keeps the rating");
    for (size_t i = 0; i < sizeof KEEP / sizeof *KEEP; i++) {
        ds_text_add(&p->say, "– ");
        ds_text_add(&p->say, KEEP[i]);
        ds_parts_put(p, DS_TYPEFACE_BODY, 0);
    }
    put_cleaning(p);
    put_conditions(p);
    put_spares(p);
}
