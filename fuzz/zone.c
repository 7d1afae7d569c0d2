/* SPDX-License-Identifier: MIT */
/*
 * Any bytes as a job with a plan, assessed with the project's own rule packs. Bytes that begin with a brace are the
 * job's text; others are taken as figures of a plan (zone_plan.h). What must hold whatever comes: no crash; areas finite,
 * none larger than the rooms; the zone of a point is that whose region holds it, further than a tenth of a millimetre
 * from any edge; a full answer says the same zone; a plan that is wrong gives no zone and no point that fits.
 */
#include "zone_plan.h"

#include "core/assess/render.h"

/* --- rules -------------------------------------------------------------------------------------------------------- */

static ds_str file_text(const char *const name, ds_arena *const arena)
{
    char path[1024];
    snprintf(path, sizeof path, "%s/rules/%s.json", DS_SOURCE_DIR, name);
    FILE *const file = fopen(path, "rb");
    FUZZ_EXPECT(file && fseek(file, 0, SEEK_END) == 0);
    const size_t len = (size_t)ftell(file);
    char *const at = ds_arena_take(arena, len);
    rewind(file);
    FUZZ_EXPECT(at && fread(at, 1, len, file) == len);
    fclose(file);
    return (ds_str){at, len};
}

/* Read once a program. */
static const ds_rulebook *rules(void)
{
    static const char *const NAMES[] = {"words", "seen", "iec", "gb-2022", "gb-2018", "de", "fr", "au"};
    static ds_rulebook book;
    static ds_arena arena;
    if (book.packs_len) {
        return &book;
    }
    ds_arena_init(&arena, fuzz_alloc());
    ds_rulebook_init(&book, &arena);
    for (size_t i = 0; i < sizeof NAMES / sizeof *NAMES; i++) {
        const ds_str text = file_text(NAMES[i], &arena);
        ds_problem problem;
        FUZZ_EXPECT((i < 2 ? ds_words_read(&book.words, text, &problem)
                           : ds_rulebook_read(&book, text, &problem)) == DS_OK);
    }
    return &book;
}

/* --- what must hold ----------------------------------------------------------------------------------------------- */

static double outline_area(const ds_outline *const outline)
{
    return outline->len ? fabs(ds_outline_area(outline->at, outline->len)) : 0;
}

/* Rooms, and what opens beyond them. */
static double most_area(const ds_zone_map *const map)
{
    double area = 0;
    for (size_t i = 0; i < map->scene.rooms_len; i++) {
        area += outline_area(&map->scene.rooms[i]);
    }
    for (size_t i = 0; i < map->scene.plan->features_len; i++) {
        const ds_feature_kind kind = map->scene.plan->features[i].kind;
        const bool opens = kind == DS_OPENING || kind == DS_DOOR || kind == DS_WINDOW || kind == DS_NICHE;
        area += opens ? outline_area(&map->scene.blocks[i]) : 0;
    }
    return area;
}

/* The zone whose region holds a place; *edge is how far the next edge of anything is. */
static size_t zone_by_region(const ds_zone_map *const map, const ds_vec p, const double z, double *const edge)
{
    size_t zone = map->zones_len;
    ds_vec nearest;
    for (size_t i = 0; i < map->zones_len; i++) {
        for (size_t k = 0; k < map->zones[i].parts_len; k++) {
            const ds_zone_part *const part = &map->zones[i].parts[k];
            const bool level = z > part->from_m && z < part->to_m;
            *edge = fmin(*edge, fmin(fabs(z - part->from_m), fabs(z - part->to_m)));
            *edge = fmin(*edge, ds_region_distance(&part->region, p, &nearest));
            if (level && zone == map->zones_len && ds_region_encloses(&part->region, p)) {
                zone = i;
            }
        }
    }
    return zone;
}

/* A figure half a millimetre from a limit counts as on it: the answer is only compared further away. */
static void check_answer(const ds_zone_map *const map, const ds_vec p, const double z, const size_t zone)
{
    ds_zone_answer answer;
    const ds_zone_item item = {.at_m = {p.x, p.y, z}};
    if (ds_zone_ask(&answer, map, &item) != DS_OK) {
        return;
    }
    const bool several = (answer.could_be & (answer.could_be - 1)) != 0;
    FUZZ_EXPECT(several == (answer.zone == SIZE_MAX));
    FUZZ_EXPECT(answer.path_len <= DS_ZONE_PATH);
    const uint32_t other = 1U << DS_ZONE_LET_IN | 1U << DS_ZONE_CEILING;
    if (!(answer.cautions & other) && !several && !map->law->partition.over_top) {
        FUZZ_EXPECT(answer.zone == zone);
    }
}

static void check_point(const ds_zone_map *const map, const ds_vec p, const double z)
{
    double edge = INFINITY;
    const ds_zone_band *band = NULL;
    for (size_t i = 0; i < map->bands_len; i++) {
        band = z > map->bands[i].from_m && z < map->bands[i].to_m ? &map->bands[i] : band;
        edge = fmin(edge, ds_space_distance(map->bands[i].space, p));
        edge = fmin(edge, fmin(fabs(z - map->bands[i].from_m), fabs(z - map->bands[i].to_m)));
    }
    const size_t zone = zone_by_region(map, p, z, &edge);
    if (edge > 1e-4 && band && ds_space_encloses(band->space, p)) {
        const size_t asked = ds_zone_at(map, p, z);
        FUZZ_EXPECT(asked == zone);
        if (edge > 1e-3) {
            check_answer(map, p, z, asked);
        }
    }
}

static void check_map(const ds_zone_map *const map)
{
    ds_vec low = {INFINITY, INFINITY};
    ds_vec high = {-INFINITY, -INFINITY};
    for (size_t i = 0; map->bands_len && i < map->bands[0].space->walls_len; i++) {
        const ds_vec a = map->bands[0].space->walls[i].a;
        low = (ds_vec){fmin(low.x, a.x), fmin(low.y, a.y)};
        high = (ds_vec){fmax(high.x, a.x), fmax(high.y, a.y)};
    }
    for (size_t i = 0; i < map->zones_len; i++) {
        for (size_t k = 0; k < map->zones[i].parts_len; k++) {
            const double area = map->zones[i].parts[k].region.area_m2;
            FUZZ_EXPECT(isfinite(area) && area > -1e-6 && area <= 1.01 * most_area(map));
        }
    }
    for (int i = 0; i < 13 * 13 && low.x < high.x; i++) {
        /* Off the grid, so that few points stand on edges. */
        const ds_vec p = {low.x + (high.x - low.x) * (i % 13 + 0.4379) / 13,
                          low.y + (high.y - low.y) * (i / 13 + 0.5813) / 13};
        check_point(map, p, 0.0137 + 0.2571 * (i % 11));
    }
}

static void check_findings(const ds_findings *const findings)
{
    for (size_t i = 0; i < findings->job->places_len; i++) {
        for (size_t k = 0; k < findings->wet[i].len; k++) {
            check_map(findings->wet[i].maps[k]);
        }
    }
    for (size_t i = 0; i < findings->points_len; i++) {
        const ds_finding *const finding = &findings->points[i];
        const bool odd = finding->point->problem >= 0 || !finding->place || finding->place->problem >= 0;
        FUZZ_EXPECT(!odd || finding->verdict != DS_FITS);
        FUZZ_EXPECT(!finding->where || finding->where->zone != SIZE_MAX || finding->verdict != DS_FITS ||
                    ds_str_is(finding->zone, "unknown"));
    }
}

static void check_job(const ds_str text, ds_arena *const arena)
{
    ds_job job;
    ds_findings findings;
    const ds_sizes sizes = DS_SIZES_NONE;
    ds_problem problem;
    ds_text out;
    ds_text_init(&out, arena->alloc);
    if (ds_job_read(&job, text, arena, &problem) == DS_OK &&
        ds_assess(&findings, &job, rules(), &sizes, arena, &problem) == DS_OK) {
        check_findings(&findings);
        const ds_zone_spot spots[] = {{{1, 1, 1}}, {{3.01, 2.02, 0.05}}};
        for (size_t i = 0; i < job.places_len; i++) {
            ds_zones_json(&out, &findings, i, spots, 2);
        }
        ds_findings_json(&out, &findings, NULL);
        FUZZ_EXPECT(ds_text_ok(&out));
    }
    ds_text_free(&out);
}

int LLVMFuzzerTestOneInput(const uint8_t *const data, const size_t size)
{
    ds_arena arena;
    ds_arena_init(&arena, fuzz_alloc());
    figures f = {.at = data, .left = size};
    ds_text_init(&f.text, fuzz_alloc());
    if (size > 0 && data[0] == '{') {
        check_job((ds_str){(const char *)data, size}, &arena);
    } else {
        put_job(&f);
        FUZZ_EXPECT(ds_text_ok(&f.text));
        check_job(ds_text_str(&f.text), &arena);
    }
    ds_text_free(&f.text);
    ds_arena_free(&arena);
    return 0;
}
