"""Those that are counted, and the others that are elsewhere: "one receptacle, the other is next
door"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import counted, is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_ELSEWHERE = (
    r"(?:next door|elsewhere|somewhere else|someplace else|across the hall|upstairs|downstairs|gone"
    r"|(?:in|for|of|on) (?:the |an)?(?:next|other|another|adjoining|neighbou?ring)"
    r" (?:room|box|wall|side|unit|house|apartment|one|floor)|(?:in|on) the (?:other|far) side)"
)
_OTHERS = lazy_pattern(
    r"(?i)\s*(?:[.,;:–—-]+\s*(?:(?:and|because|since|as|but|so) )*|(?:and|because|since|but) )"
    r"(?:the|that|those) (?:others?|rest|second|third|fourth|fifth|sixth)(?: (?:one|two|three)s?)?"
    r"(?:['’]s| is| are| was| were| goes| go| went| belongs?| lives?| sits?)"
    rf"(?: (?:really|actually|just|only|over|out|up|down|all))* {_ELSEWHERE}\b"
)
_MORE = lazy_pattern(r"(?i)\b(?:more|another|extra|additional|other|an?)\b")


def others_elsewhere(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One receptacle. The other is next door": of those that were told so many are here."""
    for act in made:
        if not is_thing(act) or counted(act) is None or _MORE.search(act.words):
            continue
        found = _OTHERS.match(heard, act.span[1])
        if found is None:
            continue
        start, end = act.span[1], found.end()
        left[:] = [run for run in left if not start <= run.span[0] < end]
        anew = acts.Restate(
            thing=act, instead_of=just_like(act), words=act.words, span=act.span,
            function="correction",
        )  # fmt: skip
        return [
            anew if one is act else one
            for one in made
            if one is act or not start <= one.span[0] < end
        ]
    return made


_ONE_OUTSIDE = lazy_pattern(
    r"(?i)(?:(?:because|since|as|cause) )?(?:the )?(?:other )?(?:one|two|1|2)"
    r"(?: of (?:them|those))?(?:['’]s| is| was| are| were| goes| go| went| runs?| ran| passes| pass"
    r"| passed| stays?| stops?)"
    r"(?: (?:really|actually|just|only|all|right|straight|going|running|over|out))* (?:behind|past"
    r"|around|outside|beside|next door|elsewhere|by the|under the|over the|somewhere else)\b.*"
)
_REASON = lazy_pattern(r"(?i)[\s,.;:–—-]*(?:(?:because|since|as|and|but|cause) )?")


@joining
def one_is_outside(last: Act, act: Act, heard: str) -> Act | None:
    """ "No it was five, one goes behind the box": why they are five, and none of the five goes."""
    said_anew = isinstance(last, (acts.RestateNumber, acts.Restate, acts.Recount))
    if not said_anew or not isinstance(act, acts.Remove) or act.target.kind != "anything":
        return None
    if not _REASON.fullmatch(heard, last.span[1], act.span[0]):
        return None
    return last if _ONE_OUTSIDE.fullmatch(act.words) else None
