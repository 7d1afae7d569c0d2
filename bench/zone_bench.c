/* SPDX-License-Identifier: MIT */
/*
 * Zones of wet places by the rule pack gb-2022, in one thread; medians of five runs.
 *
 *     build/release/bench/zone_bench
 *
 * - zones of points a second: in a bathroom with one bath and two partitions, and in a pool hall with a pool of 60
 *   corners and ten partitions. The points are spread over the free floor of the whole room, up to the zones' top.
 * - all regions of both, from the plan as read to every ring: what a bath that is dragged costs a frame.
 * - the same rooms without partitions beside GEOS: buffers of the same shapes cut off by the room. A true area is taken
 *   from GEOS too, twice, at so many chords that what is left of the error goes with the square of their number.
 */
#include <geos_c.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "bench.h"
#include "core/rules/pack.h"
#include "core/zone/locate.h"

enum { RUNS = 5, PLACES = 20000, POOL_CORNERS = 60 };

/* The same numbers on every run, from 0 to below 1. */
static double share(void)
{
    static uint64_t state = 1;
    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (double)(state >> 33) / (double)(UINT64_C(1) << 31);
}

static _Noreturn void die(const char *const what)
{
    fprintf(stderr, "zone_bench: %s\n", what);
    exit(2);
}

/* --- rooms -------------------------------------------------------------------------------------------------------- */

typedef struct room {
    const char *name, *kind;
    double wide_m, deep_m, high_m;
    ds_text text; /* the job document */
    ds_arena arena;
    ds_job job;
    const ds_zone_law *law;
} room;

static void *resize(void *const ctx, void *const old, const size_t old_size, const size_t new_size)
{
    (void)ctx;
    (void)old_size;
    if (new_size == 0) {
        free(old);
        return NULL;
    }
    return realloc(old, new_size);
}

static const ds_alloc HEAP = {.resize = resize};

static void print(ds_text *const out, const char *const form, ...)
{
    char line[512];
    va_list args;
    va_start(args, form);
    vsnprintf(line, sizeof line, form, args);
    va_end(args);
    ds_text_add(out, line);
}

static const char BATH[] = "{\"kind\": \"bath\", \"outline_m\": [[0, 0], [1.7, 0], [1.7, 0.7], [0, 0.7]], "
                           "\"rim_m\": 0.55, \"bottom_m\": 0.15}";

static void put_partition(ds_text *const out, const double x0, const double y0, const double x1,
                          const double y1)
{
    print(out,
          ", {\"kind\": \"partition\", \"from_m\": [%.3f, %.3f], \"to_m\": [%.3f, %.3f], \"thickness_m\": "
          "0.01, "
          "\"height_m\": 2.5}",
          x0, y0, x1, y1);
}

/* One wall of the bath's foot and a screen that stands free. */
static void put_bath_features(ds_text *const out, const bool partitions)
{
    ds_text_add(out, BATH);
    if (partitions) {
        put_partition(out, 1.755, 0, 1.755, 0.9);
        put_partition(out, 0.6, 1.1, 1.3, 1.3);
    }
}

/* A kidney: it bends in along one side, so that its parallels meet there. */
static void put_pool_features(ds_text *const out, const bool partitions)
{
    ds_text_add(out, "{\"kind\": \"pool\", \"bottom_m\": -1.8, \"outline_m\": [");
    for (int i = 0; i < POOL_CORNERS; i++) {
        const double turn = 2 * M_PI * i / POOL_CORNERS;
        print(out, "%s[%.4f, %.4f]", i ? ", " : "", 17 + 9 * cos(turn),
              8 + 3.5 * sin(turn) + 2.2 * cos(2 * turn));
    }
    ds_text_add(out, "]}");
    for (int i = 0; partitions && i < 5; i++) {
        const double x = 7 + 4.5 * i;
        put_partition(out, x, 0, x + 0.6, 4 - 0.3 * i);
        put_partition(out, x + 1, 14.5 + 0.2 * i, x + 3.2, 14.2);
    }
}

static void read_room(room *const r, const ds_rulebook *const book, const bool partitions)
{
    const bool pool = r->wide_m > 10;
    ds_text_init(&r->text, &HEAP);
    print(&r->text,
          "{\"dripstone\": 1, \"rules\": [\"gb-2022\"], \"places\": [{\"id\": \"a\", \"kind\": \"%s\", "
          "\"setting\": \"indoors\", \"seen\": \"none\", \"plan\": {\"height_m\": %.2f, \"outline_m\": [[0, "
          "0], "
          "[%.2f, 0], [%.2f, %.2f], [0, %.2f]], \"features\": [",
          r->kind, r->high_m, r->wide_m, r->wide_m, r->deep_m, r->deep_m);
    (pool ? put_pool_features : put_bath_features)(&r->text, partitions);
    ds_text_add(&r->text, "]}}]}");
    ds_arena_init(&r->arena, &HEAP);
    ds_problem problem;
    if (!ds_text_ok(&r->text) || ds_job_read(&r->job, ds_text_str(&r->text), &r->arena, &problem) != DS_OK ||
        r->job.problems.len) {
        die("a room is not read");
    }
    const int place = ds_words_find(&book->words, DS_FAMILY_PLACE, ds_str_of(r->kind));
    r->law = ds_pack_zone_law(ds_rulebook_pack(book, DS_STR("gb-2022")), &book->words, place);
}

static void make_map(ds_zone_map *const map, const room *const r, ds_arena *const arena)
{
    ds_zone_fault fault;
    if (ds_zone_map_make(map, r->job.places[0].plan, r->law, arena, &fault) != DS_OK) {
        die("a plan makes no map");
    }
}

static void free_room(room *const r)
{
    ds_arena_free(&r->arena);
    ds_text_free(&r->text);
}

/* --- points ------------------------------------------------------------------------------------------------------- */

typedef struct place {
    ds_vec at;
    double z_m;
} place;

static void spread(place *const places, const room *const r, const ds_zone_map *const map)
{
    for (size_t i = 0; i < PLACES;) {
        const place p = {{r->wide_m * share(), r->deep_m * share()}, map->top_m * share()};
        if (ds_space_encloses(map->bands[0].space, p.at)) {
            places[i++] = p;
        }
    }
}

/* Whole rounds through the places until about half a second is over. */
static double zones_a_second(const ds_zone_map *const map, const place *const places)
{
    double runs[RUNS];
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        size_t asked = 0;
        size_t sum = 0;
        for (; now_s() - start < 0.5; asked += PLACES) {
            for (size_t i = 0; i < PLACES; i++) {
                sum += ds_zone_at(map, places[i].at, places[i].z_m);
            }
        }
        __asm__ volatile("" ::"r"(sum));
        runs[run] = (double)asked / (now_s() - start);
    }
    return median(runs, RUNS);
}

static double answers_a_second(const ds_zone_map *const map, const place *const places)
{
    double runs[RUNS];
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        size_t asked = 0;
        for (; now_s() - start < 0.2; asked++) {
            const place *const p = &places[asked % PLACES];
            const ds_zone_item item = {.at_m = {p->at.x, p->at.y, p->z_m}};
            ds_zone_answer answer;
            if (ds_zone_ask(&answer, map, &item) != DS_OK) {
                die("a place is not in the room");
            }
        }
        runs[run] = (double)asked / (now_s() - start);
    }
    return median(runs, RUNS);
}

static void report_points(const room *const r)
{
    static place places[PLACES];
    ds_zone_map map;
    ds_arena arena;
    ds_arena_init(&arena, &HEAP);
    make_map(&map, r, &arena);
    spread(places, r, &map);
    size_t in_zones = 0;
    for (size_t i = 0; i < PLACES; i++) {
        in_zones += ds_zone_at(&map, places[i].at, places[i].z_m) < map.zones_len;
    }
    printf("| %s | %.0f | %.0f | %.0f %% | %zu walls, %zu bends |\n", r->name, zones_a_second(&map, places),
           answers_a_second(&map, places), 100.0 * (double)in_zones / PLACES, map.bands[0].space->walls_len,
           map.bands[0].space->bends_len);
    ds_arena_free(&arena);
}

/* --- regions ------------------------------------------------------------------------------------------------------ */

static double map_ms(const room *const r)
{
    double runs[RUNS];
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        size_t made = 0;
        for (; now_s() - start < 0.2; made++) {
            ds_zone_map map;
            ds_arena arena;
            ds_arena_init(&arena, &HEAP);
            make_map(&map, r, &arena);
            ds_arena_free(&arena);
        }
        runs[run] = (now_s() - start) / (double)made * 1e3;
    }
    return median(runs, RUNS);
}

static void report_regions(const room *const r)
{
    printf("| %s | %.3f |\n", r->name, map_ms(r));
}

/* --- beside GEOS -------------------------------------------------------------------------------------------------- */

static GEOSGeometry *polygon_of(const ds_plan_outline *const outline)
{
    GEOSCoordSequence *const line = GEOSCoordSeq_create((unsigned)outline->len + 1, 2);
    for (unsigned i = 0; i <= outline->len; i++) {
        const ds_plan_corner *const c = &outline->corners[i % outline->len];
        GEOSCoordSeq_setXY(line, i, c->x, c->y);
    }
    return GEOSGeom_createPolygon(GEOSGeom_createLinearRing(line), NULL, 0);
}

/* Each reach a zone: the buffer cut off by the room, less the one before. Their areas go to areas_m2. */
static void geos_zones(const room *const r, const int quarter, const double *const reach_m, const size_t len,
                       double *const areas_m2)
{
    const ds_plan *const plan = r->job.places[0].plan;
    GEOSGeometry *const walls = polygon_of(&plan->rooms[0]);
    GEOSGeometry *const source = polygon_of(&plan->features[0].outline);
    GEOSGeometry *nearer = NULL;
    for (size_t i = 0; i < len; i++) {
        GEOSGeometry *const wide =
            reach_m[i] > 0 ? GEOSBuffer(source, reach_m[i], quarter) : GEOSGeom_clone(source);
        GEOSGeometry *const within = GEOSIntersection(wide, walls);
        GEOSGeometry *const zone = nearer ? GEOSDifference(within, nearer) : GEOSGeom_clone(within);
        GEOSArea(zone, &areas_m2[i]);
        GEOSGeom_destroy(zone);
        GEOSGeom_destroy(wide);
        GEOSGeom_destroy(nearer);
        nearer = within;
    }
    GEOSGeom_destroy(nearer);
    GEOSGeom_destroy(source);
    GEOSGeom_destroy(walls);
}

/* Chords cut off an area that goes with the square of their length. */
static void true_zones(const room *const r, const double *const reach_m, const size_t len,
                       double *const areas_m2)
{
    double coarse[DS_ZONES_MAX];
    geos_zones(r, 1024, reach_m, len, coarse);
    geos_zones(r, 2048, reach_m, len, areas_m2);
    for (size_t i = 0; i < len; i++) {
        areas_m2[i] += (areas_m2[i] - coarse[i]) / 3;
    }
}

static double worst(const double *const got, const double *const want, const size_t len)
{
    double off = 0;
    for (size_t i = 0; i < len; i++) {
        off = fmax(off, fabs(got[i] - want[i]) / want[i]);
    }
    return off;
}

/* Areas of the zones above the rim: the last `len` of the map's. */
static void our_zones(const room *const r, const size_t len, double *const areas_m2)
{
    ds_zone_map map;
    ds_arena arena;
    ds_arena_init(&arena, &HEAP);
    make_map(&map, r, &arena);
    for (size_t i = 0; i < len; i++) {
        const ds_zone_shape *const zone = &map.zones[map.zones_len - len + i];
        for (size_t k = 0; k < zone->parts_len; k++) {
            areas_m2[i] = zone->parts[k].to_m > 1 ? zone->parts[k].region.area_m2 : areas_m2[i];
        }
    }
    ds_arena_free(&arena);
}

static double geos_ms(const room *const r, const int quarter, const double *const reach_m, const size_t len)
{
    double runs[RUNS];
    double areas_m2[DS_ZONES_MAX];
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        size_t made = 0;
        for (; now_s() - start < 0.2; made++) {
            geos_zones(r, quarter, reach_m, len, areas_m2);
        }
        runs[run] = (now_s() - start) / (double)made * 1e3;
    }
    return median(runs, RUNS);
}

static void report_geos(const room *const r, const double *const reach_m, const size_t len)
{
    static const int QUARTERS[] = {16, 64, 256};
    double want[DS_ZONES_MAX] = {0};
    double got[DS_ZONES_MAX] = {0};
    true_zones(r, reach_m, len, want);
    our_zones(r, len, got);
    const double ms = map_ms(r);
    printf("| %s, exact | %.3f | 1 | %.0e |\n", r->name, ms, worst(got, want, len));
    for (size_t i = 0; i < sizeof QUARTERS / sizeof *QUARTERS; i++) {
        geos_zones(r, QUARTERS[i], reach_m, len, got);
        const double theirs = geos_ms(r, QUARTERS[i], reach_m, len);
        printf("| GEOS, %d chords a quarter | %.3f | %.2f | %.0e |\n", QUARTERS[i], theirs, theirs / ms,
               worst(got, want, len));
    }
}

/* --- the whole ---------------------------------------------------------------------------------------------------- */

static ds_str file_text(const char *const path)
{
    char full[1024];
    snprintf(full, sizeof full, DS_SOURCE_DIR "/rules/%s", path);
    FILE *const file = fopen(full, "rb");
    if (!file) {
        die(full);
    }
    static char texts[4][1 << 20];
    static size_t used;
    char *const at = texts[used++];
    const size_t len = fread(at, 1, sizeof texts[0], file);
    fclose(file);
    return (ds_str){at, len};
}

static void read_rules(ds_rulebook *const book, ds_arena *const arena)
{
    ds_problem problem;
    ds_rulebook_init(book, arena);
    if (ds_words_read(&book->words, file_text("words.json"), &problem) != DS_OK ||
        ds_words_read(&book->words, file_text("seen.json"), &problem) != DS_OK ||
        ds_rulebook_read(book, file_text("gb-2022.json"), &problem) != DS_OK) {
        die("the rules are not read");
    }
}

int main(void)
{
    static ds_rulebook book;
    ds_arena arena;
    ds_arena_init(&arena, &HEAP);
    read_rules(&book, &arena);
    initGEOS(NULL, NULL);
    room bath = {.name = "bathroom", .kind = "bath-room", .wide_m = 2.6, .deep_m = 2.2, .high_m = 2.4};
    room hall = {.name = "pool hall", .kind = "pool", .wide_m = 34, .deep_m = 18, .high_m = 5};
    read_room(&bath, &book, true);
    read_room(&hall, &book, true);
    printf("| points | zones a second | full answers a second | in zones | |\n| --- | --- | --- | --- | --- "
           "|\n");
    report_points(&bath);
    report_points(&hall);
    printf("\n| all regions | ms |\n| --- | --- |\n");
    report_regions(&bath);
    report_regions(&hall);
    free_room(&bath);
    free_room(&hall);
    read_room(&bath, &book, false);
    read_room(&hall, &book, false);
    printf("\n| without partitions | ms | times | worst area error |\n| --- | --- | --- | --- |\n");
    report_geos(&bath, (const double[]){0, 0.6}, 2);
    report_geos(&hall, (const double[]){2, 3.5}, 2);
    free_room(&bath);
    free_room(&hall);
    finishGEOS();
    ds_arena_free(&arena);
    return 0;
}
