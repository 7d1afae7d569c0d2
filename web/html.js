// SPDX-License-Identifier: MIT
//
// The one door to the view library: html`…` makes what Preact draws.

import htm from 'htm'
import { h } from 'preact'

export { Component, Fragment, render } from 'preact'
export { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks'

export const html = htm.bind(h)
