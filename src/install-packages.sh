#!/bin/sh
# Installs what the given lists name and the machine lacks: sh src/install-packages.sh LIST…
# Debian 12; needs root or sudo only when something is missing.
set -eu

wanted=$(sed -e 's/#.*//' -e 's/[[:space:]].*//' "$@" | grep -v '^$' || true)
missing=
for package in $wanted; do
    state=$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null || true)
    [ "$state" = installed ] || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

as_root=
if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null 2>&1; then
        echo "These packages are missing, and installing them needs root or sudo:$missing" >&2
        exit 1
    fi
    as_root=sudo
fi
echo "Installing:$missing" >&2
$as_root env DEBIAN_FRONTEND=noninteractive sh -c 'apt-get update -qq && apt-get install -y -qq --no-install-recommends "$@"' \
    install $missing >&2
