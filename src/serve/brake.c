/* SPDX-License-Identifier: MIT */
#include "serve/brake.h"

/* Whole seconds are counted, so that two of them are between one and two seconds. */
enum { HELD_S = 2 };

bool ds_brake_hold(ds_brake *const brake, struct MHD_Connection *const connection, const int64_t now_s)
{
    if (brake->len == DS_BRAKE_MOST) {
        return false;
    }
    const size_t last = (brake->first + brake->len++) % DS_BRAKE_MOST;
    brake->held[last].connection = connection;
    brake->held[last].until_s = now_s + HELD_S;
    MHD_suspend_connection(connection);
    return true;
}

void ds_brake_release(ds_brake *const brake, const int64_t now_s)
{
    while (brake->len && brake->held[brake->first].until_s <= now_s) {
        MHD_resume_connection(brake->held[brake->first].connection);
        brake->first = (brake->first + 1) % DS_BRAKE_MOST;
        brake->len--;
    }
}

void ds_brake_stop(ds_brake *const brake)
{
    ds_brake_release(brake, INT64_MAX);
}
