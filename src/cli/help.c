/* SPDX-License-Identifier: MIT */
/* Help, set from the tables of commands and options. */
#include "cli/page.h"

enum { NAME_COLUMNS = 20 };

static void put_option(ds_page *const page, const ds_option *const option)
{
    ds_text text;
    ds_text_init(&text, page->host->alloc);
    if (option->letter) {
        ds_text_char(&text, '-');
        ds_text_char(&text, option->letter);
        ds_text_add(&text, ", ");
    }
    ds_text_add(&text, "--");
    ds_text_add(&text, option->name);
    if (option->value) {
        ds_text_char(&text, ' ');
        ds_text_add(&text, option->value);
    }
    ds_page_cell(page, DS_STRONG, ds_text_str(&text), NAME_COLUMNS);
    ds_page_add(page, DS_PLAIN, " ");
    ds_page_add(page, DS_PLAIN, option->help);
    ds_page_break(page, 2, NAME_COLUMNS + 3);
    page->line.failed = page->line.failed || !ds_text_ok(&text);
    ds_text_free(&text);
}

static void put_options(ds_page *const page, const ds_option *options)
{
    for (; options->name; options++) {
        put_option(page, options);
    }
}

/* Each line of the text is a paragraph; one that begins with two blanks is an example and is not wrapped. */
static void put_paragraphs(ds_page *const page, const char *text)
{
    while (*text) {
        const char *const end = strchr(text, '\n');
        const size_t len = end ? (size_t)(end - text) : strlen(text);
        const bool example = len > 1 && text[0] == ' ';
        ds_page_adds(page, DS_PLAIN, (ds_str){text, len});
        if (example) {
            ds_page_row(page, 0);
        } else {
            ds_page_break(page, 0, 0);
        }
        text += len + (end != NULL);
    }
}

int ds_help_command(ds_host *const host, const ds_args *const args, const ds_command *const command)
{
    ds_page page;
    ds_page_open(&page, host, args);
    ds_page_add(&page, DS_STRONG, "dripstone ");
    ds_page_add(&page, DS_STRONG, command->name);
    ds_page_add(&page, DS_PLAIN, " ");
    ds_page_add(&page, DS_PLAIN, command->usage);
    ds_page_break(&page, 0, 4);
    ds_page_gap(&page);
    put_paragraphs(&page, command->help);
    ds_page_gap(&page);
    ds_page_add(&page, DS_STRONG, "Options");
    ds_page_break(&page, 0, 0);
    put_options(&page, command->options);
    put_options(&page, DS_COMMON_OPTIONS);
    ds_page_close(&page);
    return DS_EXIT_FINE;
}

int ds_help_all(ds_host *const host, const ds_args *const args)
{
    ds_page page;
    ds_page_open(&page, host, args);
    ds_page_add(&page, DS_STRONG, "dripstone COMMAND");
    ds_page_add(&page, DS_PLAIN, " …");
    ds_page_break(&page, 0, 0);
    ds_page_gap(&page);
    put_paragraphs(
        &page,
        "Works out what each electrical point of a job must keep out, checks what is offered against it, and "
        "says why.\n");
    ds_page_gap(&page);
    for (const ds_command *const *command = DS_COMMANDS; *command; command++) {
        ds_page_cell(&page, DS_STRONG, ds_str_of((*command)->name), 8);
        ds_page_add(&page, DS_PLAIN, " ");
        ds_page_add(&page, DS_PLAIN, (*command)->summary);
        ds_page_break(&page, 2, 11);
    }
    ds_page_gap(&page);
    put_paragraphs(
        &page,
        "Start with\n"
        "  dripstone new \"Mill house\" -o mill.json\n"
        "  dripstone check mill.json\n"
        "Each command explains itself: dripstone COMMAND --help. All of it on one page: man dripstone.\n");
    ds_page_close(&page);
    return DS_EXIT_FINE;
}
