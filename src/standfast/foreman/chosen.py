"""What was chosen and why as plain data: price rows, what was proven, the runner-up."""

from standfast.design.choice.rows import Row
from standfast.design.choice.told import sentences
from standfast.design.choice.whole import Choice

Data = dict[str, object]


def chosen(choice: Choice) -> Data:
    """The choice in the form of ``schemas/design.json``; null where a price or an amount is not known."""
    second = choice.runner_up
    return {
        "currency": choice.currency,
        "price": choice.best.price,
        "bound": choice.bound,
        "proven": choice.proven,
        "invented": choice.invented,
        "open": choice.best.open,
        "unpriced": choice.best.unpriced,
        "place_chosen_by_price": choice.placed,
        "places_worked_out": choice.places,
        "places": choice.places_known,
        "circuits_worked_out": choice.ways,
        "rows": [_row(each) for each in choice.best.rows],
        "runner_up": None if second is None else {"more": second.more, "differs": list(second.differs)},
        "told": list(sentences(choice)),
    }


def _row(row: Row) -> Data:
    price = row.price
    return {
        "group": row.group,
        "what": row.what,
        "amount": row.amount,
        "unit": row.unit,
        "price": None if price is None else price.amount,
        "invented": None if price is None else price.invented,
        "sum": row.sum,
    }
