/* SPDX-License-Identifier: MIT */
/* A merge written out: the document, and beside it what could not be merged, in pointers, words and values. */
#include "core/job/merge.h"

/* --- the document ---------------------------------------------------------------------------------------------------- */

static void put_start(ds_json_writer *const w, const ds_merged *const value)
{
    if (value->parent && value->parent->pairing == DS_PAIR_KEYS) {
        ds_json_put_key_str(w, value->name);
    }
    if (value->whole) {
        ds_json_put_tree(w, value->whole);
    } else if (value->pairing == DS_PAIR_KEYS) {
        ds_json_begin_object(w);
    } else {
        ds_json_begin_array(w);
    }
}

static void put_end(ds_json_writer *const w, const ds_merged *const value)
{
    if (value->pairing == DS_PAIR_KEYS) {
        ds_json_end_object(w);
    } else if (value->pairing != DS_PAIR_NONE) {
        ds_json_end_array(w);
    }
}

/* Without recursion, as ds_json_put_tree. */
static void put_document(ds_json_writer *const w, const ds_merged *const root)
{
    const ds_merged *at = root;
    while (at) {
        const bool stands = ds_merged_stands(at);
        if (stands) {
            put_start(w, at);
        }
        if (at->first) {
            at = at->first;
            continue;
        }
        put_end(w, at);
        while (at && !at->next) {
            at = at->parent;
            if (at) {
                put_end(w, at);
            }
        }
        at = at ? at->next : NULL;
    }
}

void ds_merge_document(ds_text *const out, const ds_merge *const merge)
{
    ds_json_writer w = ds_json_writer_on(out);
    put_document(&w, merge->root);
    ds_text_char(out, '\n');
}

/* --- conflicts ------------------------------------------------------------------------------------------------------- */

static void put_token(ds_text *const out, const ds_str key)
{
    for (size_t i = 0; i < key.len; i++) {
        const char c = key.at[i];
        if (c == '~' || c == '/') {
            ds_text_add(out, c == '~' ? "~0" : "~1");
        } else {
            ds_text_char(out, c);
        }
    }
}

static void say_pointer(ds_text *const out, const ds_merged *const value)
{
    for (size_t up = ds_merged_depth(value); up > 0; up--) {
        const ds_merged *const at = ds_merged_above(value, up - 1);
        ds_text_char(out, '/');
        if (at->parent->pairing == DS_PAIR_KEYS) {
            put_token(out, at->name);
        } else {
            ds_text_int(out, at->index);
        }
    }
}

static void put_value(ds_json_writer *const w, const char *const key, const ds_json *const value)
{
    if (value) {
        ds_json_put_key(w, key);
        ds_json_put_tree(w, value);
    }
}

static void put_said(ds_json_writer *const w, const char *const key, const ds_merged *const value,
                     void (*const say)(ds_text *, const ds_merged *))
{
    ds_text text;
    ds_text_init(&text, w->text->alloc);
    say(&text, value);
    ds_json_put_key(w, key);
    ds_json_put_str(w, ds_text_str(&text));
    w->text->failed = w->text->failed || !ds_text_ok(&text);
    ds_text_free(&text);
}

static void put_conflict(ds_json_writer *const w, const ds_merged *const conflict)
{
    ds_json_begin_object(w);
    put_said(w, "pointer", conflict, say_pointer);
    put_said(w, "about", conflict, ds_merge_say);
    put_value(w, "base", conflict->base);
    put_value(w, "mine", conflict->mine);
    put_value(w, "theirs", conflict->theirs);
    ds_json_end_object(w);
}

void ds_merge_json(ds_text *const out, const ds_merge *const merge)
{
    ds_json_writer w = ds_json_writer_on(out);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "merged");
    put_document(&w, merge->root);
    ds_json_put_key(&w, "conflicts");
    ds_json_begin_array(&w);
    for (const ds_merged *at = merge->conflicts; at; at = at->next_conflict) {
        put_conflict(&w, at);
    }
    ds_json_end_array(&w);
    ds_json_end_object(&w);
    ds_text_char(out, '\n');
}
