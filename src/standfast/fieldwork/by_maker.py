"""What the maker names: the same thing as a derived row is one row, anything else is a row of its own."""

import re
from collections.abc import Iterable

from standfast.equipment.model import Item
from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Plan
from standfast.sheet import Value, chosen, total, work

_WORD = re.compile(r"[\w/.×-]+")
_SIZE = re.compile(r"(\d[\d/.-]*) in\b")
FASTENERS = ("lag screw", "wood screw", "anchor")
"""Kinds of data sheets of fasteners, as a maker calls them too."""
LITTLE = frozenset(
    {
        "with",
        "for",
        "and",
        "of",
        "the",
        "a",
        "an",
        "con",
        "para",
        "y",
        "de",
        "el",
        "la",
        "los",
        "las",
        "un",
        "una",
        "al",
    }
)
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
    """The bill with what the makers list as not in the box: merged where it is there already, else in a row.

    Every unit takes what its sheet lists; a row that is there already says what each one takes.
    """
    found = list(rows)
    for role in ("battery", "inverter"):
        number = len(plan.of_role(role))
        for place, item in enumerate(plan.sheets[role].sheet.box.not_in_box if number else ()):
            if not _for_another_wall(plan, item.name):
                count = plan.sheets[role].fact(f"box.not_in_box.{place}.count", "n_item", "1")
                _merged(plan, found, item, count, role)
    return found


def _merged(plan: Plan, found: list[Material], item: Item, count: Value, role: str) -> None:
    """One thing that a maker names, so many for each unit of a role, brought into the bill."""
    number, fastener, sheet = len(plan.of_role(role)), _designed(plan, item, role), plan.sheets[role].sheet
    told = plan.told(sheet, item.name)
    place = next((at for at, row in enumerate(found) if _same(plan, item, told, row, fastener)), None)
    if place is not None and found[place].group != "named by the maker":
        named = "?" if count.missing else f"{count.quantity:g}"
        also = plan.say("materials.maker_too_each" if number > 1 else "materials.maker_too", count=named)
        found[place] = found[place]._replace(use=f"{found[place].use}; {also}")
        return
    if number > 1:
        each = chosen("n_unit", float(number), "1", "units of the job", None)
        count = work("n_buy", "n_item * n_unit", "1", None, count, each)
    reason = plan.say("materials.maker_for", use=plan.told(sheet, item.use)) if item.use else ""
    use = plan.say("materials.maker", use=reason) + _other_size(plan, item.name)
    if place is not None:  # another maker wants the same
        old = found.pop(place)
        count, use = total("n_buy", [old.quantity, count], "1"), f"{old.use}; {plan.told(sheet, item.use or '') or use}"
    of = tuple(each.id for each in plan.of_role(role))
    row = material("named by the maker", told, count, use, plan.language, of=of)
    found.append(row._replace(ground="data sheet"))


def _same(plan: Plan, item: Item, told: str, row: Material, fastener: str) -> bool:
    """True where a row is what the maker names, by its name, as the fastener or as the fuse block that was chosen."""
    held = bool(fastener) and row.group == "fixing" and fastener in row.what
    return held or same_thing(told, row.what) or _chosen_for(plan, item, row)


def _chosen_for(plan: Plan, item: Item, row: Material) -> bool:
    """True where a row is the fuse block that was chosen for the job, and a maker names a fuse block."""
    sheet = plan.sheets.get("dc_overcurrent")
    return sheet is not None and {"fuse", "block"} <= words(item.name) and sheet.sheet.name in row.what


def _designed(plan: Plan, item: Item, role: str) -> str:
    """The fastener that was designed for what a maker wants a screw or anchor for; empty where it wants another thing.

    What goes into a slab, pad or floor holds the foot; all else holds on the wall.
    """
    asked = words(f"{item.name} {item.use or ''}")
    if not asked & {"screw", "anchor", "anchors", "screws"}:
        return ""
    floor, units = bool(asked & {"slab", "pad", "floor"}), {each.id for each in plan.of_role(role)}
    own = [held for held in plan.held if held.of in units and held.floor == floor]
    return own[0].fastener.content.name if own else ""


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
