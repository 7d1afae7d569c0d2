/* SPDX-License-Identifier: MIT */
/*
 * Phrases met beside codes, and what each means for the code. The longest that fits is taken, so "not in use"
 * is not "in use". Words that are not here leave the reading a question: they may limit the code.
 */
#include "core/mark/reader.h"

typedef enum phrase_kind {
    HARMLESS,  /* says nothing about the degree */
    CONDITION, /* the code holds under `when` */
    NOTE,      /* adds its note */
    WORD,      /* a word in place of a degree */
    OLD_WORD,  /* one that old luminaire standards tied to a code */
    NEED,      /* words of a requirement */
    BOTH,
    AND,
    OR,
    UP_TO,            /* of a code: only the best variant; of a depth or time: nothing */
    DROP_IN_TRIANGLE, /* symbols of old luminaires */
    TWO_DROPS
} phrase_kind;

/* A blank in the text of a phrase stands for blanks or hyphens, "~" for any number of them, also none. */
typedef struct phrase {
    const char *text;
    phrase_kind kind;
    ds_note_id note;
    const char *when;
} phrase;

#define SAYS_NOTHING(text)                                                                                   \
    {                                                                                                        \
        text, HARMLESS, DS_NOTE_COUNT, NULL                                                                  \
    }
#define WHEN(text, when, note)                                                                               \
    {                                                                                                        \
        text, CONDITION, DS_NOTE_##note, when                                                                \
    }
#define NOTES(text, note)                                                                                    \
    {                                                                                                        \
        text, NOTE, DS_NOTE_##note, NULL                                                                     \
    }
#define MEANS(text, kind)                                                                                    \
    {                                                                                                        \
        text, kind, DS_NOTE_COUNT, NULL                                                                      \
    }

static const phrase PHRASES[] = {
    /* the state of lids, doors and plugs */
    WHEN("closed", "lid-closed", STATE),
    WHEN("closed lid", "lid-closed", STATE),
    WHEN("lid closed", "lid-closed", STATE),
    WHEN("lid shut", "lid-closed", STATE),
    WHEN("lid down", "lid-closed", STATE),
    WHEN("cover closed", "lid-closed", STATE),
    WHEN("flap closed", "lid-closed", STATE),
    WHEN("open", "lid-open", STATE),
    WHEN("open lid", "lid-open", STATE),
    WHEN("lid open", "lid-open", STATE),
    WHEN("lid up", "lid-open", STATE),
    WHEN("cover open", "lid-open", STATE),
    WHEN("flap open", "lid-open", STATE),
    WHEN("door closed", "door-closed", STATE),
    WHEN("door open", "door-open", STATE),
    WHEN("in use", "plug-in-use", STATE),
    WHEN("plug in use", "plug-in-use", STATE),
    WHEN("plug in", "plug-in-use", STATE),
    WHEN("plug inserted", "plug-in-use", STATE),
    WHEN("plugged in", "plug-in-use", STATE),
    WHEN("plug", "plug-in-use", STATE),
    WHEN("matching plug", "plug-in-use", STATE),
    WHEN("mating plug", "plug-in-use", STATE),
    WHEN("mated", "plug-in-use", STATE),
    WHEN("no plug", "no-plug", STATE),
    WHEN("without plug", "no-plug", STATE),
    WHEN("without a plug", "no-plug", STATE),
    WHEN("unplugged", "no-plug", STATE),
    WHEN("unmated", "no-plug", STATE),
    WHEN("not in use", "no-plug", STATE),
    WHEN("at rest", "at-rest", STATE),
    /* faces and positions */
    WHEN("front", "front", FACE),
    WHEN("front face", "front", FACE),
    WHEN("front side", "front", FACE),
    WHEN("front panel", "front", FACE),
    WHEN("from the front", "front", FACE),
    WHEN("face", "front", FACE),
    WHEN("rear", "rear", FACE),
    WHEN("rear face", "rear", FACE),
    WHEN("rear side", "rear", FACE),
    WHEN("back", "rear", FACE),
    WHEN("back side", "rear", FACE),
    WHEN("body", "rear", FACE),
    WHEN("from below", "from-below", FACE),
    WHEN("from above", "from-above", FACE),
    WHEN("wall mounted", "wall-mounted", POSITION),
    WHEN("wall mounting", "wall-mounted", POSITION),
    WHEN("mounted on a wall", "wall-mounted", POSITION),
    WHEN("ceiling mounted", "ceiling-mounted", POSITION),
    WHEN("floor mounted", "floor-mounted", POSITION),
    WHEN("upright", "upright", POSITION),
    /* what must be fitted */
    WHEN("kit", "with-kit", KIT),
    WHEN("seal kit", "with-kit", KIT),
    WHEN("sealing kit", "with-kit", KIT),
    WHEN("optional kit", "with-kit", KIT),
    WHEN("glands", "glands-fitted", ENTRIES),
    WHEN("cable glands", "glands-fitted", ENTRIES),
    WHEN("suitable glands", "glands-fitted", ENTRIES),
    WHEN("suitable cable glands", "glands-fitted", ENTRIES),
    WHEN("appropriate glands", "glands-fitted", ENTRIES),
    WHEN("glands fitted", "glands-fitted", ENTRIES),
    WHEN("gland sealing", "glands-fitted", ENTRIES),
    /* what limits a code */
    MEANS("up to", UP_TO),
    MEANS("max", UP_TO),
    NOTES("excl", EXCLUDED),
    NOTES("excluding", EXCLUDED),
    NOTES("except", EXCLUDED),
    NOTES("without", EXCLUDED),
    NOTES("dust", DUST),
    /* requirements */
    MEANS("min", NEED),
    MEANS("minimum", NEED),
    MEANS("at least", NEED),
    MEANS("not less than", NEED),
    MEANS("or better", NEED),
    MEANS("or higher", NEED),
    MEANS("or more", NEED),
    MEANS("and above", NEED),
    MEANS("and better", NEED),
    MEANS("required", NEED),
    MEANS("both", BOTH),
    MEANS("and", AND),
    MEANS("or", OR),
    /* words in place of a degree */
    MEANS("weather~proof", WORD),
    MEANS("weather~tight", WORD),
    MEANS("water~proof", WORD),
    MEANS("water~resistant", WORD),
    MEANS("shower~proof", WORD),
    MEANS("damp~proof", WORD),
    MEANS("hose~proof", WORD),
    MEANS("outdoor", WORD),
    MEANS("outdoors", WORD),
    MEANS("sealed", WORD),
    MEANS("marine grade", WORD),
    MEANS("ip rated", WORD),
    MEANS("ik rated", WORD),
    MEANS("dust~proof", OLD_WORD),
    MEANS("dust~tight", OLD_WORD),
    MEANS("drip~proof", OLD_WORD),
    MEANS("rain~proof", OLD_WORD),
    MEANS("splash~proof", OLD_WORD),
    MEANS("jet~proof", OLD_WORD),
    MEANS("water~tight", OLD_WORD),
    MEANS("drop in a triangle", DROP_IN_TRIANGLE),
    MEANS("two drops", TWO_DROPS),
    /* what says nothing about the degree */
    SAYS_NOTHING("symbol"),
    SAYS_NOTHING("ip"),
    SAYS_NOTHING("ip code"),
    SAYS_NOTHING("ip rating"),
    SAYS_NOTHING("ik"),
    SAYS_NOTHING("ik code"),
    SAYS_NOTHING("ik rating"),
    SAYS_NOTHING("class i"),
    SAYS_NOTHING("class ii"),
    SAYS_NOTHING("class iii"),
    SAYS_NOTHING("class 1"),
    SAYS_NOTHING("class 2"),
    SAYS_NOTHING("class 3"),
    SAYS_NOTHING("protection class i"),
    SAYS_NOTHING("protection class ii"),
    SAYS_NOTHING("protection class iii"),
    SAYS_NOTHING("bathroom"),
    SAYS_NOTHING("zone 0"),
    SAYS_NOTHING("zone 1"),
    SAYS_NOTHING("zone 2"),
    SAYS_NOTHING("dust and water"),
    SAYS_NOTHING("water"),
    SAYS_NOTHING("protection"),
    SAYS_NOTHING("ingress protection"),
    SAYS_NOTHING("degree of protection"),
    SAYS_NOTHING("impact"),
    SAYS_NOTHING("rated"),
    SAYS_NOTHING("rating"),
    SAYS_NOTHING("enclosure"),
    SAYS_NOTHING("according to"),
    SAYS_NOTHING("acc to"),
    SAYS_NOTHING("per"),
    SAYS_NOTHING("to"),
    SAYS_NOTHING("with"),
    SAYS_NOTHING("when"),
    SAYS_NOTHING("after"),
    SAYS_NOTHING("for"),
    SAYS_NOTHING("the"),
    SAYS_NOTHING("is"),
    SAYS_NOTHING("ta"),
};

enum { PHRASES_LEN = sizeof PHRASES / sizeof *PHRASES };

static size_t skip_gap(const ds_scan *const s, size_t at)
{
    while (ds_peek(s, at) == ' ' || ds_peek(s, at) == '-') {
        at++;
    }
    return at;
}

/* Where the phrase ends that stands at s->pos; 0 when it does not. */
static size_t phrase_end(const ds_scan *const s, const char *text)
{
    size_t at = s->pos;
    for (; *text; text++) {
        if (*text == ' ' || *text == '~') {
            const size_t end = skip_gap(s, at);
            if (*text == ' ' && end == at) {
                return 0;
            }
            at = end;
        } else if (ds_upper(ds_peek(s, at++)) != ds_upper(*text)) {
            return 0;
        }
    }
    return ds_is_word(ds_peek(s, at)) ? 0 : at;
}

/* Does a figure of this kind stand at an index, behind blanks, commas and dots? */
static bool quantity_follows(const ds_scan *const s, size_t at, ds_quantity *const found)
{
    while (ds_peek(s, at) == ' ' || ds_peek(s, at) == ',' || ds_peek(s, at) == '.') {
        at++;
    }
    return ds_quantity_at(s->at, s->len, at, found) != 0;
}

/* The code that a drawn symbol stood for. */
static void add_symbol(ds_scan *const s, const int8_t water)
{
    ds_scan_note(s, DS_NOTE_SYMBOL);
    ds_scan_add_code(s, &(ds_code){.objects = -1, .water = water});
}

static void limit_from_above(ds_scan *const s, const size_t end)
{
    ds_quantity found;
    if (!quantity_follows(s, end, &found)) {
        ds_scan_note(s, DS_NOTE_UP_TO);
    }
}

static void add_drops(ds_scan *const s, const size_t end)
{
    ds_quantity found;
    const bool has_depth = quantity_follows(s, end, &found) && found.kind == DS_QUANTITY_DEPTH;
    add_symbol(s, has_depth ? 8 : 7);
}

static void mean(ds_scan *const s, const phrase *const p, const size_t end)
{
    const bool left_out = s->for_need && p->kind == CONDITION; /* a need is for every state */
    if (p->note != DS_NOTE_COUNT && !left_out) {
        ds_scan_note(s, p->note);
    }
    switch (p->kind) {
    case CONDITION:
        ds_scan_item(s, &(ds_item){.kind = DS_ITEM_CONDITION, .when = p->when});
        break;
    case WORD:
        s->word = true;
        break;
    case OLD_WORD:
        s->old_word = true;
        break;
    case NEED:
        s->is_need = true;
        break;
    case BOTH:
        s->both = true;
        break;
    case AND:
        ds_scan_item(s, &(ds_item){.kind = DS_ITEM_JOINT, .link = DS_LINK_AND});
        break;
    case OR:
        ds_scan_item(s, &(ds_item){.kind = DS_ITEM_JOINT, .link = DS_LINK_OR});
        break;
    case UP_TO:
        limit_from_above(s, end);
        break;
    case DROP_IN_TRIANGLE:
        add_symbol(s, 4);
        break;
    case TWO_DROPS:
        add_drops(s, end);
        break;
    case NOTE:
    case HARMLESS:
        break;
    }
}

bool ds_scan_phrase(ds_scan *const s)
{
    const phrase *found = NULL;
    size_t longest = 0;
    const char first = ds_upper(s->at[s->pos]);
    for (size_t i = 0; i < PHRASES_LEN; i++) {
        if (ds_upper(PHRASES[i].text[0]) != first) {
            continue;
        }
        const size_t end = phrase_end(s, PHRASES[i].text);
        if (end > longest) {
            longest = end;
            found = &PHRASES[i];
        }
    }
    if (!found) {
        return false;
    }
    mean(s, found, longest);
    s->pos = longest;
    return true;
}
