"""Reads the layout of a case of siting: units, features and facts."""

from types import NoneType
from typing import Any, Literal, get_args, get_origin, get_type_hints

from standfast.design.siting.layout import Facts, Layout, Place, RoomKind, Thing, ThingKind, Unit
from standfast.design.siting.solid import Solid, Span, tenths
from standfast.proof.inputs import BadCase, Inputs
from standfast.sheet import given

_SPELT = {"type_x_gypsum_5_8_in": "type x gypsum 5/8 in"}
_NO_X = ("base flood level", "opposite face")
_NO_Y = ("garage door projection",)
_VIEWS = ("wall elevation", "plan", "none")
_FARTHEST_MM = 1e9
_ATTRIBUTES = (
    "leads_into_dwelling", "opens_into", "is_exit", "part_of_system", "filling", "material", "closed_towards",
    "opens_towards", "clear_height_mm", "leaf_mm",
)  # fmt: skip


def layout_of(case: Inputs) -> Layout:
    """The layout of a case.

    Raises:
        BadCase: for a word that the method does not know, an attribute or fact that nobody reads, an absent place.
    """
    view = case.word("view")
    if view not in _VIEWS:
        raise BadCase(f"{view!r} is no view: use one of {', '.join(_VIEWS)}")
    facts = _facts(case.item("facts"))
    units = [_unit(each, view, f"unit-{at}", facts) for at, each in enumerate(case.items("units"), 1)]
    things = [_thing(each, view, at) for at, each in enumerate(case.items("features"), 1)]
    return Layout(tuple(units), tuple(things), facts)


def _unit(item: Inputs, view: str, id: str, facts: Facts) -> Unit:
    solid = Solid()
    width = _length(item, "w_mm") if "w_mm" in item else 0
    if view != "none":
        solid = _solid(item, view, x="x_mm" in item or not facts.side_by_side, y=True)
    energy = given("E_unit", item.number("kwh"), "kWh", f"case, {id}") if "kwh" in item else None
    place: Place | None = _word(item, "place", Place)
    beyond: RoomKind | None = _word(item, "place_opens_into", RoomKind)
    _all_read(item, id)
    return Unit(id, solid, width, energy, place, beyond)


def _thing(item: Inputs, view: str, number: int) -> Thing:
    kind: ThingKind | None = _word(item, "kind", ThingKind)
    if kind is None:
        raise BadCase(f"feature {number} has no kind")
    id = f"{kind.replace(' ', '-')}-{number}"
    solid = Solid() if view == "none" else _solid(item, view, x=kind not in _NO_X, y=kind not in _NO_Y)
    if kind in _NO_Y:
        solid = Solid(x=solid.x)
    if kind == "base flood level":
        solid = Solid(z=solid.z)
    known = _read(item, get_type_hints(Thing), _ATTRIBUTES)
    if kind in ("window", "door"):
        known.setdefault("leads_into_dwelling", False)  # a case counts those only that it says lead there
    _all_read(item, id)
    return Thing(id, kind, solid, **known)


def _solid(item: Inputs, view: str, *, x: bool, y: bool) -> Solid:
    """The box of an object in a view; an axis that it does not have is not known."""
    sizes = {name: _length(item, name) if name in item else 0 for name in ("w_mm", "h_mm", "d_mm")}
    across = _span(item, "x_mm", sizes["w_mm"]) if x else None
    if view == "plan":
        return Solid(across, _span(item, "y_mm", sizes["d_mm"]) if y else None, None)
    return Solid(across, Span(0, sizes["d_mm"]), _span(item, "y_mm", sizes["h_mm"]) if y else None)


def _span(item: Inputs, name: str, size: int) -> Span:
    low = _tenths(item, name)
    return Span(low, low + size)


def _tenths(item: Inputs, name: str) -> int:
    """A length or place in tenths; nothing on a wall is farther away than a thousand kilometres."""
    number = item.number(name)
    if abs(number) > _FARTHEST_MM:
        raise BadCase(f"{name} is no length on a site: {number:g}")
    return tenths(number)


def _length(item: Inputs, name: str) -> int:
    length = _tenths(item, name)
    if length < 0:
        raise BadCase(f"{name} is below zero")
    return length


def _facts(item: Inputs) -> Facts:
    names = Facts._fields
    lengths = {"ceiling": "ceiling_mm", "wall_from": "wall_from_mm", "wall_to": "wall_to_mm"}
    own = ("listed_spacing", "volts_to_ground", "facing_condition", "side_by_side")
    asked = [lengths.get(name, name) for name in names if name not in own]
    known = _read(item, get_type_hints(Facts), asked)
    if "listed_spacing_mm" in item:
        known["listed_spacing"] = item.value("listed_spacing_mm", "s_listed", "mm")
    if "volts_to_ground_v" in item:
        known["volts_to_ground"] = item.value("volts_to_ground_v", "V_ground", "V")
    if "arrangement" in item:
        known["side_by_side"] = _word(item, "arrangement", Literal["side by side"]) == "side by side"
    _all_read(item, "facts")
    return Facts(**known)


def _read(item: Inputs, hints: dict[str, Any], names: list[str] | tuple[str, ...]) -> dict[str, Any]:
    """Attributes by the kind that the field of that name has."""
    known: dict[str, Any] = {}
    for name in names:
        if name not in item:
            continue
        field = name.removesuffix("_mm")
        kinds = _kinds(hints[field])
        if int in kinds:
            known[field] = _tenths(item, name)
        elif bool in kinds:
            known[field] = item.yes(name)
        else:
            known[field] = _word(item, name, hints[field])
    return known


def _kinds(hint: Any) -> tuple[Any, ...]:
    return (
        tuple(each for each in get_args(hint) if each is not NoneType)
        if get_origin(hint) is not Literal and get_args(hint)
        else (hint,)
    )


def _word(item: Inputs, name: str, hint: Any) -> Any:
    """A word of a closed list; None where it is absent."""
    if name not in item:
        return None
    text = item.word(name)
    word = _SPELT.get(text, text.replace("_", " "))
    allowed = [word for kind in _kinds(hint) for word in get_args(kind)]
    if word not in allowed:
        raise BadCase(f"{text!r} is no word for {name}: use one of {', '.join(allowed)}")
    return word


def _all_read(item: Inputs, what: str) -> None:
    unused = item.unused()
    if unused:
        raise BadCase(f"{what}: nothing reads {', '.join(unused)}")
