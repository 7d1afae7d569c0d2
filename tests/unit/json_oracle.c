/* SPDX-License-Identifier: MIT */
/*
 * Against jansson, told to refuse keys that come twice and to read all numbers as doubles: over random documents and
 * small damages to them, both take the same ones and find the same values in them.
 */
#include "json_help.h"
#include "json_random.h"

#include <jansson.h>

static json_random r;

static json_t *load(void)
{
    return json_loadb(r.text, r.len, JSON_REJECT_DUPLICATES | JSON_DECODE_ANY | JSON_DECODE_INT_AS_REAL,
                      NULL);
}

static bool same_bytes(const ds_str a, const char *const b, const size_t len)
{
    return a.len == len && memcmp(a.at, b, len) == 0;
}

static bool same_number(const ds_json *const ours, const json_t *const theirs)
{
    double value;
    const double real = json_real_value(theirs);
    return ds_json_number(ours, &value) && memcmp(&value, &real, sizeof value) == 0;
}

static bool same(const ds_json *ours, const json_t *theirs);

static bool same_members(const ds_json *const ours, const json_t *const theirs)
{
    bool all = ours->count == json_object_size(theirs);
    for (const ds_json *at = ours->first; all && at; at = at->next) {
        all = same(at, json_object_getn(theirs, at->key, at->key_len));
    }
    return all;
}

static bool same_elements(const ds_json *const ours, const json_t *const theirs)
{
    bool all = ours->count == json_array_size(theirs);
    size_t i = 0;
    for (const ds_json *at = ours->first; all && at; at = at->next) {
        all = same(at, json_array_get(theirs, i++));
    }
    return all;
}

static bool same(const ds_json *const ours, const json_t *const theirs)
{
    switch (theirs ? (int)json_typeof(theirs) : -1) {
    case JSON_NULL:
        return ours->kind == DS_JSON_NULL;
    case JSON_TRUE:
        return ours->kind == DS_JSON_TRUE;
    case JSON_FALSE:
        return ours->kind == DS_JSON_FALSE;
    case JSON_REAL:
        return same_number(ours, theirs);
    case JSON_STRING:
        return ours->kind == DS_JSON_STRING &&
               same_bytes(ds_json_text(ours), json_string_value(theirs), json_string_length(theirs));
    case JSON_ARRAY:
        return ours->kind == DS_JSON_ARRAY && same_elements(ours, theirs);
    case JSON_OBJECT:
        return ours->kind == DS_JSON_OBJECT && same_members(ours, theirs);
    default:
        return false;
    }
}

/* True when both took it. */
static bool compare(void)
{
    json_t *const theirs = load();
    json_doc doc;
    json_doc_read(&doc, (ds_str){r.text, r.len}, &DS_JSON_LIMITS);
    if ((doc.status == DS_OK) != (theirs != NULL)) {
        fail_msg("ours %d (problem %d), theirs %s:\n%.*s", (int)doc.status, (int)doc.problem.code,
                 theirs ? "taken" : "refused", (int)r.len, r.text);
    }
    if (theirs && !same(doc.tree, theirs)) {
        fail_msg("not the same values:\n%.*s", (int)r.len, r.text);
    }
    const bool taken = theirs;
    json_decref(theirs);
    json_doc_free(&doc);
    return taken;
}

static void sound_documents(void **const state)
{
    (void)state;
    r.seed = 0xA0761D6478BD642FU;
    r.keys_twice = false;
    unsigned taken = 0;
    for (int i = 0; i < 10000; i++) {
        json_random_document(&r);
        taken += compare();
    }
    assert_in_range(taken, 8500, 10000); /* the others have a number that is too large */
}

static void keys_that_come_twice(void **const state)
{
    (void)state;
    r.seed = 0xE7037ED1A0B428DBU;
    r.keys_twice = true;
    unsigned taken = 0;
    for (int i = 0; i < 10000; i++) {
        json_random_document(&r);
        taken += compare();
    }
    assert_in_range(taken, 5000, 9800);
}

static void damaged_documents(void **const state)
{
    (void)state;
    r.seed = 0x8EBC6AF09C88C6E3U;
    r.keys_twice = false;
    unsigned taken = 0;
    for (int i = 0; i < 60000; i++) {
        json_random_document(&r);
        json_random_damage(&r);
        taken += compare();
    }
    assert_in_range(taken, 5000, 50000); /* damage may be harmless: a space, a digit more */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sound_documents),
        cmocka_unit_test(keys_that_come_twice),
        cmocka_unit_test(damaged_documents),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
