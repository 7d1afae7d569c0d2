/* SPDX-License-Identifier: MIT */
/*
 * NEMA enclosure types taken for IP codes. One way only: a type also covers corrosion, ice and construction,
 * so no IP code makes a type, and a type is no proof of a code.
 *
 * The codes are the cautious column of a published trade table, with the same values as the older annex of
 * NEMA 250 (memory: NEMA 250, annex (med)). Five further tables and a newer list (memory, low) differ; the
 * sentence says how.
 */
#include "core/mark/nema.h"

enum { OPEN = -1, HAZARD = -2 };

typedef struct nema_type {
    const char *name;
    int8_t objects; /* OPEN: no match was found; HAZARD: not comparable */
    int8_t water;
    const char *differ;
} nema_type;

#define DIFFER_4 "Other tables print IP65 or IP66; one gives water 5 only."
#define DIFFER_12 "Other tables print IP54 or IP55."
#define DIFFER_3 "Another table prints IP55."

static const nema_type TYPES[] = {
    {"1", 1, 0, "Other tables print IP20 or IP23."},
    {"2", 1, 1, "Other tables print IP22 or IP30, of which the last has no water test at all."},
    {"3", 5, 4, DIFFER_3},
    {"3R", 1, 4, "Other tables print IP24 or IP54, and one goes as low as IP11."},
    {"3S", 5, 4, DIFFER_3},
    {"3X", OPEN, 0, "From memory a newer list has IP55."},
    {"3RX", OPEN, 0, "From memory a newer list has IP24."},
    {"3SX", OPEN, 0, "From memory a newer list has IP55."},
    {"4", 5, 6, DIFFER_4},
    {"4X", 5, 6, DIFFER_4},
    {"5", 5, 2, "Another table prints IP53."},
    {"6", 6, 7, ""},
    {"6P", 6, 7, "Another table prints IP68."},
    {"12", 5, 2, DIFFER_12},
    {"12K", 5, 2, DIFFER_12},
    {"13", 5, 4, "Another table prints IP65."},
    {"7", HAZARD, 0, ""},
    {"8", HAZARD, 0, ""},
    {"9", HAZARD, 0, ""},
    {"10", HAZARD, 0, ""},
};

enum { TYPES_LEN = sizeof TYPES / sizeof *TYPES };

static bool is_same(const ds_str text, const char *const name)
{
    if (text.len != strlen(name)) {
        return false;
    }
    for (size_t i = 0; i < text.len; i++) {
        const char c = text.at[i];
        if ((c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c) != name[i]) {
            return false;
        }
    }
    return true;
}

uint8_t ds_nema_find(const ds_str type)
{
    for (unsigned i = 0; i < TYPES_LEN; i++) {
        if (is_same(type, TYPES[i].name)) {
            return (uint8_t)(i + 1);
        }
    }
    return 0;
}

ds_claim ds_nema_claim(const uint8_t row)
{
    ds_claim claim = DS_CLAIM_NOTHING;
    if (row && TYPES[row - 1].objects >= 0) {
        claim.objects = TYPES[row - 1].objects;
        claim.water_stated = true;
        claim.water = (uint16_t)(TYPES[row - 1].water ? 1U << TYPES[row - 1].water : 0);
    }
    return claim;
}

ds_note_id ds_nema_note(const uint8_t row)
{
    if (!row) {
        return DS_NOTE_NEMA_NONE;
    }
    const int8_t objects = TYPES[row - 1].objects;
    return objects == HAZARD ? DS_NOTE_NEMA_HAZARD : objects == OPEN ? DS_NOTE_TYPE_OPEN : DS_NOTE_NEMA;
}

const char *ds_nema_disagreement(const uint8_t row)
{
    return row ? TYPES[row - 1].differ : "";
}
