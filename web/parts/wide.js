// SPDX-License-Identifier: MIT
//
// Whether a media query holds, followed as the window changes.

import { useEffect, useState } from '../html.js'

export function useWide(query) {
    const [wide, setWide] = useState(matchMedia(query).matches)
    useEffect(() => {
        const media = matchMedia(query)
        const look = () => setWide(media.matches)
        media.addEventListener('change', look)
        return () => media.removeEventListener('change', look)
    }, [query])
    return wide
}
