/* SPDX-License-Identifier: MIT */
/*
 * Who sends a wrong password waits a second for the answer, so that guessing takes years: private to serve/. The right one
 * is never held up, however many guess.
 */
#ifndef DS_SERVE_BRAKE_H
#define DS_SERVE_BRAKE_H

#include <microhttpd.h>
#include <stdbool.h>
#include <stdint.h>

enum { DS_BRAKE_MOST = 2000 }; /* as many as there are connections */

typedef struct ds_brake {
    struct {
        struct MHD_Connection *connection;
        int64_t until_s;
    } held[DS_BRAKE_MOST]; /* a ring: who came first goes first */
    size_t first, len;
} ds_brake;

/* Puts the connection to sleep; the library asks for its answer again when it is awake. False: too many sleep. */
bool ds_brake_hold(ds_brake *brake, struct MHD_Connection *connection, int64_t now_s);

/* Wakes those whose time has come. */
void ds_brake_release(ds_brake *brake, int64_t now_s);

/* Wakes all, before the library is stopped. */
void ds_brake_stop(ds_brake *brake);

#endif
