"""A count said anew with a reason beside it: "six twelves, I forgot the other pair".

Some words show that it is of all there are ("three 14-2s it is", "so one 12-2"); with others that
is so where more are counted than were there, and only the talk knows how many these are: such a
count carries the doubt `anew`.
"""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Thing, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.running_passes import Pass

_COUNTED = (acts.AddCable, acts.AddConductors, acts.AddDevice)
_FURTHER = lazy_pattern(
    r"(?i)\b(?:more|another|extra|additional|other|second|third|fourth|further|same|an?)\b"
)
_ADDING = lazy_pattern(
    r"(?i)\b(?:add(?:ed|ing)?|plus|also|put(?:ting)?|throw|run(?:ning)?|bring(?:ing)?|pull(?:ed|ing)?"
    r"|stick|include|and(?! it)|with|another|got to|need(?:s|ed)?(?: to)?)(?: in| on)? $"
)
_ALL_BEFORE = lazy_pattern(
    r"(?i)\b"
    r"(?:so(?: (?:now|it'?s|it is|that'?s|that is|just|only|we have|i have|we'?re at|that'?ll be"
    r"|that will be|that makes(?: it)?|that leaves|make it|actually"
    r"|really|down to|left with|i'?ve got))*"
    r"|(?:that|which|it|this) makes(?: it| us| me)?|(?:makes|made) (?:it|that)(?: up to)?"
    r"|(?:brings|brought|takes|took|gets|got|puts|put|bumps|bumped|leaves|left) (?:it|us|me|that)"
    r" (?:up |down |back )?(?:to|at|with)"
    r"|(?:leav(?:e|es|ing)|keep(?:s|ing)?) (?:it|that|us|me) (?:at|with)|that'?ll be"
    r"|that leaves(?: us| me)?(?: with)?|(?:it'?s |we'?re )?down to"
    r"|(?:it'?s |we'?re )?back to|change (?:it|that),?(?: to)?|call it|make that)"
    r"(?: (?:just|only|really|a))? $"
)
_ALL_BEHIND = lazy_pattern(
    r"(?i),? *(?:it is|it was|is it|is (?:right|correct|the (?:right )?(?:number|count))"
    r"|left|remain(?:ing)?|is (?:what|all)(?: (?:that )?(?:i|we)(?:'ve)? (?:have|got|see|count)"
    r"| there is| is there| that is there)?|that(?:'?s| is) (?:what|all)(?:'s| is)? (?:there"
    r"|i see|i have"
    r"|i got|i count|in (?:here|there)|we have)(?: is)?|is all (?:it|that|there) is|then not \w+"
    r"|now,? (?:not|instead)\b.*|final)"
    r"(?: (?:now|then|in (?:there|here)))*(?=\s*(?:[.,;:!)-]|$))"
)
_REASON = lazy_pattern(
    r"(?i)(?:\s+(?:now|actually|apparently|here|in (?:here|there)|total))*[\s.,;:!–-]+"
    r"(?:(?:because|cause|since|as|and|sorry|my bad|oh|i think|well) )*(?:"
    r"(?:i|we|he|they|you)?(?: (?:had|have|'ve|just|must have|clean|plain|totally|completely))*"
    r" ?(?:forgot|forgotten|missed|overlooked|skipped|left out|didn'?t see|did not see|miscounted"
    r"|didn'?t count|did not count)(?: (?:about|to count|to say))?(?! (?:that one|those|them|it"
    r"|that|both|all)\b)(?: the| a| an| one| my| that there| there)?\b"
    r"|(?:i |we )(?:see|found|spot|count|notice)(?:ed)? (?:<|\w+ more|another|one more|it now)"
    r"|(?:one|another|the other|the last|a|the \w+)(?: one)?(?: of them)? (?:was|is|were)"
    r" (?:hiding|hidden|tucked|buried|behind|stuffed|pushed|folded|jammed|back there)"
    r"|(?:the |my |our |some )?\w+ (?:stuck|put|pulled|added|ran|shoved|snuck|sneaked) "
    r"(?:another|one more|a (?:second|third|fourth)|an extra)"
    r"|(?:now )?(?:that|when) i look|now i (?:see|look)|i see (?:it |that )?now|looking again"
    r"|turns out|as it turns out|apparently|i swear|for sure|i can see)"
)
_LOOKED = lazy_pattern(
    r"(?i)(?:^|[\s.,!])(?:what the|son of a|huh|turns out|apparently|looked again|looking again"
    r"|i see now|oh no|shoot|dang|damn|well i'?ll be|good grief|lord|hell|wait|actually|hang on"
    r"|hold on|no way)\b[^<]{0,24}$"
)
_THERE = lazy_pattern(
    r"(?i)\b(?:there'?s|there is|there are|it'?s|i'?ve got|i have|we'?ve got|we have|i see|got)"
    r"(?: (?:actually|really|now|got|like))* $"
)
_REALLY = lazy_pattern(
    r"(?i),? (?:really|(?:in )?fact|in reality|in truth|actually|after all)(?=\s*(?:[.,;:!]|$))"
)
_NOW = lazy_pattern(r"(?i),? *(?:now|here now|in here now|apparently|actually|then)\b")
_SO_MANY = (
    r"(?:a couple|one|two|three|four|five|\d)(?: (?:of (?:them|those|these)|cables?|wires?|runs?"
    r"|\d\d[-/]\d))?"
)
#: "One goes back, three 14-2": how many went, and how many there are.
_ONE_WENT = lazy_pattern(
    rf"(?i)(?:^|[\s,.;!])(?:(?:{_SO_MANY}|the (?:last|other|third|fourth)(?: one)?|that one)"
    r" (?:(?:is|was|are|were|has|have|had|been|got|gets|going|goes|go|went|comes|came|come|coming"
    r"|moves|moved|move|pulled|sent|taken|cut|just|now|all|really) ?)*"
    r"(?:back|out|away|off|gone|elsewhere|less|fewer|pulled|removed|abandoned|dead"
    r"|somewhere else|(?:to|in|into) (?:the |an)?(?:other|next) (?:box|one|pipe|wall))"
    r"|(?:i|we|he|she|they)(?:'ve|'ll|'m|'re| have| will| am| are| is| can| just| going to| gonna)*"
    r" (?:took|take|pull|pulled|send|sent|move|moved|remove|removed|drop|dropped|cut|lose|lost"
    r"|re-?route|re-?routed|re-?run)"
    rf" {_SO_MANY}(?: back| out| away| off)?)"
    r"(?: (?:now|again|there|here|of (?:it|the box|here|there)|to (?:the )?[a-z]+))*"
    r"[\s,.;:–—-]+(?:(?:so|now|then|leaves|leaving|left with|only|just|it's|it is|there are"
    r"|there's|we have|i have|that is|that's|makes) )*$"
)
#: "The kid put two 14-2s in it": so many are in it, or so many came on top.
_PUT_THERE = lazy_pattern(
    r"(?i)(?:^|[\s,.;])(?:(?:he|she|they|somebody|someone|(?:the|my|our|his|some|that) [a-z]+"
    r"(?: (?:before|ahead of) (?:me|us))?)(?: (?:has|have|had|already|just|really|only"
    r"|actually|did))*"
    r" (?:put|installed|left|ran|pulled|stuck|wired|brought|shoved|crammed|stuffed))"
    r"(?: (?:in|only|just|like))* $"
)
_IN_IT = lazy_pattern(r"(?i)\b(?:in|into|inside) (?:it|there|here|this|that|the box)\b")
_WITHIN = 60
"""Characters before a count that are looked at."""


_WENT = lazy_pattern(
    r"(?i)\b(?:took|taken|takes?|pulled|pulls?|lost|lose|removed?|dropped|gone|moved?|killed|cut"
    r"|yanked|re-?rout(?:e|ed|ing)|ditch(?:ed)?|drop|re-?run|send|sent)\b"
)


_PIECES = (
    # what is said right behind a count, or right before it
    "all", "total", "is", "was", "left", "remain", "that", "now", "final", "then", "so", "make",
    "made", "bring", "brought", "take", "took", "get", "got", "put", "bump", "leav", "keep",
    "ll be", "down", "back", "change", "call", "really", "fact", "reality", "truth", "actually",
    # what became of the others, and who put these there
    "out", "away", "off", "gone", "elsewhere", "less", "fewer", "pull", "remov", "abandon", "dead",
    "somewhere", "other", "next", "send", "sent", "move", "drop", "cut", "lose", "lost", "rout",
    "run", "kill", "yank", "ditch", "install", "ran", "stuck", "wired", "shove", "cram", "stuff",
    # why they are another number
    "forg", "miss", "overlook", "skip", "see", "found", "spot", "count", "notice", "hid", "tuck",
    "buried", "behind", "push", "fold", "jam", "more", "second", "third", "fourth", "extra",
    "look", "apparently", "swear", "sure", "what", "son of", "huh", "oh", "shoot", "dang", "damn",
    "grief", "lord", "hell", "wait", "hang", "hold", "no way",
)  # fmt: skip
"""One of them stands wherever `said_in_all` finds anything: a plain list holds none."""


def said_in_all(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts, with counts that are said anew for all there are of a kind."""
    made = [one for place, act in enumerate(made) for one in _of_all(act, made[:place], heard)]
    told = [_said_anew(act, heard) for act in made]
    anew = [
        act
        for act, was in zip(told, made, strict=True)
        if act is not was or (isinstance(act, acts.Restate) and _gone_before(act, heard))
    ]
    if not anew:
        return made
    for act in anew:
        left[:] = [run for run in left if not _of_the_reason(run, act, heard)]
    if any(isinstance(act, acts.Restate) for act in anew):  # how many went is in that number
        gone = [found.span() for act in anew if (found := _gone_before(act, heard))]
        told = [act for act in told if not _went(act, gone)]
    return told


_IN = lazy_pattern(r"(?i)\w+ in$")
_ALL = lazy_pattern(r"(?i) (?:all|total)(?=\s*(?:[.,;:!?)]|$))")


def _of_all(act: Act, before: list[Act], heard: str) -> list[Act]:
    """ "Two feed on from it, but three in all": how many there are, and no three that come in."""
    if not isinstance(act, acts.AddCable) or act.count is None or not _IN.fullmatch(act.words):
        return [act]
    behind = _ALL.match(heard, act.span[1])
    if behind is None:
        return [act]
    told = [one for one in before if isinstance(one, acts.AddCable)]
    if sum(one.count or 1 for one in told) == act.count:
        return []  # the sum of what was told
    span = (act.span[0], behind.end())
    words = heard[slice(*span)]
    sizes = {(one.awg, one.conductors) for one in told}
    size = (act.awg, act.conductors) if len(sizes) == 1 else (None, None)
    kind: acts.ThingKind = "cable" if len(sizes) == 1 else "anything"
    target = acts.Reference(kind, None, *size, which="all", words=words)
    return [
        acts.Recount(target=target, count=act.count, words=words, span=span, function="correction")
    ]


def _gone_before(act: Act, heard: str) -> re.Match[str] | None:
    return _ONE_WENT.search(heard[: act.span[0]]) if act.span[0] else None


def _went(act: Act, gone: list[tuple[int, int]]) -> bool:
    """ "They took one back out", of what is not said; where it went: "one goes back to the
    panel"."""
    if isinstance(act, (acts.OpenBox, acts.NextBox, acts.Number)):
        return any(start <= act.span[0] < end for start, end in gone)
    if not isinstance(act, acts.Remove):
        return False
    target = act.target
    return target.kind == "anything" and target.awg is None and target.item is None


#: Behind "only two of them": what the others do, which is in that number.
_OTHERS_WENT = lazy_pattern(
    r"(?i)(?: cables?| wires?| runs?)?"
    r"(?: (?:only|now|really|actually|left|here|in (?:here|there|it)))*"
    r"\s*[,.;:–—-]+ *(?:(?:because|since|as|and|cause|but|the|that) )*"
    r"(?:one|two|three|other|others|rest|last|second|third|fourth|fifth|sixth|another|it)\b"
    r"(?: (?:of (?:them|those|these)|ones?|cables?|wires?|two|three))*"
    r" (?:just |only |really |actually )*"
    r"(?:is|was|are|were|has been|have been|got|gets|goes|go|went|going|stays?|stayed|belongs?"
    r"|lives?|moved|runs?|comes?|came|passes|feeds?)\b"
    r"(?=[^.;,]*\b(?:abandoned|dead|pulled|gone|out|cut|off|capped|away|elsewhere|else|other|next"
    r"|another|different|outside|around|behind|past|not)\b)[^.;,]*"
)


def others_went(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Only two of them, third goes to other box", "three cables, one is pulled out": what became
    of the others counts nothing further and opens no box."""
    for act in made:
        if not _counts_all(act):
            continue
        found = _OTHERS_WENT.match(heard, act.span[1])
        if found is None:
            continue
        start, end = act.span[1], found.end()
        left[:] = [run for run in left if not start <= run.span[0] < end]
        made = [
            one for one in made if not (isinstance(one, _OF_OTHERS) and start <= one.span[0] < end)
        ]
    return made


_OF_OTHERS = (acts.Number, acts.OpenBox, acts.NextBox, acts.Remove, acts.OtherTalk, acts.Recount)


def _counts_all(act: Act) -> bool:
    """Whether an act says how many there are of what was named before."""
    if isinstance(act, acts.AddCable):
        return act.awg is None and act.count is not None
    return isinstance(act, (acts.Recount, acts.Restate))


def _of_the_reason(run: Unread, act: Act, heard: str) -> bool:
    """Whether words that were not read are of the reason beside a count, and count nothing."""
    start = act.span[1]
    found = _ALL_BEHIND.match(heard, start) or _REASON.match(heard, start)
    if found is not None and start <= run.span[0] and run.span[1] <= found.end():
        return True
    before = _gone_before(act, heard) or _ALL_BEFORE.search(heard[: act.span[0]])
    return before is not None and before.start() <= run.span[0] < act.span[0]


def _said_anew(act: Act, heard: str) -> Act:
    if not isinstance(act, _COUNTED) or act.count is None or act.function != "inform":
        return act
    if act.doubts or _FURTHER.search(act.words) or not _specific(act):
        return act
    before = heard[max(0, act.span[0] - _WITHIN) : act.span[0]]
    behind = heard[act.span[1] :]
    if _ALL_BEHIND.match(behind) or (act.span[0] and _ALL_BEFORE.search(before)):
        return _restated(act)
    really = _REALLY.match(behind) and not _ADDING.search(before)  # "add one 14-2 after all"
    if really or (act.span[0] and _ONE_WENT.search(before)):
        return _restated(act)
    if _NOW.match(behind) and _WENT.search(heard[: act.span[0]]):
        return _restated(act)
    if _PUT_THERE.search(before) and _IN_IT.search(f"{act.words}{behind[:12]}"):
        return replace(act, doubts=(acts.Doubt("count", "some"),))  # in all, or so many more
    if _ADDING.search(before):
        return act
    looked = _THERE.search(before) and (_LOOKED.search(before[:-1]) or _NOW.match(behind))
    if looked or _REASON.match(behind):
        return replace(act, doubts=(acts.Doubt("count", "anew"),))
    return act


def _restated(act: Thing) -> Act:
    return acts.Restate(
        thing=act, instead_of=just_like(act), words=act.words, span=act.span, function="correction"
    )


def _specific(act: Act) -> bool:
    """Whether a thing is named so exactly that only one line of a box can be meant."""
    if isinstance(act, acts.AddCable):
        return act.awg is not None and act.conductors is not None
    if isinstance(act, acts.AddConductors):
        return act.awg is not None and act.path is None
    return isinstance(act, acts.AddDevice) and act.name not in (None, "device")


OF_ALL_THERE_ARE = (
    Pass(
        said_in_all,
        (acts.AddCable, acts.AddConductors, acts.AddDevice, acts.Restate),
        1,
        _PIECES,
    ),
    Pass(others_went, (acts.AddCable, acts.Recount, acts.Restate), 1),
)
