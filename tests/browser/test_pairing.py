"""A phone of the same network comes in by the code that stands in the terminal, over TLS."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from boxaloud.assistant.web.endpoint import own_address
from driving import FULL, PATIENCE_MS, SIZES, Hand, served
from playwright.sync_api import Browser, expect

pytest.importorskip("segno")
pytest.importorskip("cryptography")


def test_the_code_lets_a_phone_in_and_the_page_works(browser: Browser, tmp_path: Path) -> None:
    if not own_address():
        pytest.skip("this machine is in no network")
    with served(tmp_path, "--lan") as (line, port):
        code = re.search(r"the code (\d{6})", line)
        assert code, line
        context = browser.new_context(
            ignore_https_errors=True,  # nobody has signed the certificate, which the phone is told
            **SIZES[1].options,  # type: ignore[arg-type]
        )
        hand = Hand(context.new_page(), touch=True)
        hand.page.goto(f"https://{own_address()}:{port}/")
        wrong = "111111" if code[1] != "111111" else "111112"
        hand.page.fill("#code", wrong)
        hand.page.tap("button")
        expect(hand.page.locator("body")).to_contain_text("not the code", timeout=PATIENCE_MS)
        hand.page.goto(f"https://{own_address()}:{port}/")
        hand.page.fill("#code", f"{code[1][:3]} {code[1][3:]}")
        hand.page.tap("button")
        hand.page.wait_for_selector("html[data-ready]", timeout=PATIENCE_MS)
        hand.say(FULL + ", no clamps")
        hand.sees("fits", "0.00")
        assert hand.page.evaluate("isSecureContext")
        context.close()
