/* SPDX-License-Identifier: MIT */
/* The parts of a paper and what they share: private to paper/. */
#ifndef DS_PAPER_PARTS_H
#define DS_PAPER_PARTS_H

#include "core/assess/differ.h"
#include "core/assess/say.h"
#include "core/draw/rungs_words.h"
#include "paper/paper.h"
#include "paper/pdf.h"
#include "paper/table.h"

/* Points in the order of the papers: by place as the job lists them, those without a place last. */
typedef struct ds_parts {
    ds_type type;
    ds_pdf pdf;
    const ds_findings *findings;
    const ds_paper *paper;
    const ds_differ *differ; /* of the paper of changes; NULL in others */
    ds_arena *arena;
    const ds_finding *const *points; /* findings->points_len of them */
    const ds_pdf_part *contents;     /* as the dry run met them */
    int contents_len;
    ds_text say;   /* room to make sentences in */
    bool headless; /* the part that comes next needs no heading: the paper is all about it */
} ds_parts;

/* More points than this, and tables are tagged by row, not by cell: the file would be larger than its text. */
enum { DS_CELLS_TAGGED_MOST = 300, DS_IDS_NAMED = 60 };

/* More than this, and the paper with all parts lists them once, in the schedule: four lists would be hundreds of pages. */
enum { DS_LISTED_AGAIN_MOST = 500 };

static inline bool ds_parts_tag_cells(const ds_parts *const p)
{
    return p->findings->points_len <= DS_CELLS_TAGGED_MOST;
}

/* Sets a paper of what `put` puts, once dry and once with ink. Given are findings, paper and differ; the rest is made. */
typedef void ds_part_put(ds_parts *p);
ds_status ds_parts_set(ds_text *out, const ds_parts *given, const char *kind, ds_part_put *put);

static inline bool ds_parts_list_again(const ds_parts *const p)
{
    return p->findings->points_len <= DS_LISTED_AGAIN_MOST;
}

/* Fills points from findings; false when memory is short. */
bool ds_parts_order(ds_parts *p);

/* The sentence made in say, which is then empty; good until the next is begun. */
ds_str ds_parts_take(ds_parts *p);

/* The same set as a paragraph. */
void ds_parts_put(ds_parts *p, ds_typeface face, double indent_mm);

/* Begins a part: its heading, and a line in the contents. */
void ds_parts_begin(ds_parts *p, const char *name);

/* Shape and word: "▲ short". */
void ds_parts_say_verdict(ds_text *out, ds_verdict verdict);

/* "P1, P2 and 37 more" */
void ds_parts_say_ids(ds_text *out, const ds_finding *const *points, size_t len);

/* "Wall lights (3 pieces)"; and how many pieces a point stands for. */
void ds_parts_say_name(ds_text *out, const ds_finding *finding);
double ds_parts_pieces(const ds_finding *finding);

/* What a point needs, as picture and code, and what its goods are marked with, into these columns. */
void ds_parts_put_codes(ds_parts *p, ds_table *table, const ds_finding *finding, int picture, int needed,
                        int marked);

/* Name of the place as a heading, its id behind it; and that of no place. */
void ds_parts_say_place(ds_text *out, const ds_finding *finding);

/* True when this point begins another place than the one before it in points. */
bool ds_parts_place_begins(const ds_parts *p, size_t index);

/* "socket outlet" of "socket-outlet" */
void ds_parts_say_kind(ds_text *out, ds_str kind);

/* Deciding sentence with its clause, then the remedy. */
void ds_parts_say_answer(ds_parts *p, const ds_finding *finding);

/* "  → Move it outside the zones."; nothing where nothing is to be done. */
void ds_parts_say_remedy(ds_parts *p, const ds_finding *finding);

/* What is left of the mark, for a cell: a code, "as marked" where the mark alone was judged. */
void ds_parts_say_installed(ds_text *out, const ds_finding *finding);

/* --- groups ------------------------------------------------------------------------------------------------------- */

/* Points that are alike; points[first] to points[first + len - 1] of the groups' own order. */
typedef struct ds_alike {
    size_t first, len;
    double pieces;
} ds_alike;

typedef struct ds_alikes {
    const ds_finding **points;
    ds_alike *at;
    size_t len;
} ds_alikes;

typedef int ds_alike_order(const ds_finding *a, const ds_finding *b);

/* By what is needed; by that and the kind; by the reasons. */
int ds_alike_by_need(const ds_finding *a, const ds_finding *b);
int ds_alike_by_need_and_kind(const ds_finding *a, const ds_finding *b);
int ds_alike_by_reasons(const ds_finding *a, const ds_finding *b);

/* Groups, most pieces first; where by_place, in the order of the papers. In the arena; false when memory is short. */
bool ds_alikes_make(ds_alikes *out, ds_parts *p, ds_alike_order *order, bool by_place);

/* --- parts -------------------------------------------------------------------------------------------------------- */

void ds_part_cover(ds_parts *p); /* a page of its own, with contents */
void ds_part_head(ds_parts *p);  /* the same in a few lines, for a paper with one reader */
void ds_part_title(ds_parts *p);
void ds_part_notices(ds_parts *p); /* what is wrong with editions and with the document */
void ds_part_summary(ds_parts *p);
void ds_part_schedule(ds_parts *p);
void ds_part_client(ds_parts *p);
void ds_part_fitter(ds_parts *p);
void ds_part_buyer(ds_parts *p);
void ds_part_inspector(ds_parts *p);
void ds_part_reasons(ds_parts *p);
void ds_part_plans(ds_parts *p);
void ds_part_boxes(ds_parts *p);
void ds_part_calculations(ds_parts *p);
void ds_part_questions(ds_parts *p);
void ds_part_keeping(ds_parts *p);
void ds_part_cautions(ds_parts *p);

/* Entries and openings of one box as a table: what sits where, what it loses, what to do. */
void ds_part_box_entries(ds_parts *p, const ds_finding *finding);

#endif
