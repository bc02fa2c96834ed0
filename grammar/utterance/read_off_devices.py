"""What a device says is no volume of the box: "thermostat says 68"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_READS = lazy_pattern(
    r"(?i)(?:(?:still|only|just|now|always) )*(?:says|reads|shows|showed|read|said)\b"
)
#: A device that is pointed at, and not counted: what is said of it stands behind it.
_THE_DEVICE = lazy_pattern(r"(?i)(?:(?:the|that|this|my|his|her|their|your) )?[a-z]")
_COUNTED = lazy_pattern(r"(?i)(?:an?|one|two|three|four|single|\d)\b")
_BEGINS = lazy_pattern(r"(?i)(?:^|[.,;:!?–—-])\s*(?:(?:and|but|so|well|now|ok|okay|hey),? )*$")


def read_off_devices(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The number is of the device: it says nothing of the box, and waits to be told again."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(act, acts.SetVolume) and _says(last, act, heard):
            left.append(Unread(act.words, act.span, True))
        else:
            kept.append(act)
    return kept


def _says(device: Act | None, number: acts.SetVolume, heard: str) -> bool:
    """Whether a number is what the device right before it says."""
    if not isinstance(device, acts.AddDevice) or _READS.match(number.words) is None:
        return False
    start, end = device.span
    return (
        heard[end : number.span[0]].strip() == ""
        and _COUNTED.match(device.words) is None
        and _THE_DEVICE.match(device.words) is not None
        and _BEGINS.search(heard[:start]) is not None
    )
