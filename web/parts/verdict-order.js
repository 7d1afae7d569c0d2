// SPDX-License-Identifier: MIT

// Worst first.
export const verdicts = ['barred', 'short', 'unknown', 'fits']
