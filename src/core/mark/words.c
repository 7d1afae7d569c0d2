/* SPDX-License-Identifier: MIT */
/* Verdicts, tests and rungs by name. */
#include "core/mark/immersion.h"
#include "core/mark/mark.h"

const char *ds_verdict_word(const ds_verdict verdict)
{
    static const char *const WORDS[] = {"fits", "unknown", "short", "barred"};
    return WORDS[verdict];
}

/* The longest name is "time more than 63 weeks"; a text asks for 256 bytes first. */
enum { LABEL_ROOM = 256 };

/* A short text in a buffer on the stack, so that naming a test takes no memory of the host. */
typedef struct label {
    ds_alloc alloc;
    ds_text text;
    char room[LABEL_ROOM];
} label;

static void *resize_label(void *const ctx, void *const old, const size_t old_size, const size_t new_size)
{
    (void)old_size;
    return old || new_size > LABEL_ROOM ? NULL : ctx;
}

static ds_text *begin_label(label *const l, const char *const track)
{
    l->alloc = (ds_alloc){.resize = resize_label, .ctx = l->room};
    ds_text_init(&l->text, &l->alloc);
    ds_text_add(&l->text, track);
    return &l->text;
}

static void visit_impact(const unsigned grade, ds_need_visit *const visit, void *const ctx)
{
    label l;
    ds_text *const text = begin_label(&l, "impact ");
    if (grade >= DS_IMPACT_BEYOND) {
        ds_text_add(text, "above 50 J");
    } else {
        ds_text_add(text, grade < 10 ? "IK0" : "IK");
        ds_text_int(text, grade);
    }
    visit(ctx, ds_text_str(text));
}

static void visit_immersion(const ds_need need, ds_need_visit *const visit, void *const ctx)
{
    label l;
    if (ds_mark_depth_m(need) > 0) {
        ds_depth_print(begin_label(&l, "depth "), ds_mark_depth_m(need));
        visit(ctx, ds_text_str(&l.text));
    }
    if (ds_mark_minutes(need) > 0) {
        ds_time_print(begin_label(&l, "time "), ds_mark_minutes(need));
        visit(ctx, ds_text_str(&l.text));
    }
}

void ds_need_each(const ds_need need, ds_need_visit *const visit, void *const ctx)
{
    for (int i = 0; i < DS_TEST_COUNT; i++) {
        if (!(need >> i & 1)) {
            continue;
        }
        const int access = i - DS_OBJECTS_LEN;
        const int water = access - DS_ACCESS_LEN;
        label l;
        ds_text *const text = begin_label(&l, water >= 0 ? "water " : access >= 0 ? "access " : "solids ");
        ds_text_char(text, (char)(water >= 0 ? '1' + water : access >= 0 ? 'A' + access : '1' + i));
        visit(ctx, ds_text_str(text));
    }
    if (ds_mark_impact(need)) {
        visit_impact(ds_mark_impact(need), visit, ctx);
    }
    visit_immersion(need, visit, ctx);
}

/* What is kept out, or withstood, at each rung. */
static const char *const OBJECTS[] = {
    "nothing is kept out",
    "things of 50 mm",
    "things of 12.5 mm",
    "things of 2.5 mm",
    "wires of 1 mm",
    "dust, but for a little that does no harm",
    "all dust",
};

static const char *const ACCESS[] = {"nobody is kept out", "the back of a hand", "a finger",
                                     "a tool of 2.5 mm", "a wire of 1 mm"};

static const char *const WATER[] = {
    "nothing is kept out",
    "drops that fall straight down",
    "drops at a tilt of 15 degrees",
    "spray up to 60 degrees from above",
    "splashes from any side",
    "a hose jet from any side",
    "a strong jet from any side",
    "dipping to 1 m for 30 min",
    "lying under water to the depth and time declared",
    "a hot high-pressure jet close by",
};

const char *ds_test_words(const char track, const unsigned rung)
{
    if (track == 'o' && rung <= DS_OBJECTS_LEN) {
        return OBJECTS[rung];
    }
    if (track == 'a' && rung <= DS_ACCESS_LEN) {
        return ACCESS[rung];
    }
    return track == 'w' && rung <= DS_WATER_LEN ? WATER[rung] : "";
}
