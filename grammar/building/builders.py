"""The builder of every pattern, by the act that patterns.toml names beside it."""

from __future__ import annotations

from boxaloud.grammar.building.corrections import (
    build_contrast,
    build_is_now,
    build_recount,
    build_replacement,
    build_restate_number,
)
from boxaloud.grammar.building.loose_wires import build_loose_wires
from boxaloud.grammar.building.pattern_groups import Builder
from boxaloud.grammar.building.qualities import (
    build_box_number,
    build_canopy,
    build_reclassify,
    build_route,
    build_unground,
    build_widen,
)
from boxaloud.grammar.building.requests import (
    build_do_it,
    build_in_all,
    build_keep,
    build_more,
    build_pairs,
    build_put_back,
    build_remove,
)
from boxaloud.grammar.building.thing_sizes import build_land, build_resize, build_sized

BUILDERS: dict[str, Builder] = {
    "keep": build_keep,
    "put_back": build_put_back,
    "do_it": build_do_it,
    "unground": build_unground,
    "resize": build_resize,
    "reclassify": build_reclassify,
    "route": build_route,
    "contrast": build_contrast,
    "remove": build_remove,
    "replace": build_replacement,
    "is_now": build_is_now,
    "made": build_replacement,
    "sized": build_sized,
    "recount": build_recount,
    "in_all": build_in_all,
    "restate_number": build_restate_number,
    "land": build_land,
    "widen": build_widen,
    "canopy": build_canopy,
    "more": build_more,
    "pairs": build_pairs,
    "box_number": build_box_number,
    "loose_wires": build_loose_wires,
}
