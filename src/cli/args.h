/* SPDX-License-Identifier: MIT */
/*
 * Commands and their options as data: one ds_command a command. Help, the reading of the command line, suggestions for
 * misspelt words, the manual's check and shell completion all go by the same tables.
 */
#ifndef DS_CLI_ARGS_H
#define DS_CLI_ARGS_H

#include "cli/host.h"

typedef struct ds_option {
    const char *name;  /* without dashes */
    char letter;       /* 0: no short form */
    const char *value; /* what follows it, for the help; NULL: nothing does */
    const char *help;
} ds_option;

typedef struct ds_args ds_args;

typedef struct ds_command {
    const char *name;
    const char *usage;        /* after the name */
    const char *summary;      /* one line */
    const char *help;         /* paragraphs, each ended by \n */
    const ds_option *options; /* ended by name NULL; the common ones come besides */
    int (*run)(ds_host *host, const ds_args *args);
} ds_command;

enum { DS_ARGS_GIVEN = 64 };

typedef struct ds_given {
    const ds_option *option;
    ds_str value;
} ds_given;

struct ds_args {
    const ds_command *command;
    ds_given given[DS_ARGS_GIVEN]; /* options in the order given */
    int given_len;
    char *const *words; /* the other arguments, borrowed */
    int words_len;
};

/* The commands, ended by name NULL. */
extern const ds_command *const DS_COMMANDS[];

/* Options that every command takes, ended by name NULL. */
extern const ds_option DS_COMMON_OPTIONS[];

/* Reads what follows the command's name; argv is reordered so that the words stand together. False: said why. */
bool ds_args_read(ds_args *out, ds_host *host, const ds_command *command, int argc, char **argv);

bool ds_args_has(const ds_args *args, const char *name);

/* The last value of an option; at NULL when it is not given. */
ds_str ds_args_value(const ds_args *args, const char *name);

ds_str ds_args_word(const ds_args *args, int index);

/* "dripstone: …" with the nearest of a list, if one is near, and where to look. Returns 2. */
int ds_fail_unknown(ds_host *host, const char *what, ds_str word, const ds_str *known, size_t known_len,
                    const char *see);

/* Says that a command is misused, with its usage. Returns 2. */
int ds_fail_usage(ds_host *host, const ds_command *command, const char *why);

/* Help of one command, and of all. */
int ds_help_command(ds_host *host, const ds_args *args, const ds_command *command);
int ds_help_all(ds_host *host, const ds_args *args);

#endif
