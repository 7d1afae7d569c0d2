/* SPDX-License-Identifier: MIT */
/* The vapour of all lanes over a step, and of those that become wet or dry in it, divided where they do. */
#include "core/box/day_vapour.h"

/* --- a step with a change ----------------------------------------------------------------------------------------- */

/* Until the end, or until it becomes wet; returns where. */
static moment go_dry(const passage *const p, wetness *const w, const moment *const a)
{
    const moment *const end = &p->end;
    const double end_pa = dry_pa(p, w->vapour_pa, a, end);
    if (end_pa <= end->most_pa) {
        w->vapour_pa = end_pa;
        return *end;
    }
    const double room = ds_day_more(a->most_pa - w->vapour_pa, 0);
    const moment there = moment_at(p, between(a->at, 1, room / (room + end_pa - end->most_pa)));
    w->vapour_pa = dry_pa(p, w->vapour_pa, a, &there);
    return there;
}

/* Until the end, or until it has dried; returns where. */
static moment go_wet(const passage *const p, wetness *const w, const moment *const a)
{
    const moment *const end = &p->end;
    const double start_kg = w->liquid_kg + held_kg(p, w->vapour_pa, a->inside_k);
    const double liquid_kg = start_kg + gained_kg(p, a, end) - held_kg(p, end->most_pa, end->inside_k);
    if (liquid_kg > 0) {
        *w = (wetness){end->most_pa, liquid_kg};
        return *end;
    }
    const double before = w->liquid_kg > 0 ? w->liquid_kg / (w->liquid_kg - liquid_kg) : 0;
    const moment there = moment_at(p, between(a->at, 1, before));
    const double all_kg = start_kg + gained_kg(p, a, &there);
    *w = (wetness){all_kg * there.inside_k / p->fixed->held_kg_k_pa, 0};
    return there;
}

/*
 * Dry and wet by turns. More than two changes in a step are below what it can see: what the surface does not allow at the
 * end is then water on it.
 */
static vapour_passed cross(const passage *const p, wetness w)
{
    moment now = p->start;
    bool wet = w.liquid_kg > 0;
    double wet_s = 0;
    for (int turn = 0; turn < 4 && now.at < 1; turn++) {
        const double before = now.at;
        now = wet ? go_wet(p, &w, &now) : go_dry(p, &w, &now);
        wet_s += wet ? (now.at - before) * p->length_s : 0;
        wet = !wet;
    }
    if (w.vapour_pa > p->end.most_pa) {
        w.liquid_kg += held_kg(p, w.vapour_pa - p->end.most_pa, p->end.inside_k);
        w.vapour_pa = p->end.most_pa;
    }
    return (vapour_passed){.end = w, .wet_s = wet_s, .crossed = 1};
}

/* --- all lanes ---------------------------------------------------------------------------------------------------- */

/* What does not cling runs off. */
DS_DAY_INLINE void put_vapour(ds_day_node_lanes *const to, ds_day_passed_lanes *const passed, const int i,
                              const vapour_passed *const v, const double clings_kg)
{
    passed->crossed[i] = v->crossed;
    passed->wet_s[i] = v->wet_s;
    passed->drained_kg[i] = ds_day_more(v->end.liquid_kg - clings_kg, 0);
    to->vapour_pa[i] = v->end.vapour_pa;
    to->liquid_kg[i] = ds_day_less(v->end.liquid_kg, clings_kg);
}

DS_DAY_INLINE void pass_all(const ds_day_model *restrict const m, ds_day_node_lanes *restrict const to,
                            const ds_day_node_lanes *restrict const from,
                            const ds_day_step *restrict const step,
                            ds_day_passed_lanes *restrict const passed, const bool is_sealed)
{
    const ds_day_step now = *step;
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const ds_day_fixed fixed = ds_day_fixed_at(&m->fixed, i);
        const ds_day_node before = ds_day_node_at(from, i);
        ds_day_node after = ds_day_node_at(to, i);
        after.most_pa = ds_day_saturation_pa(&m->saturation, after.cold_c);
        const ds_day_forcing start = ds_day_forcing_in(&now, i, now.from);
        const ds_day_forcing end = ds_day_forcing_in(&now, i, now.to);
        const passage p =
            passage_of(&fixed, &m->saturation, &before, &after, &start, &end, ds_day_step_s(&now));
        const wetness w = {before.vapour_pa, before.liquid_kg};
        const vapour_passed v = pass_vapour(&p, &w, is_sealed);
        to->most_pa[i] = after.most_pa;
        put_vapour(to, passed, i, &v, fixed.clings_kg);
    }
}

DS_DAY_WIDE
static void pass_all_open(const ds_day_model *restrict const m, ds_day_node_lanes *restrict const to,
                          const ds_day_node_lanes *restrict const from,
                          const ds_day_step *restrict const step, ds_day_passed_lanes *restrict const passed)
{
    pass_all(m, to, from, step, passed, false);
}

DS_DAY_WIDE
static void pass_all_sealed(const ds_day_model *restrict const m, ds_day_node_lanes *restrict const to,
                            const ds_day_node_lanes *restrict const from,
                            const ds_day_step *restrict const step,
                            ds_day_passed_lanes *restrict const passed)
{
    pass_all(m, to, from, step, passed, true);
}

static void cross_one(const ds_day_model *const m, ds_day_node_lanes *const to,
                      const ds_day_node_lanes *const from, const ds_day_step *const step,
                      ds_day_passed_lanes *const passed, const int i)
{
    const ds_day_fixed fixed = ds_day_fixed_at(&m->fixed, i);
    const ds_day_forcing start = ds_day_forcing_in(step, i, step->from);
    const ds_day_forcing end = ds_day_forcing_in(step, i, step->to);
    const ds_day_node before = ds_day_node_at(from, i);
    const ds_day_node after = ds_day_node_at(to, i);
    const passage p = passage_of(&fixed, &m->saturation, &before, &after, &start, &end, ds_day_step_s(step));
    const vapour_passed v = cross(&p, (wetness){before.vapour_pa, before.liquid_kg});
    put_vapour(to, passed, i, &v, fixed.clings_kg);
}

void ds_day_vapour_take(const ds_day_model *const m, ds_day_node_lanes *const to,
                        const ds_day_node_lanes *const from, const ds_day_step *const step,
                        ds_day_passed_lanes *const passed)
{
    if (m->kind.is_sealed) {
        pass_all_sealed(m, to, from, step, passed);
    } else {
        pass_all_open(m, to, from, step, passed);
    }
    for (int i = 0; i < DS_DAY_LANES; i++) {
        if (passed->crossed[i] > 0) {
            cross_one(m, to, from, step, passed, i);
        }
        passed->crossed[i] = (from->liquid_kg[i] > 0) != (to->liquid_kg[i] > 0);
    }
}
