"""The field types of every file model: quantities with a unit, lists, ids, polygons.

A quantity stands in a file as text with a unit; inside it is a `units.Quantity`, exact, in the program's own unit.
"""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, ConfigDict, Field
from pydantic_core import PydanticCustomError, core_schema

from standfast.faults import UnitMismatch
from standfast.units import OWN, UNITS, Quantity, read

EXAMPLES: dict[str, str] = {
    "length": "3 ft", "area": "1850 ft2", "temperature": "104 °F", "mass": "118 kg", "torque": "44 lbf.in",
    "current": "30 A", "voltage": "240 V", "power": "5 kW", "apparent power": "5 kVA", "energy": "10 kWh",
    "resistance": "25 ohm", "ratio": "3 %", "time": "30 s", "angle": "12 deg", "acceleration": "1.05 g",
    "pressure": "3000 psi", "force": "950 lbf", "frequency": "60 Hz", "speed": "110 mph",
    "let-through energy": "40000 A²s", "volume": "21 in3",
}  # fmt: skip
"""How a quantity of each dimension is written."""


_GREATEST = 10**12


class Table(BaseModel):
    """A table of a file: words are known or faulty, values are of their kind or faulty, nothing changes later.

    A table that may be left out stands as ``X.model_construct()``: nothing in it is to be checked, and its checks would
    take longer to build than a job takes to read.
    """

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, allow_inf_nan=False, defer_build=True)


class Of:
    """Marks a field as a quantity of one dimension.

    Args:
        dimension: as in `units.OWN`.
        least: smallest number allowed, in the program's own unit; None for no limit.
        above: the number must be greater than this; None for no limit.
    """

    def __init__(self, dimension: str, *, least: float | None = None, above: float | None = None) -> None:
        self.dimension, self.least, self.above = dimension, least, above

    def __get_pydantic_core_schema__(self, source: object, handler: object) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(
            self.read, serialization=core_schema.plain_serializer_function_ser_schema(_text)
        )

    def __get_pydantic_json_schema__(self, schema: object, handler: object) -> dict[str, object]:
        return {"type": "string", "examples": [EXAMPLES[self.dimension]], "x-measures": self.dimension}

    def read(self, raw: object) -> Quantity:
        """The quantity that a text of the file says; a custom error with what, why and what to do else."""
        if isinstance(raw, Quantity):
            raw = raw.text
        example = f'write it in quotes with a unit, for instance "{EXAMPLES[self.dimension]}"'
        article = "an" if self.dimension[0] in "aeiou" else "a"
        due = f"{article} {self.dimension} is due here"
        if not isinstance(raw, str):
            raise fault(
                f"{shown(raw)} has no unit" if isinstance(raw, int | float) else f"{shown(raw)} is no quantity",
                due,
                example,
            )
        try:
            quantity = read(raw)
        except ValueError as error:
            raise fault(str(error).partition(": ")[0], due, example) from None
        if quantity.dimension != self.dimension:
            raise fault(f"{shown(raw)} measures {quantity.dimension}", due, example)
        if abs(quantity.number) > _GREATEST:
            raise fault(f"{shown(raw)} is too large to be true", due, example)
        if self.least is not None and quantity.number < Fraction(self.least):
            raise fault(
                f"{shown(raw)} is too small", f"it cannot be below {self.least:g} {OWN[self.dimension]}", example
            )
        if self.above is not None and quantity.number <= Fraction(self.above):
            raise fault(f"{shown(raw)} is too small", f"it must be above {self.above:g} {OWN[self.dimension]}", example)
        return quantity


def fault(what: str, why: str, todo: str) -> PydanticCustomError:
    """An error that already says all that a Fault says."""
    return PydanticCustomError("fault", "{what}", {"what": what, "why": why, "todo": todo})


def amount(quantity: Quantity, unit: str) -> float:
    """The number of a quantity in a unit. A force asked for in ``lb`` is given in pounds-force, as the books print it.

    Raises:
        UnitMismatch: where the unit measures something else.
    """
    if quantity.dimension == "force" and unit == "lb":
        unit = "lbf"
    there = UNITS.get(unit)
    if there is None or there.dimension != quantity.dimension:
        raise UnitMismatch(f'"{quantity.text}" measures {quantity.dimension}, which {unit or "a word"} does not')
    return float((quantity.number - there.offset) / there.factor)


def _text(quantity: Quantity) -> str:
    return quantity.text


def shown(raw: object, *, quote: bool = True) -> str:
    """A value of a file for a message: short, on one line, text in quotes."""
    if isinstance(raw, bool):
        return str(raw).lower()
    if isinstance(raw, Mapping):
        return "a table"
    if isinstance(raw, list | tuple):
        return "a list"
    text = f'"{raw}"' if isinstance(raw, str) and quote else str(raw)
    text = text if text.isprintable() else text.encode("unicode_escape").decode()
    return text if len(text) <= 60 else f"{text[:57]}…"


T = TypeVar("T")
Many = Annotated[tuple[T, ...], Field(strict=False)]
"""A list. TOML gives lists, a frozen model keeps tuples."""

Id = Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)]
"""A name by which other words refer to this: small letters, digits and hyphens."""
Text = Annotated[str, Field(min_length=1, max_length=2000)]
Count = Annotated[int, Field(ge=0, le=10_000)]
Pure = Annotated[float, Field(ge=0)]
"""A number without a unit: a factor or a ratio."""

Length = Annotated[Quantity, Of("length", least=0)]
Size = Annotated[Quantity, Of("length", above=0)]
Along = Annotated[Quantity, Of("length")]
"""A coordinate: may be negative."""
Area = Annotated[Quantity, Of("area", above=0)]
Volume = Annotated[Quantity, Of("volume", above=0)]
Temperature = Annotated[Quantity, Of("temperature", least=-273.15)]
Mass = Annotated[Quantity, Of("mass", above=0)]
Speed = Annotated[Quantity, Of("speed", above=0)]
Torque = Annotated[Quantity, Of("torque", above=0)]
Current = Annotated[Quantity, Of("current", least=0)]
Voltage = Annotated[Quantity, Of("voltage", above=0)]
Power = Annotated[Quantity, Of("power", least=0)]
ApparentPower = Annotated[Quantity, Of("apparent power", least=0)]
Energy = Annotated[Quantity, Of("energy", least=0)]
Ratio = Annotated[Quantity, Of("ratio", least=0)]
Resistance = Annotated[Quantity, Of("resistance", least=0)]
Time = Annotated[Quantity, Of("time", least=0)]
Angle = Annotated[Quantity, Of("angle")]
Acceleration = Annotated[Quantity, Of("acceleration", least=0)]
Pressure = Annotated[Quantity, Of("pressure", above=0)]
Force = Annotated[Quantity, Of("force", least=0)]
Frequency = Annotated[Quantity, Of("frequency", above=0)]
LetThrough = Annotated[Quantity, Of("let-through energy", above=0)]
Point = Annotated[tuple[Along, Along], Field(strict=False)]
"""A point: ``["12 ft", "3 ft 6 in"]``."""

Reader = Callable[[Any], Quantity]
