// SPDX-License-Identifier: MIT
//
// How many tests passed and failed, read from a step's output. Doubt counts as a failure: a program that ended early,
// printed no total, or ran no test, has failed.

const sum = (matches) => matches.reduce((total, match) => total + Number(match[1]), 0)

// A program may run several groups; a group that crashed announced its tests but not their results.
function cmocka(output, exit) {
    const announced = sum([...output.matchAll(/^\[=+\] Running (\d+) test\(s\)/gm)])
    const passed = [...output.matchAll(/\[       OK \] /g)].length
    const failed = Math.max(announced - passed, exit === 0 && announced > 0 ? 0 : 1)
    return { passed, failed }
}

// The last line "N passed, N failed", which must agree with the exit status.
function lines(output, exit) {
    const last = [...output.matchAll(/^(\d+) passed, (\d+) failed$/gm)].at(-1)
    if (!last) return { passed: 0, failed: 1 }
    const [passed, failed] = [Number(last[1]), Number(last[2])]
    const doubtful = failed === 0 && (exit !== 0 || passed === 0)
    return { passed, failed: doubtful ? 1 : failed }
}

// A build is no test: it adds nothing when it works.
const build = (output, exit) => ({ passed: 0, failed: exit === 0 ? 0 : 1 })

const readers = { cmocka, lines, build }

export const count = (kind, output, exit) => readers[kind](output, exit)
