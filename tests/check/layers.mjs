// SPDX-License-Identifier: MIT
//
// Who may include whom. A layer of the core includes only itself and the layers named before it; the core includes
// only system headers without input, output, clock or locale; yajl and SQL stay in the folders that wrap them.

import { bare, cFiles, eachLine, filesUnder, isC, read, report } from './lib.mjs'

const layers = ['base', 'mark', 'json', 'job', 'rules', 'zone', 'box', 'weather', 'goods', 'assess', 'draw', 'teach', 'answer']
const systemHeaders = ['stddef.h', 'stdint.h', 'stdbool.h', 'string.h', 'math.h', 'float.h', 'limits.h']
const sqlFolders = ['src/store/', 'bench/', 'tests/unit/store_']
const statements = [
    'SELECT', 'INSERT (OR \\w+ )?INTO', 'UPDATE \\w+ SET', 'DELETE FROM', 'CREATE (TABLE|INDEX|VIEW|TRIGGER)', 'PRAGMA'
]
const sql = new RegExp(`"\\s*(${statements.join('|').replaceAll(' ', '\\s+')})\\s`, 'i')

const findings = []
const layerOf = (path) => /^(?:src\/)?core\/([^/]+)\//.exec(path)?.[1]

function checkOwnInclude(path, place, header) {
    if (header.startsWith('.') || !header.includes('/')) {
        findings.push(`${place}: "${header}": write the path from src/, such as "core/base/text.h"`)
        return
    }
    const from = layerOf(path)
    if (!from) {
        checkOuterInclude(path, place, header)
    } else if (!header.startsWith('core/')) {
        findings.push(`${place}: the core includes "${header}", which is not of the core`)
    } else if (layers.indexOf(layerOf(header)) < 0) {
        findings.push(`${place}: "${header}" is in no known layer`)
    } else if (layers.indexOf(layerOf(header)) > layers.indexOf(from)) {
        findings.push(`${place}: ${from} includes "${header}", which stands below it`)
    }
}

// Around the core each folder includes the core and itself; commands also what stands around the core before them.
const outer = { cli: ['paper', 'store', 'serve'], serve: ['store'] }

function checkOuterInclude(path, place, header) {
    const folder = /^src\/([^/]+)\//.exec(path)?.[1]
    const free = ['core', folder, ...(outer[folder] ?? [])]
    if (folder && !free.some((each) => header.startsWith(`${each}/`))) {
        findings.push(`${place}: ${folder} includes "${header}", which is neither of the core nor its own`)
    }
}

function checkSystemInclude(path, place, header) {
    const yajl = header.startsWith('yajl/')
    if (yajl && path.startsWith('src/') && layerOf(path) !== 'json') {
        findings.push(`${place}: yajl belongs to src/core/json only`)
    } else if (!yajl && layerOf(path) && !systemHeaders.includes(header)) {
        findings.push(`${place}: the core may not include <${header}>`)
    }
}

function checkIncludes(path) {
    eachLine(bare(read(path)), (line, number) => {
        const include = /^\s*#\s*include\s*(["<])([^">]+)/.exec(line)
        if (!include) return
        if (include[1] === '<') checkSystemInclude(path, `${path}:${number}`, include[2])
        else if (path.startsWith('src/')) checkOwnInclude(path, `${path}:${number}`, include[2])
    })
}

function checkSql(path) {
    if (sqlFolders.some((folder) => path.startsWith(folder))) return
    eachLine(bare(read(path)), (line, number) => {
        if (sql.test(line)) findings.push(`${path}:${number}: SQL belongs to ${sqlFolders.join(' and ')} only`)
    })
}

for (const path of filesUnder('src').filter((file) => file.startsWith('src/core/') && isC(file))) {
    if (!layers.includes(layerOf(path))) findings.push(`${path}:1: not in a folder of a known layer`)
}
for (const path of cFiles()) {
    checkIncludes(path)
    checkSql(path)
}
report(findings)
