"""A job file with facts that the design found: where the file leaves one open, every trade reads the one picked."""

from collections.abc import Mapping

from standfast.faults import UnitMismatch
from standfast.sheet import Value, chosen, missing
from standfast.survey.read import Survey


class Picked(Survey):
    """A job file and picks, by their dotted path; a pick goes before the file, so pick only what it leaves open."""

    __slots__ = ("picks",)
    picks: dict[str, Value]

    def __init__(self, survey: Survey, picks: Mapping[str, Value]) -> None:
        super().__init__(survey.file, survey.content, survey.index, survey.unknown, survey.raw)
        self.picks = {**survey.picks, **picks} if isinstance(survey, Picked) else dict(picks)

    def fact(self, path: str, symbol: str, unit: str = "") -> Value:
        """A fact of the file, or the pick in its place.

        Raises:
            UnitMismatch: where a pick is asked for in another unit than its own.
        """
        pick = self.picks.get(path)
        if pick is None:
            return super().fact(path, symbol, unit)
        if pick.unit != unit:
            raise UnitMismatch(f"{path} was picked in {pick.unit or 'words'}, but was asked in {unit or 'words'}")
        if pick.symbol == symbol:
            return pick
        if pick.missing or pick.number is None:
            return missing(symbol, unit, pick.how, pick)
        return chosen(symbol, pick.number, unit, "as picked", None, pick)

    def has(self, path: str) -> bool:
        """True where the file states the fact, or it was picked."""
        pick = self.picks.get(path)
        return super().has(path) if pick is None else not pick.missing
