/* SPDX-License-Identifier: MIT */
/* The directory of a ZIP file, and its parts unpacked piece by piece; numbers are little endian (the ZIP format, 4.3). */
#include "paper/sheet_whole.h"

#include <stdint.h>
#include <zlib.h>

enum { END_LEN = 22, ENTRY_LEN = 46, LOCAL_LEN = 30, DEFLATED = 8, PIECE = 1 << 15, SEEN = 512 };

static uint32_t number(const ds_str zip, const size_t at, const int bytes)
{
    uint32_t value = 0;
    for (int i = bytes - 1; i >= 0; i--) {
        value = value << 8 | (uint8_t)zip.at[at + (size_t)i];
    }
    return value;
}

/* The first and the last bytes of a part. */
typedef struct ends {
    char first[SEEN], last[SEEN];
    size_t first_len, last_len;
} ends;

static void see(ends *const e, const char *const piece, const size_t len)
{
    const size_t room = SEEN - e->first_len;
    const size_t more = len < room ? len : room;
    memcpy(e->first + e->first_len, piece, more);
    e->first_len += more;
    const size_t taken = len < SEEN ? len : SEEN;
    const size_t kept = e->last_len + taken <= SEEN ? e->last_len : SEEN - taken;
    memmove(e->last, e->last + e->last_len - kept, kept);
    memcpy(e->last + kept, piece + len - taken, taken);
    e->last_len = kept + taken;
}

/* Name of the element that the text begins with, behind the declaration "<?xml …?>". */
static ds_str root_of(const ds_str text)
{
    size_t at = 0;
    while (at + 1 < text.len && (text.at[at] != '<' || text.at[at + 1] == '?')) {
        at++;
    }
    const ds_str rest = ds_str_from(text, at + 1);
    size_t len = 0;
    while (len < rest.len && !memchr(" \n\r\t/>", rest.at[len], 6)) {
        len++;
    }
    return (ds_str){rest.at, len};
}

/* It ends with </root>, or is <root …/> alone. */
static bool ends_well(const ends *const e)
{
    const ds_str root = root_of((ds_str){e->first, e->first_len});
    ds_str last = {e->last, e->last_len};
    while (last.len && memchr(" \n\r\t", last.at[last.len - 1], 4)) {
        last.len--;
    }
    if (!root.len || last.len < root.len + 3) {
        return false;
    }
    const ds_str tag = ds_str_from(last, last.len - root.len - 3);
    const bool closed = ds_str_starts(tag, DS_STR("</")) && tag.at[tag.len - 1] == '>' &&
                        memcmp(tag.at + 2, root.at, root.len) == 0;
    return closed || (e->first_len < SEEN && memcmp(last.at + last.len - 2, "/>", 2) == 0);
}

/* Unpacks all; false unless it comes to its length and checksum. */
static bool unpack(const ds_str packed, const uint32_t length, const uint32_t checksum, ends *const e)
{
    char piece[PIECE];
    z_stream stream = {.next_in = (Bytef *)packed.at, .avail_in = (uInt)packed.len};
    uLong crc = crc32(0, NULL, 0);
    if (inflateInit2(&stream, -MAX_WBITS) != Z_OK) {
        return false;
    }
    int status = Z_OK;
    while (status == Z_OK) {
        stream.next_out = (Bytef *)piece;
        stream.avail_out = PIECE;
        status = inflate(&stream, Z_NO_FLUSH);
        const size_t len = PIECE - stream.avail_out;
        crc = crc32(crc, (const Bytef *)piece, (uInt)len);
        see(e, piece, len);
    }
    const bool good = status == Z_STREAM_END && stream.total_out == length && crc == checksum;
    inflateEnd(&stream);
    return good;
}

/* One part, by its entry in the directory at `at`. */
static bool part_is_whole(const ds_str zip, const size_t at)
{
    const uint32_t method = number(zip, at + 10, 2);
    const uint32_t packed_len = number(zip, at + 20, 4);
    const uint32_t local = number(zip, at + 42, 4);
    ends e = {.first_len = 0};
    if (method != DEFLATED || (size_t)local + LOCAL_LEN > zip.len) {
        return false;
    }
    const size_t start = (size_t)local + LOCAL_LEN + number(zip, local + 26, 2) + number(zip, local + 28, 2);
    if (start + packed_len > zip.len) {
        return false;
    }
    const ds_str packed = {zip.at + start, packed_len};
    return unpack(packed, number(zip, at + 24, 4), number(zip, at + 16, 4), &e) && ends_well(&e);
}

bool ds_book_is_whole(const ds_str zip)
{
    if (zip.len < END_LEN || number(zip, zip.len - END_LEN, 4) != 0x06054b50) {
        return false;
    }
    const uint32_t parts = number(zip, zip.len - END_LEN + 10, 2);
    size_t at = number(zip, zip.len - END_LEN + 16, 4);
    bool whole = parts > 0;
    for (uint32_t i = 0; i < parts && whole; i++) {
        whole = at + ENTRY_LEN <= zip.len && number(zip, at, 4) == 0x02014b50 && part_is_whole(zip, at);
        if (whole) {
            at += ENTRY_LEN + number(zip, at + 28, 2) + number(zip, at + 30, 2) + number(zip, at + 32, 2);
        }
    }
    return whole;
}
