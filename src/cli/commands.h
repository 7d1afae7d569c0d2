/* SPDX-License-Identifier: MIT */
/* The commands, one file each; main.c lists them. */
#ifndef DS_CLI_COMMANDS_H
#define DS_CLI_COMMANDS_H

#include "cli/args.h"

extern const ds_command DS_CHECK;
extern const ds_command DS_READ;
extern const ds_command DS_COMPARE;
extern const ds_command DS_ZONES;
extern const ds_command DS_DRAW;
extern const ds_command DS_BOX;
extern const ds_command DS_PAPER;
extern const ds_command DS_LABELS;
extern const ds_command DS_SHEET;
extern const ds_command DS_NEW;
extern const ds_command DS_IMPORT;
extern const ds_command DS_MERGE;
extern const ds_command DS_DIFFER;
extern const ds_command DS_RULES;
extern const ds_command DS_SEEN;
extern const ds_command DS_SERVE;
extern const ds_command DS_HELP;

#endif
