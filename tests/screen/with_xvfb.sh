#!/bin/sh
# Runs a program on an X server of its own that shows nothing: with_xvfb.sh WIDTHxHEIGHTxDEPTH PROGRAM [ARGUMENTS].
# Settings it keeps are gone afterwards; at first they let keys
# come as fast as a test presses them, and the cautions were shown, but not today. Leaves with the program's own status, or with 77 when the machine lacks a tool.
set -u

for tool in Xvfb xdotool setxkbmap; do
    if ! command -v "$tool" >/dev/null; then
        echo "skipped: $tool is not installed"
        exit 77
    fi
done

screen=$1
shift
folder=$(mktemp -d) || exit 1
mkfifo "$folder/display" || exit 1

# The server writes its display number once it listens; no screen is polled, no number guessed.
Xvfb -displayfd 3 -screen 0 "$screen" -nolisten tcp -noreset 3>"$folder/display" 2>"$folder/log" &
server=$!
trap 'kill "$server" 2>/dev/null; wait "$server" 2>/dev/null; rm -rf "$folder"' EXIT
trap 'exit 1' INT TERM

if ! read -r number <"$folder/display"; then
    echo "the X server did not start:"
    cat "$folder/log"
    exit 1
fi

unset WAYLAND_DISPLAY SDL_VIDEODRIVER XDG_RUNTIME_DIR DBUS_SESSION_BUS_ADDRESS
DISPLAY=":$number"
XDG_CONFIG_HOME="$folder/config"
export DISPLAY XDG_CONFIG_HOME
mkdir -p "$folder/config/chalklight" || exit 1
printf '{"chalklight": "settings", "version": 1, "lockout_ms": 0, "cautioned": "%s"}\n' "$(date -d yesterday +%F)" >"$folder/config/chalklight/settings.json"
"$@"
