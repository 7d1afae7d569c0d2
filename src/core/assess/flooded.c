/* SPDX-License-Identifier: MIT */
#include "core/assess/flooded.h"

#include "core/box/entry_say.h"

const ds_part *ds_flooded_part(const ds_finding *const finding)
{
    const ds_installed *const installed = finding->installed;
    if (!installed || !finding->climate || !finding->climate->flood_told) {
        return NULL;
    }
    const ds_part *worst = NULL;
    for (size_t i = 0; i < installed->entries_len; i++) {
        const ds_part *const part = &installed->parts[i];
        const ds_led_in led_in = part->entry->led_in;
        const bool leads = part->entry->holds == DS_HOLDS_CONDUIT &&
                           (led_in == DS_LED_IN_OPEN || led_in == DS_LED_IN_MISSING);
        if (leads && (!worst || led_in > worst->entry->led_in)) {
            worst = part;
        }
    }
    return worst;
}

ds_verdict ds_flooded_verdict(const ds_finding *const finding)
{
    const ds_climate *const climate = finding->climate;
    if (climate && climate->flood_told && climate->flood.need == DS_FLOOD_NOT_KNOWN) {
        return DS_UNKNOWN;
    }
    const ds_part *const part = ds_flooded_part(finding);
    return !part ? DS_FITS : part->entry->led_in == DS_LED_IN_MISSING ? DS_UNKNOWN : DS_SHORT;
}

static void separate(ds_text *const out, const size_t start)
{
    ds_text_add(out, start ? " " : "");
}

void ds_flooded_say(ds_text *const out, const ds_finding *const finding)
{
    const ds_part *const part = ds_flooded_part(finding);
    if (!part) {
        return;
    }
    separate(out, out->len);
    ds_say_part_name(out, part);
    ds_text_add(out, ": a conduit carries high water into a box above it, and ");
    ds_text_add(out, part->entry->led_in == DS_LED_IN_OPEN
                         ? "this one is open."
                         : "it is not stated whether this one is sealed or drained.");
}

void ds_flooded_mend(ds_text *const out, const ds_finding *const finding)
{
    const ds_part *const part = ds_flooded_part(finding);
    if (!part) {
        return;
    }
    separate(out, out->len);
    ds_text_add(out, part->entry->led_in == DS_LED_IN_OPEN
                         ? "Seal the conduit inside, or drain it before the box."
                         : "Follow the conduit to its other end and state whether it is sealed, drained, dry "
                           "or open.");
}
