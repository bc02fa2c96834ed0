"""Nobody is kept out: contrast, names, sizes, keys, narrow and turned screens."""

from __future__ import annotations

import json

import pytest
from driving import FULL, PATIENCE_MS, SIZES, Hand
from playwright.sync_api import expect

LEAST_TARGET = 44
"""CSS pixels: WCAG 2.2, success criterion 2.5.5 (Target Size, enhanced)."""
NARROWEST = 320
"""CSS pixels: WCAG 2.2, success criterion 1.4.10 (Reflow)."""

SMALL_TARGETS = """(least) => [
    ...document.querySelectorAll('button, summary, input, select, .button')]
  .filter((one) => one.checkVisibility({visibilityProperty: true}) && !one.closest('.unseen'))
  .filter((one) => !one.classList.contains('unseen'))
  .map((one) => [one.closest('label')?.getBoundingClientRect() ?? one.getBoundingClientRect(), one])
  .filter(([box]) => box.width < least - 0.5 || box.height < least - 0.5)
  .map(([box, one]) => `${one.outerHTML.slice(0, 80)} ${box.width}x${box.height}`)"""


SEVERAL_AT_ONCE = """globalThis.IntersectionObserver = class extends IntersectionObserver {
  constructor(done, options) {
    let before = [];
    super((entries, self) => { done([...before, ...entries], self); before = entries; }, options);
  }
}"""
"""Changes of view come as on a busy phone: the one before them once more, then the new one. The
list of entries is in the order of time (W3C, Intersection Observer, 3.2.5)."""


def all_open(hand: Hand) -> None:
    hand.say(FULL + ", clamps inside, and 7 frobnitzers")
    hand.page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
    hand.page.wait_for_selector("#standard li")
    hand.page.wait_for_selector("#help details", state="attached")


@pytest.mark.parametrize("page_at", [SIZES[1]], indirect=True, ids=["390x844"])
@pytest.mark.parametrize("colours", ["", "dark", "light", "contrast"])
def test_no_rule_of_accessibility_is_broken(hand: Hand, axe: str, colours: str) -> None:
    all_open(hand)
    hand.page.evaluate(
        "(name) => name ? document.documentElement.dataset.colours = name"
        " : delete document.documentElement.dataset.colours", colours,
    )  # fmt: skip
    # the page's policy lets no script in; the driver's own world is not the page's
    hand.page.evaluate(f"{axe}; true") if hand.page.evaluate("!globalThis.axe") else None
    found = hand.page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    hand.page.evaluate("delete document.documentElement.dataset.colours")
    told = [
        (each["id"], [node["target"] for node in each["nodes"]][:3]) for each in found["violations"]
    ]
    assert told == [], json.dumps(told, indent=1)


def test_what_is_tapped_is_large_enough(hand: Hand) -> None:
    all_open(hand)
    assert hand.page.evaluate(SMALL_TARGETS, LEAST_TARGET) == []


@pytest.mark.parametrize("page_at", [SIZES[1]], indirect=True, ids=["390x844"])
@pytest.mark.parametrize(
    ("width", "height"), [(NARROWEST, 568), (360, 740), (390, 844), (844, 390), (740, 360)]
)
def test_nothing_is_cut_off_on_a_narrow_or_turned_screen(
    hand: Hand, width: int, height: int
) -> None:
    was = hand.page.viewport_size
    assert was is not None
    all_open(hand)
    hand.page.set_viewport_size({"width": width, "height": height})
    wide = hand.page.evaluate("document.documentElement.scrollWidth")
    over = hand.page.evaluate(
        "(width) => [...document.querySelectorAll('main *')]"
        ".filter((one) => one.checkVisibility() && !one.closest('svg')"
        " && one.getBoundingClientRect().right > width + 1)"
        ".map((one) => one.outerHTML.slice(0, 90))",
        width,
    )
    hand.page.set_viewport_size(was)
    assert (wide, over) == (width, [])


def test_every_control_is_reached_by_the_tab_key(hand: Hand) -> None:
    hand.say(FULL)
    hand.page.evaluate("document.activeElement.blur()")
    wanted = hand.page.evaluate(
        "[...document.querySelectorAll('button, summary, input, select')]"
        ".filter((one) => one.checkVisibility() && !one.disabled && one.type !== 'radio').length"
    )
    reached: set[str] = set()
    for _ in range(3 * wanted):
        hand.page.keyboard.press("Tab")
        reached.add(
            hand.page.evaluate(
                "(() => { const at = document.activeElement;"
                " const all = document.querySelectorAll('button, summary, input, select');"
                " return at.type === 'radio' ? '' : String([...all].indexOf(at)); })()"
            )
        )
    assert len(reached - {"", "-1"}) >= wanted


def test_the_reply_is_announced_once(hand: Hand) -> None:
    hand.say(FULL)
    assert hand.page.locator("#reply").get_attribute("aria-live") == "polite"
    assert hand.page.locator("#verdict [aria-live], #asks[aria-live]").count() == 0


def test_letters_are_large_enough_to_read(hand: Hand) -> None:
    hand.say(FULL + ", no clamps")
    sizes = hand.page.evaluate(
        "[...document.querySelectorAll('main *, .dock *')].filter((one) => one.checkVisibility()"
        " && [...one.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim()))"
        ".map((one) => parseFloat(getComputedStyle(one).fontSize))"
    )
    assert min(sizes) >= 14
    word = hand.page.evaluate(
        "parseFloat(getComputedStyle(document.querySelector('.word')).fontSize)"
    )
    assert word >= 38


def test_the_verdict_stays_in_view_and_what_is_asked_for_comes_into_it(hand: Hand) -> None:
    """Past defects: a count corrected far down showed no verdict, “What to change” no answer, and
    what could not be done no word of it."""
    hand.say(FULL + ", clamps inside")
    hand.sees("over", "2.00")
    hand.part("worksheet")
    hand.page.locator("#standing").scroll_into_view_if_needed()
    brief = hand.page.locator("#brief")
    expect(brief).to_be_in_viewport(timeout=PATIENCE_MS)
    expect(brief).to_contain_text("2.00")
    hand.press("What to change")
    expect(hand.page.locator("#reply")).to_be_in_viewport(timeout=PATIENCE_MS)
    hand.page.locator("#standing").scroll_into_view_if_needed()
    hand.press("Share")
    expect(hand.page.locator("#trouble")).to_be_in_viewport(timeout=PATIENCE_MS)


@pytest.mark.parametrize("page_at", [SIZES[1]], indirect=True, ids=["390x844"])
def test_the_verdict_stays_in_view_where_several_changes_are_told_at_once(
    page_at: Hand, way: str
) -> None:
    """Past defect: the first of several changes was taken for how it stands, so a busy phone showed
    no verdict to whoever had scrolled down."""
    context = page_at.page.context
    page = context.new_page()
    page.add_init_script(SEVERAL_AT_ONCE)
    hand = Hand(page, touch=True)
    hand.open(way)
    hand.say(FULL + ", clamps inside")
    page.locator("#standing").scroll_into_view_if_needed()
    expect(page.locator("#brief")).to_be_in_viewport(timeout=PATIENCE_MS)
    page.locator("#verdict").scroll_into_view_if_needed()
    expect(page.locator("#brief")).to_be_hidden(timeout=PATIENCE_MS)
    page.close()
