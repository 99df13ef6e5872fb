"""Faults between the offered work on the existing house and the other words of a job file."""

from collections.abc import Iterator

from standfast.faults import Fault
from standfast.reading import Document, engine
from standfast.reading.complaints import nearest
from standfast.survey.model import Job


def offered(survey: Document[Job]) -> Iterator[Fault]:
    """Adders and defects with one id, and adders at a place that is not there or that two of them share."""
    yield from engine.doubles(survey, "adders")
    yield from engine.doubles(survey, "defects")
    places = survey.named("panels") | survey.named("panels", "circuits")
    seen: dict[tuple[str, str | None], str] = {}
    for number, adder in enumerate(survey.content.adders):
        if adder.at is not None and adder.at not in places:
            todo = nearest(adder.at, sorted(places)) if places else "add the panel"
            yield survey.fault(("adders", number, "at"), f'there is no panel or circuit "{adder.at}"', "", todo)
        earlier = seen.setdefault((adder.what, adder.at), adder.id)
        if earlier != adder.id:
            why = f'"{earlier}" offers it already'
            yield survey.fault(("adders", number, "what"), f'"{adder.id}" offers {adder.what} again', why, "keep one")
