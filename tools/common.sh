# SPDX-License-Identifier: MIT
#
# For ./start, ./test and the tools: a way to fail, a sign of life during long commands, and the Debian packages:
# only those that are missing are installed, and nothing is said when none is.

# What the program and its page are built with.
build_packages=(gcc libc6-dev cmake ninja-build pkg-config libyajl-dev libcairo2-dev libpango1.0-dev libqrencode-dev libxlsxwriter-dev
    zlib1g-dev fonts-dejavu-core woff2 libmicrohttpd-dev libsqlite3-dev clang-14 lld-14 llvm-14 wasi-libc libclang-rt-14-dev-wasm32
    dpkg-dev)
command -v node > /dev/null || build_packages+=(nodejs)
command -v npm > /dev/null || build_packages+=(npm)

die() {
    echo "$(basename "$0"): $1" >&2
    exit 1
}

# with_ticks WHAT COMMAND…: says WHAT and the seconds every ten seconds until the command ends.
with_ticks() {
    local what=$1 ticker status=0
    shift
    tick "$what" &
    ticker=$!
    "$@" || status=$?
    kill "$ticker" 2> /dev/null
    wait "$ticker" 2> /dev/null || true
    return $status
}

# The sleep ends with the ticker: left alone it would hold a reader of our output for its last seconds.
tick() {
    local seconds=0 nap
    trap 'kill "${nap-}" 2> /dev/null; exit' TERM
    while true; do
        sleep 10 &
        nap=$!
        wait "$nap"
        seconds=$((seconds + 10))
        echo "$1 … $seconds s"
    done
}

# An apt command of which only a failure is shown. Waits up to five minutes when another program holds apt's lock.
quiet_apt() {
    local as_root=() log status=0
    [ "$(id -u)" -eq 0 ] || as_root=(sudo)
    log=$(mktemp)
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o DPkg::Lock::Timeout=300 "$@" \
        < /dev/null > "$log" 2>&1 || status=$?
    [ $status -eq 0 ] || tail -n 20 "$log" >&2
    rm -f "$log"
    return $status
}

missing_packages() {
    local package
    for package in "$@"; do
        [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2> /dev/null)" = installed ] || echo "$package"
    done
}

# Packages that no archive of this machine offers, for the message.
unknown_packages() {
    local package
    for package in "$@"; do
        apt-cache policy "$package" 2> /dev/null | grep -q 'Candidate: [^(]' || echo "$package"
    done
}

need_packages() {
    command -v dpkg-query > /dev/null && command -v apt-get > /dev/null ||
        die "this installs on Debian 12 only. Elsewhere install the likes of: $*; then build with CMakePresets.json"
    local missing unknown
    mapfile -t missing < <(missing_packages "$@")
    [ ${#missing[@]} -gt 0 ] || return 0
    [ "$(id -u)" -eq 0 ] || command -v sudo > /dev/null ||
        die "missing, and neither root nor sudo to install: ${missing[*]}"
    echo "installing ${missing[*]}"
    with_ticks "reading the package lists" quiet_apt update -o APT::Update::Error-Mode=any ||
        echo "the package lists could not be renewed; trying with those at hand" >&2
    with_ticks "installing" quiet_apt install --no-install-recommends "${missing[@]}" && return
    mapfile -t unknown < <(unknown_packages "${missing[@]}")
    [ ${#unknown[@]} -eq 0 ] || die "no archive of this machine has: ${unknown[*]} (see /etc/apt/sources.list.d)"
    die "could not install: ${missing[*]}; apt's own words are above"
}
