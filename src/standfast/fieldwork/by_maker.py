"""What the maker names: the same thing as a derived row is one row, anything else is a row of its own."""

import re
from collections.abc import Iterable

from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Plan

_WORD = re.compile(r"[\w/.×-]+")
_SIZE = re.compile(r"(\d[\d/.-]*) in\b")
FASTENERS = ("lag screw", "wood screw", "anchor")
"""Kinds of data sheets of fasteners, as a maker calls them too."""
LITTLE = frozenset({"with", "for", "and", "of", "the", "a", "an"})
"""Words that name nothing."""


def words(text: str) -> frozenset[str]:
    """The words of a name that say what a thing is, in small letters."""
    found = {word.strip(".,;:").lower() for word in _WORD.findall(text)}
    return frozenset(found - LITTLE)


def same_thing(named: str, ours: str, also: str = "") -> bool:
    """Is a thing that a maker names the one of our row? All its words stand in our name, or it is another name for it.

    Args:
        named: in the maker's words.
        ours: the name of our row.
        also: other names of the thing, separated by ``;``.
    """
    asked = words(named)
    return bool(asked) and (asked <= words(ours) or any(asked == words(each) for each in also.split(";")))


def named_by_maker(plan: Plan, rows: Iterable[Material]) -> list[Material]:
    """The bill with what the maker lists as not in the box: merged where it is there already, else in a row."""
    found = list(rows)
    sheet = plan.sheets["battery"]
    for number, item in enumerate(sheet.sheet.box.not_in_box):
        count = sheet.fact(f"box.not_in_box.{number}.count", "n_item", "1")
        if _for_another_wall(plan, item.name):
            continue
        place = next((at for at, row in enumerate(found) if same_thing(item.name, row.what)), None)
        if place is None:
            reason = plan.say("materials.maker_for", use=item.use) if item.use else ""
            use = plan.say("materials.maker", use=reason) + _other_size(plan, item.name)
            row = material("named by the maker", item.name, count, use, plan.language)
            found.append(row._replace(ground="data sheet"))
        else:
            named = "?" if count.missing else f"{count.quantity:g}"
            also = plan.say("materials.maker_too", count=named)
            found[place] = found[place]._replace(use=f"{found[place].use}; {also}")
    return found


def _for_another_wall(plan: Plan, name: str) -> bool:
    """A screw or anchor for a wall of another kind: the one that was designed for this wall stands in the list."""
    kinds = {held.fastener.content.kind for held in plan.held}
    named = next((kind for kind in FASTENERS if kind in name.lower()), None)
    return bool(kinds) and named is not None and named not in kinds


def _other_size(plan: Plan, name: str) -> str:
    """A hub that the maker names for a raceway of another size than the one that is run to the unit."""
    size = _SIZE.search(name)
    if size is None or not words(name) & {"hub", "connector"}:
        return ""
    sizes = {run.trade_size.word for run in plan.runs if "unit" in run.ends and not run.trade_size.missing}
    if not sizes or size[1] in sizes:
        return ""
    return "; " + plan.say("materials.other_size", named=size[1], run=", ".join(sorted(sizes)))
