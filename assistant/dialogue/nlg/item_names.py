"""What a thing in the box is called, in one fixed order: quantity, thing, size.

`heard` is the form of echoes and questions, with a word between a count and a size; said aloud
it is as the trade says it, "two 14-2s". `shown` is the shorter one for the eye.
"""

from __future__ import annotations

from functools import lru_cache

from boxaloud.assistant.dialogue.nlg.sentences import (
    Told,
    counted,
    joined,
    marked,
    plain,
    say,
    sentences,
)
from boxaloud.rules import table_row
from boxaloud.rules.contents import (
    Barrier,
    BondingJumper,
    Cable,
    ClampAssembly,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    Marked,
    Measured,
    Part,
    SupportFitting,
    TableBox,
    TerminalBlock,
    Uncounted,
    Unmarked,
    Yoke,
)

#: The same few things are named again and again, in every reply to a change of the box.
_named = lru_cache(maxsize=1024)


@_named
def heard(content: Content) -> str:
    """The name for the ear: "two cables of 14-2", each with its own ground unless it is said."""
    return _name(content, "heard")


@_named
def shown(content: Content) -> str:
    """The name for the eye: "two 14-2 cables with ground"."""
    return _name(content, "shown")


def brief(content: Content) -> str:
    """The shown name as it is said, a cable's own ground left out: "two 14-2 cables"."""
    return _cable(content, "shown", "") if isinstance(content, Cable) else shown(content)


def bare(content: Content) -> str:
    """The noun alone, for its count: "switch", "switches", "terminal block"."""
    noun = getattr(content, "name", getattr(content, "kind", "terminal block"))
    return plural(str(noun), content.count)


def plural(noun: str, count: int) -> str:
    """A noun for a count: "switch", "switches", "luminaire studs"."""
    if count == 1 or (noun.endswith("s") and not noun.endswith("ss")):
        return noun
    if noun.endswith(("ch", "sh", "ss", "x")):
        return noun + "es"
    if noun.endswith("y") and noun[-2] not in "aeiou":
        return noun[:-1] + "ies"
    return noun + "s"


def _name(content: Content, form: str) -> str:
    match content:
        case Cable():
            return _cable(content, form)
        case Conductors():
            return say(
                f"name.conductors.{form}",
                count=counted(content.count),
                noun=plural("conductor", content.count),
                awg=content.awg,
                s="" if content.count == 1 else "s",
                path=say(f"path.{content.path}"),
            )
        case FixtureWires():
            return say(
                f"name.fixture_wires.{form}",
                count=counted(content.count),
                noun=plural("fixture wire", content.count),
                awg=content.awg,
                canopy=say("canopy") if content.canopy else "",
            )
        case Grounds():
            return _grounds(content, form)
        case Yoke():
            return _yoke(content)
        case _:
            return _small(content)


def _cable(content: Cable, form: str, own: str | None = None) -> str:
    """`own` is what is said of a ground as large as the cable's conductors."""
    size = f"{content.awg}-{content.conductors}"
    if content.ground is None:
        ground = say("ground.none")
    elif content.ground == content.awg:
        ground = say(f"ground.same.{form}") if own is None else own
    else:
        ground = say("ground.other", awg=content.ground)
    return say(
        f"name.cable.{form}",
        count=counted(content.count),
        noun=plural("cable", content.count),
        size=size,
        s="" if content.count == 1 else "s",
        ground=ground,
        path=say(f"path.{content.path}"),
    )


def _grounds(content: Grounds, form: str) -> str:
    noun = "isolated ground" if content.isolated else "ground"
    return say(
        f"name.grounds.{form}",
        count=counted(content.count),
        noun=plural(noun, content.count),
        awg=content.awg,
        canopy=say("canopy") if content.canopy else "",
    )


def _yoke(content: Yoke) -> str:
    text = joined((counted(content.count), _device(content.name, content.count)))
    if content.gangs > 1:
        text = joined((text, say("gangs_wide", gangs=counted(content.gangs))), by="")
    if content.awg is not None:
        text = joined((text, say("lands_on", awg=content.awg)), by="")
    return text


def _device(name: str, count: int) -> str:
    short = sentences()["device_aloud"].get(name, name)
    return Told(plural(name, count), plural(short, count)) if short != name else plural(name, count)


def _small(content: Content) -> str:
    match content:
        case BondingJumper():
            text = f"{counted(content.count)} {plural('bonding jumper', content.count)}"
            return text + (say("jumper_inside") if content.enters is False else "")
        case SupportFitting():
            return joined((counted(content.count), _device(content.kind, content.count)))
        case TerminalBlock():
            text = f"{counted(content.count)} {plural('terminal block', content.count)}"
            return joined((text, say("lands_on", awg=content.awg) if content.awg else ""), by="")
        case Uncounted():
            return f"{counted(content.count)} {plural(content.kind, content.count)}"
    raise TypeError(f"nothing is called {type(content).__name__}")


@_named
def part(thing: Part) -> str:
    """The name of a box, ring, cover or barrier with its volume in cubic inches."""
    match thing:
        case Marked() if thing.cm3 is not None:
            return say(
                "name.marked_metric",
                label=thing.label,
                cm3=plain(thing.cm3),
                volume=marked(thing.volume),
            )
        case Measured():
            sides = " by ".join(plain(side) for side in (thing.width, thing.height, thing.depth))
            return say("name.measured", label=thing.label, sides=sides, volume=marked(thing.volume))
        case ClampAssembly():
            return say(
                "name.assembly",
                count=counted(thing.count),
                noun=plural("clamp assembly", thing.count),
                volume=marked(thing.volume * thing.count),
            )
        case Marked():
            return say("name.marked", label=thing.label, volume=marked(thing.volume))
        case TableBox():
            return _table_box(thing)
        case Unmarked():
            return say("name.unmarked", label=thing.label)
        case Barrier():
            return say("name.barrier", material=thing.material)
    raise TypeError(f"nothing is called {type(thing).__name__}")


def _table_box(thing: TableBox) -> str:
    row = table_row(thing.row)
    each = row.volume
    name = row.name.removesuffix(" box")  # "device box" and "octagon" alike take the label
    if thing.gangs == 1:
        key = "name.table_box" if thing.label == "box" else "name.table"
        return say(key, label=thing.label, row=name, volume=marked(each))
    return say(
        "name.table_ganged",
        label=thing.label,
        row=name,
        gangs=counted(thing.gangs),
        volume=marked(each * thing.gangs),
    )
