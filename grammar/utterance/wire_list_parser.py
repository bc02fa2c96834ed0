"""The lists of named conductors that stand in a text: names, how often, their size, their total."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance import wire_list_patterns as said
from boxaloud.grammar.utterance.named_wires import NamedWires


def named_wires(plain: str) -> list[NamedWires]:
    """The lists in a text in lower case, in order."""
    found: list[NamedWires] = []
    place = 0
    for word in _WORDS.finditer(plain):
        if word.start() < place:
            continue
        start = word.start()
        start -= plain[:start].endswith("#")
        counted = said.COUNTED.search(plain, max(0, start - 24), start) is not None
        one = _ListReader(plain, start, sized=not counted).read()
        if one is not None:
            place = one.end
            if not counted:  # "eight black and white twelves": eight of both
                found.append(one)
    return found


_WORDS = lazy_pattern(r"(?<![\w'])[\w]+")


class _ListReader:
    """Reads the list that begins at a place of a text."""

    def __init__(self, plain: str, start: int, sized: bool) -> None:
        self._plain = plain
        self._sized = sized
        self._at = self._start = start
        self._made = NamedWires(start, start)
        self._several = False
        self._headed = False
        self._of_each_name = False
        self._each_name = 1

    def read(self) -> NamedWires | None:
        """The list, or None where none begins there."""
        self._head()
        if not self._item():
            return None
        while self._next():
            pass
        made = self._made
        self._lend()
        if made.wires > 1 and self._each_name == 1 and said.UNSHARED.match(self._plain, made.end):
            return replace(made, agrees=False)
        if made.times > 1 and not made.each:
            made.agrees = False
        if self._each_name > 1 and said.CUT_SHORT.match(self._plain, made.end):
            made.agrees = False
        if made.each:
            made.wires, made.grounds = made.wires * made.times, made.grounds * made.times
        enough = min(made.wires, made.items) >= 2 and (
            made.names >= 3
            or self._of_each_name
            or (made.marked and (made.names or (made.awg and (made.wires > 2 or made.checked))))
        )
        if self._of_each_name and made.awg is None:
            made.more = said.ONE_MORE.match(self._plain, self._start) is not None
        return made if enough else None

    def _lend(self) -> None:
        """ "Two dimmers on number twelve, with two blacks, two whites": wires of that size."""
        before = said.LENT.search(self._plain, max(0, self._start - 32), self._start)
        if before is not None and self._made.awg is None:
            self._made.awg = said.SIZES.get(before["size"]) or int(before["size"])
            self._made.marked = True

    def _take(self, end: int) -> bool:
        self._at = self._made.end = end
        return True

    def _head(self) -> bool:
        """ "home run one", "two home runs, each one's"."""
        if several := said.SEVERAL.match(self._plain, self._at):
            self._made.times = said.COUNTS[several["n"]]
            self._made.each = several["each"] is not None
            self._at = several.end()
            return True
        if heading := said.HEADING.match(self._plain, self._at):
            self._at = heading.end()
            return True
        begins = self._sized and self._at == self._start
        if begins and (each := said.EACH_AHEAD.match(self._plain, self._at)):
            self._each_name = said.COUNTS[each["n"]]
            if size := each["size"]:
                self._made.awg = said.SIZES.get(size) or int(size)
                self._made.marked = self._headed = True
            self._at = each.end()
            return False
        own = said.OF_ANOTHER.match(self._plain, self._start)
        first = said.SIZE_FIRST.match(self._plain, self._at) if begins and not own else None
        if first is not None:
            size = first["size"] or first["several"]
            self._made.awg = said.SIZES.get(size) or int(size)
            self._made.marked = self._headed = True
            self._at = first.end()
        return False

    def _next(self) -> bool:
        """Read one piece more of the list; False where it ends."""
        return (
            self._of_each()
            or self._way()
            or self._piped()
            or self._each()
            or self._total()
            or self._size()
            or self._joined(said.JOIN)
            or self._joined(said.STOP)
        )

    def _joined(self, joint: object) -> bool:
        """The next name behind a comma or an "and", or behind the heading of the next run."""
        back = self._at
        match = joint.match(self._plain, self._at)  # type: ignore[attr-defined]
        if match is None:
            return False
        self._at = match.end()
        headed = self._made.times == 1 and self._head()
        if headed:
            self._made.groups.append([0, 0])
        if self._made.awg is None or headed or self._headed:
            if same := said.SAME.match(self._plain, self._at):
                self._at = same.end()
                if self._item():
                    return True
                return self._again(back)
            if (headed or joint is said.JOIN) and self._item():
                return True
        self._at = back
        return False

    def _again(self, back: int) -> bool:
        """ "home run two, same": as many as in the one before."""
        groups = [group for group in self._made.groups if any(group)]
        if not groups:
            self._at = back
            return False
        self._add(*groups[-1])
        return self._take(self._at)

    def _add(self, wires: int, grounds: int) -> None:
        self._made.wires += wires
        self._made.grounds += grounds
        self._made.groups[-1][0] += wires
        self._made.groups[-1][1] += grounds

    def _item(self) -> bool:
        """One name, or letters of phases one after the other."""
        if phases := said.PHASES.match(self._plain, self._at):
            letters = len(phases["all"].replace(" and ", " ").replace(",", " ").split())
            self._made.names += letters
            self._made.items += letters
            self._add(letters, 0)
            return self._take(phases.end())
        if self._each_name > 1 and (green := said.GREENS.match(self._plain, self._at)):
            self._made.items += 1
            self._add(0, self._each_name)
            return self._take(green.end())
        found = said.NAME.match(self._plain, self._at)
        if found is None:
            return False
        several = self._each_name > 1
        if not several and (found["s"] or found["ground"] == "greens") and not found["n"]:
            return False  # "blacks": nobody said how many
        count = said.COUNTS.get(found["n"] or "", self._each_name)
        if self._several and not several and not said.DETERMINED.match(self._plain, found.start()):
            return False  # "eight black and white": eight of both
        self._several = count > 1
        if self._made.items == 1 and not said.DETERMINED.match(self._plain, found.start()):
            self._of_each_name = said.ONE_OF_EACH.match(self._plain, self._start) is not None
        self._made.items += 1
        self._made.bare = self._made.bare and found["n"] is None
        if found["ground"] is None:
            self._made.names += bool(found["named"])
            self._add(count, 0)
            return self._take(found.end())
        return self._ground(count, found.end(), counted=found["n"] is not None)

    def _ground(self, count: int, end: int, counted: bool) -> bool:
        """A green one; said once more with its size, it is the same one."""
        own = said.OWN_SIZE.match(self._plain, end)
        if own is not None and not counted and own[0].startswith(","):
            own = None  # "black white green, twelves": the size is that of them all
        restarted = self._made.grounds == count and ".." in self._plain[self._made.end : end]
        if own is not None:
            if self._made.awg is not None or not self._made.wires:
                return False
            self._made.ground_awg = said.SIZES.get(own["size"]) or int(own["size"])
            self._made.marked = True  # "black, white and green number 12": all are conductors
            end = own.end()
        if not restarted:
            self._add(0, count)
        return self._take(end)

    def _of_each(self) -> bool:
        """ "… two of each", behind names of which none was counted."""
        found = said.EACH_BEHIND.match(self._plain, self._at)
        made = self._made
        if found is None or not made.bare or self._each_name > 1 or made.times > 1:
            return False
        self._each_name = said.COUNTS[found["n"]]
        made.wires, made.grounds = made.wires * self._each_name, made.grounds * self._each_name
        made.groups = [[one * self._each_name for one in group] for group in made.groups]
        return self._take(found.end())

    def _way(self) -> bool:
        """ "in", "out", "each way": what was named since the last one."""
        found = said.WAY.match(self._plain, self._at)
        if found is None or (self._made.awg is not None and not self._headed):
            return False
        if found["twice"]:
            self._add(*self._made.groups[-1])
        self._made.groups.append([0, 0])
        self._made.marked = True
        return self._take(found.end())

    def _piped(self) -> bool:
        """ "… in the pipe, number 12"."""
        found = said.PIPE.match(self._plain, self._at)
        if found is None:
            return False
        self._made.marked = True
        return self._take(found.end())

    def _each(self) -> bool:
        """ "… each", behind "two home runs"."""
        found = said.EACH.match(self._plain, self._at)
        if found is None or self._made.times == 1 or self._made.each:
            return False
        self._made.each = self._made.marked = True
        return self._take(found.end())

    def _total(self) -> bool:
        """ "That's four", "six twelves" behind six names: a check."""
        found = said.TOTAL.match(self._plain, self._at)
        if found is None:
            return False
        times = self._made.times if self._made.each else 1
        of = {self._made.wires * times, (self._made.wires + self._made.grounds) * times}
        told = said.COUNTS[found["n"]]
        plain = not (found["lead"] or found["tail"])
        if told not in of and (
            self._made.more or said.COMES_ON_TOP.search(self._plain[: self._start])
        ):
            return False  # "plus a black and a red, that's six": of all in the box
        if found["size"]:
            size = said.SIZES.get(found["size"]) or int(found["size"])
            if self._made.awg not in (None, size) or (plain and self._made.awg == size):
                return False
        if plain and told not in of:
            return False
        self._made.checked = True
        self._made.agrees = self._made.agrees and told in of
        self._made.marked = True
        if found["size"]:
            self._made.awg = size
            self._made.more = found["more"] is not None
        end = found.end()
        return self._take(end + (self._plain[end : end + 1] == "?"))

    def _size(self) -> bool:
        """ "All number 12", "twelves", "in tens"."""
        found = said.SIZE.match(self._plain, self._at)
        if found is None or self._made.awg is not None:
            return False
        size = said.SIZES.get(found["size"]) or int(found["size"])
        if size < 10 and not (found["marked"] or found["s"]):
            return False  # "black red blue, six": a number
        self._made.awg = size
        self._made.marked = True
        return self._take(found.end())
