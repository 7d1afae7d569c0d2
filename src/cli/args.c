/* SPDX-License-Identifier: MIT */
/*
 * Reading a command line by a command's table. Options may stand anywhere, "--name value" or "--name=value"; "--" ends
 * them. A misspelt one is answered with the nearest.
 */
#include "cli/args.h"

#include "cli/page.h"

enum { KNOWN_MOST = 64 };

const ds_option DS_COMMON_OPTIONS[] = {
    {"ascii", 0, NULL, "plain ASCII only, other letters as \\uXXXX"},
    {"colour", 0, "WHEN", "auto (on a terminal), always or never"},
    {"help", 'h', NULL, "this help"},
    {0},
};

/* --- looking up --------------------------------------------------------------------------------------------------- */

static const ds_option *find_in(const ds_option *options, const ds_str name, const char letter)
{
    for (; options->name; options++) {
        if (letter ? options->letter == letter : ds_str_is(name, options->name)) {
            return options;
        }
    }
    return NULL;
}

static const ds_option *find_option(const ds_command *const command, const ds_str name, const char letter)
{
    const ds_option *const own = find_in(command->options, name, letter);
    return own ? own : find_in(DS_COMMON_OPTIONS, name, letter);
}

static size_t add_names(ds_str *const names, size_t len, const ds_option *options)
{
    for (; options->name && len < KNOWN_MOST; options++) {
        names[len++] = ds_str_of(options->name);
    }
    return len;
}

bool ds_args_has(const ds_args *const args, const char *const name)
{
    for (int i = 0; i < args->given_len; i++) {
        if (strcmp(args->given[i].option->name, name) == 0) {
            return true;
        }
    }
    return false;
}

ds_str ds_args_value(const ds_args *const args, const char *const name)
{
    ds_str value = {0};
    for (int i = 0; i < args->given_len; i++) {
        if (strcmp(args->given[i].option->name, name) == 0) {
            value = args->given[i].value;
        }
    }
    return value;
}

ds_str ds_args_word(const ds_args *const args, const int index)
{
    return index < args->words_len ? ds_str_of(args->words[index]) : (ds_str){0};
}

/* --- messages ----------------------------------------------------------------------------------------------------- */

static void say_nearest(ds_host *const host, const ds_str word, const ds_str *const known,
                        const size_t known_len, const char *const dashes)
{
    const size_t nearest = ds_str_nearest(word, known, known_len);
    ds_text_add(&host->err, "  ");
    if (nearest < known_len) {
        ds_text_add(&host->err, "Did you mean '");
        ds_text_add(&host->err, dashes);
        ds_clean(&host->err, known[nearest], host->ascii);
        ds_text_add(&host->err, "'? ");
    }
}

int ds_fail_unknown(ds_host *const host, const char *const what, const ds_str word, const ds_str *const known,
                    const size_t known_len, const char *const see)
{
    ds_host_fail(host, what, word, ".");
    say_nearest(host, word, known, known_len, "");
    ds_text_add(&host->err, see);
    ds_text_char(&host->err, '\n');
    return DS_EXIT_UNREADABLE;
}

int ds_fail_usage(ds_host *const host, const ds_command *const command, const char *const why)
{
    ds_text *const err = &host->err;
    ds_text_add(err, "dripstone: ");
    ds_text_add(err, why);
    ds_text_add(err, "\n  Usage: dripstone ");
    ds_text_add(err, command->name);
    ds_text_char(err, ' ');
    ds_text_add(err, command->usage);
    ds_text_add(err, "\n  More: dripstone ");
    ds_text_add(err, command->name);
    ds_text_add(err, " --help\n");
    return DS_EXIT_UNREADABLE;
}

static void fail_option(ds_host *const host, const ds_command *const command, const ds_str written)
{
    ds_str names[KNOWN_MOST];
    const size_t len = add_names(names, add_names(names, 0, command->options), DS_COMMON_OPTIONS);
    ds_host_fail(host, "there is no option", written, ".");
    say_nearest(host, ds_str_from(written, written.at[1] == '-' ? 2 : 1), names, len, "--");
    ds_text_add(&host->err, "See: dripstone ");
    ds_text_add(&host->err, command->name);
    ds_text_add(&host->err, " --help\n");
}

/* --- reading ------------------------------------------------------------------------------------------------------ */

typedef struct reader {
    ds_args *out;
    ds_host *host;
    int argc;
    char **argv;
    int at; /* next argument */
} reader;

static bool keep(reader *const r, const ds_option *const option, const ds_str value)
{
    if (r->out->given_len == DS_ARGS_GIVEN) {
        ds_fail_usage(r->host, r->out->command, "there are more than 64 options.");
        return false;
    }
    r->out->given[r->out->given_len++] = (ds_given){option, value};
    return true;
}

static bool fail_about(reader *const r, const ds_str written, const char *const why)
{
    ds_host_fail(r->host, "the option", written, why);
    return false;
}

/* written: as typed, with dashes; attached: after '=', at NULL without. */
static bool take_option(reader *const r, const ds_option *const option, const ds_str written,
                        const ds_str attached)
{
    if (!option->value) {
        return attached.at ? fail_about(r, written, " takes no value.") : keep(r, option, (ds_str){0});
    }
    if (attached.at) {
        return keep(r, option, attached);
    }
    if (r->at == r->argc) {
        return fail_about(r, written, " needs a value after it.");
    }
    return keep(r, option, ds_str_of(r->argv[r->at++]));
}

static bool take_long(reader *const r, const ds_str text)
{
    const char *const equals = memchr(text.at, '=', text.len);
    const size_t name_len = equals ? (size_t)(equals - text.at) : text.len;
    const ds_str name = {text.at + 2, name_len - 2};
    const ds_option *const option = find_option(r->out->command, name, 0);
    if (!option) {
        fail_option(r->host, r->out->command, (ds_str){text.at, name_len});
        return false;
    }
    return take_option(r, option, (ds_str){text.at, name_len},
                       equals ? ds_str_from(text, name_len + 1) : (ds_str){0});
}

static bool take_short(reader *const r, const ds_str text)
{
    const ds_option *const option =
        text.len == 2 ? find_option(r->out->command, (ds_str){0}, text.at[1]) : NULL;
    if (!option) {
        fail_option(r->host, r->out->command, text);
        return false;
    }
    return take_option(r, option, text, (ds_str){0});
}

static bool check_colour(reader *const r)
{
    static const ds_str WHEN[] = {{"auto", 4}, {"always", 6}, {"never", 5}};
    const ds_str asked = ds_args_value(r->out, "colour");
    for (size_t i = 0; i < 3 && asked.at; i++) {
        if (ds_str_eq(asked, WHEN[i])) {
            return true;
        }
    }
    if (asked.at) {
        ds_fail_unknown(r->host, "--colour cannot be", asked, WHEN, 3, "It is auto, always or never.");
    }
    return !asked.at;
}

bool ds_args_read(ds_args *const out, ds_host *const host, const ds_command *const command, const int argc,
                  char **const argv)
{
    *out = (ds_args){.command = command, .words = argv};
    reader r = {.out = out, .host = host, .argc = argc, .argv = argv};
    bool options_end = false;
    while (r.at < argc) {
        char *const written = argv[r.at++];
        const ds_str text = ds_str_of(written);
        if (options_end || text.len < 2 || text.at[0] != '-') {
            argv[out->words_len++] = written;
        } else if (ds_str_is(text, "--")) {
            options_end = true;
        } else if (!(text.at[1] == '-' ? take_long(&r, text) : take_short(&r, text))) {
            return false;
        }
    }
    return check_colour(&r);
}
