/* SPDX-License-Identifier: MIT */
/*
 * The program: finds the command, reads its options, runs it.
 *
 * Each command stands in a file of its own and is one ds_command there; this table is the list of them all.
 */
#include "cli/commands.h"
#include "core/assess/assess.h"

const ds_command *const DS_COMMANDS[] = {&DS_CHECK, &DS_ZONES, &DS_DRAW,    &DS_BOX,   &DS_PAPER,  &DS_LABELS,
                                         &DS_SHEET, &DS_READ,  &DS_COMPARE, &DS_NEW,   &DS_IMPORT, &DS_DIFFER,
                                         &DS_MERGE, &DS_RULES, &DS_SEEN,    &DS_SERVE, &DS_HELP,   NULL};

static const ds_option NONE[] = {{0}};

static const ds_command *find_command(const ds_str name)
{
    for (const ds_command *const *command = DS_COMMANDS; *command; command++) {
        if (ds_str_is(name, (*command)->name)) {
            return *command;
        }
    }
    return NULL;
}

static int fail_command(ds_host *const host, const ds_str name)
{
    ds_str names[32];
    size_t len = 0;
    for (const ds_command *const *command = DS_COMMANDS; *command; command++) {
        names[len++] = ds_str_of((*command)->name);
    }
    return ds_fail_unknown(host, "there is no command", name, names, len, "See: dripstone help");
}

static int run_help(ds_host *const host, const ds_args *const args)
{
    if (args->words_len == 0) {
        return ds_help_all(host, args);
    }
    const ds_command *const command = find_command(ds_args_word(args, 0));
    return command ? ds_help_command(host, args, command) : fail_command(host, ds_args_word(args, 0));
}

const ds_command DS_HELP = {
    .name = "help",
    .usage = "[COMMAND]",
    .summary = "what a command does, and its options",
    .help = "Explains a command, or lists them all. dripstone --version prints the version.\n",
    .options = NONE,
    .run = run_help,
};

static int print_version(ds_host *const host)
{
    ds_text_add(&host->out, "dripstone " DS_PROGRAM_VERSION "\n");
    return DS_EXIT_FINE;
}

static int run(ds_host *const host, const int argc, char **const argv)
{
    const ds_str name = argc > 1 ? ds_str_of(argv[1]) : DS_STR("help");
    ds_args args;
    if (ds_str_is(name, "--version") || ds_str_is(name, "-V")) {
        return print_version(host);
    }
    const bool asks_help = ds_str_is(name, "--help") || ds_str_is(name, "-h");
    const ds_command *const command = asks_help ? &DS_HELP : find_command(name);
    if (!command) {
        return fail_command(host, name);
    }
    if (!ds_args_read(&args, host, command, argc > 2 ? argc - 2 : 0, argv + 2)) {
        return DS_EXIT_UNREADABLE;
    }
    return ds_args_has(&args, "help") ? ds_help_command(host, &args, command) : command->run(host, &args);
}

int main(int argc, char **argv)
{
    ds_host host;
    ds_host_open(&host);
    return ds_host_close(&host, run(&host, argc, argv));
}
