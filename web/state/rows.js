// SPDX-License-Identifier: MIT
//
// The findings of a list, by point: those of the last judging of the whole job, and over them those of edits since. An edit
// costs what it touched and not what the job holds. Read like a Map; each change gives another object. Pure.

export class Rows {
    constructor(base = new Map(), since = new Map()) {
        this.base = base
        this.since = since
    }

    get(id) {
        return this.since.get(id) ?? this.base.get(id)
    }

    has(id) {
        return this.since.has(id) || this.base.has(id)
    }

    // After an edit: the rows that it touched.
    edited(rows) {
        const since = new Map(this.since)
        for (const row of rows) since.set(row.id, row)
        return new Rows(this.base, since)
    }

    // After the whole job was judged: the rows that are other than at its judging before. Those of edits stay over them
    // when the job that was judged is not the latest.
    judged(rows, isLatest) {
        for (const row of rows) this.base.set(row.id, row)
        return new Rows(this.base, isLatest ? new Map() : this.since)
    }
}

// Of the rows of a judging those that the judging before did not give; before is brought up to date.
export function changedRows(before, rows) {
    const same = (a, b) => a !== undefined && Object.keys(b).every((key) => a[key] === b[key])
    const changed = rows.filter((row) => !same(before.get(row.id), row))
    for (const row of changed) before.set(row.id, row)
    return changed
}
