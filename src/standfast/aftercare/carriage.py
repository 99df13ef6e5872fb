"""How a battery that leaves the house may be carried: which rule asks for what, and whose assessment it waits for.

Nothing here says that a battery may be sent. A trained shipper says that, with the rules in force in hand; of a damaged
one only after the maker, or somebody whom the rules let, has assessed it.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from standfast.fieldwork.plan import Device, Plan
from standfast.rulebooks.adr.instruction import instructions
from standfast.rulebooks.cfr49 import lithium
from standfast.sheet import Value, chosen, given, missing
from standfast.shelf import Edition

Condition = Literal["sound", "end-of-life", "damaged"]
CONDITIONS: tuple[Condition, ...] = ("sound", "end-of-life", "damaged")
"""States in which a battery leaves: to be used again, to be recycled, or damaged, defective or recalled."""


class Asked(NamedTuple):
    """What one rule asks for.

    Attributes:
        rule: book and clause.
        what: what it asks for.
        by: who answers it.
    """

    rule: str
    what: str
    by: str


def asked(plan: Plan, book: Edition | None, condition: Condition, device: Device) -> list[Asked]:
    """What the rules of carriage ask of one battery unit.

    Args:
        plan: the job; its language counts.
        book: the rules of carriage of the country; None where none are held.
        condition: as the person on site found it.
        device: the unit.
    """
    say = plan.say
    if book is None:
        return [Asked(say("aftercare.no_carriage"), say("aftercare.ask_carrier"), say("aftercare.by_carrier"))]
    if book.book == "cfr49":
        return list(_american(plan, book, condition, device))
    return list(_european(plan, book, condition, device))


def _yes(symbol: str, yes: bool, how: str) -> Value:
    return given(symbol, yes, "", how)


def _american(plan: Plan, book: Edition, condition: Condition, device: Device) -> Iterator[Asked]:
    say = plan.say
    purpose = "reuse" if condition == "sound" else "recycling" if condition == "end-of-life" else "disposal"
    battery = lithium.Battery(
        _yes("damaged", condition == "damaged", "as found on site"), given("purpose", purpose, "", "as found on site"),
        given("mode", "road", "", "from a house by road"), device.data.fact("body.mass", "m", "kg"),
        _strong(device),
    )  # fmt: skip
    which = lithium.paragraph(book, battery)
    shipper, maker = say("aftercare.by_shipper"), say("aftercare.by_maker")
    told = {lithium.GENERAL: "us_general", lithium.RECYCLING: "us_recycling", lithium.DAMAGED: "us_damaged"}
    rule = f"{book.short} {'' if which.clause is None else which.clause.clause}"
    yield Asked(rule, say(f"aftercare.{told[which.word]}"), maker if condition == "damaged" else shipper)
    tested = lithium.tested_packaging(book, battery)
    if tested.missing:
        yield Asked(rule, say("aftercare.packaging_open", need=plan.foreign(tested.how)), shipper)
    else:
        key = "packaging_tested" if tested.yes else "packaging_free"
        clause = "" if tested.clause is None else tested.clause.clause
        yield Asked(f"{book.short} {clause}", say(f"aftercare.{key}"), shipper)
    if condition == "damaged":
        damaged = book.clause("lithium_damaged").clause
        yield Asked(f"{book.short} {damaged}", say("aftercare.no_air"), shipper)
        eased = book.clause("lithium_recycling").clause
        yield Asked(f"{book.short} {eased}", say("aftercare.no_shortcut"), shipper)


def _european(plan: Plan, book: Edition, condition: Condition, device: Device) -> Iterator[Asked]:
    say, damaged = plan.say, condition == "damaged"
    shipper, maker = say("aftercare.by_shipper"), say("aftercare.by_maker")
    fact = _yes("damaged", damaged, "as found on site")
    if not damaged:
        word = instructions(book, fact, missing("reacts", "", "not asked"))
        yield Asked(f"{book.short} {_or(plan, word)}", say("aftercare.eu_sound"), shipper)
        mass, least = device.data.fact("body.mass", "m", "kg"), book.number("large_battery_mass")
        need = say("aftercare.eu_strong", least=f"{least.number:g} {least.unit}",
                   mass=say("common.not_known") if mass.missing else f"{mass.quantity:g} kg")  # fmt: skip
        yield Asked(f"{book.short} {book.clause('large_battery').clause}", need, shipper)
        return
    assess = book.clause("assessment")
    ways = {answer: instructions(book, fact, chosen("reacts", answer, "", "if assessed so", assess))
            for answer in (False, True)}  # fmt: skip
    yield Asked(
        f"{book.short} {assess.clause}",
        say("aftercare.eu_assess", calm=_or(plan, ways[False]), reacting=_or(plan, ways[True])),
        maker,
    )
    most = book.number("one_per_outer_mass")
    yield Asked(
        f"{book.short} {book.clause('one_per_outer').clause}",
        say("aftercare.eu_one", most=f"{most.number:g} {most.unit}"), shipper,
    )  # fmt: skip
    yield Asked(f"{book.short} {assess.clause}", say("aftercare.no_air"), shipper)


def _or(plan: Plan, instruction: Value) -> str:
    """A packing instruction and that of large packagings, in the language of the job."""
    return plan.say("aftercare.or").join(instruction.word.split(" or "))


def _strong(device: Device) -> Value:
    """Whether the casing is strong, as the data sheet states."""
    return device.data.fact("removal.strong_casing", "strong")
