#!/bin/sh
# usage: tools/need.sh COMMAND:PACKAGE...
#
# Sees to it that the commands are there, from the Debian packages named, and
# says nothing when they already are. Prints one line and exits 1 when only
# somebody else can install them; exits 3 where there is no apt-get, so that
# the caller can go on without.
set -eu

missing=""
for pair in "$@"; do
	command -v "${pair%%:*}" >/dev/null 2>&1 || missing="$missing ${pair#*:}"
done
[ -n "$missing" ] || exit 0

if ! command -v apt-get >/dev/null 2>&1; then
	echo "not found, and no apt-get to install them with:$missing" >&2
	exit 3
fi

as_root=""
if [ "$(id -u)" -ne 0 ]; then
	as_root="sudo"
	if ! sudo -n true 2>/dev/null; then
		echo "please run once: sudo apt-get update && sudo apt-get install -y$missing" >&2
		exit 1
	fi
fi

log=$(mktemp)
trap 'rm -f "$log"' EXIT
echo "installing$missing" >&2
# A first try with the lists at hand spares an update where they are fresh.
install() {
	# shellcheck disable=SC2086 # the list is meant to be split
	$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >"$log" 2>&1
}
if ! install; then
	if ! { $as_root apt-get update -qq >"$log" 2>&1 && install; }; then
		cat "$log" >&2
		echo "could not install$missing" >&2
		exit 1
	fi
fi
