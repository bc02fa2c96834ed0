"""Random boxes in words, typed and heard, against an arithmetic of our own: NEC 2023 314.16(B)."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from matrix_rows import VOLUME
from rewriting import WAYS, in_words
from standing import Standing, entered, standing
from trial_sentences import begun, by_ear, typed

CAPACITY = ("12.5", "14", "15.5", "18", "20.3", "21", "22.5", "30.3", "34", "42")
CLAMPS = {"no clamps": 0, "clamps inside": 1, "the clamps are outside": 0, "two internal clamps": 1}
DEVICES = ("switch", "receptacle", "dimmer", "timer", "GFCI")
MEANING_THE_SAME = ("filler", "please", "small letters", "capitals", "14/2 for 14-2", "semicolons")
quick = settings(
    max_examples=120, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)


@dataclass(frozen=True)
class Described:
    """A box of one wire size: how many cables of two and of three, devices, clamps, volume."""

    awg: int
    twos: int
    threes: int
    devices: tuple[str, ...]
    clamps: str
    capacity: str

    @property
    def parts(self) -> list[str]:
        """What is said of it."""
        cables = [
            f"{in_words(count)} {self.awg}-{wires}{'s' if count > 1 else ''}"
            for count, wires in ((self.twos, 2), (self.threes, 3))
            if count
        ]
        devices = [f"a {one}" for one in self.devices] or ["no devices"]
        return [*cables, *devices, f"{self.capacity} cubic inches", self.clamps]

    @property
    def total(self) -> Decimal:
        """(1) a conductor each, (2) one for clamps, (4) two a yoke, (5) one for four grounds and
        a quarter for each beyond; Table 314.16(B)(1). Cubic inches."""
        grounds = self.twos + self.threes
        count = Decimal(
            2 * self.twos + 3 * self.threes + CLAMPS[self.clamps] + 2 * len(self.devices)
        )
        count += 1 + Decimal(max(0, grounds - 4)) / 4
        return count * VOLUME[self.awg]

    @property
    def verdict(self) -> str:
        """What its arithmetic says."""
        return "fits" if self.total <= Decimal(self.capacity) else "over"


boxes = st.builds(
    Described,
    st.sampled_from([14, 12]),
    st.integers(1, 4),
    st.integers(0, 2),
    st.lists(st.sampled_from(DEVICES), max_size=3, unique=True).map(tuple),
    st.sampled_from(sorted(CLAMPS)),
    st.sampled_from(CAPACITY),
)


def right(got: Standing, box: Described) -> bool:
    """Whether a box stands as its arithmetic says."""
    return (got.verdict, got.total, got.capacity) == (box.verdict, box.total, Decimal(box.capacity))


@quick
@given(boxes, st.sampled_from(MEANING_THE_SAME), st.randoms(use_true_random=False))
def test_a_random_box_in_any_order_and_form(box: Described, way: str, dice: object) -> None:
    parts = box.parts
    dice.shuffle(parts)  # type: ignore[attr-defined]
    talk = begun([WAYS[way](", ".join(parts))])
    assert right(standing(talk), box)


@quick
@given(boxes)
def test_a_random_box_line_by_line(box: Described) -> None:
    assert right(standing(begun(box.parts)), box)


@quick
@given(boxes)
def test_a_random_box_by_ear_is_right_or_asked_about(box: Described) -> None:
    talk = begun([by_ear(part) for part in box.parts])
    got = standing(talk)
    assert right(got, box) or (got.verdict == "incomplete" and talk.asks)


@quick
@given(
    boxes,
    st.sampled_from(
        ["what if I add {}", "did I say {}?", "would it fit with {}", "should I add {}?"]
    ),
    st.sampled_from(["a dimmer", "another 14-2", "a 42 cubic inch box"]),
    st.sampled_from([typed, by_ear]),
)
def test_a_question_leaves_a_random_box_alone(
    box: Described, form: str, of: str, voice: object
) -> None:
    talk = begun(box.parts)
    before = entered(talk)
    talk.hear(voice(form.format(of)))  # type: ignore[operator]
    assert entered(talk) == before
    assert right(standing(talk), box)


@quick
@given(boxes, st.sampled_from(["3 zorbs", "eleven zorbs", "7 qwx"]), st.integers(0, 2))
def test_no_random_box_fits_over_a_number_unread(box: Described, words: str, place: int) -> None:
    parts = box.parts
    parts.insert(len(parts) - place, words)
    talk = begun([", ".join(parts)])
    assert standing(talk).verdict != "fits"
