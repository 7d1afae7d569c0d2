/* SPDX-License-Identifier: MIT */
/* The boxes of one run, laid into their lanes. */
#include "core/box/day_model.h"

static ds_day_fixed fixed_of(const ds_day_box *const box)
{
    const ds_day_heater *const heater = &box->heater;
    const bool has_heater = heater->control != DS_DAY_NO_HEATER;
    const bool is_sealed = box->seal == DS_DAY_SEALED;
    const double vent_m3_h = box->seal == DS_DAY_VENTED ? box->air_m3_h : 0;
    const double breather_m3_h = is_sealed ? 0 : box->vapour_m3_h;
    return (ds_day_fixed){.per_skin = 1 / box->skin_j_k,
                          .per_inside = 1 / box->inside_j_k,
                          .volume_m3 = box->volume_m3,
                          .moist_m3_s = (vent_m3_h + breather_m3_h) / DS_DAY_HOUR_S,
                          .held_kg_k_pa = box->volume_m3 / DS_AIR_VAPOUR_J_KGK,
                          .clings_kg = box->drains ? box->clings_g / 1000 : INFINITY,
                          .heater_w = has_heater ? heater->watts : 0,
                          .heater_set = has_heater ? heater->set : 0,
                          .heater_band = has_heater ? heater->band : 1};
}

ds_day_kind ds_day_kind_of(const ds_day_box *const box)
{
    return (ds_day_kind){box->heater.control, box->seal == DS_DAY_SEALED};
}

void ds_day_model_make(ds_day_model *const out, const ds_day_box *const boxes[DS_DAY_LANES])
{
    out->kind = ds_day_kind_of(boxes[0]);
    ds_day_saturation_make(&out->saturation);
    for (int i = 0; i < DS_DAY_LANES; i++) {
        ds_day_films films;
        ds_day_site site;
        const ds_day_fixed fixed = fixed_of(boxes[i]);
        ds_day_films_make(&films, boxes[i]);
        ds_day_site_make(&site, boxes[i], films.all_m2);
        ds_day_films_put(&out->films, i, &films);
        ds_day_site_put(&out->site, i, &site);
        ds_day_fixed_put(&out->fixed, i, &fixed);
    }
}
