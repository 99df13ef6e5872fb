"""A formula with its numbers in place reads as it was computed."""

import pytest

from standfast.sheet.formula import parse


@pytest.mark.parametrize(
    ("text", "shown", "printed"),
    [
        ("D ** 2 * pi / 4", {"D": "0.125 in"}, "(0.125 in)^2 × π / 4"),
        ("D ** 2 * pi / 4", {"D": "D"}, "D^2 × π / 4"),
        ("r ** 1.5", {"r": "3.2e-05"}, "(3.2e-05)^1.5"),
        ("2 ** n", {"n": "−3"}, "2^(−3)"),
        ("(a / b) ** 2", {"a": "3 A", "b": "4 A"}, "(3 A / 4 A)^2"),
        ("a - b", {"a": "3 °C", "b": "−4 °C"}, "3 °C − (−4 °C)"),
        ("a - b", {"a": "−3 °C", "b": "4 °C"}, "−3 °C − 4 °C"),
        ("c - a * b", {"a": "−3", "b": "2 m", "c": "1 m"}, "1 m − (−3 × 2 m)"),
        ("-a", {"a": "−4 A"}, "−(−4 A)"),
        ("max(0, a)", {"a": "−1 in"}, "max(0, −1 in)"),
    ],
)
def test_units_and_signs_get_brackets_where_they_would_read_wrong(
    text: str, shown: dict[str, str], printed: str
) -> None:
    assert parse(text).printed(shown) == printed
