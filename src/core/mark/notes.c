/* SPDX-License-Identifier: MIT */
/* The notes of a reading: kept, and said in sentences. */
#include "core/mark/notes.h"

#include "core/mark/nema.h"

enum { KEEPS = 0, SILENT = 1 };

typedef struct note_text {
    ds_read_status status;
    bool silent;
    const char *is_so;
    const char *ask;
} note_text;

static const note_text TEXTS[] = {
#define X(name, status, counts, is_so, ask) {DS_READ_##status, (counts) == SILENT, is_so, ask},
    DS_NOTES(X)
#undef X
};

const char *ds_read_status_word(const ds_read_status status)
{
    static const char *const WORDS[] = {"code", "noted", "question", "refused"};
    return WORDS[status];
}

static bool has_note(const ds_reading *const reading, const ds_note_id note)
{
    for (uint8_t i = 0; i < reading->notes_len; i++) {
        if (reading->notes[i] == note) {
            return true;
        }
    }
    return false;
}

/*
 * Where a new note goes: behind the others, or in place of the mildest when it is graver; NULL for nowhere.
 */
static ds_note *place_for(ds_reading *const reading, const ds_read_status status)
{
    if (reading->notes_len < DS_READ_NOTES) {
        return &reading->notes[reading->notes_len++];
    }
    ds_note *mildest = &reading->notes[0];
    for (unsigned i = 1; i < DS_READ_NOTES; i++) {
        if (TEXTS[reading->notes[i]].status < TEXTS[*mildest].status) {
            mildest = &reading->notes[i];
        }
    }
    return TEXTS[*mildest].status < status ? mildest : NULL;
}

bool ds_note_add(ds_reading *const reading, const ds_note_id note)
{
    const note_text *const text = &TEXTS[note];
    if (!has_note(reading, note)) {
        ds_note *const place = place_for(reading, text->status);
        if (place) {
            *place = (ds_note)note;
        }
    }
    reading->status = text->status > reading->status ? text->status : reading->status;
    return !text->silent;
}

static void add_sentence(ds_text *const out, const char *const sentence, bool *const first)
{
    if (*sentence) {
        ds_text_add(out, *first ? "" : " ");
        ds_text_add(out, sentence);
        *first = false;
    }
}

/*
 * What was assumed and what is wrong, the gravest first; then what to ask, so that a question ends with it.
 */
void ds_reading_because(ds_text *const out, const ds_reading *const reading)
{
    bool first = true;
    for (int status = DS_READ_REFUSED; status >= DS_READ_CODE; status--) {
        for (uint8_t i = 0; i < reading->notes_len; i++) {
            const note_text *const text = &TEXTS[reading->notes[i]];
            if ((int)text->status == status) {
                add_sentence(out, text->is_so, &first);
            }
        }
    }
    add_sentence(out, ds_nema_disagreement(reading->nema), &first);
    for (uint8_t i = 0; i < reading->notes_len && reading->status == DS_READ_QUESTION; i++) {
        add_sentence(out, TEXTS[reading->notes[i]].ask, &first);
    }
    add_sentence(out, first ? "As written." : "", &first);
}
