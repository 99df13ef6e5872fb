"""What was chosen and why, in sentences: the price, what was proven, how far the runner-up is."""

from collections.abc import Iterator

from standfast.design.choice.whole import Choice

TITLE = "What was chosen and why"
INVENTED = "Prices marked invented are made up: they order choices that are all allowed, and are no offer."


def sentences(choice: Choice) -> Iterator[str]:
    """The choice in sentences."""
    first = "Place, conductors" if choice.placed else "Conductors"
    what = f"{first}, breaker steps, raceways and fixings, as far as the job file leaves them open,"
    yield f"{what} were chosen together: {money(choice, choice.best.price)}. Prices decide no verdict."
    if choice.given:
        yield f"Given by the job file and not chosen: {'; '.join(choice.given)}."
    if not choice.placed:
        yield "The place is that of siting: the lengths of the routes were surveyed for it and do not follow it."
    yield from _proof(choice)
    yield "Conductors and raceways are counted by the length of their runs at the bad end, not by what is bought."
    if choice.best.unpriced:
        yield f"{choice.best.unpriced} rows have no price and are not in the sum."
    if choice.best.open:
        yield f"{choice.best.open} checks stand open with it: the choice is not to be built before they are closed."
    yield _runner_up(choice)
    if choice.scaled:
        kinds = ", ".join(choice.scaled)
        rest = "invented prices of the other sizes keep their proportion to them"
        yield f"The firm prices some sizes of {kinds}; {rest}."
    if choice.invented:
        yield INVENTED


def money(choice: Choice, amount: float) -> str:
    """An amount with its currency."""
    return f"{amount:.2f} {choice.currency}"


def _proof(choice: Choice) -> Iterator[str]:
    known = "" if choice.places_known is None else f" of {choice.places_known}"
    places = f"{choice.places}{known} vertices of the free space and " if choice.placed else ""
    looked = f"{places}{choice.ways} ways to build the circuits were worked out"
    with_it = " with what is given" if choice.given else ""
    least = f"no choice{with_it} that leaves as few checks open costs less than {money(choice, choice.bound)}"
    if choice.proven:
        yield f"Proven: {least}; {looked}, and the others cannot cost less."
    else:
        yield f"Not proven to be the cheapest: {least}, as far as it was proven; {looked}."


def _runner_up(choice: Choice) -> str:
    second = choice.runner_up
    if choice.best.unpriced:
        return "Which choice comes second cannot be told while rows have no price."
    if second is None:
        return "No runner-up: nothing else that leaves as few checks open was found."
    return f"Runner-up, {money(choice, second.more)} more: {'; '.join(second.differs)}."
