#!/usr/bin/env bash
# Changes a building in a real window, by mouse and keyboard: walls and corners
# are dragged, doors slid, a level added, a picture laid and scaled, a keep-out
# drawn, a layout brought in and drafted. Looks at what was saved.
#
#   tests/window/survey.sh PROGRAM [FOLDER]
#
# Needs what stage.sh needs, and ImageMagick for the picture.
set -euo pipefail
program=$(realpath "$1")
out=${2:-$(mktemp -d)}
plan=$out/house.wend
here=$(cd "$(dirname "$0")" && pwd)
rm -f "$plan" "$out"/.*.journal
# shellcheck source=tests/window/stage.sh
source "$here/stage.sh"
convert -size 600x450 xc:white -stroke black -strokewidth 6 -fill none \
    -draw 'rectangle 60,60 540,390 line 300,60 300,390' "$out/scan.png"

open_window
# A house of two rooms: 8 m by 6 m, a wall across, a door in it.
click 150 650
move 500 652; typed 8000
move 696 400; typed 6000
move 300 250; typed 8000
click 150 650
click 422 650; click 422 242
key Escape Escape
key d; click 422 500; key Escape
shot 1-drawn
# The wall across goes to the right, with the door; its offset is typed.
take 422 300 470 302; text 1000; shot 2-wall-dragged; key Return; drop
# The door further along.
take 490 500 490 380; shot 3-door-slid; drop
# A corner.
take 694 242 730 222; shot 4-corner; drop; key ctrl+z
# Build of the wall across by select.
click 490 300; key shift+3; shot 5-masonry
# A room's name and use.
click 300 350; key e; key ctrl+a; typed Lounge; shot 6-room
# A keep-out, by a drag.
key Escape i; take 200 300 300 400; drop; key Escape; shot 7-keep-out
# A level above, the one below showing through.
key ctrl+Prior; sleep 0.5; shot 8-upper; key e; key ctrl+a; typed Attic
key Next; sleep 0.3
save
# A picture beneath: by its name, scaled by a known length.
key ctrl+p; typed "$out/scan.png"; sleep 1; shot 9-picture
click 300 500; click 600 500; typed 4800; sleep 0.5; shot 10-scaled
key shift+h shift+h bracketleft; shot 11-fainter
save
close_window
expect "walls" 5 "$(saved '"insulated"')"
expect "masonry" 1 "$(saved 'solid_masonry')"
expect "the wall across, 1 m further" 1 "$(saved '"a": \[6700, 700\], "b": \[6700, 6700\]')"
expect "keep-outs" 1 "$(saved 'keep_out')"
expect "Lounge" 1 "$(saved 'Lounge')"
expect "Attic" 1 "$(saved 'Attic')"
expect "pictures" 1 "$(saved '"file": "scan.png"')"

plan=$out/brought.wend
rm -f "$plan" "$out"/.brought*
open_window
key ctrl+i; typed "$here/../../fixtures/layouts/large_two_block.json"; sleep 2; shot 12-report
key Return; sleep 2; shot 13-brought
key ctrl+r; sleep 0.3; shot 14-draft; key 2; key Return
sleep 8; shot 15-drafted
key Return; sleep 3; shot 16-wired
save
close_window
sockets=$(saved '"kind": "socket"')
[ "$sockets" -gt 20 ] || fail "only $sockets sockets were drafted"
echo "window: building changed, layout brought in and drafted (pictures in $out)"
