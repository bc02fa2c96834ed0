"""Makes the README's photographs of the page in `.pictures/`, in the frame of a phone.

Run it by hand after a change of the page: `python tests/browser/make_photographs.py`. The page
stands alone in them; the boxes are those of the demonstration job.
"""

from __future__ import annotations

import base64
import tempfile
from pathlib import Path

from boxaloud.assistant.storage.demo_job import told
from boxaloud.assistant.web.folder_build import build
from driving import FLAGS, Hand, StaticHost, chromium
from playwright.sync_api import Browser, sync_playwright

FOLDER = Path(__file__).parents[2] / ".pictures"
WIDTH, HEIGHT = 390, 844
SHOWN = (("kitchen island", "dark"), ("hall switches", "light"))
"""The boxes of the demonstration job that are shown, and the colours of each."""
FRAME = """<body style="margin:0;background:transparent">
<div id="row" style="display:inline-flex;gap:28px;padding:8px;align-items:flex-start">{shots}</div>
</body>"""
SHOT = """<div style="padding:14px;border-radius:46px;background:#2b2f31;border:3px solid #5a6063">
<img style="display:block;border-radius:32px;width:{width}px" src="data:image/png;base64,{shot}">
</div>"""


def said_of(name: str) -> list[str]:
    """What is said of a box of the demonstration job."""
    return next(list(box["says"]) for box in told()["box"] if box["name"] == name)


def photograph(browser: Browser, url: str, name: str, colours: str) -> bytes:
    """The page after all that is said of a box."""
    context = browser.new_context(
        viewport={"width": WIDTH, "height": HEIGHT}, has_touch=True, is_mobile=True,
        device_scale_factor=1.5, reduced_motion="reduce",
    )  # fmt: skip
    hand = Hand(context.new_page(), touch=True)
    hand.page.add_init_script(f"localStorage.setItem('colours', '{colours}')")
    hand.open(url)
    for words in (f"next box {name}", *said_of(name)):
        hand.say(words)
    hand.page.evaluate("document.activeElement.blur(); scrollTo(0, 0)")
    taken = hand.page.screenshot()
    context.close()
    return taken


def main() -> None:
    """Take both, and put them side by side."""
    place = Path(tempfile.mkdtemp())
    build(place / "site")
    host = StaticHost(place / "site")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium(), args=FLAGS)
        shots = [photograph(browser, host.url, *each) for each in SHOWN]
        page = browser.new_page(viewport={"width": 2 * WIDTH, "height": HEIGHT})
        framed = [
            SHOT.format(width=WIDTH * 3 // 4, shot=base64.b64encode(shot).decode())
            for shot in shots
        ]
        page.set_content(FRAME.format(shots="".join(framed)))
        page.locator("#row").screenshot(path=FOLDER / "phone.png", omit_background=True)
        browser.close()
    host.off()


if __name__ == "__main__":
    main()
