#!/usr/bin/env bash
# Frame times of the window while a point is dragged, and the time to the first
# frame, at two sizes, as a table. Needs Xvfb. House A of the benches, 200
# points, is written by the bench `house`:
#
#   cargo bench --no-default-features --bench house -- --write FOLDER
#   cargo build --release && tests/window/frames.sh target/release/wirewend FOLDER/house-a.wend
set -euo pipefail
program=$(realpath "$1")
plan=$(realpath "${2:-$(dirname "$0")/../../fixtures/townhouse.wend}")
out=$(mktemp -d)
server=
trap 'kill ${server:+"$server"} 2>/dev/null || true; rm -rf "$out"' EXIT
echo "| size | start to first frame | frames dragged | by the clock: median, 95 % under, worst | processor: the same |"
echo "|---|---|---|---|---|"
for size in 1280x800 1920x1080; do
    rm -f "$out/display"
    exec 3>"$out/display"
    Xvfb -displayfd 3 -screen 0 "${size}x24" -nolisten tcp >"$out/xvfb.log" 2>&1 &
    server=$!
    exec 3>&-
    for _ in $(seq 100); do [ -s "$out/display" ] && break; sleep 0.1; done
    cp "$plan" "$out/plan.wend"
    DISPLAY=:$(cat "$out/display") WAYLAND_DISPLAY='' \
        WIREWEND_FRAMES="$size:$out/times" timeout 300 "$program" open "$out/plan.wend"
    cat "$out/times"
    kill "$server"
    wait "$server" 2>/dev/null || true
    server=
done
