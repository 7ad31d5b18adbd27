# A display of its own with the window on it, and hands for it; sourced by the
# scripts beside it. Needs Xvfb and xdotool; takes pictures where ImageMagick's
# import is there. Wants: program, out, plan; screen and scale where they are
# not usual.
mkdir -p "$out"

# A free display number, chosen by the server.
exec 3>"$out/display"
Xvfb -displayfd 3 -screen 0 "${screen:-1280x800}x24" -nolisten tcp >"$out/xvfb.log" 2>&1 &
server=$!
exec 3>&-
window=
trap 'kill ${window:+"$window"} "$server" 2>/dev/null || true' EXIT
for _ in $(seq 100); do [ -s "$out/display" ] && break; sleep 0.1; done
DISPLAY=:$(cat "$out/display")
export DISPLAY
unset WAYLAND_DISPLAY
if [ -n "${scale:-}" ]; then export WINIT_X11_SCALE_FACTOR=$scale; fi
# What the window remembers stays here.
export WIREWEND_HOME=$out/home

shot() { if command -v import >/dev/null; then import -window root "$out/$1.png"; fi; }
# The pointer must arrive before the button goes down. No `--sync`: it waits
# for a movement and hangs where the pointer is there already.
move() { xdotool mousemove "$1" "$2"; sleep 0.06; }
click() { move "$1" "$2"; xdotool click 1; sleep 0.12; }
key() { xdotool key "$@"; sleep 0.15; }
text() { xdotool type --delay 25 "$1"; sleep 0.1; }
typed() { text "$1"; key Return; }
# Takes something and moves it; `drop` lets it go.
take() { move "$1" "$2"; xdotool mousedown 1; sleep 0.1; move $((($1 + $3) / 2)) $((($2 + $4) / 2)); move "$3" "$4"; sleep 0.2; }
drop() { xdotool mouseup 1; sleep 0.3; }
fail() { echo "window: $1 (pictures in $out)" >&2; shot failed; exit 1; }

open_window() { # what to open where it is not the plan; "" is the sample
    local what=${1-$plan}
    "$program" open ${what:+"$what"} >"$out/program.log" 2>&1 &
    window=$!
    found=$(timeout 60 xdotool search --sync --onlyvisible --name 'Wirewend' | head -1)
    [ -n "$found" ] || fail "no window"
    # Without a window manager nobody gives the window the keyboard.
    xdotool windowfocus "$found"
    sleep 1
}
close_window() {
    key ctrl+q
    for _ in $(seq 50); do
        kill -0 "$window" 2>/dev/null || { window=; return 0; }
        sleep 0.1
    done
    fail "the window does not close"
}
save() {
    key ctrl+s
    for _ in $(seq 50); do [ -s "$plan" ] && break; sleep 0.1; done
    [ -s "$plan" ] || fail "nothing was saved"
}
saved() { # how many lines of the plan hold this
    grep -c "$1" "$plan" || true
}
expect() { # what, how many, how many there are
    [ "$2" = "$3" ] || fail "$1: $3 instead of $2"
}
