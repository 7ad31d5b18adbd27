#!/usr/bin/env python3
"""The quote's page in a real browser: shows and hides circuits, taps points,
leaves out what is optional, and looks for requests, contrast and sizes.

    tests/window/quote.py PROGRAM [FOLDER]

Needs chromium, driven over a pipe; pictures of what it saw stay in a folder
that it names.
"""
import base64
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time

program = os.path.realpath(sys.argv[1])
out = sys.argv[2] if len(sys.argv) > 2 else tempfile.mkdtemp()
os.makedirs(out, exist_ok=True)
root = os.path.dirname(os.path.dirname(os.path.dirname(os.path.realpath(__file__))))
HOSTILE = "</script><script>document.title='broken'</script>&\"'"


def fail(what):
    print(f"quote page: {what} (pictures in {out})", file=sys.stderr)
    sys.exit(1)


def check(holds, what):
    if not holds:
        fail(what)


class Browser:
    """Chromium on a profile of its own, spoken to over a pipe."""

    def __init__(self):
        self.profile = tempfile.mkdtemp()
        to_read, self.to = os.pipe()
        self.back, to_write = os.pipe()
        flags = (
            "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run "
            "--disable-background-networking --disable-component-update --disable-sync "
            f"--user-data-dir={self.profile} --remote-debugging-pipe about:blank"
        ).split()
        command = f'exec "$0" "$@" 3<&{to_read} 4>&{to_write}'
        self.log = open(os.path.join(out, "chromium.log"), "wb")
        self.process = subprocess.Popen(
            ["bash", "-c", command, shutil.which("chromium"), *flags],
            pass_fds=(to_read, to_write), stdout=self.log, stderr=self.log,
        )
        os.close(to_read)
        os.close(to_write)
        self.number, self.waiting, self.requests, self.session = 0, b"", [], None
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        attached = self.call("Target.attachToTarget", targetId=target, flatten=True)
        self.session = attached["sessionId"]
        for domain in ("Page", "Runtime", "Network"):
            self.call(f"{domain}.enable")

    def call(self, method, **params):
        self.number += 1
        message = {"id": self.number, "method": method, "params": params}
        if self.session:
            message["sessionId"] = self.session
        os.write(self.to, json.dumps(message).encode() + b"\0")
        while True:
            answer = self.read()
            if answer.get("id") == self.number:
                check("error" not in answer, f"{method}: {answer.get('error')}")
                return answer["result"]

    def read(self):
        while b"\0" not in self.waiting:
            part = os.read(self.back, 1 << 20)
            check(part, "the browser went away")
            self.waiting += part
        text, self.waiting = self.waiting.split(b"\0", 1)
        answer = json.loads(text)
        if answer.get("method") == "Network.requestWillBeSent":
            self.requests.append(answer["params"]["request"]["url"])
        return answer

    def ask(self, script):
        result = self.call("Runtime.evaluate", expression=script, returnByValue=True)
        check("exceptionDetails" not in result, f"{script}: {result.get('exceptionDetails')}")
        return result["result"].get("value")

    def show(self, path, width, height, script=True):
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height,
                  deviceScaleFactor=1, mobile=width < 600)
        self.call("Emulation.setTouchEmulationEnabled", enabled=width < 600)
        self.call("Emulation.setScriptExecutionDisabled", value=not script)
        self.call("Page.navigate", url="file://" + path)
        for _ in range(200):
            if self.ask("document.readyState") == "complete":
                return
            time.sleep(0.1)
        fail("the page was never there")

    def picture(self, name, whole=False):
        data = self.call("Page.captureScreenshot", captureBeyondViewport=whole)["data"]
        with open(os.path.join(out, name + ".png"), "wb") as file:
            file.write(base64.b64decode(data))

    def key(self, key, code):
        for kind in ("rawKeyDown", "char", "keyUp"):
            text = {"text": "\r"} if kind == "char" and key == "Enter" else {}
            if kind == "char" and not text:
                continue
            self.call("Input.dispatchKeyEvent", type=kind, key=key, code=key,
                      windowsVirtualKeyCode=code, **text)

    def close(self):
        try:
            os.write(self.to, json.dumps({"id": 0, "method": "Browser.close"}).encode() + b"\0")
            self.process.wait(10)
        except (OSError, subprocess.TimeoutExpired):
            self.process.kill()
        shutil.rmtree(self.profile, ignore_errors=True)


def run(*arguments):
    return subprocess.run([program, *arguments], check=True, capture_output=True, text=True).stdout


def plan_without(plan, gone):
    """The plan without some points, and without what names them."""
    less = json.loads(json.dumps(plan))
    for point in gone:
        del less["points"][point]
    end = {json.dumps({"point": point}) for point in gone}
    for circuit in less["circuits"].values():
        circuit["order"] = [one for one in circuit.get("order", []) if one not in gone]
        circuit["spurs"] = [
            one for one in circuit.get("spurs", [])
            if one["point"] not in gone and json.dumps(one["from"]) not in end
        ]
        circuit["pins"] = [
            one for one in circuit.get("pins", [])
            if json.dumps(one["from"]) not in end and json.dumps(one["to"]) not in end
        ]
    return less


def to_pay(plan):
    """What the program says there is to pay; None where that is not known."""
    path = os.path.join(out, "less.wend")
    with open(path, "w") as file:
        json.dump(plan, file)
    total = json.loads(run("quote", path, "--json"))["quote"]["total"]
    return total["whole"]["sum"] if "whole" in total else None


# A house whose names are hostile, with two things that may be left out.
with open(os.path.join(root, "fixtures", "flat.wend")) as file:
    plan = json.load(file)
plan["project"]["title"] = HOSTILE
next(iter(plan["rooms"].values()))["name"] = HOSTILE
next(iter(plan["circuits"].values()))["name"] = HOSTILE
for point in plan["points"].values():
    point.pop("optional", None)
switched = {id for one in plan["controls"].values() for id in one["lights"] + one["switches"]}
free = [id for id, one in plan["points"].items() if id not in switched and one.get("circuit")]
by_kind = {}
for id in free:
    by_kind.setdefault(plan["points"][id]["kind"], []).append(id)
chosen = [ids[-1] for ids in list(by_kind.values())[:2]]
check(len(chosen) == 2, "the flat has two kinds of free points")
for id in chosen:
    plan["points"][id]["optional"] = True
plan["points"][chosen[0]]["note"] = HOSTILE
path = os.path.join(out, "house.wend")
with open(path, "w") as file:
    json.dump(plan, file)
run("papers", path, "--to", out, "--only", "page")
page = os.path.join(out, "quote.html")

SHOWN = "(e => e.checkVisibility({visibilityProperty: true}))"
CONTRAST = """(() => {
  const light = c => { const f = c.map(v => (v /= 255) <= .03928 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4);
    return .2126 * f[0] + .7152 * f[1] + .0722 * f[2]; };
  const rgb = text => text.match(/[\\d.]+/g).map(Number);
  const bad = [];
  for (const e of document.querySelectorAll('body *')) {
    if (e.closest('svg') || !e.checkVisibility()) continue;
    if (![...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())) continue;
    let ground = e, back = null;
    while (ground && !back) { const c = rgb(getComputedStyle(ground).backgroundColor);
      if (c.length === 3 || c[3] > 0) back = c; ground = ground.parentElement; }
    const a = light(rgb(getComputedStyle(e).color).slice(0, 3)), b = light((back || [255, 255, 255]).slice(0, 3));
    const ratio = (Math.max(a, b) + .05) / (Math.min(a, b) + .05);
    if (ratio < 4.5) bad.push(e.tagName + ' ' + ratio.toFixed(2) + ' ' + e.textContent.slice(0, 30));
  }
  return bad; })()"""
SMALL = """[...document.querySelectorAll('button, label, summary, .hit circle')]
  .filter(e => e.checkVisibility()).map(e => [e, e.getBoundingClientRect()])
  .filter(([e, b]) => b.width < 43.9 || b.height < 43.9)
  .map(([e, b]) => e.tagName + ' ' + b.width + ' × ' + b.height + ' ' + e.textContent.slice(0, 30))"""

browser = Browser()
try:
    for name, width, height in (("telephone", 360, 800), ("desk", 1280, 800)):
        browser.show(page, width, height)
        browser.picture(name)
        browser.picture(name + "-whole", whole=True)
        wide = browser.ask("document.documentElement.scrollWidth")
        check(wide <= width, f"{name}: the page is {wide} px wide")
        check(browser.ask(CONTRAST) == [], f"{name}: too faint: {browser.ask(CONTRAST)}")
        check(browser.ask(SMALL) == [], f"{name}: too small to tap: {browser.ask(SMALL)}")

        title = browser.ask("document.title")
        check(title == "Quote: " + HOSTILE, f"the title is {title!r}")
        check(browser.ask("document.scripts.length") == 1, "a script came in from the plan")
        for words in ("not a certificate", "invented", "asbestos", "Not in the price"):
            check(browser.ask(f"document.body.innerText.includes({words!r})"), f"{words} is not said")

        circuit = browser.ask("document.querySelector('[data-circuit]').dataset.circuit")
        runs = f"[...document.querySelectorAll('[data-subject^=\"leg {circuit} \"]')]"
        others = "[...document.querySelectorAll('[data-subject^=\"leg \"]')]"
        check(browser.ask(f"{runs}.length > 0 && {runs}.every({SHOWN})"), "runs are there to hide")
        box = f"document.querySelector('[data-circuit=\"{circuit}\"]').click()"
        browser.ask(box)
        check(browser.ask(f"!{runs}.some({SHOWN})"), f"circuit {circuit} is still seen")
        check(browser.ask(f"{others}.some({SHOWN})"), "the other circuits are still seen")
        browser.picture(name + "-hidden")
        browser.ask(box)
        check(browser.ask(f"{runs}.every({SHOWN})"), f"circuit {circuit} is seen again")

        point = chosen[0]
        place = browser.ask(f"""(() => {{ const e = document.querySelector('[data-point="{point}"]');
            e.scrollIntoView({{block: 'center', inline: 'center'}});
            const b = e.getBoundingClientRect();
            return [(b.left + b.right) / 2, (b.top + b.bottom) / 2]; }})()""")
        if width < 600:
            touch = [{"x": place[0], "y": place[1]}]
            browser.call("Input.dispatchTouchEvent", type="touchStart", touchPoints=touch)
            browser.call("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])
        else:
            for kind in ("mousePressed", "mouseReleased"):
                browser.call("Input.dispatchMouseEvent", type=kind, x=place[0], y=place[1],
                             button="left", clickCount=1)
        time.sleep(0.3)
        said = browser.ask("document.getElementById('card').checkVisibility() && "
                           "document.getElementById('card').innerText")
        check(said and "circuit" in said and "optional" in said, f"the card says {said!r}")
        check(HOSTILE in said, "the note stands in the card as it was written")
        browser.picture(name + "-card")
        browser.key("Escape", 27)
        check(not browser.ask("document.getElementById('card').checkVisibility()"), "Escape closes")
        check(browser.ask(f"document.activeElement.dataset.point") == point, "back where it was")
        browser.key("Enter", 13)
        check(browser.ask("document.getElementById('card').checkVisibility()"), "Enter opens")
        browser.key("Enter", 13)
        check(not browser.ask("document.getElementById('card').checkVisibility()"), "Enter closes")

        shown = lambda: browser.ask("document.querySelector('[data-sum=\"3\"]').textContent")
        cents = lambda: int(shown().replace(".", ""))
        heading = lambda: browser.ask("document.querySelector('header').innerText")
        check(cents() == to_pay(plan), f"with all: {shown()}")
        check("To pay, all in:" in heading(), f"the heading says {heading()!r}")
        check("With everything that is optional." in heading(), f"{heading()!r}")
        boxes = browser.ask("document.querySelectorAll('[data-bit]').length")
        check(boxes == 2, f"{boxes} boxes")
        ids = [id for id in plan["points"] if plan["points"][id].get("optional")]
        for kept in (1, 0, 2, 3):
            browser.ask(f"""document.querySelectorAll('[data-bit]').forEach(b => {{
                if (b.checked !== Boolean({kept} & 1 << b.dataset.bit)) b.click(); }})""")
            gone = [id for bit, id in enumerate(ids) if not kept & 1 << bit]
            expect = to_pay(plan_without(plan, gone))
            check(cents() == expect, f"kept {kept}: the page says {shown()}, the program {expect}")
            check(shown() in heading(), f"kept {kept}: {shown()} is not in {heading()!r}")
            check(("Without" in heading()) == (kept < 3), f"kept {kept}: {heading()!r}")
            browser.picture(f"{name}-kept-{kept}")

    # The same house where one of the two has no price: no total with it.
    kind = plan["points"][chosen[0]]["kind"]
    short = json.loads(json.dumps(plan))
    short["points"][chosen[0]]["kind"] = "heat_alarm"
    short["prices"]["items"] = [
        one for one in plan["prices"]["items"] if not one["code"].startswith(("heat", "alarm"))
    ]
    short_path, folder = os.path.join(out, "short.wend"), os.path.join(out, "short")
    with open(short_path, "w") as file:
        json.dump(short, file)
    check(to_pay(short) is None, f"a heat alarm in place of a {kind} has no price")
    run("papers", short_path, "--to", folder, "--only", "page")
    short_page = os.path.join(folder, "quote.html")
    browser.show(short_page, 360, 800)
    ids = [id for id in short["points"] if short["points"][id].get("optional")]
    for kept in (3, 0, 1, 2, 3):
        browser.ask(f"""document.querySelectorAll('[data-bit]').forEach(b => {{
            if (b.checked !== Boolean({kept} & 1 << b.dataset.bit)) b.click(); }})""")
        gone = [id for bit, id in enumerate(ids) if not kept & 1 << bit]
        expect = to_pay(plan_without(short, gone))
        text = browser.ask("document.querySelector('header').innerText")
        check(("To pay, all in:" in text) == (expect is not None), f"short, kept {kept}: {text!r}")
        check(("Incomplete: " in text) == (expect is None), f"short, kept {kept}: {text!r}")
        last = browser.ask("document.querySelector('[data-says=\"last\"]').innerText")
        check(last.startswith("total" if expect is not None else "priced so far"), f"{last!r}")
        browser.picture(f"short-kept-{kept}")

    browser.show(page, 360, 800, script=False)
    browser.picture("no-script", whole=True)
    check(set(browser.requests) == {"file://" + page, "file://" + short_page},
          f"it asked for {browser.requests}")
    browser.call("Emulation.setScriptExecutionDisabled", value=False)
    browser.call("Emulation.setEmulatedMedia", media="print")
    data = browser.call("Page.printToPDF")["data"]
    with open(os.path.join(out, "printed.pdf"), "wb") as file:
        file.write(base64.b64decode(data))
    check(len(data) > 20000, "it prints")
finally:
    browser.close()
print(f"quote page: circuits, points, choices, contrast, sizes; no requests (pictures in {out})")
