/* SPDX-License-Identifier: MIT */
/* What open rules wait for. Numbers first, then families of words, in the order of their enumerations. */
#include "core/assess/missing.h"

static const char *const NUMBERS[DS_NUMBERS] = {
    [DS_NUMBER_VOLTS] = "its voltage",
    [DS_NUMBER_HEIGHT] = "its height over the floor",
    [DS_NUMBER_ZONE1_DISTANCE] = "how far it is from zone 1",
    [DS_NUMBER_ZONE0_DISTANCE] = "how far it is from zone 0",
    [DS_NUMBER_RCD] = "the rating of its RCD",
    [DS_NUMBER_DEPTH] = "how deep the water gets",
    [DS_NUMBER_HOURS] = "how long the water stays",
    [DS_NUMBER_DISTANCE] = "how far the jet is",
    [DS_NUMBER_TEMP] = "how warm it gets",
};

static const struct {
    ds_family family;
    ds_lack lack;
} FAMILIES[] = {{DS_FAMILY_SUPPLY, {"its supply", "supply"}},
                {DS_FAMILY_STANDARD, {"the standard it is made to", "product_standard"}},
                {DS_FAMILY_ZONE, {"its zone", "zone_stated"}},
                {DS_FAMILY_MAKER_ZONE, {"the zones that its maker allows", "maker.zones"}},
                {DS_FAMILY_TOP, {"whether its top can be reached", "box.faces"}},
                {DS_FAMILY_SEEN, {"what is seen there", "seen"}},
                {DS_FAMILY_MATERIAL, {"what it is made of", "maker.materials"}},
                {DS_FAMILY_KIND, {"what it is", "kind"}},
                {DS_FAMILY_PLACE, {"what the place is", "place.kind"}},
                {DS_FAMILY_SETTING, {"where it stands", "setting"}},
                {DS_FAMILY_CLASS, {"the open questions of the place", "seen"}}};

bool ds_missing_next(size_t *const at, const ds_missing *const missing, ds_lack *const out)
{
    for (; *at < DS_NUMBERS; ++*at) {
        if (missing->numbers >> *at & 1) {
            const ds_number number = (ds_number)(*at)++;
            *out = (ds_lack){NUMBERS[number], ds_number_name(number).at};
            return true;
        }
    }
    for (; *at < DS_NUMBERS + sizeof FAMILIES / sizeof *FAMILIES; ++*at) {
        const size_t i = *at - DS_NUMBERS;
        if (missing->families >> FAMILIES[i].family & 1) {
            ++*at;
            *out = FAMILIES[i].lack;
            return true;
        }
    }
    return false;
}

void ds_say_missing(ds_text *const out, const ds_missing *const missing)
{
    const size_t start = out->len;
    ds_lack fact;
    for (size_t at = 0; ds_missing_next(&at, missing, &fact);) {
        ds_text_add(out, out->len > start ? ", " : "");
        ds_text_add(out, fact.words ? fact.words : fact.key);
    }
}
