// SPDX-License-Identifier: MIT
//
// Tests of a runner, one after the other: `await test(name, run)` prints a line each, a run fails by throwing, and
// finish() prints the total. What cannot be tried on this machine is said by skip() and counts as neither.

const counts = { passed: 0, failed: 0 }
const wanted = process.argv.slice(2).filter((word) => !word.startsWith('--'))

export async function test(name, run) {
    if (wanted.length && !wanted.some((word) => name.includes(word))) return
    try {
        await run()
        counts.passed++
        console.log(`ok ${name}`)
    } catch (error) {
        counts.failed++
        console.log(`not ok ${name}\n  ${String(error.stack ?? error).replaceAll('\n', '\n  ')}`)
    }
}

export const skip = (name, why) => console.log(`skipped ${name}: ${why}`)

export function finish() {
    console.log(`${counts.passed} passed, ${counts.failed} failed`)
    process.exitCode = counts.failed ? 1 : 0
}
