"""What rules talk can be typed can be heard: its words are in the recogniser's vocabulary, and
said in words it means what it does in figures. English usage; common practice.
"""

from __future__ import annotations

import pytest
from boxaloud.grammar import recognise, vocabulary
from written_acts import written

PAIRS = [
    ("a metal barrier in the middle", "a metal barrier in the middle", None),
    ("14 cubic inches on the left and 27 on the right",
     "fourteen cubic inches on the left and twenty seven on the right", None),
    ("the left side is 14 cubic inches", "the left side is fourteen cubic inches", None),
    ("split equally", "split equally", None),
    ("the same", "the same", "share"),
    ("New York City job", "new york city job", None),
    ("I'm in Ontario", "i'm in ontario", None),
    ("angle pull, two rows, two 2 inch in each row",
     "angle pull two rows two two inch in each row", None),
    ("straight pull, one 2 inch in one end, one 2 inch out the other",
     "straight pull one two inch in one end one two inch out the other", None),
    ("angle pull, a 3 inch and a 2 inch, both in the same wall",
     "angle pull a three inch and a two inch both in the same wall", None),
    ("angle pull, 3 inch in one row and 4 inch in a second row",
     "angle pull three inch in one row and four inch in a second row", None),
    ("LB with six number 12 THHN passing through, no splices, 3/4 inch EMT",
     "lb with six number twelve thhn passing through no splices three quarter inch emt", None),
    ("an LR with six 12 THHN, no splices, 1/2 inch IMC",
     "an lr with six twelve thhn no splices half inch imc", None),
    ("an LL, 1/2 inch rigid", "an ll half inch rigid", None),
    ("type C conduit body, 1/2 inch rigid", "type c conduit body half inch rigid", None),
    ("a T conduit body, 3/4 inch PVC", "a t conduit body three quarter inch pvc", None),
    ("an LB marked 8.8 cubic inches", "an lb marked eight point eight cubic inches", None),
    ("short radius conduit body", "short radius conduit body", None),
    ("angle pull, 3 inch in the back opposite a removable cover, 500 kcmil",
     "angle pull three inch in the back opposite a removable cover five hundred kcmil", None),
    ("angle pull, two 3 inch EMT, the largest conductor is 4/0",
     "angle pull two three inch emt the largest conductor is four ought", None),
    ("u pull, two 3 inch in the left wall", "u pull two three inch in the left wall", None),
    ("the box is 2 feet by 2 feet by 8 inches", "the box is two feet by two feet by eight inches",
     "pull_more"),
    ("they are 12 inches apart", "they are twelve inches apart", "pull_more"),
    ("straight pull, two 4/0 cables", "straight pull two four ought cables", None),
    ("250 kcmil", "two fifty kcmil", "pull_conductor"),
    ("4/0", "four ought", "pull_conductor"),
    ("removable", "removable", "pull_cover"),
    ("EMT", "emt", "body:body_raceway"),
    ("schedule 40 PVC", "schedule forty pvc", "body:body_raceway"),
    ("THHN", "thhn", "body:body_insulation"),
    ("XHHW", "xhhw", "body:body_insulation"),
    ("three quarter", "three quarter", "body:body_size"),
    ("they pass through", "they pass through", "body:body_splices"),
    ("each spliced", "each spliced", "body:body_splices"),
    ("from both sides", "from both sides", "body:body_ends"),
    ("how many 12 THHN in 1/2 inch EMT", "how many twelve thhn in half inch emt", None),
    ("two 14-2s and a thermostat cable", "two fourteen twos and a thermostat cable", None),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "heard", "asked"), PAIRS, ids=lambda said: str(said)[:40])
def test_typed_and_heard_mean_the_same(typed: str, heard: str, asked: str | None) -> None:
    assert set(heard.split()) <= vocabulary()
    told, spoken = recognise(typed, asked), recognise(heard, asked)
    assert told.acts
    assert not told.weighty
    assert not spoken.weighty
    assert [written(act) for act in spoken.acts] == [written(act) for act in told.acts]


SPELLED = [
    ("an lb half inch emt", "an l b half inch e m t", None),
    ("an lr with six twelve thhn no splices half inch imc",
     "an l r with six twelve t h h n no splices half inch i m c", None),
    ("angle pull three inch in the back opposite a removable cover five hundred kcmil",
     "angle pull three inch in the back opposite a removable cover five hundred k c mil", None),
    ("250 mcm", "two fifty m c m", "pull_conductor"),
    ("pvc", "p v c", "body:body_raceway"),
    ("xhhw", "x h h w", "body:body_insulation"),
    ("how many twelve thhn in half inch emt", "how many twelve t h h n in half inch e m t", None),
]  # fmt: skip


@pytest.mark.parametrize(("whole", "letters", "asked"), SPELLED, ids=lambda said: str(said)[:40])
def test_letters_heard_one_by_one_are_the_same(whole: str, letters: str, asked: str | None) -> None:
    """An ear that writes down letters may part them."""
    told, spoken = recognise(whole, asked), recognise(letters, asked)
    assert told.acts
    assert not spoken.weighty
    assert [written(act) for act in spoken.acts] == [written(act) for act in told.acts]
