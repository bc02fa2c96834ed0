"""Gathering a report from the talks of a job. Nothing is worked out here but through `rules`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from types import MappingProxyType

from boxaloud.assistant.dialogue import Conversation, Entry, named_devices
from boxaloud.assistant.dialogue.assessment import Assessment, assess
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.box_list import Boxes
from boxaloud.assistant.dialogue.enclosures import (
    body_telling,
    conduit_body,
    pull_standing,
    pull_telling,
)
from boxaloud.assistant.dialogue.nlg.item_names import shown
from boxaloud.assistant.dialogue.policy.box_status import assumed
from boxaloud.assistant.dialogue.state import to_box
from boxaloud.assistant.reports.report_messages import opening, words
from boxaloud.assistant.reports.report_model import (
    NO_PROJECT,
    BodyReport,
    BoxReport,
    Change,
    JobReport,
    Picture,
    Project,
    PullReport,
)
from boxaloud.grammar.acts import Act, Suppose
from boxaloud.rules import STANDING, Advice, advise, cautions, table_row
from boxaloud.rules.contents import Box, Cable, Marked, TableBox
from boxaloud.rules.units import VolumeUnit
from boxaloud.rules.worksheet import Worksheet

_NONE: Mapping[str, Sequence[Picture]] = MappingProxyType({})


def job_report(
    conversation: Conversation,
    name: str,
    units: VolumeUnit = "in3",
    begun: str = "",
    written: str = "",
    project: Project = NO_PROJECT,
    only: str = "",
    pictures: Mapping[str, Sequence[Picture]] = _NONE,
    step: Callable[[], None] = lambda: None,
) -> JobReport:
    """The report of every box of a conversation of which something was said, or of the one named
    in `only`. `pictures` are those of each box by its name; `step` is called after each box."""
    boxes, told = conversation.boxes, []
    for report in _reports(boxes, (only,) if only else boxes.names):
        if shown := tuple(pictures.get(report.name, ())):
            report = replace(report, pictures=shown)
        if not report.blank:
            told.append(report)
        step()
    cautions = tuple(caution.says for caution in STANDING)
    return JobReport(name, units, begun, written, tuple(told), cautions, project)


def _reports(boxes: Boxes, names: Iterable[str]) -> Iterator[BoxReport]:
    """The report of each box. In a job of thousands many were told alike: those are worked out
    once."""
    known: dict[object, BoxReport] = {}
    for name in names:
        told: object = (boxes.began_under(name), tuple(map(_telling, boxes.journal(name))))
        try:
            found = known.get(told)
        except TypeError:  # a strange row of the journal, with which nothing compares
            found, told = None, name
        if found is None:
            found = known[told] = box_report(boxes.talk(name))
        yield replace(found, name=name)


def _telling(entry: Entry) -> Entry | None:
    """An entry, None for one that is silent of what is in the box: "next box hall"."""
    return entry if entry.acts or entry.unread or entry.refusal else None


def box_report(talk: Talk) -> BoxReport:
    """The report of one box."""
    stands = talk.assessment.verdict != "incomplete"
    state = named_devices.as_counted(talk.state) if stands else talk.state
    found, box = assess(state), to_box(state)
    pull = _pull(talk)
    anything = bool(talk.state.items or (talk.state.box and pull is None))
    counted = not found.spaces and found.by_volume and not found.small_alone
    return BoxReport(
        name=talk.name,
        contents=tuple(shown(content) for content in box.contents),
        said=tuple(entry.heard.strip() for entry in talk.journal if not _quiet(entry)),
        unused=tuple(run.words for entry in talk.journal for run in entry.weighty),
        sheet=found.sheet,
        verdict=found.verdict,
        low=found.low,
        high=found.high,
        assumed=assumed(state),
        open=_open(talk, found) if anything or pull is None else (),
        cautions=_cautions(box, None if found.spaces else found.sheet) if anything else (),
        spaces=found.spaces,
        advice=changes(box) if counted and found.verdict == "over" else (),
        pull=pull,
        body=_body(talk),
    )


def _body(talk: Talk) -> BodyReport | None:
    """The conduit body of a talk; None where there is none."""
    state, found = talk.state, talk.assessment.body
    if not conduit_body.named(state):
        return None
    if found is None:
        return BodyReport(body_telling.governed(), state.body, False)
    lines = () if found.sheet is None else found.sheet.lines
    remedy = body_telling.remedy(state) if found.verdict == "over" else ""
    sheet = None if found.pull is None else found.pull.sheet
    also = [one.rule for one in sheet.requirements] if sheet is not None else []
    also += ["body-marked-large"] if found.marked else []
    return BodyReport(body_telling.told(state), state.body, True, lines, remedy, tuple(also))


def _pull(talk: Talk) -> PullReport | None:
    """The pull box of a talk; None where there is none, or something of it is open."""
    if talk.state.pulls is None:
        return None
    found = pull_standing.standing(talk.state)
    if found.sheet is None or found.box is None:
        return None
    lines = tuple(dict.fromkeys(pull_standing.real_lines(found.sheet)))
    cables = pull_telling.cables(talk.state)
    return PullReport(
        pull_telling.told(talk.state),
        found.sheet,
        lines,
        found.box.raceways,
        too_small=found.verdict == "over",
        enough=found.verdict == "fits",
        compared=found.compared,
        also=(*(remark.rule for remark in found.remarks), *(["pull-cable"] if cables else [])),
    )


def changes(box: Box) -> tuple[Change, ...]:
    """What can be done about a box that is over: enough first, then the least work."""
    order = [row["kind"] for row in words()["change"]]
    found = [_change(advice) for advice in advise(box)]
    return tuple(sorted(found, key=lambda c: (not c.enough, order.index(c.kind))))


def _change(advice: Advice) -> Change:
    what = advice.what[:1].upper() + advice.what[1:]
    row = next(row for row in words()["change"] if row["kind"] == advice.kind)
    material = str(row.get("material", "")).format(**_parts(advice.changed))
    return Change(
        kind=advice.kind,
        what=what,
        margin=advice.margin,
        enough=advice.enough,
        section=advice.section,
        material=material,
        quantity=_cables(advice.changed) if row.get("each") == "cable" else 1,
        unit=advice.unit,
    )


def _cables(box: Box) -> int:
    """How many cables come in, at least one."""
    return sum(c.count for c in box.contents if isinstance(c, Cable) and c.path != "inside") or 1


def _parts(box: Box) -> dict[str, object]:
    """What a material is called by: the standard box added last, the volume of a ring."""
    names: dict[str, object] = {"name": "", "short": ""}
    for part in box.parts:
        if isinstance(part, TableBox):
            gangs = f", {part.gangs} gangs" if part.gangs > 1 else ""
            row = table_row(part.row)
            names["name"] = f"{row.name}{gangs}, {row.volume * part.gangs} in³"
        elif isinstance(part, Marked):
            names["short"] = part.volume
    return names


@lru_cache(maxsize=1)
def _quiet_acts() -> frozenset[str]:
    return frozenset(words()["quiet"]["acts"])


def _quiet(entry: Entry) -> bool:
    """True where the words only asked, steered or were of something else, and nothing that
    weighs was left unread."""
    return not (entry.weighty or entry.refusal) and all(map(_is_quiet, entry.acts))


def _is_quiet(act: Act) -> bool:
    """ "Is an 18 enough for two 14-2s" may have described the box."""
    if isinstance(act, Suppose):
        return not act.asks_fit
    return type(act).__name__ in _quiet_acts()


def _cautions(box: Box, sheet: Worksheet | None) -> tuple[str, ...]:
    return tuple(f"{caution.says} ({caution.section})" for caution in cautions(box, sheet))


def _open(talk: Talk, found: Assessment) -> tuple[str, ...]:
    asks = found.question.slot if found.question else None
    slots = [slot.slot for slot in found.sheet.open] if found.body is None else []
    if talk.state.empty:
        slots = [slot for slot in slots if slot != "contents"]
    named = [opening(slot) for slot in dict.fromkeys([*([asks] if asks else []), *slots])]
    return tuple(dict.fromkeys(named))
