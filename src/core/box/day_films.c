/* SPDX-License-Identifier: MIT */
/* The factors of one box's films, asked from film.h. */
#include "core/box/day_films.h"

/* Temperature and drop at which film_share is taken. */
#define USUAL_C 25.0
#define USUAL_K 10.0

/* Asked at Rayleigh numbers where one law alone holds. L^(3/4) / L of a plate is the inverse of its fourth root. */
static void set_laws(ds_day_films *const f, const ds_day_box *const box)
{
    const double root_at_0 = sqrt(ds_film_nusselt_vertical(0));
    const double root_at_1 = sqrt(ds_film_nusselt_vertical(1));
    const double plate_quarter = 1 / sqrt(sqrt(box->plate_m));
    f->standing_0 = root_at_0 / sqrt(box->height_m);
    f->standing_1 = root_at_1 - root_at_0;
    f->free_quarter = ds_film_nusselt_free(1) * plate_quarter;
    f->free_third = ds_film_nusselt_free(1e12) / 1e4;
    f->held_quarter = ds_film_nusselt_held(1) * plate_quarter;
}

static void set_faces(ds_day_films *const f, const ds_day_box *const box)
{
    f->up_open_m2 = box->up.open_m2;
    f->side_open_m2 = box->side.open_m2;
    f->down_open_m2 = box->down.open_m2;
    f->up_m2 = box->up.open_m2 + box->up.covered_m2;
    f->side_m2 = box->side.open_m2 + box->side.covered_m2;
    f->down_m2 = box->down.open_m2 + box->down.covered_m2;
    f->all_m2 = f->up_m2 + f->side_m2 + f->down_m2;
}

void ds_day_films_make(ds_day_films *const out, const ds_day_box *const box)
{
    set_laws(out, box);
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
