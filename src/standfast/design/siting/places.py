"""Places where no unit may stand, or only under a condition: rooms, escape routes, linings, detection."""

from collections.abc import Iterator

from standfast.design.siting.asking import Ask, rule, standing
from standfast.design.siting.layout import Layout, Unit
from standfast.sheet import Check

TYPE_X = "type_x_gypsum_5_8_in"


def _place(ask: Ask, layout: Layout, unit: Unit, title: str) -> Check | None:
    if unit.place is not None:
        return None
    return ask.unknown(title, layout.facts.room_lacks("kind", f"where {unit.name} stands"), unit.id)


@rule("forbidden-place", "crc", "irc", "nfpa855", "pas63100")
def forbidden_place(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Rooms that the edition forbids, and spaces that open directly into a room that it names."""
    yield from _refused(ask, layout, "forbidden_place_rooms", "forbidden_place_beyond")


@rule("sleeping-room", "pas63100")
def sleeping_room(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Rooms for sleeping."""
    yield from _refused(ask, layout, "sleeping_room_rooms", "")


@rule("cupboard", "pas63100")
def cupboard(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Cupboards, enclosures and spaces that open into a room for sleeping."""
    yield from _refused(ask, layout, "", "cupboard_beyond")


@rule("roof-space", "pas63100")
def roof_space(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Voids, roof spaces and lofts."""
    yield from _refused(ask, layout, "roof_space_rooms", "")


@rule("under-stairs", "asnzs5139")
def under_stairs(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Under stairs and walkways, and in escape routes."""
    rooms = ask.words("under_stairs_rooms")
    for unit in layout.units:
        title = f"Is {unit.name} clear of stairs, walkways and escape routes?"
        refused = _place(ask, layout, unit, title)
        if refused is not None:
            yield refused
        elif unit.place in rooms:
            yield ask.fails(title, f"it stands in: {unit.place}", unit.id)
        elif layout.facts.escape_route in ("unprotected", "protected"):
            yield ask.fails(title, "it stands in an escape route", unit.id)
        else:
            yield ask.passes(title, unit.id)


def _refused(ask: Ask, layout: Layout, rooms_key: str, beyond_key: str) -> Iterator[Check]:
    rooms = ask.words(rooms_key) if rooms_key else frozenset()
    beyond = ask.words(beyond_key) if beyond_key else frozenset()
    for unit in layout.units:
        title = f"May {unit.name} stand in that place?"
        unknown = _place(ask, layout, unit, title)
        if unknown is not None:
            yield unknown
        elif unit.place in rooms:
            yield ask.fails(title, f"it stands in: {unit.place}", unit.id)
        elif unit.opens_into in beyond:
            yield ask.fails(title, f"its place opens into: {unit.opens_into}", unit.id)
        else:
            yield ask.passes(title, unit.id, seen=standing(unit))


@rule("escape-route", "pas63100")
def escape_route(ask: Ask, layout: Layout) -> Iterator[Check]:
    """On, or opening onto, an escape route that is not protected."""
    yield from _route(ask, layout, "unprotected")


@rule("protected-route", "pas63100")
def protected_route(ask: Ask, layout: Layout) -> Iterator[Check]:
    """On, or opening onto, a protected escape route."""
    yield from _route(ask, layout, "protected")


def _route(ask: Ask, layout: Layout, kind: str) -> Iterator[Check]:
    for unit in layout.units:
        title = f"Is {unit.name} off every {kind} escape route?"
        if layout.facts.escape_route is None:
            need = layout.facts.room_lacks("escape_route", f"whether {unit.name} is on an escape route")
            yield ask.unknown(title, need, unit.id)
        elif layout.facts.escape_route == kind:
            yield ask.fails(title, f"its place is on, or opens onto, an escape route ({kind})", unit.id)
        else:
            yield ask.passes(title, unit.id)


@rule("lining", "crc", "irc", "nfpa855")
def lining(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Walls and ceiling of a utility space: bare framing is to be lined first."""
    places, accepted = ask.words("lining_places"), ask.words("lining_accepted")
    for unit in layout.units:
        title = f"Are walls and ceiling round {unit.name} finished or noncombustible?"
        unknown = _place(ask, layout, unit, title)
        if unknown is not None:
            yield unknown
        elif unit.place not in places:
            continue
        elif layout.facts.room_lining is None:
            yield ask.unknown(
                title, layout.facts.room_lacks("lining", "what its walls and ceiling are lined with"), unit.id
            )
        elif layout.facts.room_lining in accepted:
            yield ask.passes(title, unit.id)
        else:
            yield ask.passes(title, unit.id, condition=TYPE_X, reason="bare framing gets board first")


@rule("fire-separation", "pas63100")
def fire_separation(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Fire-resisting separation round a place indoors."""
    yield from _indoors(ask, layout, layout.facts.fire_separation, "fire-resisting separation")


@rule("detection", "pas63100")
def detection(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Detection in the place, interlinked with that of the dwelling."""
    yield from _indoors(ask, layout, layout.facts.detection_interlinked, "detection interlinked with the dwelling's")


def _indoors(ask: Ask, layout: Layout, there: bool | None, what: str) -> Iterator[Check]:
    outdoors = ask.words(f"{ask.rule.replace('-', '_')}_not_in")
    for unit in layout.units:
        title = f"Has the place of {unit.name} {what}?"
        unknown = _place(ask, layout, unit, title)
        if unknown is not None:
            yield unknown
        elif unit.place in outdoors:
            continue
        elif there is None:
            yield ask.unknown(title, f"whether the place has {what}", unit.id)
        elif there:
            yield ask.passes(title, unit.id)
        else:
            yield ask.fails(title, f"it has no {what}", unit.id)


@rule("outdoors-first", "pas63100")
def outdoors_first(ask: Ask, layout: Layout) -> Iterator[Check]:
    """A place indoors needs a recorded reason why none outdoors is practicable."""
    outdoors, facts = ask.words("outdoors_first_places"), layout.facts
    for unit in layout.units:
        title = f"Is there a recorded reason why {unit.name} is not outdoors?"
        unknown = _place(ask, layout, unit, title)
        if unknown is not None:
            yield unknown
        elif unit.place in outdoors:
            yield ask.passes(title, unit.id)
        elif facts.outdoors_practicable is None or facts.reason_recorded is None:
            yield ask.unknown(title, "whether a place outdoors is practicable, and the reason on record", unit.id)
        elif facts.outdoors_practicable:
            yield ask.fails(title, "a place outdoors is practicable", unit.id)
        elif not facts.reason_recorded:
            yield ask.fails(title, "the reason is not on record", unit.id)
        else:
            yield ask.passes(title, unit.id)
