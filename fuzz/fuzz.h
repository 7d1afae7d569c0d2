/* SPDX-License-Identifier: MIT */
/* What the fuzz targets share: the entry's declaration, an allocator, and an expectation that stops the run. */
#ifndef DS_FUZZ_FUZZ_H
#define DS_FUZZ_FUZZ_H

#include <stdint.h>
#include <stdlib.h>

#include "core/base/arena.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define FUZZ_EXPECT(holds)                                                                                   \
    do {                                                                                                     \
        if (!(holds)) {                                                                                      \
            abort();                                                                                         \
        }                                                                                                    \
    } while (0)

static inline void *fuzz_resize(void *const ctx, void *const old, const size_t old_size,
                                const size_t new_size)
{
    (void)ctx;
    (void)old_size;
    if (new_size == 0) {
        free(old);
        return NULL;
    }
    return realloc(old, new_size);
}

static inline const ds_alloc *fuzz_alloc(void)
{
    static const ds_alloc ALLOC = {.resize = fuzz_resize};
    return &ALLOC;
}

#endif
