/* SPDX-License-Identifier: MIT */
/*
 * Laws over random rooms with screens: a thing is where its parts are, a string is a string, a place's zone is the one
 * whose region holds it.
 */
#include "zone_help.h"

/* --- laws over random rooms --------------------------------------------------------------------------------------- */

static void put(ds_text *const out, const char *const form, ...)
{
    char piece[512];
    va_list args;
    va_start(args, form);
    vsnprintf(piece, sizeof piece, form, args);
    va_end(args);
    ds_text_add(out, piece);
}

/* A room of 6 m by 5 m, a bath and an outlet, and a few screens at any angle; most of them count. */
static void open_random(zone_world *const w, zone_dice *const dice)
{
    ds_text plan;
    test_alloc memory = test_alloc_make(0);
    ds_text_init(&plan, test_alloc_use(&memory));
    const double x = zone_between(dice, 0, 4);
    const double y = zone_between(dice, 0, 4);
    put(&plan,
        "\"height_m\": 2.6, \"outline_m\": [[0,0],[6,0],[6,5],[0,5]], \"features\": [{\"kind\": \"bath\", "
        "\"rim_m\": 0.55, \"bottom_m\": 0.1, \"outline_m\": ");
    put(&plan, "[[%.3f,%.3f],[%.3f,%.3f],{\"to_m\": [%.3f,%.3f], \"through_m\": [%.3f,%.3f]},[%.3f,%.3f]]}",
        x, y, x + 1.5, y, x + 1.5, y + 0.8, x + 1.7, y + 0.4, x, y + 0.8);
    put(&plan, ", {\"kind\": \"shower-outlet\", \"basin\": false, \"height_m\": 2, \"at_m\": [%.3f, %.3f]}",
        zone_between(dice, 0, 6), zone_between(dice, 0, 5));
    for (int i = (int)zone_between(dice, 1, 6); i > 0; i--) {
        const double sx = zone_between(dice, 0, 6);
        const double sy = zone_between(dice, 0, 5);
        put(&plan,
            ", {\"kind\": \"partition\", \"from_m\": [%.3f,%.3f], \"to_m\": [%.3f,%.3f], \"thickness_m\": "
            "%.3f, "
            "\"height_m\": 2.4}",
            sx, sy, fmin(fmax(sx + zone_between(dice, -2, 2), 0), 6),
            fmin(fmax(sy + zone_between(dice, 0.3, 2), 0), 5.1), zone_roll(dice) < 0.5 ? 0.01 : 0.2);
    }
    put(&plan, "]");
    ds_text_char(&plan, '\0');
    zone_open(w, "bath-room", plan.at, "");
    ds_text_free(&plan);
}

/* The strictest zone over n by n places of a box that are free, grown by `grow`. */
static size_t strictest_of_many(const ds_zone_map *const map, const ds_zone_item *const item, const int n,
                                const double grow)
{
    size_t strictest = SIZE_MAX;
    for (int i = 0; i <= n; i++) {
        for (int k = 0; k <= n; k++) {
            const ds_vec p = {item->at_m[0] + (item->size_m[0] + grow) * ((double)i / n - 0.5),
                              item->at_m[1] + (item->size_m[1] + grow) * ((double)k / n - 0.5)};
            if (ds_space_encloses(map->bands[0].space, p)) {
                const size_t zone = ds_zone_at(map, p, item->at_m[2]);
                strictest = zone < strictest ? zone : strictest;
            }
        }
    }
    return strictest;
}

/* No place of a thing is in a stricter zone than the thing, and some place within a grid's step is in its zone. */
static void a_thing_is_where_its_parts_are(void **const state)
{
    (void)state;
    zone_dice dice = {43};
    size_t straddling = 0;
    for (int room = 0; room < 40; room++) {
        zone_world w;
        open_random(&w, &dice);
        const ds_zone_map *const map = zone_map(&w);
        for (int i = 0; i < 150; i++) {
            const ds_zone_item item =
                sized(zone_between(&dice, 0, 6), zone_between(&dice, 0, 5), zone_between(&dice, 0.6, 2.2),
                      zone_between(&dice, 0.02, 1.2), zone_between(&dice, 0.02, 1.2), 0);
            ds_zone_answer a;
            if (!ds_space_encloses(map->bands[0].space, zone_vec(item.at_m[0], item.at_m[1])) ||
                ds_zone_ask(&a, map, &item) != DS_OK) {
                continue;
            }
            const size_t inside = strictest_of_many(map, &item, 16, 0);
            const size_t about = strictest_of_many(map, &item, 48, 0.06);
            if (a.zone > inside || a.zone < about) {
                print_error(
                    "room %d: %.*s\n(%g, %g, %g) of %g by %g: zone %zu, its parts %zu, with a margin %zu\n",
                    room, (int)w.text.len, w.text.at, item.at_m[0], item.at_m[1], item.at_m[2],
                    item.size_m[0], item.size_m[1], a.zone, inside, about);
                fail();
            }
            straddling += zone_warns(&a, DS_ZONE_STRADDLES);
        }
        zone_close(&w);
    }
    assert_true(straddling > 200);
}

/* The string begins on its source, ends at the point, runs free, and is as long as it says. */
static void strings_are_strings(void **const state)
{
    (void)state;
    zone_dice dice = {47};
    size_t bent = 0;
    for (int room = 0; room < 60; room++) {
        zone_world w;
        open_random(&w, &dice);
        const ds_zone_map *const map = zone_map(&w);
        const ds_space *const space = map->bands[0].space;
        for (int i = 0; i < 150; i++) {
            const ds_vec p = {zone_between(&dice, 0, 6), zone_between(&dice, 0, 5)};
            if (!ds_space_encloses(space, p)) {
                continue;
            }
            const ds_zone_answer a = zone_ask(&w, at(p.x, p.y, 1));
            if (zone_warns(&a, DS_ZONE_ON_LIMIT)) {
                continue;
            }
            assert_int_equal(a.zone, ds_zone_at(map, p, 1));
            assert_true(a.zone1_m <= a.zone1_string_m + 1e-9);
            if (!a.path_len) {
                continue;
            }
            assert_in_range(a.path_len, 2, DS_ZONE_PATH);
            double len = 0;
            for (size_t k = 1; k < a.path_len; k++) {
                len += ds_vec_between(a.path[k - 1], a.path[k]);
                assert_true(ds_space_sees(space, a.path[k - 1], a.path[k]));
            }
            expect_near(len, a.distance_m, 1e-9);
            expect_near(ds_vec_between(a.path[a.path_len - 1], p), 0, 1e-12);
            const ds_feature *const f = &map->scene.plan->features[a.feature];
            const ds_outline *const shape = &map->scene.shapes[a.feature];
            const double off = shape->len ? ds_outline_distance(shape->at, shape->len, a.path[0])
                                          : ds_vec_between(a.path[0], zone_vec(f->at_m[0], f->at_m[1]));
            assert_true(off < 0.101 && (off < 1e-6 || !shape->len));
            bent += a.path_len > 2;
            assert_true(a.zone < map->zones_len ? len <= a.limit_m + 2e-9 : len > a.limit_m - 1e-9);
        }
        zone_close(&w);
    }
    assert_true(bent > 300);
}

/* Further than an edge's rounding from it, a place's zone is the one whose region holds it. */
static void regions_hold_their_points(void **const state)
{
    (void)state;
    zone_dice dice = {53};
    for (int room = 0; room < 60; room++) {
        zone_world w;
        open_random(&w, &dice);
        const ds_zone_map *const map = zone_map(&w);
        for (int i = 0; i < 200; i++) {
            const ds_vec p = {zone_between(&dice, 0, 6), zone_between(&dice, 0, 5)};
            const double z = zone_between(&dice, 0.01, 2.5);
            size_t zone = map->zones_len;
            double edge = ds_space_distance(map->bands[0].space, p);
            ds_vec at_edge;
            for (size_t k = 0; k < map->zones_len; k++) {
                for (size_t n = 0; n < map->zones[k].parts_len; n++) {
                    const ds_zone_part *const part = &map->zones[k].parts[n];
                    edge = fmin(edge, ds_region_distance(&part->region, p, &at_edge));
                    if (z > part->from_m && z < part->to_m && ds_region_encloses(&part->region, p)) {
                        assert_int_equal(zone, map->zones_len);
                        zone = k;
                    }
                }
            }
            if (edge > 1e-4 && ds_space_encloses(map->bands[0].space, p) && ds_zone_at(map, p, z) != zone) {
                print_error(
                    "room %d: %.*s\n(%.9g, %.9g, %g): zone %zu, in the region of %zu, %g from an edge\n",
                    room, (int)w.text.len, w.text.at, p.x, p.y, z, ds_zone_at(map, p, z), zone, edge);
                fail();
            }
        }
        zone_close(&w);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_thing_is_where_its_parts_are),
        cmocka_unit_test(strings_are_strings),
        cmocka_unit_test(regions_hold_their_points),
    };
    return cmocka_run_group_tests_name("zone_locate_prop", tests, NULL, NULL);
}
