"""Sends to an X11 window what xdotool cannot. Needs python-xlib.

send.py close WINDOW           the close button (WM_DELETE_WINDOW)
send.py drop WINDOW FILE       a file dragged onto the window (XDND 5)
"""

import sys
import time
import urllib.parse

from Xlib import X, Xatom, display
from Xlib.protocol import event

screen = display.Display()
atom = screen.intern_atom
window = screen.create_resource_object("window", int(sys.argv[2], 0))


def send(kind, data):
    message = event.ClientMessage(window=window, client_type=atom(kind), data=(32, data))
    window.send_event(message, event_mask=0)
    screen.flush()


def drop(path):
    """Offers the file's address and hands it over when it is asked for."""
    address = ("file://" + urllib.parse.quote(path) + "\r\n").encode()
    source = screen.screen().root.create_window(0, 0, 1, 1, 0, X.CopyFromParent)
    source.set_selection_owner(atom("XdndSelection"), X.CurrentTime)
    place = window.get_geometry()
    middle = (place.width // 2) << 16 | (place.height // 2)
    send("XdndEnter", [source.id, 5 << 24, atom("text/uri-list"), 0, 0])
    send("XdndPosition", [source.id, 0, middle, X.CurrentTime, atom("XdndActionCopy")])
    given = False
    end = time.monotonic() + 10
    while time.monotonic() < end:
        if not screen.pending_events():
            time.sleep(0.02)
            continue
        got = screen.next_event()
        if got.type == X.SelectionRequest:
            got.requestor.change_property(got.property, got.target, 8, address)
            answer = event.SelectionNotify(
                time=got.time,
                requestor=got.requestor,
                selection=got.selection,
                target=got.target,
                property=got.property,
            )
            got.requestor.send_event(answer)
            screen.flush()
            given = True
        elif got.type == X.ClientMessage:
            if got.client_type == atom("XdndStatus"):
                send("XdndDrop", [source.id, 0, X.CurrentTime, 0, 0])
            elif got.client_type == atom("XdndFinished"):
                return
    if not given:
        sys.exit("the window did not ask for the file")


if sys.argv[1] == "close":
    send("WM_PROTOCOLS", [atom("WM_DELETE_WINDOW"), X.CurrentTime, 0, 0, 0])
    screen.sync()
else:
    drop(sys.argv[3])
