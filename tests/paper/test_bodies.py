"""Texts with leader lines keep off other things where there is room."""

from standfast.paper import labels
from standfast.paper.drawing import Drawing


def drawn(*, known: bool) -> tuple[bool, list[str]]:
    """Whether the text stands on the body beside its point, and the flaws."""
    drawing = Drawing("Wall", "A wall", 120, 80)
    drawing.rect(62, 20, 40, 40, "medium", "white")
    if known:
        drawing.keep_clear(62, 20, 102, 60, own=True)
    labels.note(drawing, (60, 40), "name of a thing", 40, (1, 0))
    drawing.finish()
    ((box, _),) = drawing.texts
    return box.right > 62 and box.left < 102 and 80 - box.top > 20 and 80 - box.bottom < 60, drawing.flaws()


def test_a_led_text_stands_beside_a_body_and_not_on_it() -> None:
    assert drawn(known=False) == (True, [])
    assert drawn(known=True) == (False, [])


def test_a_thing_that_holds_its_own_name_keeps_it() -> None:
    drawing = Drawing("Wall", "A wall", 120, 80)
    drawing.rect(20, 20, 60, 40, "medium", "white")
    drawing.keep_clear(20, 20, 80, 60, own=True)
    labels.inside(drawing, (20, 20, 80, 60), "main panel")
    drawing.finish()
    ((box, _),) = drawing.texts
    assert box.left > 20 and box.right < 80
