#!/usr/bin/env bash
# Draws a house in a real window, by mouse and keyboard, on a display of its
# own: four rooms with doors, a board, six outlets, two lights, two switches.
# Saves, reopens, copies what a rubber band holds, pins a leg, exports, and looks
# at what was saved. Pictures of each step stay in a folder that it names.
#
#   tests/window/house.sh PROGRAM [FOLDER]
#
# Needs what stage.sh needs.
set -euo pipefail
program=$(realpath "$1")
out=${2:-$(mktemp -d)}
plan=$out/house.wend
rm -f "$plan"
# shellcheck source=tests/window/stage.sh
source "$(dirname "$0")/stage.sh"

open_window
shot 1-empty
# Outer walls: corner, then lengths by keyboard; the last corner by mouse.
click 150 650
move 500 652; typed 8000
move 696 400; typed 6000
move 300 250; typed 8000
click 150 650
# A wall across from foot to head, one from side to side.
click 422 650; click 422 242
click 150 446; click 694 446
key Escape
shot 2-walls
key d
click 422 550; click 422 350; click 250 446; click 560 650
shot 3-doors
key ctrl+2 b; click 160 600
key o
click 300 640; click 412 500; click 434 600; click 684 560; click 160 300; click 684 300
key l
click 286 548; click 558 548
key k
click 412 590; click 510 640
key Escape
shot 4-points
# A socket goes along its wall; then back again, and once more.
move 300 634; xdotool mousedown 1; sleep 0.1; move 280 634; move 240 634; sleep 0.3
shot 5-dragging
xdotool mouseup 1; sleep 0.3
key ctrl+z ctrl+shift+z
save
close_window

expect walls 6 "$(saved '"thickness": 110')"
expect rooms 4 "$(saved '"use": "other", "outline"')"
expect doors 4 "$(saved '"kind": "door"')"
expect boards 1 "$(saved '"supply"')"
expect sockets 6 "$(saved '"kind": "socket"')"
expect lights 2 "$(saved '"kind": "luminaire"')"
expect switches 2 "$(saved '"kind": "switch"')"
expect circuits 2 "$(saved '"number": [0-9]*, "name"')"
# Walls by their length: the typed ones to the millimetre, square to the page.
lengths=$(sed -n 's/.*"a": \[\(-*[0-9]*\), \(-*[0-9]*\)\], "b": \[\(-*[0-9]*\), \(-*[0-9]*\)\], "thick.*/\1 \2 \3 \4/p' "$plan" |
    awk '{ x = $3 - $1; y = $4 - $2; print x < 0 ? -x : x, y < 0 ? -y : y }')
expect "walls 8 m long, level" 3 "$(grep -cx '8000 0' <<<"$lengths")"
expect "walls 6 m long, upright" 3 "$(grep -cx '0 6000' <<<"$lengths")"
runs=$("$program" runs "$plan" --json)
legs=$(grep -c '"role"' <<<"$runs")
# Six sockets in a chain; two lights, and a leg to each switch.
expect legs 10 "$legs"

open_window
key ctrl+e
for _ in $(seq 100); do compgen -G "$out/house.papers/*.svg" >/dev/null && break; sleep 0.1; done
compgen -G "$out/house.papers/*.svg" >/dev/null || fail "no papers were written"
shot 6-reopened
# A band around a socket, a light and the board; copied, pasted across the page.
key ctrl+2
move 60 560; xdotool mousedown 1; sleep 0.2; move 200 640; move 420 755; sleep 0.3
shot 7-band
xdotool mouseup 1; sleep 0.3
key ctrl+c
move 640 300
key ctrl+v
sleep 1
shot 8-pasted
# The first leg of the first circuit is pinned to a place.
key ctrl+4 ctrl+Down ctrl+Right y
sleep 1
click 350 300
sleep 1
shot 9-pinned
key Escape
save
close_window
expect "sockets with the pasted one" 7 "$(saved '"kind": "socket"')"
expect "lights with the pasted one" 3 "$(saved '"kind": "luminaire"')"
expect pins 1 "$(saved '"through"')"
echo "window: house drawn, saved, reopened, exported (pictures in $out)"
