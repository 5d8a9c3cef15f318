#!/bin/sh
# Runs a program on an X server of its own with two displays side by side that show nothing, as a laptop with a
# projector: with_two_displays.sh WIDTHxHEIGHT WIDTHxHEIGHT PROGRAM [ARGUMENTS]. Settings it keeps are gone afterwards.
# Leaves with the program's own status, or with 77 when the machine lacks a tool.
set -u

for tool in Xorg xrandr xdotool setxkbmap; do
    if ! command -v "$tool" >/dev/null; then
        echo "skipped: $tool is not installed"
        exit 77
    fi
done

first=$1 second=$2
shift 2
folder=$(mktemp -d) || exit 1
mkfifo "$folder/display" || exit 1
cat >"$folder/xorg.conf" <<'END'
Section "ServerFlags"
  Option "AutoAddDevices" "false"
  Option "AutoEnableDevices" "false"
  Option "AllowMouseOpenFail" "true"
EndSection
Section "Device"
  Identifier "none"
  Driver "dummy"
  VideoRam 64000
EndSection
Section "Screen"
  Identifier "screen"
  Device "none"
  DefaultDepth 24
  DefaultFbBpp 32
EndSection
END

# The server writes its display number once it listens.
Xorg -displayfd 3 -config "$folder/xorg.conf" -noreset -nolisten tcp -novtswitch -logfile "$folder/log" \
    3>"$folder/display" >"$folder/out" 2>&1 &
server=$!
trap 'kill "$server" 2>/dev/null; wait "$server" 2>/dev/null; rm -rf "$folder"' EXIT
trap 'exit 1' INT TERM

if ! read -r number <"$folder/display" || [ -z "$number" ]; then
    echo "skipped: an X server of two displays cannot be started here"
    grep '(EE)' "$folder/log" "$folder/out"
    exit 77
fi

unset WAYLAND_DISPLAY SDL_VIDEODRIVER XDG_RUNTIME_DIR DBUS_SESSION_BUS_ADDRESS
DISPLAY=":$number"
XDG_CONFIG_HOME="$folder/config"
export DISPLAY XDG_CONFIG_HOME

# A mode of that size on an output; its clock matters to no monitor.
show() {
    w=${2%x*} h=${2#*x}
    xrandr --newmode "chalk$1" $(( (w + 32) * (h + 10) * 60 / 1000000 + 1 )) "$w" $((w + 8)) $((w + 16)) $((w + 32)) \
        "$h" $((h + 3)) $((h + 6)) $((h + 10)) &&
        xrandr --output "DUMMY$1" --set CONNECTED 1 2>/dev/null
    xrandr --addmode "DUMMY$1" "chalk$1" && xrandr --output "DUMMY$1" --mode "chalk$1" --pos "$3x0" || exit 1
}
show 0 "$first" 0
show 1 "$second" "${first%x*}"
xrandr >/dev/null # asks every output again whether it is connected
"$@"
