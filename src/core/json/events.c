/* SPDX-License-Identifier: MIT */
/*
 * From yajl's events to the tree.
 *
 * Inside a callback yajl_get_bytes_consumed is the byte after the token. Where the token starts is found from the end
 * of the token before it, over the white space, commas and colons that yajl has just approved.
 */
#include "core/json/reader.h"

_Static_assert(sizeof(ds_json) <= 64, "a value must stay within one cache line");

enum { LONGEST_EXCERPT = 20, MOST_NODES = 256 };

static ds_str excerpt(const ds_str text)
{
    size_t len = 0;
    for (int left = LONGEST_EXCERPT; len < text.len; len++) {
        const bool starts_character = ((uint8_t)text.at[len] & 0xC0) != 0x80;
        if (starts_character && left-- == 0) {
            break;
        }
    }
    return (ds_str){text.at, len};
}

static bool is_between_tokens(const char c)
{
    return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == ',' || c == ':';
}

/* The first byte of the token that yajl has just read. */
static size_t token_start(const ds_json_reader *const r)
{
    size_t i = r->at;
    while (is_between_tokens(r->source.at[i])) {
        i++;
    }
    return i;
}

static void token_done(ds_json_reader *const r)
{
    r->at = r->start + yajl_get_bytes_consumed(r->yajl);
}

/* A piece of yajl's: itself when it lies in the source, a copy when it was decoded. at is NULL when memory is short. */
static ds_str keep(ds_json_reader *const r, const unsigned char *const text, const size_t len,
                   const size_t start)
{
    const char *const in_source = r->source.at + start + 1;
    if ((const char *)text == in_source) {
        return (ds_str){in_source, len};
    }
    char *const copy = ds_arena_take(r->arena, len);
    return (ds_str){copy && len ? memcpy(copy, text, len) : copy, len};
}

static ds_json *take_node(ds_json_reader *const r)
{
    if (!r->free_len) {
        const size_t len = r->block_len < MOST_NODES ? r->block_len * 2 : MOST_NODES;
        r->free_nodes = ds_arena_take_many(r->arena, len, sizeof *r->free_nodes);
        if (!r->free_nodes) {
            return NULL;
        }
        r->free_len = r->block_len = len;
    }
    r->free_len--;
    return r->free_nodes++;
}

static void link_node(ds_json_level *const open, ds_json *const node)
{
    if (open->last) {
        open->last->next = node;
    } else if (open->node) {
        open->node->first = node;
    }
    open->last = node;
    if (open->node) {
        open->node->count++;
    }
}

/* A new value at the end of what is open; NULL when memory is short. */
static ds_json *add_value(ds_json_reader *const r, const ds_json_kind kind, const size_t start)
{
    ds_json *const node = take_node(r);
    if (!node) {
        return NULL;
    }
    ds_json_level *const open = r->level;
    node->parent = open->node;
    node->kind = (uint8_t)kind;
    node->offset = (uint32_t)start;
    link_node(open, node);
    if (r->has_key) {
        node->key = r->key.at;
        node->key_len = (uint32_t)r->key.len;
        r->has_key = false;
        if (!ds_json_keys_add(&open->keys, r->arena, open->node, node)) {
            return NULL;
        }
    }
    return node;
}

static int add_plain(ds_json_reader *const r, const ds_json_kind kind)
{
    const bool done = add_value(r, kind, token_start(r));
    token_done(r);
    return done ? 1 : ds_json_no_memory(r);
}

static int on_null(void *const ctx)
{
    return add_plain(ctx, DS_JSON_NULL);
}

static int on_boolean(void *const ctx, const int value)
{
    return add_plain(ctx, value ? DS_JSON_TRUE : DS_JSON_FALSE);
}

/* Only an exponent or hundreds of digits can take a number past the largest double. */
static bool may_overflow(const ds_str number)
{
    bool has_exponent = number.len > 300;
    for (size_t i = 0; i < number.len && !has_exponent; i++) {
        has_exponent = number.at[i] == 'e' || number.at[i] == 'E';
    }
    return has_exponent;
}

static int on_number(void *const ctx, const char *const text, const size_t len)
{
    (void)text; /* may be a copy that goes away; the source has the same bytes */
    ds_json_reader *const r = ctx;
    const size_t end = r->finishing ? r->end : r->start + yajl_get_bytes_consumed(r->yajl);
    const ds_str number = {r->source.at + end - len, len};
    double value;
    if (may_overflow(number) && !ds_number_read(number, &value)) {
        return ds_json_refuse(r, DS_P_JSON_NUMBER, end - len, excerpt(number));
    }
    ds_json *const node = add_value(r, DS_JSON_NUMBER, end - len);
    if (!node) {
        return ds_json_no_memory(r);
    }
    node->text = number.at;
    node->text_len = (uint32_t)len;
    r->at = end;
    return 1;
}

static int on_string(void *const ctx, const unsigned char *const text, const size_t len)
{
    ds_json_reader *const r = ctx;
    const size_t start = token_start(r);
    const ds_str kept = keep(r, text, len, start);
    ds_json *const node = kept.at ? add_value(r, DS_JSON_STRING, start) : NULL;
    if (!node) {
        return ds_json_no_memory(r);
    }
    node->text = kept.at;
    node->text_len = (uint32_t)len;
    token_done(r);
    return 1;
}

static int on_key(void *const ctx, const unsigned char *const text, const size_t len)
{
    ds_json_reader *const r = ctx;
    const size_t start = token_start(r);
    r->key = keep(r, text, len, start);
    if (!r->key.at) {
        return ds_json_no_memory(r);
    }
    r->has_key = true;
    token_done(r);
    if (ds_json_keys_has(&r->level->keys, r->level->node, r->key)) {
        return ds_json_refuse(r, DS_P_JSON_DUPLICATE_KEY, start, excerpt(r->key));
    }
    if (r->level->node->count >= r->limits->keys) {
        return ds_json_refuse_over(r, DS_P_JSON_TOO_MANY_KEYS, start, r->limits->keys);
    }
    return 1;
}

static ds_json_level *inner_level(ds_json_reader *const r)
{
    if (!r->level->inner) {
        ds_json_level *const inner = ds_arena_take(r->arena, sizeof *inner);
        if (!inner) {
            return NULL;
        }
        inner->outer = r->level;
        r->level->inner = inner;
    }
    return r->level->inner;
}

static int open_container(ds_json_reader *const r, const ds_json_kind kind)
{
    const size_t start = token_start(r);
    if (r->depth >= r->limits->depth) {
        return ds_json_refuse_over(r, DS_P_JSON_TOO_DEEP, start, r->limits->depth);
    }
    ds_json_level *const inner = inner_level(r);
    ds_json *const node = inner ? add_value(r, kind, start) : NULL;
    if (!node) {
        return ds_json_no_memory(r);
    }
    inner->node = node;
    inner->last = NULL;
    ds_json_keys_reset(&inner->keys);
    r->level = inner;
    r->depth++;
    token_done(r);
    return 1;
}

static int on_open_object(void *const ctx)
{
    return open_container(ctx, DS_JSON_OBJECT);
}

static int on_open_array(void *const ctx)
{
    return open_container(ctx, DS_JSON_ARRAY);
}

static int on_close(void *const ctx)
{
    ds_json_reader *const r = ctx;
    r->level = r->level->outer;
    r->depth--;
    token_done(r);
    return 1;
}

const yajl_callbacks DS_JSON_EVENTS = {
    .yajl_null = on_null,
    .yajl_boolean = on_boolean,
    .yajl_number = on_number,
    .yajl_string = on_string,
    .yajl_start_map = on_open_object,
    .yajl_map_key = on_key,
    .yajl_end_map = on_close,
    .yajl_start_array = on_open_array,
    .yajl_end_array = on_close,
};
