/* SPDX-License-Identifier: MIT */
/*
 * A paper being set: pages with their furniture, a cursor that runs down them, text, tags and bookmarks.
 *
 * Millimetres, x to the right, y down, 0,0 the upper left corner of the page; sizes of type are those of draw/sheet.h.
 * A paper is set twice by the same calls: the first time dry, only to count pages and to learn where each part begins;
 * the second time with ink. Both come out alike because both measure the same text.
 *
 *     ds_pdf pdf;
 *     ds_pdf_open(&pdf, &type, &out, &subject, dry);
 *     ds_pdf_heading(&pdf, 1, DS_STR("Schedule"));
 *     ds_pdf_paragraph(&pdf, DS_TYPEFACE_BODY, 0, DS_STR("…"));
 *     if (!ds_pdf_close(&pdf)) … out of memory …
 *
 * Tags
 * (H1, P, Table …) lie flat in the order of reading: none is open while a page ends, so furniture is never part of one.
 * A failure of cairo or of memory is remembered until close.
 */
#ifndef DS_PAPER_PDF_H
#define DS_PAPER_PDF_H

#include "core/assess/assess.h"
#include "core/draw/rungs.h"
#include "paper/paper.h"
#include "paper/type.h"

#define DS_PAPER_MARGIN_MM 12.0
#define DS_PAPER_TOP_MM 19.0    /* where text begins */
#define DS_PAPER_BOTTOM_MM 17.0 /* paper below the last line */

/* What every page says of itself. Borrowed. */
typedef struct ds_pdf_subject {
    ds_str title;    /* of the job */
    ds_str date;     /* of the job; empty without */
    ds_str editions; /* of the rule packs */
    ds_str kind;     /* what this paper is: "Paper for the fitter" */
    ds_paper_size size;
    int pages;        /* in all, as the dry run counted; 0 in the dry run */
    bool unfurnished; /* nothing is put at head and foot of pages */
} ds_pdf_subject;

enum { DS_PDF_PARTS = 24 };

/* A part of the paper and the page on which it begins. */
typedef struct ds_pdf_part {
    const char *name;
    int page;
} ds_pdf_part;

enum { DS_PDF_PICTURES = 512, DS_PDF_COPIES = 32 };

/*
 * A rung picture that is drawn once and held once by the file for many pages. On one page each use needs a copy of its
 * own: cairo would name the same one twice in the page's list.
 */
typedef struct ds_pdf_picture {
    ds_rungs rungs;
    cairo_surface_t *copies[DS_PDF_COPIES]; /* NULL: not drawn yet */
    int page, used;                         /* copies on this page */
} ds_pdf_picture;

typedef struct ds_pdf {
    ds_text *out;                  /* the bytes; borrowed */
    const ds_pdf_subject *subject; /* borrowed */
    cairo_surface_t *surface;      /* NULL in the dry run, and so is cr */
    cairo_t *cr;
    ds_type *type;              /* borrowed */
    double width_mm, height_mm; /* of the page */
    double y_mm;                /* the cursor */
    int page;                   /* from 1 */
    bool bare;                  /* the page has nothing below its furniture yet */
    ds_pdf_part parts[DS_PDF_PARTS];
    int parts_len;
    int outline;              /* id of the last bookmark of the first level */
    ds_pdf_picture *pictures; /* kept; NULL in the dry run */
    bool failed;
} ds_pdf;

void ds_pdf_open(ds_pdf *pdf, ds_type *type, ds_text *out, const ds_pdf_subject *subject, bool dry);

/* Ends the paper; false when memory was short or cairo failed. */
bool ds_pdf_close(ds_pdf *pdf);

static inline bool ds_pdf_is_dry(const ds_pdf *const pdf)
{
    return pdf->cr == NULL;
}

/* --- pages -------------------------------------------------------------------------------------------------------- */

/* Begins a page; one that is still bare is taken as it is. */
void ds_pdf_new_page(ds_pdf *pdf);

/* The same with a page of this size, kept for one page. */
void ds_pdf_new_page_sized(ds_pdf *pdf, double width_mm, double height_mm);

/* Breaks the page unless this much room is left below the cursor. */
void ds_pdf_need(ds_pdf *pdf, double height_mm);

/* Space below what stands there; none at the head of a page. */
void ds_pdf_gap(ds_pdf *pdf, double height_mm);

/* Nothing more goes onto this page. */
void ds_pdf_fill_page(ds_pdf *pdf);

double ds_pdf_room_mm(const ds_pdf *pdf);
double ds_pdf_text_width_mm(const ds_pdf *pdf);

/* --- text --------------------------------------------------------------------------------------------------------- */

/* A layout with its upper left corner at a place; nothing in a dry run. */
void ds_pdf_show(ds_pdf *pdf, PangoLayout *layout, double x_mm, double y_mm);

/* One line at a place, cut with an ellipsis where it is longer than the width; y is its upper edge. */
void ds_pdf_line(ds_pdf *pdf, ds_typeface face, ds_anchor anchor, double x_mm, double y_mm, double width_mm,
                 ds_str text);

/* Text at the cursor from indent to the right margin, going on overleaf where it must; the cursor moves below it. */
void ds_pdf_paragraph(ds_pdf *pdf, ds_typeface face, double indent_mm, ds_str text);

/* A heading with its bookmark (levels 1 and 2), kept together with what follows. Level 1 also counts as a part. */
void ds_pdf_heading(ds_pdf *pdf, int level, ds_str text);

/* A bookmark at the cursor; and that a part begins on this page. */
void ds_pdf_bookmark(ds_pdf *pdf, int level, ds_str text);
void ds_pdf_part_here(ds_pdf *pdf, const char *name);

/* A label at the left margin and a paragraph beside it. */
void ds_pdf_labelled(ds_pdf *pdf, const char *label, double label_width_mm, ds_typeface face, ds_str text);

/* --- marks -------------------------------------------------------------------------------------------------------- */

void ds_pdf_tag(ds_pdf *pdf, const char *tag);
void ds_pdf_untag(ds_pdf *pdf, const char *tag);

/* A straight line, and a frame. */
void ds_pdf_rule(ds_pdf *pdf, ds_pen pen, double x1_mm, double y1_mm, double x2_mm, double y2_mm);
/* A rung picture in the small form, as high as its form allows in the width. */
#define DS_PDF_RUNGS_MM 6.35
void ds_pdf_rungs(ds_pdf *pdf, const ds_rungs *rungs, double x_mm, double y_mm);
void ds_pdf_drop_picture(ds_pdf_picture *picture);

void ds_pdf_frame(ds_pdf *pdf, ds_pen pen, double x_mm, double y_mm, double width_mm, double height_mm);

#endif
