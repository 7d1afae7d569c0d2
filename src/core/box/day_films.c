/* SPDX-License-Identifier: MIT */
/* The factors of one box's films, asked from film.h. */
#include "core/box/day_films.h"

/* Temperature and drop at which film_share is taken. */
#define USUAL_C 25.0
#define USUAL_K 10.0

/* Asked at Rayleigh numbers where one law alone holds. L^(3/4) / L of a plate is the inverse of its fourth root. */
static ds_day_laws laws_of(const ds_day_box *const box)
{
    const double root_at_0 = sqrt(ds_film_nusselt_vertical(0));
    const double root_at_1 = sqrt(ds_film_nusselt_vertical(1));
    const double plate_quarter = 1 / sqrt(sqrt(box->plate_m));
    return (ds_day_laws){.standing_0 = root_at_0 / sqrt(box->height_m),
                         .standing_1 = root_at_1 - root_at_0,
                         .free_quarter = ds_film_nusselt_free(1) * plate_quarter,
                         .free_third = ds_film_nusselt_free(1e12) / 1e4,
                         .held_quarter = ds_film_nusselt_held(1) * plate_quarter};
}

static void set_faces(ds_day_films *const f, const ds_day_box *const box)
{
    for (int outwards = 0; outwards < 2; outwards++) {
        const ds_day_area faces[DS_DAY_KINDS] = {[DS_DAY_STANDING] = box->side,
                                                 [DS_DAY_FREE] = outwards ? box->up : box->down,
                                                 [DS_DAY_HELD] = outwards ? box->down : box->up};
        f->all_m2 = 0;
        for (int kind = 0; kind < DS_DAY_KINDS; kind++) {
            f->open_m2[outwards][kind] = faces[kind].open_m2;
            f->each_m2[outwards][kind] = faces[kind].open_m2 + faces[kind].covered_m2;
            f->all_m2 += f->each_m2[outwards][kind];
        }
    }
}

void ds_day_films_make(ds_day_films *const out, const ds_day_box *const box)
{
    ds_day_power_fill(&out->sixth, 1, 6);
    out->laws = laws_of(box);
    set_faces(out, box);
    out->glow_outer = box->emissivity * DS_FILM_STEFAN_W_M2K4 * out->all_m2;
    out->glow_inner = box->inner_emissivity * DS_FILM_STEFAN_W_M2K4 * out->all_m2;
    out->outer_w_k = box->outer_w_k;
    out->inner_w_k = box->inner_w_k;
    out->wall_k_w = 0;
    out->film_share = 1;
    const double wall_k_w = box->inner_w_k > 0 ? 0 : box->wall_m2k_w / out->all_m2;
    const ds_day_inner film = ds_day_inner_of(out, USUAL_C + USUAL_K / 2, USUAL_C - USUAL_K / 2);
    out->film_share = 1 / (1 + wall_k_w * film.heat_w / USUAL_K);
    out->wall_k_w = wall_k_w;
}
