"""The first demo job from the first step to the signature, in a browser, counted: few entries, few taps."""

import json
import re
from collections import Counter
from typing import Any

from field_site import PHONE, Tab, demo_sheet, launched, site_of
from playwright.sync_api import sync_playwright

Data = dict[str, Any]
MOST_ENTRIES = 90
MOST_TAPS = 2
NOT_ENTERED = {"begin", "person", "manifest", "checkpoint", "clock"}
"""Events that the tablet writes by itself, or when somebody takes it."""


def test_the_demo_is_recorded_with_few_entries_and_few_taps() -> None:
    sheet = json.loads(demo_sheet())
    with site_of(sheet) as site, sync_playwright() as playwright:
        browser = launched(playwright)
        tab = Tab(browser.new_context(viewport=PHONE), site)
        tab.enrol()
        tab.page.get_by_label("name", exact=True).fill("Ben Invented")
        tab.tap("Add only")
        tab.page.get_by_role("button", name="Ben Invented takes it").wait_for()
        tab.take("Ana Invented")
        taps = {step["id"]: walked(tab, step) for step in sheet["steps"]}
        assert max(taps.values()) <= MOST_TAPS, taps
        events = tab.events()
        kinds = Counter(each["type"] for each in events)
        assert sum(count for kind, count in kinds.items() if kind not in NOT_ENTERED) <= MOST_ENTRIES, kinds
        assert kinds["checkpoint"] >= len(events) // 25
        state = state_of(tab)
        assert {each["state"] for each in state["work"]["steps"].values()} == {"done"}
        assert {each["state"] for each in state["work"]["items"].values()} == {"recorded"}
        assert not [each for each in state["because"] if not each["why"].startswith(("tool", "item cannot tell"))]
        tab.goto("/record")
        tab.send()
        tab.page.locator("main section").get_by_text("The office has everything.").wait_for()
        assert Counter(site.types())["photo"] == kinds["photo"]
        handed_over(tab)
        assert tab.faults == []
        assert tab.hosts == {site.url.removeprefix("http://")}
        browser.close()


def handed_over(tab: Tab) -> None:
    """Let stand what nobody can tell, sign, and see the signature go stale when something is added."""
    tab.goto("/sign")
    tab.page.locator("details summary").first.wait_for()
    while tab.page.locator("details summary").count():
        tab.page.locator("details summary").first.click()
        tab.tap("Let these stand")
        tab.page.get_by_label("second person").select_option(label="Ben Invented")
        tab.page.get_by_label("Why may they stay?").fill("the firm file of this demo names no tools")
        before = tab.page.locator("details summary").count()
        tab.tap("Let them stand")
        tab.page.wait_for_function("count => document.querySelectorAll('details summary').length < count", arg=before)
    tab.page.get_by_text("Nothing stands against handing over.").wait_for()
    tab.page.get_by_label("role").select_option(label="responsible person")
    tab.page.get_by_label("who signs").select_option(label="Ana Invented")
    tab.tap("Sign")
    tab.page.get_by_text("signed, nothing changed since").wait_for()
    assert [each["type"] for each in tab.events()[-2:]] == ["checkpoint", "sign"]
    tab.goto("/problem")
    tab.page.get_by_text("not safe").click()
    tab.page.locator("textarea").fill("found after the signature")
    tab.tap("Save the problem")
    tab.page.get_by_text("The problem is saved on this tablet.").wait_for()
    tab.goto("/sign")
    tab.page.get_by_text("the record changed after this signature").wait_for()


def state_of(tab: Tab) -> Data:
    """The state as the tablet folds it."""
    found: Data = tab.page.evaluate('async () => (await import("/field/static/work.js")).job().state')
    return found


def walked(tab: Tab, step: Data) -> int:
    """Do one step; how often had to be tapped to call it done."""
    tab.page.locator(".step .number", has_text=str(step["number"])).first.wait_for()
    for _ in step["holds"]:
        tab.tap("The second person is here")
        tab.page.get_by_label("second person").select_option(label="Ben Invented")
        tab.tap("It is so")
        tab.page.get_by_text("seen by a second person").wait_for()
    for item in step["items"]:
        fill(tab, item)
    before = tab.taps
    tab.page.locator(".finish button.done").click()
    tab.taps += 1
    tab.page.get_by_text(f"Step {step['number']} is saved on this tablet.").wait_for()
    return tab.taps - before


def fill(tab: Tab, item: Data) -> None:
    """Record one item as it should be."""
    field = tab.field(item["id"])
    match item["kind"]:
        case "reading" | "torque":
            field.fill(value_of(item))
        case "mark":
            tab.page.locator(f'input[name="f-{item["id"]}"]').first.check()
        case "photo":
            tab.photo(item["id"])
        case "serial":
            field.fill("INV-0001")
            tab.page.locator(f'[id="f-{item["id"]}-again"]').fill("INV-0001")
            tab.tap("Save the number")
            tab.page.get_by_text("Recorded", exact=True).wait_for()
        case "timer":
            tab.tap(f"Start: {item['seconds']} s")
            tab.page.get_by_role("alert").first.wait_for()
            tab.tap("Seen" if item.get("judged", True) else "Waited")
            # Not the word of the step before, which ends alike: the time itself has to be recorded.
            tab.page.get_by_text(re.compile("Saved on this tablet")).first.wait_for()
        case "name":
            tab.page.get_by_role("group", name=item["what"]["en"]).get_by_role("combobox").select_option(
                label="Ana Invented"
            )


def value_of(item: Data) -> str:
    """A reading that holds."""
    limit = item["limit"]
    if limit is None:
        return "1"
    return f"{limit['value']}0" if limit["relation"] == "at least" and limit["value"] != "0" else str(limit["value"])
