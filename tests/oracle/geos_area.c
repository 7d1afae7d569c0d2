/* SPDX-License-Identifier: MIT */
/*
 * No test but a helper of one: areas of buffers by GEOS, for tests/oracle/zone_geos.mjs.
 *
 *     in:  DISTANCE SEGMENTS \n ROOM \n SOURCE \n    as often as wanted; ROOM and SOURCE are WKT on one line
 *     out: IN AROUND \n    areas of room and source together, and of the room within the distance without the source
 *
 * SEGMENTS is how many chords GEOS draws for a quarter of a circle.
 */
#include <geos_c.h>

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

enum { LONGEST_LINE = 1 << 24 };

static void complain(const char *const format, ...)
{
    va_list args;
    va_start(args, format);
    vfprintf(stderr, format, args);
    va_end(args);
    fputc('\n', stderr);
}

/* The next line as a shape; ends the program when it is none. */
static GEOSGeometry *read_shape(GEOSContextHandle_t geos, char *const line)
{
    if (!fgets(line, LONGEST_LINE, stdin)) {
        exit(2);
    }
    GEOSWKTReader *const reader = GEOSWKTReader_create_r(geos);
    GEOSGeometry *const shape = GEOSWKTReader_read_r(geos, reader, line);
    GEOSWKTReader_destroy_r(geos, reader);
    if (!shape || GEOSisValid_r(geos, shape) != 1) {
        fputs("no valid shape\n", stderr);
        exit(2);
    }
    return shape;
}

static double area_and_destroy(GEOSContextHandle_t geos, GEOSGeometry *const shape)
{
    double area;
    if (!shape || GEOSArea_r(geos, shape, &area) != 1) {
        exit(3);
    }
    GEOSGeom_destroy_r(geos, shape);
    return area;
}

static void answer(GEOSContextHandle_t geos, const double distance, const int segments, char *const line)
{
    GEOSGeometry *const room = read_shape(geos, line);
    GEOSGeometry *const source = read_shape(geos, line);
    GEOSGeometry *const wide = GEOSBuffer_r(geos, source, distance, segments);
    GEOSGeometry *const within = GEOSIntersection_r(geos, wide, room);
    const double in = area_and_destroy(geos, GEOSIntersection_r(geos, source, room));
    const double around = area_and_destroy(geos, GEOSDifference_r(geos, within, source));
    printf("%.17g %.17g\n", in, around);
    GEOSGeom_destroy_r(geos, within);
    GEOSGeom_destroy_r(geos, wide);
    GEOSGeom_destroy_r(geos, source);
    GEOSGeom_destroy_r(geos, room);
}

static int answer_all(GEOSContextHandle_t geos, char *const line)
{
    double distance;
    int segments;
    GEOSContext_setErrorHandler_r(geos, complain);
    while (scanf("%lf %d", &distance, &segments) == 2 && getchar() == '\n') {
        answer(geos, distance, segments, line);
    }
    return feof(stdin) ? 0 : 2;
}

int main(void)
{
    char *const line = malloc(LONGEST_LINE);
    GEOSContextHandle_t geos = GEOS_init_r();
    const int status = line && geos ? answer_all(geos, line) : 3;
    GEOS_finish_r(geos);
    free(line);
    return status;
}
