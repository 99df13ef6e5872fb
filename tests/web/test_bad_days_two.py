"""Two tablets on one step, clocks that are wrong by years, newer pages and a newer sheet in the middle of a job."""

import json
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from bad_days import (
    READING,
    broken,
    folded,
    note_problem,
    raws,
    read_cells,
    record_of,
    settle,
    small_sheet,
    small_site,
    state_of,
    taken,
    whole,
)
from field_site import PHONE, TABLET, Site, Tab, launched
from playwright.sync_api import Browser, sync_playwright

from standfast.web import shipped


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = launched(playwright)
        yield browser
        browser.close()


@pytest.fixture
def site() -> Iterator[Site]:
    with small_site() as site:
        yield site


def tablet(browser: Browser, site: Site, name: str = "Ana Invented", size: dict[str, int] = PHONE) -> Tab:
    return taken(Tab(browser.new_context(viewport=size), site), name)


def apart(*tabs: Tab) -> None:
    """Everybody knows everything, and then nobody hears of the other."""
    for tab in (*tabs, *tabs):
        settle(tab)
    for tab in tabs:
        tab.context.set_offline(True)


def together(*tabs: Tab) -> None:
    """Everybody hears of everything."""
    for tab in tabs:
        tab.context.set_offline(False)
    for tab in (*tabs, *tabs):
        settle(tab)


def same(*tabs: Tab) -> None:
    """Every tablet, and Python, come to one state; the office has what they have, and every chain holds."""
    site = tabs[0].site
    texts = [each.raw for each in site.store.events(site.job)]
    assert broken(texts) == []
    hash = folded(texts, site.sheet).hash
    for tab in tabs:
        assert sorted(raws(tab.page, site.job)) == sorted(texts)
        assert state_of(tab)["hash"] == hash


def test_two_tablets_that_read_one_thing_differently_are_both_kept_until_one_settles_it(
    browser: Browser, site: Site
) -> None:
    one, two = tablet(browser, site), tablet(browser, site, "Ben Invented", TABLET)
    apart(one, two)
    read_cells(one, "12")
    read_cells(two, "0.2")
    together(one, two)
    same(one, two)
    for tab in (one, two):
        item = state_of(tab)["work"]["items"][READING]
        assert (item["state"], item["word"]) == ("disputed", "fail")
        assert sorted(each["value"] for each in item["values"]) == ["0.2", "12"]
        assert {"why": "item disputed", "what": READING} in state_of(tab)["because"]
        assert not state_of(tab)["ready"]
        tab.goto("/sign")
        tab.page.get_by_text("Different readings to settle").first.wait_for()
        assert tab.page.get_by_role("button", name="Sign", exact=True).count() == 0
    two.goto("/disputes")
    two.page.locator("fieldset .choice", has_text="12 MΩ").click()
    two.page.get_by_label("Why does this one count?").fill("the lead of the other was broken")
    two.tap("This one counts")
    two.page.get_by_text("Nothing to settle.").wait_for()
    together(two, one)
    same(one, two)
    one.goto("/disputes")
    one.page.get_by_text("Nothing to settle.").wait_for()
    item = state_of(one)["work"]["items"][READING]
    assert (item["state"], item["word"]) == ("recorded", "pass")
    assert len(item["values"]) == 2
    assert one.faults == two.faults == []


def test_two_tablets_that_read_the_same_are_no_dispute(browser: Browser, site: Site) -> None:
    one, two = tablet(browser, site), tablet(browser, site, "Ben Invented")
    apart(one, two)
    read_cells(one, "12")
    read_cells(two, "12")
    together(one, two)
    same(one, two)
    item = state_of(one)["work"]["items"][READING]
    assert (item["state"], item["word"], len(item["values"])) == ("recorded", "pass", 2)


def years(tab: Tab, count: int) -> None:
    """Set the clock of a tablet wrong by years, from the next load of the page on."""
    tab.context.add_init_script(
        f"""{{ const real = Date, off = {count} * 365.25 * 86400000;
        globalThis.Date = class extends real {{
          constructor(...of) {{ of.length ? super(...of) : super(real.now() + off); }}
          static now() {{ return real.now() + off; }}
        }}; }}"""
    )
    tab.page.reload()
    tab.page.locator(".step").wait_for()


@pytest.mark.parametrize(("count", "until"), [(7, "2027-06-30"), (-7, "2020-06-30")])
def test_a_clock_that_is_wrong_by_years_orders_nothing_and_judges_no_instrument(
    browser: Browser, count: int, until: str
) -> None:
    with small_site(small_sheet(until=until)) as site:
        wrong, right = tablet(browser, site), tablet(browser, site, "Ben Invented")
        years(wrong, count)
        # The office is reached once, then nobody is.
        note_problem(wrong, "before")
        apart(wrong, right)
        wrong.goto("/step/cells")
        wrong.page.get_by_role("combobox").select_option(label="Invented tester INV-7")
        over = "Calibration ended" in wrong.page.locator("main").inner_text()
        assert over is (count < 0), "by the date of the office, corrected, and not by that of the tablet"
        read_cells(wrong, "12")
        together(wrong, right)
        # The other one reads again, knowing of the first: later is later, whatever the clocks say.
        right.goto("/step/cells")
        right.tap("Record again")
        right.page.get_by_role("combobox").select_option(label="Invented tester INV-7")
        read_cells(right, "15")
        together(right, wrong)
        same(wrong, right)
        events = record_of(raws(wrong.page, site.job)).events
        walls = {each.data["values"][0]["value"]: each.wall[:4] for each in events if each.type == "reading"}
        assert int(walls["12"]) - int(walls["15"]) in (count, count - 1, count + 1)
        state = folded([each.raw for each in events], site.sheet)
        assert [each["value"] for each in state.work["items"][READING]["values"] if each["counts"]] == ["15"]
        wrong.page.evaluate("location.hash = '#/settings'")
        wrong.page.get_by_text("minutes off the office's: set it").wait_for()
        assert wrong.faults == right.faults == []


WAITS = "navigator.serviceWorker.getRegistration().then(each => Boolean(each.waiting))"


@contextmanager
def newer_pages() -> Iterator[None]:
    """The server has newer pages for a while."""
    room = dict(shipped.shipped("field"))
    style = room["field.css"]
    newer = {**room, "field.css": shipped.Shipped(style.data + b"\n", style.kind, '"newer"')}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shipped, "shipped", lambda name: newer)
        shipped._worker.cache_clear()
        yield
    shipped._worker.cache_clear()


def until(tab: Tab, told: str) -> None:
    """Wait until a promise tells that it is so."""
    for _ in range(150):
        if tab.page.evaluate(told):
            return
        tab.page.wait_for_timeout(50)
    pytest.fail(f"never: {told}")


def test_newer_pages_come_while_a_form_is_half_typed_and_wait_even_when_another_page_takes_them_up(
    browser: Browser, site: Site
) -> None:
    tab = tablet(browser, site)
    tab.ready()
    tab.page.reload()
    tab.page.locator(".step").wait_for()
    note_problem(tab, "by the older pages")
    tab.goto("/step/cells")
    tab.field(READING).fill("3.")
    tab.page.evaluate("window.same = 1")
    with newer_pages():
        tab.page.evaluate("navigator.serviceWorker.getRegistration().then(each => each.update()).then(() => 0)")
        until(tab, WAITS)
        assert tab.page.evaluate("window.same") == 1
        assert tab.field(READING).input_value() == "3."
        # Another page of the same tablet, at the list of jobs, takes the newer one up.
        other = tab.new_page()
        other.goto(f"{site.url}/field/#/")
        other.get_by_role("heading", name="A newer version of these pages is here").wait_for()
        with other.expect_navigation():
            other.get_by_role("button", name="Take it up now").click()
        other.get_by_role("heading", name="Jobs").wait_for()
        tab.page.wait_for_timeout(300)
        assert tab.page.evaluate("window.same") == 1
        assert tab.field(READING).input_value() == "3."
        tab.field(READING).fill("3.5")
        tab.tap("Save, done")
        tab.page.get_by_text("Step 1 is saved on this tablet.").wait_for()
        tab.page.evaluate("location.hash = '#/'")
        with tab.page.expect_navigation():
            tab.tap("Take it up now")
        tab.page.get_by_role("heading", name="Jobs").wait_for()
        tab.page.locator("button.job").click()
        tab.page.locator(".step").wait_for()
        note_problem(tab, "by the newer pages")
        settle(tab)
        whole(site, tab)
        texts = raws(tab.page, site.job)
        assert broken(texts) == []
        assert [each.data["text"] for each in record_of(texts).events if each.type == "problem"] == [
            "by the older pages", "by the newer pages",
        ]  # fmt: skip
        assert tab.faults == []


def test_a_newer_sheet_comes_while_a_form_is_half_typed_and_changes_nothing_that_was_recorded(
    browser: Browser, site: Site
) -> None:
    tab = tablet(browser, site)
    note_problem(tab, "under the older sheet")
    settle(tab)
    older = tab.events()[0]["data"]["sheet"]
    tab.goto("/step/cells")
    tab.field(READING).fill("4.")
    newer = small_sheet("B")
    newer["steps"][0]["text"] = {"en": "Read it at 500 V.", "es": "Mida a 500 V."}
    now = site.hand_in(newer)
    tab.send()
    assert tab.page.get_by_role("heading", name="Read the insulation.").count() == 1
    assert tab.field(READING).input_value() == "4."
    # A page that is opened now shows the older one too: what this tablet took up is what counts.
    other = tab.new_page()
    other.goto(f"{site.url}/field/#/job/{site.job}/step/cells")
    other.get_by_role("heading", name="Read the insulation.").wait_for()
    other.close()
    tab.goto("/all")
    tab.page.get_by_text("Something is typed and not saved yet.").wait_for()
    tab.tap("Take up the newer sheet")
    tab.page.get_by_text("Saved on this tablet.").wait_for()
    tab.goto("/step/cells")
    tab.page.get_by_role("heading", name="Read it at 500 V.").wait_for()
    assert tab.field(READING).input_value() == "4."
    tab.field(READING).fill("4.5")
    tab.tap("Save, done")
    tab.page.get_by_text("Step 1 is saved on this tablet.").wait_for()
    settle(tab)
    whole(site, tab)
    texts = raws(tab.page, site.job)
    assert broken(texts) == []
    assert [json.loads(each)["data"] for each in texts if json.loads(each)["type"] == "sheet"] == [
        {"sheet": now, "was": older}
    ]
    assert folded(texts, newer).hash == state_of(tab)["hash"]
    assert tab.faults == []
