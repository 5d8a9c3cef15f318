#!/bin/sh
# The light goes to the display that is remembered as the projector, on an X server: projector.sh CHALKLIGHT TOP
display=$DISPLAY
. "$2/tests/e2e/expect.sh"

# Shows the crosses and presses Esc until they are gone.
show() {
    rm -f "$work/gone"
    ran="crosses"
    {
        DISPLAY=$display "$chalklight" crosses >"$work/out" 2>"$work/err"
        echo $? >"$work/gone"
    } &
    DISPLAY=$display xdotool search --sync --onlyvisible --name Chalklight >"$work/window"
    while [ ! -s "$work/gone" ]; do
        DISPLAY=$display xdotool key Escape
    done
    wait
    if [ "$(cat "$work/gone")" -eq 0 ]; then passed=$((passed + 1)); else fault "exit code 0"; fi
}

show
quiet
expect 0 "$chalklight" settings projector "Attic 7"
show
told "the projector “Attic 7” was not connected; the light was on the only display, “"
here=$(sed -n 's/.*only display, “\([^”]*\)”.*/\1/p' "$work/err")
expect 0 "$chalklight" settings projector "$here"
show
quiet

finish
