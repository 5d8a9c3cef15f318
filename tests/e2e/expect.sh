# Sourced by the scripts beside it, which are called with the program and the tree's top: run a command without a
# display, look at its exit code and at what it said.
# Usage: . "$2/tests/e2e/expect.sh"; expect CODE words…; said TEXT; told TEXT; finish

set -u
chalklight=$1
top=$2
demo="$top/assets/demo"
unset DISPLAY WAYLAND_DISPLAY
export CHALKLIGHT_DATA="$top"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export XDG_CONFIG_HOME="$work/config"
failed=0
passed=0

fault() {
    echo "not so: $*"
    echo "  it ran: $ran"
    sed 's/^/  out: /' "$work/out" | head -n 20
    sed 's/^/  err: /' "$work/err" | head -n 20
    failed=$((failed + 1))
}

# expect CODE words…: runs the words with nothing on standard input.
expect() {
    want=$1
    shift
    ran="$*"
    code=0
    "$@" </dev/null >"$work/out" 2>"$work/err" || code=$?
    if [ "$code" -eq "$want" ]; then
        passed=$((passed + 1))
    else
        fault "exit code $want, not $code"
    fi
}

# said TEXT: standard output has it. told TEXT: standard error has it.
said() {
    if grep -qF -- "$1" "$work/out"; then passed=$((passed + 1)); else fault "“$1” on standard output"; fi
}
told() {
    if grep -qF -- "$1" "$work/err"; then passed=$((passed + 1)); else fault "“$1” on standard error"; fi
}
quiet() {
    if [ -s "$work/err" ]; then fault "nothing on standard error"; else passed=$((passed + 1)); fi
}
is_there() {
    if [ -s "$1" ]; then passed=$((passed + 1)); else fault "a file $1"; fi
}
is_not_there() {
    if [ -e "$1" ]; then fault "no file $1"; else passed=$((passed + 1)); fi
}

finish() {
    echo "$passed passed, $failed failed"
    [ "$failed" -eq 0 ]
}
