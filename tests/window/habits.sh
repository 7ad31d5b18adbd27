#!/usr/bin/env bash
# The habits of the window in a real one: the first time, looks, panning and
# zooming, several points dragged at once, points dropped onto circuits, pins
# dragged, recent plans, two windows on one file, closing with unsaved work,
# a dropped file, a screen of twice the density.
#
#   tests/window/habits.sh PROGRAM [FOLDER]
#
# Needs what stage.sh needs, and ImageMagick. Where python3 has python-xlib,
# the close button and a dropped file are tried too.
set -euo pipefail
program=$(realpath "$1")
out=${2:-$(mktemp -d)}
plan=$out/house.wend
here=$(cd "$(dirname "$0")" && pwd)
rm -rf "$out/home" "$out"/.*.journal "$plan"
# shellcheck source=tests/window/stage.sh
source "$here/stage.sh"

# The piece of a picture around a place.
piece() { convert "$out/$1.png" -crop "160x120+$2+$3" +repage "$out/$4.png"; }
# What was at one place of a picture is at another place of the next one.
moved() { # from picture, x, y, to picture, x, y
    piece "$1" "$2" "$3" was
    piece "$4" "$5" "$6" is
    local apart
    apart=$(compare -metric AE -fuzz 12% "$out/was.png" "$out/is.png" null: 2>&1 || true)
    [ "${apart%%[!0-9]*}" -lt 400 ] || fail "$1 to $4: $apart pixels differ"
}
can_send() { python3 -c 'import Xlib' 2>/dev/null; }
can_send || echo "NOT CHECKED: files dropped, the window's close button; no python3 with Xlib here" >&2

# The first time: the sample with its hints, put away for good.
open_window ""
sleep 2
shot 1-hints
key Escape
shot 2-sample
# A socket follows the pointer; a figure answers. F2 goes through the looks.
key F2; sleep 1; shot 3-night
key F2; sleep 1; shot 4-stark
key F1; sleep 1; shot 5-stark-keys; key Escape
key slash; text "dim"; sleep 1; shot 6-stark-find; key Escape Escape
key F2; sleep 1
# The paper is pushed: middle button, space and drag, a tilted wheel.
shot 7-before
move 300 300; xdotool mousedown 2; sleep 0.1; move 320 310; move 360 340; xdotool mouseup 2; sleep 1
shot 8-middle
moved 7-before 340 360 8-middle 400 400
move 360 340; xdotool keydown space; sleep 0.1; xdotool mousedown 1; sleep 0.1
move 340 330; move 300 300; xdotool mouseup 1; xdotool keyup space; sleep 1
shot 9-space
moved 7-before 340 360 9-space 340 360
move 400 400; xdotool click 7; sleep 1
shot 10-tilted
key 0; sleep 1; shot 11-fitted
close_window

# A room of one's own with three sockets and a light.
open_window
click 150 650
move 500 652; typed 8000
move 696 400; typed 6000
move 300 250; typed 8000
click 150 650
key ctrl+2 b; click 160 600
key o; click 250 250; click 400 250; click 550 250
key l; click 424 446
key Escape Escape
save
shot 12-room
# A band around two sockets; one is dragged, both go, one undo.
move 200 200; xdotool mousedown 1; sleep 0.2; move 300 280; move 460 300; sleep 0.3
xdotool mouseup 1; sleep 0.3
take 250 262 320 264; shot 13-both; drop
save
grep -o '"along": [0-9]*' "$plan" >"$out/both"
key ctrl+z; save
grep -o '"along": [0-9]*' "$plan" >"$out/undone"
expect "sockets that went along" 2 "$(diff "$out/both" "$out/undone" | grep -c '^<' || true)"
# The light goes onto the circuit of the sockets, dropped on its row.
key ctrl+3
on() { sed -n "s/.*\"kind\": \"$1\".*\"circuit\": \"\([^\"]*\)\".*/\1/p" "$plan" | sort -u; }
[ "$(on luminaire)" != "$(on socket)" ] || fail "the light is on the circuit of the sockets already"
take 424 446 1000 119; shot 14-over-row; drop
sleep 1; save; shot 15-dropped
expect "the circuit of the light" "$(on socket)" "$(on luminaire)"
key ctrl+z; save
# A pin set, dragged, taken away.
key ctrl+4 ctrl+Down ctrl+Right y; sleep 1
click 350 400; sleep 1
key Escape
shot 16-pin
take 350 400 520 350; shot 17-pin-dragged; drop
sleep 1; save
expect "pins" 1 "$(saved '"through"')"
key Delete; sleep 1; shot 18-pin-gone; save
expect "pins" 0 "$(saved '"through"')"
# An area along the chosen wall, its head typed; feet and inches.
key ctrl+1 Escape Escape Escape
click 698 350; key i; take 696 400 696 520; shot 18-area; drop; sleep 0.5
key shift+t; typed 1200; sleep 0.5; key F3; sleep 0.5; shot 18-feet; key F3 Escape
save
expect "areas on walls" 1 "$(grep -c '"on": {"wall"' "$plan" || true)"
key ctrl+z ctrl+z; save
# Closing asks once.
key ctrl+1 Escape Escape
key w; click 300 700; click 500 700; key Escape Escape
if can_send; then python3 "$here/send.py" close "$found"; sleep 0.5; else key ctrl+q; fi
shot 19-asks
key Escape; sleep 0.3; shot 20-stays
kill -0 "$window" || fail "it closed without a word"
# A second window on the same file.
first=$window first_found=$found
"$program" open "$plan" >"$out/second.log" 2>&1 &
second=$!
sleep 3
shot 21-second
xdotool windowfocus "$first_found"; sleep 0.5
kill "$second"; wait "$second" 2>/dev/null || true
sleep 1
shot 22-first-told
window=$first found=$first_found
[ ! -e "$out/.house.wend.knock" ] || fail "the first window did not hear of the second"
key ctrl+q; sleep 0.3; key Delete
for _ in $(seq 50); do kill -0 "$window" 2>/dev/null || break; sleep 0.1; done
if kill -0 "$window" 2>/dev/null; then fail "it did not close"; fi
expect "walls, the unsaved one left" 4 "$(saved '"thickness": 110')"

# Recent plans, by the sample; then a layout dropped on the window.
open_window ""
key ctrl+o; sleep 0.3; shot 23-recent
key Return; sleep 2; shot 24-opened
if can_send; then
    python3 "$here/send.py" drop "$found" "$here/../../fixtures/layouts/large_two_block.json"
    sleep 3; shot 25-dropped-file
    key Escape; sleep 0.5
    python3 "$here/send.py" drop "$found" "$here/../../fixtures/imports/large_two_block.dxf"
    sleep 4; shot 25-drawing; key 1; sleep 4; shot 25-unit; key 2; sleep 4; shot 25-layer
    key Escape
fi
close_window
kill "$server"; wait "$server" 2>/dev/null || true

# Twice the density.
screen=2560x1600 scale=2
# shellcheck source=tests/window/stage.sh
source "$here/stage.sh"
open_window
sleep 1; shot 26-dense
close_window
echo "window: habits tried (pictures in $out)"
