/* SPDX-License-Identifier: MIT */
/*
 * Replays kept inputs through a fuzz target, so that what a fuzzer once found stays found, on every test run and with
 * any compiler. Links with one target in place of libFuzzer:
 *
 *     build/asan/fuzz/json fuzz/corpus/json …
 *
 * Every file of every folder given is one input, subfolders are not entered. The count is of inputs that came back: a
 * target that fails aborts, which leaves the name of the input as the last line.
 */
#define _POSIX_C_SOURCE 200809L

#include <dirent.h>
#include <errno.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void die(const char *const path)
{
    fprintf(stderr, "replay: %s: %s\n", path, strerror(errno));
    exit(2);
}

static char *path_of(const char *const folder, const char *const name)
{
    const size_t len = strlen(folder) + strlen(name) + 2;
    char *const path = malloc(len);
    if (path == NULL) {
        die(folder);
    }
    snprintf(path, len, "%s/%s", folder, name);
    return path;
}

/* Exactly as long as the input, so that a read beyond its end is seen by the address checks. */
static uint8_t *read_all(const char *const path, const size_t size)
{
    FILE *const file = fopen(path, "rb");
    uint8_t *const data = malloc(size > 0 ? size : 1);
    if (file == NULL || data == NULL || fread(data, 1, size, file) != size) {
        die(path);
    }
    fclose(file);
    return data;
}

/* Whether there was a file to run. */
static bool replay(const char *const folder, const char *const name)
{
    char *const path = path_of(folder, name);
    struct stat status;
    if (stat(path, &status) != 0) {
        die(path);
    }
    const bool is_file = S_ISREG(status.st_mode);
    if (is_file) {
        const size_t size = (size_t)status.st_size;
        uint8_t *const data = read_all(path, size);
        printf("%s\n", path);
        fflush(stdout);
        LLVMFuzzerTestOneInput(data, size);
        free(data);
    }
    free(path);
    return is_file;
}

static unsigned replay_folder(const char *const folder)
{
    DIR *const dir = opendir(folder);
    if (dir == NULL) {
        die(folder);
    }
    unsigned count = 0;
    for (const struct dirent *entry = readdir(dir); entry != NULL; entry = readdir(dir)) {
        count += replay(folder, entry->d_name);
    }
    closedir(dir);
    return count;
}

int main(const int argc, char **const argv)
{
    unsigned count = 0;
    for (int i = 1; i < argc; i++) {
        count += replay_folder(argv[i]);
    }
    if (count == 0) {
        fprintf(stderr, "replay: no inputs\n");
        return 2;
    }
    printf("%u passed, 0 failed\n", count);
    return 0;
}
