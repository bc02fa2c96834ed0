"""Every task of the page, by touch on two sizes of phone and by keys alone, both ways."""

from __future__ import annotations

import re

import pytest
from driving import FULL, PATIENCE_MS, SIZES, Hand
from playwright.sync_api import expect


def test_a_box_is_told_asked_about_and_judged(hand: Hand) -> None:
    hand.say(FULL)
    hand.sees("incomplete")
    expect(hand.page.locator("#edition")).to_contain_text("314.16, 2023")
    hand.choose("inside")
    hand.sees("over", "2.00")
    expect(hand.page.locator("#reply .caution-act")).to_have_count(1)
    expect(hand.page.locator("#caption")).to_contain_text("314.16, edition 2023")
    expect(hand.page.locator("#fill svg")).to_have_attribute("aria-label", re.compile("20.00"))
    hand.say("no clamps")
    hand.sees("fits", "0.00")


def test_a_count_is_corrected_where_it_stands(hand: Hand) -> None:
    hand.say(FULL + ", no clamps")
    hand.sees("fits", "0.00")
    hand.use(hand.page.get_by_role("button", name="One less: three 14-2"))
    hand.sees("fits", "4.00")  # two conductors of 2.0 by 314.16(B)(1)
    hand.press("Undo")
    hand.sees("fits", "0.00")
    hand.press("Redo")
    hand.sees("fits", "4.00")


def test_it_is_said_what_would_make_an_over_box_fit(hand: Hand) -> None:
    hand.say(FULL + ", clamps inside")
    hand.sees("over", "2.00")
    hand.press("What to change")
    expect(hand.page.locator("#reply")).to_contain_text(
        re.compile("box|clamps"), timeout=PATIENCE_MS
    )


def test_a_change_is_tried_and_then_entered(hand: Hand) -> None:
    hand.say(FULL + ", clamps inside")
    hand.sees("over", "2.00")
    hand.part("try")
    hand.type("#try-words", "clamps outside")
    hand.use(hand.page.locator("#try-form button"))
    expect(hand.page.locator("#tried tr.differs").first).to_be_visible(timeout=PATIENCE_MS)
    hand.sees("over", "2.00")
    hand.use(hand.page.get_by_role("button", name="Enter this change"))
    hand.sees("fits", "0.00")


def test_a_standard_box_is_found_by_whether_it_fits(hand: Hand) -> None:
    hand.say(FULL + ", clamps inside")
    hand.sees("over", "2.00")
    hand.part("standard")
    hand.type("#standard-words", "4 x 1-1/2 square")
    # NEC Table 314.16(A): a 4 by 1-1/2 square holds 21.0 cubic inches
    row = hand.page.locator("#standard li").filter(has_text="4 × 1-1/2 square").first
    expect(row).to_contain_text("fits 1.00", timeout=PATIENCE_MS)
    hand.use(row.locator("button"))
    hand.sees("fits", "1.00")


def test_boxes_of_a_job_are_begun_and_opened_again(hand: Hand) -> None:
    hand.say(FULL + ", no clamps")
    first = hand.page.locator("#box").inner_text()
    hand.press("Next box")
    hand.sees("incomplete")
    hand.part("boxes")
    row = hand.page.locator("#boxes li").filter(has_text=first)
    expect(row).to_contain_text("fits", timeout=PATIENCE_MS)
    hand.use(row.locator("button"))
    expect(hand.page.locator("#box")).to_have_text(first, timeout=PATIENCE_MS)
    hand.sees("fits", "0.00")


def test_a_line_of_the_worksheet_opens_to_its_source(hand: Hand) -> None:
    hand.say(FULL + ", no clamps")
    part = hand.part("worksheet")
    line = part.locator("details").filter(has_text="314.16(B)(5)")
    hand.use(line.locator("summary"))
    expect(line).to_contain_text("Source:")
    expect(line).to_contain_text("edition 2023")


def test_the_worksheet_is_shared(hand: Hand) -> None:
    hand.say(FULL + ", no clamps")
    hand.press("Share")
    expect(hand.page.locator("#trouble")).to_contain_text("Copied", timeout=PATIENCE_MS)
    told = hand.page.evaluate("navigator.clipboard.readText()")
    assert "314.16(B)(5)" in told
    assert "licensed electrician" in told


def test_words_that_weigh_hold_the_verdict(hand: Hand) -> None:
    hand.say(FULL + ", no clamps, and 7 frobnitzers")
    hand.sees("incomplete")
    expect(hand.page.locator("#unread-row")).to_be_visible()


def test_jobs_are_begun_and_opened_again(hand: Hand) -> None:
    hand.say(FULL + ", no clamps")
    name = hand.page.locator("#job").inner_text()
    hand.new_job(f"{name[:60]} two")
    hand.sees("incomplete")
    hand.part("jobs")
    hand.use(hand.page.locator("#jobs button").filter(has_text=re.compile(f"^{re.escape(name)}$")))
    expect(hand.page.locator("#job")).to_have_text(name, timeout=PATIENCE_MS)
    hand.sees("fits", "0.00")


@pytest.mark.parametrize("page_at", [SIZES[2]], indirect=True, ids=["keyboard"])
def test_a_list_that_is_filled_anew_keeps_who_is_on_it(hand: Hand) -> None:
    """Past defect: the list of jobs came anew while somebody was on a job with the keys, and the
    key went nowhere (WCAG 2.2, success criterion 2.4.3)."""
    hand.part("jobs")
    first = hand.page.locator("#jobs button").first
    expect(first).to_be_visible(timeout=PATIENCE_MS)
    first.focus()
    name = first.inner_text()
    hand.page.evaluate("document.querySelector('#jobs button').dataset.old = 'yes'")
    hand.page.evaluate("document.getElementById('part-jobs').dispatchEvent(new Event('toggle'))")
    expect(hand.page.locator("#jobs button[data-old]")).to_have_count(0, timeout=PATIENCE_MS)
    assert hand.page.evaluate("document.activeElement.textContent") == name


def test_nothing_typed_is_lost_where_it_is_not_taken(hand: Hand) -> None:
    hand.page.route("**/engine", lambda route: route.abort())
    pocket = hand.page.locator("meta[name=engine]").get_attribute("content") == "pocket"
    hand.type("#words", "two 14-2 cables")
    hand.page.keyboard.press("Enter")
    if pocket:
        expect(hand.page.locator("#heard")).to_have_text("two 14-2 cables", timeout=PATIENCE_MS)
    else:
        expect(hand.page.locator("#trouble")).to_contain_text("does not answer")
        expect(hand.page.locator("#words")).to_have_value("two 14-2 cables")
    hand.page.unroute("**/engine")
