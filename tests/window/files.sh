#!/usr/bin/env bash
# Files that are in the way, in a real window on a display of its own: a plan
# without a name is offered a free one, Save as over a file asks, a file that
# changed underneath asks, papers that somebody filled in ask; and looks at what
# lies in the folder after each. Pictures of each step stay in a folder that it
# names.
#
#   tests/window/files.sh PROGRAM [FOLDER]
#
# Needs what stage.sh needs.
set -euo pipefail
program=$(realpath "$1")
out=$(realpath "${2:-$(mktemp -d)}")
plan=$out/job/house.wend
rm -rf "$out/job" && mkdir -p "$out/job"
# shellcheck source=tests/window/stage.sh
source "$(dirname "$0")/stage.sh"
# A window without a file offers a name in the folder that it was begun in.
cd "$out/job"
# Waits for what comes of it: a machine may be busy.
until_there() { for _ in $(seq 150); do compgen -G "$1" >/dev/null && return; sleep 0.1; done; fail "no $1: $(ls)"; }
kept() { cat "$plan".before-* 2>/dev/null || true; }
holds() { # what, text, file
    [ "$(cat "$3")" = "$2" ] || fail "$1: $3 holds something else"
}

# The sample, which has no file, is saved under the name that is offered; then
# once more from a new window.
open_window ""
key ctrl+s
sleep 2
shot 1-offered
key Return
until_there "./*.wend"
first=$(ls ./*.wend)
expect "plans in the folder" 1 "$(ls ./*.wend | wc -l)"
close_window
open_window ""
key ctrl+s
sleep 2
shot 2-offered-again
key Return
until_there "${first%.wend}-2.wend"
expect "plans in the folder" 2 "$(ls ./*.wend | wc -l)"

# Save as over a file.
echo stranger >"$plan"
key ctrl+shift+s
key ctrl+a
typed "$plan"
sleep 2
shot 3-asked
holds "before the answer" stranger "$plan"
key Escape
holds "not now" stranger "$plan"
key ctrl+shift+s
key ctrl+a
typed "$plan"
sleep 2
key Delete
until_there "house.wend.before-*"
sleep 1
shot 4-replaced
expect "a plan is there" 1 "$(saved '"wirewend"')"
[ "$(kept)" = stranger ] || fail "what was replaced is not kept"

# The file changes underneath.
key ctrl+a Right
echo "changed from outside" >"$plan"
key ctrl+s
sleep 5
shot 5-changed-underneath
holds "before the answer" "changed from outside" "$plan"
# Another name is filled in, in the same folder.
key Return
sleep 2
shot 6-another-name
key Return
until_there house-2.wend
holds "left alone" "changed from outside" "$plan"

# Papers, once, over themselves, and with one that was filled in.
papers() { key ctrl+e; until_there house-2.papers/lists.xlsx; sleep 12; }
papers
[ -e house-2.papers/cuts.csv ] || fail "no papers"
papers
shot 7-papers-again
echo "filled in on site" >house-2.papers/cuts.csv
papers
shot 8-papers-asked
holds "before the answer" "filled in on site" house-2.papers/cuts.csv
key Delete
until_there "house-2.papers/cuts.csv.before-*"
sleep 6
shot 9-papers-replaced
[ "$(cat house-2.papers/cuts.csv.before-*)" = "filled in on site" ] || fail "the list is not kept"
close_window
echo "window: files in the way (pictures in $out)"
