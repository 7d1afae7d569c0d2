// SPDX-License-Identifier: MIT
//
// A check that can't fail is worth nothing: each is tried on a small tree with faults planted in it, and must find
// every one of them where it is, and nothing else. Also tries how ./test counts.

import { spawnSync } from 'node:child_process'
import { mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { count } from '../../tools/count.mjs'
import { report, root } from './lib.mjs'

const here = dirname(fileURLToPath(import.meta.url))
const licence = '/* SPDX-License-Identifier: MIT */\n'
const lines = (number, line) => `${line}\n`.repeat(number)
const longFunction = (number) => `int f(void)\n{\n${lines(number - 3, '    step();')}}\n`

// Per check: the files of a tree, and the places that it must name, in its order.
const trees = {
    layers: {
        files: {
            'src/core/base/a.c': `${licence}#include <stdio.h>\n#include "core/json/json.h"\n#include "b.h"\n// #include <time.h>\n#include <string.h>\n`,
            'src/core/json/b.c': `${licence}#include <yajl/yajl_parse.h>\n#include "core/base/str.h"\nconst char *s = "SELECT a FROM b";\n`,
            'src/core/job/c.c': `${licence}#include <yajl/yajl_parse.h>\n#include "cli/d.h"\n`,
            'src/core/other/e.c': licence,
            'src/cli/d.c': `${licence}#include "other/store.h"\n#include "core/assess/assess.h"\n#include "cli/d.h"\n`,
            'src/store/f.c': `${licence}const char *s = "DELETE FROM b";\n`
        },
        places: ['src/core/other/e.c:1', 'src/cli/d.c:2', 'src/core/base/a.c:2', 'src/core/base/a.c:3', 'src/core/base/a.c:4',
            'src/core/job/c.c:2', 'src/core/job/c.c:3', 'src/core/json/b.c:4']
    },
    lengths: {
        files: {
            'src/core/base/long.c': licence + longFunction(61),
            'src/core/base/middle.c': licence + longFunction(60),
            'src/core/base/file.c': licence + lines(450, 'int x;'),
            'src/core/base/short.c': licence + lines(20, 'int g(void)\n{\n    return 0;\n}')
        },
        places: ['src/core/base/file.c:451', 'src/core/base/long.c:2']
    },
    listed: {
        files: {
            'cmake/sources.cmake': '# SPDX-License-Identifier: MIT\nset(A src/core/base/a.c\n    src/core/base/gone.c src/core/base/a.c)\nfile(GLOB B src/*.c)\n',
            'src/core/base/a.c': licence,
            'src/core/base/b.c': licence,
            'src/core/base/c.h': 'int x;\n',
            'tests/x.mjs': 'x()\n'
        },
        places: ['cmake/sources.cmake:3', 'cmake/sources.cmake:4', 'src/core/base/b.c:1', 'cmake/sources.cmake:3',
            'src/core/base/c.h:1', 'tests/x.mjs:1']
    },
    rules: {
        files: {
            'rules/one.json': '{ "dripstone_pack": 1, "id": "one", "rules": [\n{ "id": "a" },\n{ "id": "b" },\n{ "id": "c" } ] }',
            'rules/two.json': '{ "dripstone_pack": 1, "id": "two", "rules": [] }',
            'tests/rules/one.json': '[ { "rule": "a", "applies": [{}], "not": [{}] },\n{ "rule": "b", "applies": [{}], "not": [] },\n{ "rule": "x" } ]'
        },
        places: ['rules/one.json:3', 'rules/one.json:4', 'rules/one.json:4', 'tests/rules/one.json:3', 'rules/two.json:1']
    },
    words: {
        files: {
            'a.txt': ['fine: homework/x, network/y', ['/ho', 'me/somebody/x'].join(''), ['TRANSC', 'RIPT'].join('')].join('\n')
        },
        places: ['a.txt:2', 'a.txt:3']
    }
}

const groupStart = '[==========] Running 2 test(s).\n[       OK ] a\n'
const counts = [
    ['cmocka', `${groupStart}text[       OK ] b\n`, 0, [2, 0]],
    ['cmocka', `${groupStart}[  FAILED  ] b\n`, 1, [1, 1]],
    ['cmocka', `${groupStart}[  SKIPPED ] b\n`, 0, [1, 1]],
    ['cmocka', groupStart, -1, [1, 1]],
    ['cmocka', `${groupStart}[       OK ] b\n`, -1, [2, 1]],
    ['cmocka', '', 0, [0, 1]],
    ['lines', 'x\n3 passed, 0 failed\n', 0, [3, 0]],
    ['lines', '3 passed, 2 failed\n', 1, [3, 2]],
    ['lines', '3 passed, 0 failed\n', 1, [3, 1]],
    ['lines', '0 passed, 0 failed\n', 0, [0, 1]],
    ['lines', 'ended early\n', 0, [0, 1]],
    ['build', '', 0, [0, 0]],
    ['build', '', 1, [0, 1]]
]

const findings = []
const differ = (a, b) => JSON.stringify(a) !== JSON.stringify(b)

function plant(folder, files) {
    rmSync(folder, { recursive: true, force: true })
    for (const [path, text] of Object.entries(files)) {
        mkdirSync(dirname(join(folder, path)), { recursive: true })
        writeFileSync(join(folder, path), text)
    }
}

function tryCheck(name, { files, places }) {
    const folder = join(root, 'build/planted', name)
    plant(folder, files)
    const run = spawnSync('node', [join(here, `${name}.mjs`)], { env: { ...process.env, DS_CHECK_ROOT: folder }, encoding: 'utf8' })
    const found = [...run.stdout.matchAll(/^(\S+:\d+): /gm)].map((match) => match[1])
    if (differ(found, places) || run.status !== 1 || !run.stdout.endsWith('0 passed, 1 failed\n')) {
        findings.push(`tests/check/${name}.mjs:1: should find ${places.join(' ')}, found ${found.join(' ')}; ${run.stderr}`)
    }
}

for (const [name, tree] of Object.entries(trees)) tryCheck(name, tree)
for (const [kind, output, exit, [passed, failed]] of counts) {
    const counted = count(kind, output, exit)
    if (differ(counted, { passed, failed })) {
        findings.push(`tools/count.mjs:1: ${kind} ${JSON.stringify(output)} with exit ${exit}: ${JSON.stringify(counted)}`)
    }
}
report(findings, `${Object.keys(trees).length} checks, ${counts.length} ways of counting`)
