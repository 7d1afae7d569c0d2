// SPDX-License-Identifier: MIT
//
// Runs the steps of ./test, as many at a time as there are processors, and prints one line for each as it ends. Called
// by ./test, which has installed what is needed; options as there.

import { spawn } from 'node:child_process'
import { createWriteStream, mkdirSync, readFileSync, rmSync } from 'node:fs'
import { cpus } from 'node:os'
import { join } from 'node:path'
import { count } from './count.mjs'
import { allSteps } from './steps.mjs'

const logs = 'build/test-logs'
const stepLimitMs = 30 * 60 * 1000
const signOfLifeMs = 15 * 1000
const mostShown = 400

function options(words) {
    const chosen = { quick: false, list: false, only: [] }
    for (let i = 0; i < words.length; i++) {
        if (words[i] === '--only') chosen.only.push(words[++i])
        else chosen[words[i].slice(2)] = true
    }
    return chosen
}

// The steps asked for, and what they need, in the order of the list.
function selected(steps, only) {
    if (only.length === 0) return steps
    const wanted = new Set(steps.filter(({ name }) => only.some((part) => name.includes(part))))
    for (const step of wanted) {
        for (const need of step.needs) wanted.add(steps.find(({ name }) => name === need))
    }
    return steps.filter((step) => wanted.has(step))
}

const logOf = (step) => join(logs, `${step.name.replace(/[^\w.-]+/g, '-')}.log`)

// Each step is a group of processes of its own, so that all of it goes when it hangs or when ./test is interrupted.
const groups = new Set()

function stopGroup(pid) {
    try {
        process.kill(-pid, 'SIGKILL')
    } catch (error) {
        if (error.code !== 'ESRCH') throw error // it may just have ended
    }
}

for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.on(signal, () => {
        groups.forEach(stopGroup)
        console.log(`stopped by ${signal}`)
        process.exit(1)
    })
}

function runStep(step) {
    return new Promise((resolve) => {
        const log = createWriteStream(logOf(step))
        const [program, ...words] = step.command
        const child = spawn(program, words, { stdio: ['ignore', 'pipe', 'pipe'], detached: true, env: { ...process.env, ...step.env } })
        const timer = setTimeout(() => {
            log.write(`\nstopped: not done within ${stepLimitMs / 60000} minutes\n`)
            stopGroup(child.pid)
        }, stepLimitMs)
        if (child.pid) groups.add(child.pid)
        child.stdout.pipe(log, { end: false })
        child.stderr.pipe(log, { end: false })
        const end = (exit, remark) => {
            clearTimeout(timer)
            groups.delete(child.pid)
            log.end(remark, () => resolve(exit))
        }
        child.on('error', (error) => end(-1, `\n${error.message}\n`))
        child.on('close', (exit, signal) => end(exit ?? -1, signal ? `\nended by ${signal}\n` : ''))
    })
}

function show(step, seconds, { passed, failed }) {
    const total = step.count === 'build' ? '' : `${passed} passed${failed ? `, ${failed} failed` : ''}`
    const status = failed ? 'FAIL' : 'ok  '
    console.log(`${status}  ${step.name.padEnd(36)}  ${total.padEnd(20)}  ${seconds.toFixed(1)} s`.trimEnd())
    if (!failed) return
    const lines = readFileSync(logOf(step), 'utf8').trimEnd().split('\n')
    if (lines.length > mostShown) console.log(`        … the first ${lines.length - mostShown} lines are in ${logOf(step)} only`)
    for (const line of lines.slice(-mostShown)) console.log(`        ${line}`)
}

class Run {
    constructor(steps) {
        this.waiting = [...steps]
        this.running = new Map() // step -> when it started, in ms
        this.ended = new Map() // name -> whether it passed
        this.total = { passed: 0, failed: 0 }
        this.lastLine = Date.now()
    }

    // A step whose need failed is not run, and counts as failed.
    blocked = (step) => step.needs.some((need) => this.ended.get(need) === false)

    ready = (step) => step.needs.every((need) => this.ended.get(need))

    async runOne(step) {
        const start = Date.now()
        this.running.set(step, start)
        const exit = await runStep(step)
        this.running.delete(step)
        const result = count(step.count, readFileSync(logOf(step), 'utf8'), exit)
        this.note(step, result)
        show(step, (Date.now() - start) / 1000, result)
    }

    note(step, { passed, failed }) {
        this.ended.set(step.name, failed === 0)
        this.total.passed += passed
        this.total.failed += failed
        this.lastLine = Date.now()
    }

    giveUpBlocked() {
        for (const step of this.waiting.filter(this.blocked)) {
            this.note(step, { passed: 0, failed: 1 })
            console.log(`FAIL  ${step.name.padEnd(36)}  not run: ${step.needs.filter((need) => !this.ended.get(need)).join(', ')} failed`)
        }
        this.waiting = this.waiting.filter((step) => !this.ended.has(step.name))
    }

    signOfLife() {
        if (Date.now() - this.lastLine < signOfLifeMs) return
        const names = [...this.running].map(([step, start]) => `${step.name} (${Math.round((Date.now() - start) / 1000)} s)`)
        console.log(`      … ${names.join(', ')}; ${this.waiting.length} waiting`)
        this.lastLine = Date.now()
    }

    async all(atATime) {
        const ticker = setInterval(() => this.signOfLife(), 1000)
        const flying = new Set()
        while (this.waiting.length > 0 || flying.size > 0) {
            this.giveUpBlocked()
            for (const step of this.waiting.filter(this.ready).slice(0, atATime - flying.size)) {
                this.waiting.splice(this.waiting.indexOf(step), 1)
                const flight = this.runOne(step).then(() => flying.delete(flight))
                flying.add(flight)
            }
            if (flying.size > 0) await Promise.race(flying)
        }
        clearInterval(ticker)
        return this.total
    }
}

const { quick, list, only } = options(process.argv.slice(2))
const steps = selected(allSteps({ quick }), only)
if (list) {
    for (const { name } of steps) console.log(name)
} else {
    rmSync(logs, { recursive: true, force: true })
    mkdirSync(logs, { recursive: true })
    if (steps.length === 0) console.log(`no step has ${only.join(' or ')} in its name (./test --list)`)
    const { passed, failed } = await new Run(steps).all(Math.max(2, cpus().length))
    console.log(`${passed} passed, ${failed} failed`)
    process.exitCode = failed > 0 || passed === 0 ? 1 : 0
}
