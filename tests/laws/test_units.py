"""Laws of the unit reader: what is written is read back, and nothing without a unit is a quantity."""

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from standfast import units

PINT = pint.UnitRegistry()
PINT_NAMES = {"°C": "degC", "°F": "degF", "N·m": "N*m", "lbf·in": "lbf*in", "lbf·ft": "lbf*ft", "deg": "degree",
              "g": "standard_gravity", "kVA": "kV*A", "VA": "V*A", "m2": "m**2", "ft2": "ft**2",
              "mm2": "mm**2", "in2": "in**2", "cm3": "cm**3", "in3": "in**3", "%": "percent",
              "mohm": "milliohm", "Mohm": "megaohm", "d": "day"}  # fmt: skip


@pytest.mark.parametrize("name", sorted(set(units.UNITS) - {"hp"}))
def test_factors_agree_with_an_independent_registry(name: str) -> None:
    dimension = units.UNITS[name].dimension
    own = units.OWN[dimension]
    theirs = PINT.Quantity(37.5, PINT_NAMES.get(name, name)).to(PINT_NAMES.get(own, own)).magnitude
    assert units.convert(37.5, name, own) == pytest.approx(theirs, rel=1e-12)


@given(st.integers(0, 400), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths_are_read_exactly(feet: int, inches: int, sixteenths: int) -> None:
    exact = (feet * 12 + inches + Fraction(sixteenths, 16)) * units.INCH_MM
    if exact == 0:
        return
    assert units.read(units.feet_inches(float(exact))).number == exact
    assert units.read(units.inches(float(exact))).number == exact


@given(st.text(max_size=20))
def test_any_text_is_a_quantity_or_a_sentence(text: str) -> None:
    try:
        found = units.read(text)
    except ValueError as error:
        assert "for instance" in str(error) or "use one of" in str(error) or "one number" in str(error)
    else:
        assert found.dimension in units.OWN


@pytest.mark.parametrize("text", ["12", " 3.5 ", "3-1/2"])
def test_a_bare_number_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="no unit"):
        units.read(text)


@pytest.mark.parametrize("text", ["3 ft 2 V", "10 °C 2 °C", "1 kg 2 kg", "3 fot", "1e3 mm", "1/0 in"])
def test_nonsense_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"."):
        units.read(text)


def test_rounding_for_print() -> None:
    assert units.show(1.25, "1") == "1.25"
    assert units.show(24.0, "A") == "24 A"
    assert units.show(-3.14159, "mm") == "−3.142 mm"
    assert units.show(123456.7, "psi") == "123457 psi"
    assert units.show(0.00012, "ohm") == "0.00012 ohm"
    assert units.torque_both(5) == "5 N·m (44.3 lbf·in)"
