#!/bin/sh
# Installed somewhere else and run from there, as the desktop, the shell and man find it: installed.sh CHALKLIGHT TOP BUILD
# What the machine lacks for looking at the desktop's files is counted and named.
. "$2/tests/e2e/expect.sh"
unset CHALKLIGHT_DATA CHALKLIGHT_SHEET
prefix="$work/else where"
share="$prefix/share"
absent=

# has PROGRAM: whether it is there; else it is named at the end.
has() {
    command -v "$1" >/dev/null && return 0
    absent="$absent $1"
    return 1
}

said_nothing() {
    if [ -s "$work/out" ]; then fault "nothing on standard output"; else passed=$((passed + 1)); fi
}

expect 0 cmake --install "$3" --prefix "$prefix"
chalklight="$prefix/bin/chalklight"
reader="$prefix/libexec/chalklight/chalklight-sheet"

# The places: Filesystem Hierarchy Standard 3.0, and freedesktop.org's desktop entry, icon theme, shared MIME-info and
# AppStream specifications.
for file in bin/chalklight libexec/chalklight/chalklight-sheet share/chalklight/assets/demo/pinafore.json \
    share/chalklight/assets/drafts/circle-skirts.json share/chalklight/calibration/sample-readings.json \
    share/chalklight/calibration/mats/60x90cm.json share/man/man1/chalklight.1.gz share/applications/chalklight.desktop \
    share/icons/hicolor/scalable/apps/chalklight.svg share/mime/packages/chalklight.xml \
    share/metainfo/org.example.chalklight.metainfo.xml share/bash-completion/completions/chalklight \
    share/doc/chalklight/copyright share/doc/chalklight/changelog.gz; do
    is_there "$prefix/$file"
done

# Runs, finds what came with it and its reader, and through a link to it, too.
version=$(sed -n 's/^project(chalklight VERSION \([0-9.]*\).*/\1/p' "$top/CMakeLists.txt")
expect 0 "$chalklight" --version
said "chalklight $version"
cat >"$work/pattern.json" <<'PATTERN'
{ "chalklight": "pattern", "version": 2, "name": "Flag", "unit": "cm", "outline": "cutting line", "sizes": [ "one" ],
  "pieces": [ { "name": "r", "allowance": 1, "rectangle": { "width": 30, "height": 40 } } ],
  "views": [ { "name": "A", "cut": [ { "piece": "r", "count": 1 } ] } ] }
PATTERN
expect 0 "$chalklight" job "$work/pattern.json" --size one --view A --out "$work/flag.chalklight"
ln -s "$chalklight" "$work/link"
expect 0 "$work/link" frame "$work/flag.chalklight" --square --out "$work/square.png"
is_there "$work/square.png"
echo '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="50mm"><path d="M9 9h99v99z" stroke="red"/></svg>' >"$work/x.svg"
expect 0 "$chalklight" sheet "$work/x.svg"
said "1 page"

# Without a job: the last one that is still there, else the demo; of a job nothing is remembered but where it lies.
mv "$share/chalklight/assets/demo/pinafore.json" "$work/pinafore.json"
echo '{' >"$share/chalklight/assets/demo/pinafore.json"
rm "$XDG_CONFIG_HOME/chalklight/settings.json"
expect 1 "$chalklight" cut
told "share/chalklight/assets/demo/pinafore.json:"
mv "$work/pinafore.json" "$share/chalklight/assets/demo/pinafore.json"
expect 0 "$chalklight" alter "$work/flag.chalklight"
cp "$work/flag.chalklight" "$work/gone.chalklight"
expect 0 "$chalklight" alter "$work/gone.chalklight"
rm "$work/gone.chalklight"
expect 0 "$chalklight" cut --out "$work/frames"
is_there "$work/frames/01-r.png"
expect 1 grep -F Flag "$XDG_CONFIG_HOME/chalklight/settings.json"
# Nothing of hers is written but the settings.
unset XDG_CONFIG_HOME
expect 0 env HOME="$work/home" "$chalklight" alter "$work/flag.chalklight"
expect 0 sh -c 'cd "$1" && find . -type f >../found' in "$work/home"
echo ./.config/chalklight/settings.json >"$work/wanted"
expect 0 diff "$work/wanted" "$work/found"
export XDG_CONFIG_HOME="$work/config"

# Both are the installed ones: what is in their place is what is run and read.
printf '#!/bin/sh\nexit 77\n' >"$reader"
expect 1 "$chalklight" sheet "$work/x.svg"
told "exit 77"
echo '{' >"$share/chalklight/calibration/sample-readings.json"
expect 1 "$chalklight" frame "$work/flag.chalklight" --square --out "$work/square.png"
told "share/chalklight/calibration/sample-readings.json:"

# bash completes each command and each option of the program's own tables, and of a command no other's.
commands=$(sed -n '/ command_rows\[\]/,/^};/s/^    { "\([a-z]*\)", .*/\1/p' "$top/src/cli/commands.c")
options=$(sed -n 's/^    \[OPT_.* = { "\(--[a-z-]*\)",.*/\1/p' "$top/src/cli/options.c" | sort -u)
cat >"$work/complete.bash" <<'COMPLETE'
. "$1"
complete_at() {
    COMP_WORDS=("$@")
    COMP_CWORD=$(($# - 1))
    _chalklight
    printf '%s\n' "${COMPREPLY[@]}"
}
program=$2
shift 2
complete_at "$program" "" >commands
complete_at "$program" la >la
complete_at "$program" keys --j >keys
for command in "$@"; do complete_at "$program" "$command" --; done | sort -u >options
COMPLETE
expect 0 sh -c 'cd "$1" && shift && bash complete.bash "$@"' in "$work" "$share/bash-completion/completions/chalklight" "$chalklight" \
    $commands
for command in $commands; do expect 0 grep -qxF -- "$command" "$work/commands"; done
printf '%s\n' $options >"$work/wanted"
expect 0 diff "$work/wanted" "$work/options"
echo lay >"$work/wanted"
expect 0 diff "$work/wanted" "$work/la"
echo --json >"$work/wanted"
expect 0 diff "$work/wanted" "$work/keys"

# The manual has them, too, and reads well.
gzip -dc "$share/man/man1/chalklight.1.gz" >"$work/chalklight.1"
for command in $commands; do expect 0 grep -qE "^\.BI? $command( |\$)" "$work/chalklight.1"; done
for option in $options; do expect 0 grep -qE -- "$option([^a-z-]|\$)" "$work/chalklight.1"; done
if has man; then
    ran="man --warnings"
    LC_ALL=C.UTF-8 MANROFFSEQ='' MANWIDTH=80 man --warnings -l "$work/chalklight.1" >"$work/out" 2>"$work/err"
    quiet
    said "CHALKLIGHT(1)"
fi

# The desktop's own judges.
if has desktop-file-validate; then
    expect 0 desktop-file-validate "$share/applications/chalklight.desktop"
    said_nothing
fi
if has appstreamcli; then
    expect 0 appstreamcli validate --no-net --strict "$share/metainfo/org.example.chalklight.metainfo.xml"
    said "successful"
fi

# Our kinds of file are told apart by what is in them, whether their names say nothing or that they are ours; another
# program's JSON stays JSON.
if has update-mime-database && has gio; then
    export XDG_DATA_HOME="$share"
    expect 0 update-mime-database "$share/mime"
    cp "$work/flag.chalklight" "$work/flag"
    cp "$demo/guide.json" "$work/guide.chalklight"
    cp "$demo/pinafore.json" "$work/pinafore"
    for pair in flag.chalklight=chalklight-job flag=chalklight-job guide.chalklight=chalklight-body pinafore=chalklight-pattern; do
        expect 0 gio info -a standard::content-type "$work/${pair%=*}"
        said "application/x-${pair#*=}+json"
    done
    echo '{ "name": "other" }' >"$work/other.json"
    expect 0 gio info -a standard::content-type "$work/other.json"
    said "application/json"
    # Every kind that the program proof-reads.
    for kind in $(sed -n '/^} kind_rows/,/^};/p' "$top/src/app/check.c" | grep -o '{ "[a-z]*"' | tr -dc 'a-z\n'); do
        expect 0 grep -qF "application/x-chalklight-$kind+json" "$share/mime/packages/chalklight.xml"
    done
fi

[ -z "$absent" ] || echo "not looked at, as this machine lacks it:$absent"
finish
