"""Rooms of a job: where the code lets a unit stand at all, and what must be there first."""

from collections.abc import Iterator

from standfast.design.siting.asking import Ask, rule, standing
from standfast.design.siting.layout import OUTDOORS, Layout
from standfast.sheet import Check, given, not_applicable, one_of

_BOOKS = ("crc", "irc", "nfpa855")


@rule("listing", *_BOOKS)
def listing(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Each unit is listed to the standard that the edition names."""
    asked = ask.words("listing_standards")
    for unit in layout.units:
        if unit.maker is None:
            continue
        title = f"Is {unit.name} listed as the code asks?"
        if unit.maker.listings.missing:
            yield ask.unknown(title, unit.maker.listings.how, unit.id)
        elif asked & set(_words(unit.maker.listings.number)):
            yield ask.passes(title, unit.id, seen=unit.maker.listings)
        else:
            yield ask.fails(title, f"its data sheet states no listing to {' or '.join(sorted(asked))}", unit.id)


def _words(number: object) -> tuple[str, ...]:
    return number if isinstance(number, tuple) else ()


@rule("hydrogen-ventilation", "crc", "irc")
def hydrogen_ventilation(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Indoors, cells that give off flammable gas while they are charged need ventilation, designed elsewhere."""
    quiet = ask.words("no_gas_chemistries")
    for unit in layout.units:
        if unit.maker is None:
            continue
        title = f"Does {unit.name} need ventilation against flammable gas?"
        chemistry = unit.maker.chemistry
        if unit.place in OUTDOORS:
            yield not_applicable(ask.id(unit.id), title, ask.clause, "it stands outdoors")
        elif chemistry.missing:
            yield ask.unknown(title, chemistry.how, unit.id)
        elif chemistry.word in quiet:
            reason = f"its cells, {chemistry.word}, give off no flammable gas while they are charged"
            yield not_applicable(ask.id(unit.id), title, ask.clause, reason)
        else:
            yield ask.unknown(title, f"the ventilation that cells of {chemistry.word} need: have it designed", unit.id)


@rule("permitted-place", *_BOOKS)
def permitted_place(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Only the places that the edition names."""
    places = ask.words("permitted_place_rooms")
    for unit in layout.units:
        title = f"Is the place of {unit.name} one that the code names?"
        if unit.place is None:
            yield ask.unknown(title, layout.facts.room_lacks("kind", f"where {unit.name} stands"), unit.id)
        elif unit.place in places:
            yield ask.passes(title, unit.id, seen=standing(unit))
        else:
            yield ask.fails(title, f"it stands in: {unit.place}", unit.id)


@rule("garage-separation", "crc", "irc")
def garage_separation(ask: Ask, layout: Layout) -> Iterator[Check]:
    """An attached garage is separated from the dwelling."""
    for unit in layout.units:
        if unit.place != "attached garage":
            continue
        title = "Is the garage separated from the dwelling?"
        if layout.facts.garage_separated is None:
            need = layout.facts.room_lacks("separated", "whether the garage is separated from the dwelling")
            yield ask.unknown(title, need, unit.id)
        elif layout.facts.garage_separated:
            separated = given("separated", True, "", "rooms: separated, of the room in which it stands")
            yield ask.passes(title, unit.id, seen=separated)
        else:
            yield ask.fails(title, "the garage is not separated", unit.id)


@rule("fire-detection", *_BOOKS, key="fire_detection")
def fire_detection(ask: Ask, layout: Layout) -> Iterator[Check]:
    """An interconnected smoke alarm; a heat detector where a smoke alarm is not listed for the place."""
    if layout.room is None:
        return
    places = ask.words("fire_detection_places")
    for unit in layout.units:
        if unit.place not in places:
            continue
        heat = unit.place in ask.words("detection_heat_places")
        accepted = ask.book.number("detection_heat" if heat else "detection_smoke")
        title = f"Does a detector watch {unit.name} and sound in the dwelling?"
        yield one_of(ask.id(unit.id), title, ask.clause, layout.room.detection, accepted)
