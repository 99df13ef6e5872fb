"""The shared vectors give in the browser what they give in Python: readings and limits, records and their state."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from field_site import launched, site_of
from playwright.sync_api import Page, sync_playwright

VECTORS = Path(__file__).parents[1] / "vectors"
EMPTY = {"schema": 1, "job": {"name": "Vectors", "revision": "A"}, "tools": [], "drawings": [], "steps": []}

COMPARED = """async cases => {
  const { compare } = await import("/field/static/compare.js");
  return cases.map(each => compare(each.value, each.unit, each.limit, each.uncertainty));
}"""
FOLDED = """async ({ sheets, cases }) => {
  const { fold, textOfState } = await import("/field/static/fold.js");
  const { hashOf } = await import("/field/static/chain.js");
  const { read } = await import("/field/static/causal.js");
  const found = [];
  for (const each of cases) {
    const events = [];
    for (const raw of each.events) events.push(read({ raw, hash: await hashOf(raw) }));
    const state = await fold(events, JSON.parse(sheets[each.sheet].sheet));
    found.push({ state: textOfState(state), hash: state.hash });
  }
  return found;
}"""


def vectors(name: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((VECTORS / name).read_text("utf-8"))
    return found


@pytest.fixture(scope="module")
def page() -> Iterator[Page]:
    with site_of(EMPTY) as site, sync_playwright() as playwright:
        browser = launched(playwright)
        page = browser.new_page()
        page.goto(f"{site.url}/field/")
        yield page
        browser.close()


def test_every_reading_gets_the_same_verdict_in_the_browser(page: Page) -> None:
    cases = vectors("compare.json")["cases"]
    found = page.evaluate(COMPARED, cases)
    wrong = [(case, told) for case, told in zip(cases, found, strict=True) if told != case["expect"]]
    assert wrong == []
    assert len(found) >= 300


def test_every_record_folds_to_the_same_state_in_the_browser(page: Page) -> None:
    given = vectors("fold.json")
    found = page.evaluate(FOLDED, {"sheets": given["sheets"], "cases": given["cases"]})
    for case, told in zip(given["cases"], found, strict=True):
        state = case["state"] if isinstance(case["state"], str) else json.dumps(case["state"])
        assert json.loads(told["state"]) == json.loads(state), case["name"]
        assert told["hash"] == case["hash"], case["name"]
        if isinstance(case["state"], str):
            assert told["state"] == case["state"], case["name"]
    assert len(found) >= 100


def test_the_order_and_number_in_which_events_come_change_nothing_in_the_browser(page: Page) -> None:
    given = vectors("fold.json")
    cases = [{**each, "events": [*reversed(each["events"]), *each["events"][:3]]} for each in given["cases"]]
    found = page.evaluate(FOLDED, {"sheets": given["sheets"], "cases": cases})
    assert [told["hash"] for told in found] == [each["hash"] for each in cases]
