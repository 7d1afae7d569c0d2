/* SPDX-License-Identifier: MIT */
/* Any bytes as a mark and as a need: a reading whose parts agree with each other, printed and read again. */
#include "fuzz.h"

#include "core/mark/read.h"

static void expect_sound(const ds_reading *const reading)
{
    FUZZ_EXPECT(reading->status <= DS_READ_REFUSED);
    FUZZ_EXPECT(reading->notes_len <= DS_READ_NOTES && reading->parts_len <= DS_READ_PARTS);
    FUZZ_EXPECT(reading->status != DS_READ_NOTED || reading->notes_len > 0);
    FUZZ_EXPECT(!reading->is_need || reading->mark == DS_MARK_SILENT);
    FUZZ_EXPECT(!(ds_mark_proven(reading->mark) & ds_mark_denied(reading->mark)));
    if (reading->status == DS_READ_REFUSED) {
        FUZZ_EXPECT(reading->mark == DS_MARK_SILENT && reading->parts_len == 0 && !reading->has_code);
    }
    for (uint8_t i = 0; i < reading->parts_len; i++) {
        FUZZ_EXPECT(!(ds_mark_proven(reading->mark) & ~ds_mark_proven(reading->parts[i].mark)));
    }
}

/* What is printed of a mark claims no more than the mark proves. */
static void expect_modest(const ds_mark mark)
{
    ds_text text;
    ds_text_init(&text, fuzz_alloc());
    ds_mark_print(&text, mark);
    ds_reading again;
    ds_mark_read(ds_text_str(&text), &again);
    FUZZ_EXPECT(text.len > 0 || !ds_mark_proven(mark));
    FUZZ_EXPECT(!(ds_mark_proven(again.mark) & ~ds_mark_proven(mark)));
    FUZZ_EXPECT(ds_mark_impact(again.mark) <= ds_mark_impact(mark));
    ds_text_free(&text);
}

static void print_all(const ds_reading *const reading)
{
    ds_text text;
    ds_text_init(&text, fuzz_alloc());
    ds_reading_because(&text, reading);
    FUZZ_EXPECT(text.len > 0);
    const size_t before = text.len;
    ds_reading_print(&text, reading);
    FUZZ_EXPECT(ds_text_ok(&text) && (text.len > before || !reading->has_code));
    ds_text_free(&text);
}

/* The code printed for a need asks for that need again. */
static void expect_need_again(const ds_need need)
{
    ds_text text;
    ds_text_init(&text, fuzz_alloc());
    ds_need_print(&text, need);
    ds_need again;
    ds_reading reading;
    if (need != DS_NEED_NOTHING && ds_need_read(ds_text_str(&text), &again, &reading)) {
        FUZZ_EXPECT(ds_need_join(again, need) == need);
    }
    ds_text_free(&text);
}

/* A strict code whose depth and time the word holds as they are: it must cover itself. */
static bool is_clean(const ds_reading *const reading)
{
    return reading->status == DS_READ_CODE && reading->valid &&
           ds_mark_depth_m(reading->mark) == reading->claim.depth_m &&
           ds_mark_minutes(reading->mark) == reading->claim.minutes;
}

int LLVMFuzzerTestOneInput(const uint8_t *const data, const size_t size)
{
    const ds_str text = {(const char *)data, size};
    ds_reading reading;
    ds_mark_read(text, &reading);
    expect_sound(&reading);
    expect_modest(reading.mark);
    print_all(&reading);
    const ds_mark mark = reading.mark;
    const bool clean = is_clean(&reading);
    ds_need need;
    const bool usable = ds_need_read(text, &need, &reading);
    print_all(&reading);
    FUZZ_EXPECT(reading.is_need && reading.mark == DS_MARK_SILENT);
    if (usable) {
        expect_need_again(need);
    }
    if (usable && clean) {
        FUZZ_EXPECT(ds_mark_compare(need, mark, NULL) == DS_FITS);
    }
    return 0;
}
