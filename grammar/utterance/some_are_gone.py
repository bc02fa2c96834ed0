"""Some of several that are not in the box after all, and how many that leaves: "one of those three
I'm going to send elsewhere, so two", "pull one of the cables then, leave two"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts.reference import ThingKind
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value

_NUMBER = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|1?\d)"
_SIZES = {"fourteen": 14, "twelve": 12, "ten": 10, "eight": 8, "six": 6}
_SIZED = rf"(?:number )?(?:{'|'.join(_SIZES)}|1[024]|[86])['’]?e?s"
_DEVICES = r"(?:switches|receptacles|outlets|devices|dimmers|duplexes)"
_GONE = lazy_pattern(
    r"(?i)\W*(?:(?:um|uh|er|hello|hi|hey|please|well|no|and|so|but|oh|wait|actually|now|then|yes"
    r"|ok|okay|let['’]?s|let me|sorry"
    r"|i can|i['’]ll)\b[, ]*)*"
    r"(?P<verb>(?:strike|pull|take|drop|cut|lose|scratch|remove|cross|leave) (?:out |off |away )?)?"
    rf"(?P<n>{_NUMBER}) of (?:the|those|these|them|my|our)\b(?: {_NUMBER}(?![\w-]))?"
    rf"(?: (?P<noun>cables?|runs|wires|conductors|{_SIZED}|{_DEVICES})\b(?![-/ ](?:two|three"
    rf"|[23])))?"
    r"(?P<tail>[^.;?!]*?)"
    r"(?P<end>[.,;]? (?:and )?(?:so(?: (?:that|it)(?:['’]s| is| leaves| makes)| leave"
    r"| there(?:['’]s| are)| i have| call it| keep)?|leave|leaves|leaving|that leaves|keep)\b"
    rf"(?: (?:me|us|only|just|with))*|,) (?P<m>{_NUMBER})(?: of (?:them|those))?"
    r"(?: (?:here|left|now|in all|altogether|after all|then|in this one|in here|in there|again)"
    r"|,? please)*"
    r"[\s.!]*"
)
#: Another number or thing there is what they are instead, and they are not gone.
_INSTEAD = lazy_pattern(
    rf"(?i)\b(?:{_NUMBER}|\d|{_DEVICES[3:-1]}|switch|receptacle|outlet|dimmer|gfci|timer|duplex"
    r"|ungrounded|no ground|hot|dead|through|loop|inside|outside|(?<!any )more)\b"
)
_NOT_THERE = lazy_pattern(
    r"(?i)\b(?:(?:is|are)n['’]?t (?:really )?(?:there|here|in|any|mine|part)|(?:is|are|['’]s)"
    r" (?:gone"
    r"|not there|not here|only a|only)|gone|went|sen[dt]|cut|pull(?:ed|ing)?|took|take[ns]?"
    r"|mov(?:e|ed|ing)|remov(?:e|ed|ing)|elsewhere|somewhere else|spares?|twice|blank|filler"
    r"|never (?:leave|leaves|come|comes|enter|enters)|don['’]?t count|doesn['’]?t count|abandon\w*"
    r"|(?:to|in|into|of) (?:the|an?|that) (?:other|next|junction|different) (?:box|one))\b"
    r"|another box|\bneighbou?r['’]?s?['’]? (?:box|one|side)\b"
    r"|\b(?:leav(?:e|es|ing)|left|goes?|going)\b.*\bother (?:pipe|conduit|raceway|emt|tube)\b"
)
#: "One of those isn't gone": it is there.
_STAYS = lazy_pattern(
    r"(?i)\b(?:(?:is|are|was|were|did|does|do|has|have)n['’]?t|not|never)(?: \w+)?"
    r" (?:gone|going|g[eo]t|go|been|taken|pulled|cut|sent|moved|removed|left|leaving)\b"
)


def some_are_gone(heard: str) -> acts.Recount | None:
    """How many of several there are without those that an utterance says are gone; None for any
    other utterance. Which they are is told by how many they were."""
    found = _GONE.fullmatch(heard)
    if found is None or _INSTEAD.search(found["tail"]) or _STAYS.search(found["tail"]):
        return None
    leaving = found["verb"] or "lea" in found["end"].casefold()
    if not leaving and not _NOT_THERE.search(found["tail"]):
        return None
    gone, stay = (int(spoken_value(found[key])) for key in ("n", "m"))
    target = _target((found["noun"] or "").casefold(), found["tail"].casefold())
    return acts.Recount(
        target=target, count=stay, of=gone + stay,
        words=heard.strip(), span=(0, len(heard)), function="correction",
    )  # fmt: skip


def _target(noun: str, tail: str) -> acts.Reference:
    """What is counted, by its name or by what is said of it: "I counted the same cable twice"."""
    kind: ThingKind = "anything"
    awg = next((size for word, size in _SIZES.items() if word in noun or str(size) in noun), None)
    if awg is not None:
        kind = "wire"
    elif noun in ("wires", "conductors"):
        kind = "conductors"
    elif noun in ("cable", "cables", "runs") or (not noun and "cable" in tail):
        kind = "cable"
    elif noun:
        kind = "device"
    return acts.Reference(kind=kind, awg=awg, words=noun or "those")
