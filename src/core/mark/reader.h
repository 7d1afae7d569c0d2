/* SPDX-License-Identifier: MIT */
/*
 * The slow path of reading, for every text that is not a clean code: private to mark/.
 *
 *     text -> fold: plain ASCII -> scan: codes and items -> attach: which condition belongs to which code
 *          -> settle: one mark or parts, or a need
 *
 * Nothing is decided while scanning: a recogniser only takes the bytes that it understands and says what they
 * are.
 */
#ifndef DS_MARK_READER_H
#define DS_MARK_READER_H

#include "core/mark/notes.h"

/* What characters without an ASCII likeness, and the degree sign, become. */
enum { DS_FOLD_OTHER = 0x1A, DS_FOLD_DEGREE = 0x1B };

enum { DS_CODES_MAX = 8, DS_ITEMS_MAX = 48 };

/* Joints between codes, in the order of what wins when several stand between two codes. */
typedef enum ds_link {
    DS_LINK_NONE,
    DS_LINK_COMMA,
    DS_LINK_SLASH,
    DS_LINK_AND,
    DS_LINK_BRACKET,
    DS_LINK_DASH,
    DS_LINK_OR
} ds_link;

typedef struct ds_code {
    int8_t objects; /* -1: X */
    int8_t water;   /* -1: X */
    bool objects_k, water_k;
    bool water_doubt; /* the water numeral cannot be relied on */
    bool beyond_7;    /* a 7 with more depth or time: perhaps an 8 */
    bool spaced;      /* blanks round the slash before it */
    bool clash;       /* more than one condition */
    char access;      /* 0 none, also when redundant */
    uint8_t letters;  /* as in ds_reading */
    ds_link link;     /* to the code before */
    const char *when; /* condition word, NULL none */
    double depth_m, minutes;
} ds_code;

typedef enum ds_item_kind {
    DS_ITEM_CODE,
    DS_ITEM_CONDITION,
    DS_ITEM_DEPTH,
    DS_ITEM_TIME,
    DS_ITEM_JOINT, /* separates codes: `link` */
    DS_ITEM_OPEN,
    DS_ITEM_CLOSE,
    DS_ITEM_GONE
} ds_item_kind;

typedef struct ds_item {
    ds_item_kind kind;
    ds_link link;
    uint8_t code;
    bool spaced;
    double value; /* metres or minutes */
    const char *when;
} ds_item;

typedef struct ds_scan {
    const char *at; /* folded text */
    size_t len, pos;
    ds_reading *out;
    bool for_need;
    bool silent;  /* a note said that nothing may be relied on */
    bool is_need; /* worded as a requirement */
    bool both;    /* "both": a dash is no range */
    bool unknown_words;
    bool word, old_word; /* "weatherproof"; "splashproof" */
    bool nema_seen, nema_named;
    bool foreign;        /* a grade of another system, so that there is something to ask without any code */
    bool impact_bad;     /* IK12 */
    bool impact_unsure;  /* plus, conflict, two of them */
    bool plus;           /* "IP54+", "IK10+" */
    uint8_t nema;        /* row, 0 no such type */
    int8_t impact;       /* lowest IK grade named, -1 none */
    int8_t impact_named; /* first one as written */
    double joules;       /* -1: none */
    uint8_t codes_len, items_len;
    ds_code codes[DS_CODES_MAX];
    ds_item items[DS_ITEMS_MAX];
} ds_scan;

/* --- fold.c --------------------------------------------------------------------------------------------- */

/*
 * Plain ASCII of text in out (DS_MARK_TEXT_MAX bytes), outer blanks cut. False, with the note, when it is
 * refused: too long, not UTF-8, control characters. *typography: some characters were replaced.
 */
bool ds_fold(ds_str text, char *out, size_t *len, bool *typography, ds_reading *reading);

/* --- scan.c --------------------------------------------------------------------------------------------- */

void ds_scan_run(ds_scan *s);

/* Adds a note and remembers when it silences the reading. */
void ds_scan_note(ds_scan *s, ds_note_id note);

void ds_scan_item(ds_scan *s, const ds_item *item);
void ds_scan_add_code(ds_scan *s, const ds_code *code);

/* The byte at an index; 0 past the end. */
static inline char ds_peek(const ds_scan *const s, const size_t at)
{
    return (char)(at < s->len ? s->at[at] : '\0');
}

static inline bool ds_is_digit(const char c)
{
    return c >= '0' && c <= '9';
}

static inline char ds_upper(const char c)
{
    return (char)(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
}

/* Part of a word: letter, digit, or a character without an ASCII likeness. */
static inline bool ds_is_word(const char c)
{
    return ds_is_digit(c) || (ds_upper(c) >= 'A' && ds_upper(c) <= 'Z') || c == DS_FOLD_OTHER;
}

static inline size_t ds_skip_blanks(const ds_scan *const s, size_t at)
{
    while (ds_peek(s, at) == ' ') {
        at++;
    }
    return at;
}

/* Where the word that starts at an index ends. */
static inline size_t ds_word_end(const ds_scan *const s, size_t at)
{
    while (ds_is_word(ds_peek(s, at))) {
        at++;
    }
    return at;
}

/* --- recognisers: true when something was understood at s->pos and passed ------------------------------- */

bool ds_scan_code(ds_scan *s);        /* code.c: "IP65", "lP 6 5" */
bool ds_scan_short(ds_scan *s);       /* code.c: "/67" behind a code */
bool ds_scan_impact(ds_scan *s);      /* other.c: "IK08", "IK10+" */
bool ds_scan_nema(ds_scan *s);        /* other.c: "NEMA 4X", "Type 3R" */
bool ds_scan_standard(ds_scan *s);    /* other.c: "EN 60529", "DIN 40050" */
bool ds_scan_quantity(ds_scan *s);    /* quantity.c: "10 m", "24h", "5 J", "230 V" */
bool ds_scan_temperature(ds_scan *s); /* quantity.c: "-20...+40 C" */
bool ds_scan_phrase(ds_scan *s);      /* phrases.c: "lid closed", "or better" */

/* --- letters.c: behind the numerals of a code, at s->pos; false, with the note, when it is refused ------ */

/* The letters that are written to the numerals without a gap. */
bool ds_scan_letters(ds_scan *s, ds_code *code);

/* What stands so close behind that it takes part: "IP55-9", "IP66(9)", "IP65 mm". */
bool ds_scan_tail(ds_scan *s);

/* --- quantity.c ----------------------------------------------------------------------------------------- */

typedef enum ds_quantity_kind {
    DS_QUANTITY_DEPTH,
    DS_QUANTITY_BAR,
    DS_QUANTITY_TIME,
    DS_QUANTITY_JOULES,
    DS_QUANTITY_OTHER
} ds_quantity_kind;

typedef struct ds_quantity {
    ds_quantity_kind kind;
    double value; /* metres, minutes or joules */
} ds_quantity;

/* A number with a known unit at an index: where it ends, 0 when there is none. */
size_t ds_quantity_at(const char *at, size_t len, size_t from, ds_quantity *out);

/* --- strict.c ------------------------------------------------------------------------------------------- */

/*
 * A code, or several joined by "/", by the grammar of IEC 60529; behind it perhaps the depth and time of test
 * 7 or 8 in brackets, then perhaps an IK code; or an IK code alone.
 */
bool ds_mark_is_strict(ds_str text);

/* --- attach.c ------------------------------------------------------------------------------------------- */

/* Links codes, gives them their conditions, depths and times, and notes what is odd about those. */
void ds_attach(ds_scan *s);

/* --- combine.c ------------------------------------------------------------------------------------------ */

/* Codes as bits of a set: bit i is codes[i]. */
typedef struct ds_group {
    ds_claim claim;
    ds_mark mark;
    uint8_t letters;
} ds_group;

ds_claim ds_code_claim(const ds_code *code);

/* Do the codes of the set belong to one enclosure in one state? */
bool ds_is_one_enclosure(const ds_scan *s, unsigned set);

/* What the codes of the set say together, with the notes on how that was found. */
void ds_combine(ds_scan *s, unsigned set, ds_group *out);

/* --- parts.c -------------------------------------------------------------------------------------------- */

/* Fills claim, mark, letters and parts of the reading from the codes. */
void ds_settle_parts(ds_scan *s);

/* --- need.c --------------------------------------------------------------------------------------------- */

/* The codes as a need, alternatives resolved; false, with the note, when they cannot be one. */
bool ds_codes_need(ds_scan *s, ds_need *out, ds_claim *claim);

#endif
