#!/bin/sh
# The Debian package, built twice from two copies of the source in folders of other names: the same byte for byte.
# package.sh - TOP
. "$2/tests/e2e/expect.sh"

# build FOLDER: a copy of the source there, and its package.
build() {
    mkdir -p "$1/source"
    (cd "$top" && cp -r CMakeLists.txt src assets calibration "$1/source/")
    expect 0 cmake -S "$1/source" -B "$1/build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DTESTS=OFF
    expect 0 cmake --build "$1/build" --target deb
}
build "$work/first"
umask 077 # a careful builder's
build "$work/a second folder"
set -- "$work/first/build/"*.deb
package=$1
expect 0 sha256sum "$package" "$work/a second folder/build/"*.deb
expect 0 cmp "$package" "$work/a second folder/build/${package##*/}"

# What it needs to run, by Debian's names: a library of each kind, and the letters on the table.
expect 0 dpkg-deb -f "$package" Depends
for needed in libc6 libsdl2-2.0-0 libsdl2-ttf-2.0-0 libgeos-c1v5 libgsl27 libfontconfig1 libxml2 libpotrace0 fonts-lato; do
    said "$needed"
done
# No path of the builder's is in it.
expect 0 dpkg-deb -x "$package" "$work/unpacked"
expect 1 grep -rlF "$work" "$work/unpacked"
if command -v lintian >/dev/null; then
    expect 0 lintian --allow-root --fail-on error,warning "$package"
else
    echo "not looked at, as this machine lacks it: lintian"
fi
finish
