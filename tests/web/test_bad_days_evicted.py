"""The store, the cookies or both are gone: it is said, no second log begins under one name, and work goes on."""

import json
import re
from collections.abc import Iterator

import pytest
from bad_days import again, broken, note_problem, raws, read_cells, record_of, settle, small_site, taken, whole
from field_site import PHONE, Site, Tab, launched
from playwright.sync_api import Browser, sync_playwright

from standfast.foreman.office import tablets
from standfast.foreman.office.cabinet import universal

LOST = "THE RECORD OF THIS TABLET IS NOT WHOLE"
THROW_AWAY = """new Promise((done, failed) => {
  const asked = indexedDB.deleteDatabase("standfast-field");
  asked.onsuccess = () => done(0); asked.onerror = () => failed(asked.error);
})"""


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


def tablet(browser: Browser, site: Site, name: str = "Ana Invented") -> Tab:
    return taken(Tab(browser.new_context(viewport=PHONE, accept_downloads=True), site), name)


def anew(tab: Tab) -> None:
    """Begin as a new tablet, as the page says it, and take the job once more."""
    tab.page.get_by_text("The office knows.").click()
    with tab.page.expect_navigation():
        tab.tap("Begin as a new tablet")
    tab.page.get_by_role("heading", name="Enrol this tablet").wait_for()
    taken(tab, "Ben Invented")


def test_a_store_that_is_gone_is_shouted_and_a_new_tablet_begins_a_log_of_its_own(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    read_cells(tab, "12")
    settle(tab)
    sent = raws(tab.page, site.job)
    dev = record_of(sent).events[0].dev
    tab.page.evaluate(THROW_AWAY)
    tab.page.reload()
    tab.page.get_by_role("heading", name=LOST).wait_for()
    tab.page.get_by_text(f"{len(sent)} entries were here, 0 are.").wait_for()
    tab.page.get_by_text(f"It was tablet {dev}.").wait_for()
    assert tab.page.get_by_role("button").count() == 0
    anew(tab)
    note_problem(tab, "after the loss")
    settle(tab)
    whole(site, tab)
    texts = raws(tab.page, site.job)
    assert set(sent) < set(texts), "what was sent before came back from the office"
    assert broken(texts) == []
    assert len(record_of(texts).logs) == 2
    assert tab.faults == []


def test_a_store_that_is_thrown_away_under_an_open_page_gets_no_second_log(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    read_cells(tab, "12")
    settle(tab)
    sent = raws(tab.page, site.job)
    tab.context.set_offline(True)
    tab.goto("/problem")
    tab.page.get_by_text("damaged").click()
    tab.page.locator("textarea").fill("typed before it was seen")
    tab.page.evaluate(THROW_AWAY)
    tab.tap("Save the problem")
    tab.page.get_by_role("alert").get_by_text(LOST).wait_for()
    assert tab.page.locator("textarea").input_value() == "typed before it was seen"
    assert raws(tab.page, site.job) == []
    # Found out by the office's word too, without loading the page again.
    tab.context.set_offline(False)
    tab.send()
    tab.page.get_by_role("heading", name=LOST).wait_for()
    assert sorted(each.raw for each in site.store.events(site.job)) == sorted(sent)


def test_without_any_trace_on_the_tablet_the_office_still_knows_it(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    read_cells(tab, "12")
    settle(tab)
    dev = tab.events()[0]["dev"]
    tab.page.evaluate(THROW_AWAY)
    tab.page.evaluate(
        """async () => { localStorage.clear(); for (const name of await caches.keys()) await caches.delete(name);
        for (const each of await navigator.serviceWorker.getRegistrations()) await each.unregister() }"""
    )
    tab.page.reload()
    tab.page.get_by_role("heading", name=LOST).wait_for()
    tab.page.get_by_text(f"It was tablet {dev}.").wait_for()
    anew(tab)
    settle(tab)
    assert {each.dev for each in site.store.events(site.job)} > {dev}
    assert broken(raws(tab.page, site.job)) == []


def test_an_older_store_that_was_put_back_is_found_out_and_what_is_left_of_it_stays(
    browser: Browser, site: Site
) -> None:
    tab = tablet(browser, site)
    read_cells(tab, "12")
    settle(tab)
    sent = raws(tab.page, site.job)
    # As a backup of the tablet does it: the last event and the head are those of an hour ago, the notes too.
    tab.page.evaluate(
        """([job, dev, seq, hash]) => new Promise(done => {
          localStorage.clear();
          indexedDB.open("standfast-field").onsuccess = ({ target: { result: db } }) => {
            const tx = db.transaction(["events", "meta"], "readwrite");
            tx.objectStore("events").delete([job, dev, seq + 1]);
            tx.objectStore("meta").put({ seq, hash }, `head ${job}`);
            tx.oncomplete = () => { db.close(); caches.delete("standfast-canary").then(() => done(0)) };
          };
        })""",
        [site.job, (last := record_of(sent).events[-1]).dev, last.seq - 1, last.prev],
    )
    tab.page.reload()
    tab.page.get_by_role("heading", name=LOST).wait_for()
    tab.page.get_by_text(re.compile(f"{last.seq} entries were here, {last.seq - 1} are.")).wait_for()
    anew(tab)
    settle(tab)
    texts = raws(tab.page, site.job)
    assert set(sent) < set(texts)
    assert broken(texts) == []
    begins = [each for each in record_of(texts).events if each.type == "begin"]
    assert [each.seq for each in begins] == [1, 1]


@pytest.mark.parametrize("how", ["cookies gone", "withdrawn"])
def test_a_tablet_that_the_office_does_not_know_works_on_is_copied_and_enrols_as_the_same(
    browser: Browser, site: Site, how: str
) -> None:
    tab = tablet(browser, site)
    (dev,) = {each.id for each in site.store.devices()}
    if how == "withdrawn":
        tablets.withdraw(site.store, dev, universal())
    else:
        tab.context.clear_cookies()
    read_cells(tab, "12")
    tab.send()
    tab.goto("/record")
    tab.page.get_by_role("heading", name="The office does not know this tablet now").wait_for()
    tab.page.locator("main").get_by_text("The office refused: Nobody is signed in here.").first.wait_for()
    with tab.page.expect_download() as copy:
        tab.tap("Make the copy")
    assert copy.value.path().stat().st_size > 1000
    assert "reading" not in site.types()
    again(tab)
    settle(tab)
    whole(site, tab)
    assert {each.dev for each in site.store.events(site.job)} == {dev}
    assert "reading" in site.types()
    assert json.loads(site.store.events(site.job)[-1].raw)["dev"] == dev
