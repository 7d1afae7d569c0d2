/* SPDX-License-Identifier: MIT */
#include "paper/words.h"

#include <math.h>

#define NUMBER_MOST 10000.0
#define COUNT_MOST 1000.0

const char *ds_reader_word(const ds_reader_kind reader)
{
    static const char *const WORDS[DS_READERS_LEN] = {"all", "client", "fitter", "buyer", "inspector"};
    return WORDS[reader];
}

bool ds_reader_read(ds_reader_kind *const out, const ds_str word)
{
    int reader = DS_READER_ALL;
    while (word.at && reader < DS_READERS_LEN && !ds_str_is(word, ds_reader_word((ds_reader_kind)reader))) {
        reader++;
    }
    *out = reader < DS_READERS_LEN ? (ds_reader_kind)reader : DS_READER_ALL;
    return reader < DS_READERS_LEN;
}

bool ds_paper_size_read(ds_paper_size *const out, const ds_str word)
{
    *out = ds_str_is(word, "letter") ? DS_PAPER_LETTER : DS_PAPER_A4;
    return !word.at || *out == DS_PAPER_LETTER || ds_str_is(word, "a4");
}

/* One number of the form 12 or 12.5 at the head of a text, cut off. False when it is none, or too large. */
static bool take_number(double *const out, ds_str *const text)
{
    size_t at = 0;
    double unit = 1;
    *out = 0;
    for (; at < text->len && text->at[at] >= '0' && text->at[at] <= '9'; at++) {
        *out = *out * 10 + (text->at[at] - '0');
    }
    const bool digits = at > 0;
    if (digits && at < text->len && text->at[at] == '.') {
        for (at++; at < text->len && text->at[at] >= '0' && text->at[at] <= '9'; at++) {
            unit /= 10;
            *out += (text->at[at] - '0') * unit;
        }
    }
    *text = ds_str_from(*text, at);
    return digits && *out < NUMBER_MOST;
}

/* "70x37"; what is absent leaves out as it is. */
static bool read_pair(double out[2], const ds_str word)
{
    ds_str rest = word;
    if (!word.at) {
        return true;
    }
    if (!take_number(&out[0], &rest) || !ds_str_starts(rest, DS_STR("x"))) {
        return false;
    }
    rest = ds_str_from(rest, 1);
    return take_number(&out[1], &rest) && !rest.len;
}

static bool is_count(const double number)
{
    return number == floor(number) && number <= COUNT_MOST;
}

static bool read_count(double *const out, const ds_str word)
{
    ds_str rest = word;
    return !word.at || (take_number(out, &rest) && !rest.len && is_count(*out));
}

const char *ds_label_sheet_read(ds_label_sheet *const out, const ds_label_words *const words)
{
    double grid[2] = {3, 8};
    double label[2] = {70, 37};
    double corner[2] = {NAN, NAN};
    double gap[2] = {NAN, NAN};
    double skip = 0;
    const char *const odd = !read_pair(grid, words->grid)       ? "grid"
                            : !read_pair(label, words->label)   ? "label"
                            : !read_pair(corner, words->corner) ? "corner"
                            : !read_pair(gap, words->gap)       ? "gap"
                            : !read_count(&skip, words->skip)   ? "skip"
                                                                : NULL;
    const bool counted = is_count(grid[0]) && is_count(grid[1]);
    out->columns = counted ? (unsigned)grid[0] : 0;
    out->rows = counted ? (unsigned)grid[1] : 0;
    out->width_mm = label[0];
    out->height_mm = label[1];
    out->left_mm = corner[0];
    out->top_mm = corner[1];
    out->gap_x_mm = gap[0];
    out->gap_y_mm = gap[1];
    out->skip = odd ? 0 : (unsigned)skip;
    return odd;
}
