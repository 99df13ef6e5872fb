"""A network that lies, a store that lets go, and a day without any: what was saved comes through, once."""

import io
from collections.abc import Iterator
from pathlib import Path

import pytest
import zxingcpp
from bad_days import (
    broken,
    camera,
    contact,
    note_problem,
    raws,
    read_cells,
    record_of,
    settle,
    small_site,
    taken,
    whole,
)
from field_site import PHONE, Site, Tab, launched
from PIL import Image
from playwright.sync_api import Browser, Route, sync_playwright

from standfast.cli import run


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


def impatient(tab: Tab) -> None:
    """Wait for an answer a moment only, instead of a minute."""
    tab.page.evaluate('async () => { (await import("/field/static/office.js")).patience.ms = 400 }')


@pytest.mark.parametrize("at", ["/api/v1/jobs", "/events", "/files/"])
def test_a_server_that_never_answers_holds_up_neither_the_work_nor_the_next_attempt(
    browser: Browser, site: Site, at: str
) -> None:
    tab = tablet(browser, site)
    settle(tab)
    impatient(tab)
    held: list[Route] = []
    tab.page.route(lambda url: at in url and "/static/" not in url, lambda route: held.append(route))
    camera(tab)
    read_cells(tab, "12")
    tab.send()
    while contact(tab)["state"] != "no server":
        tab.page.wait_for_timeout(50)
    assert held
    tab.goto("/record")
    tab.page.locator("main section").get_by_text("No signal to the office. Work on.").wait_for()
    note_problem(tab, "written meanwhile")
    tab.page.unroute_all(behavior="ignoreErrors")
    settle(tab)
    whole(site, tab)
    assert tab.faults == []


@pytest.mark.parametrize("answer", ["<html>Welcome to the hotel</html>", "", '{"acked":'])
def test_an_answer_that_is_not_the_offices_is_no_answer(browser: Browser, site: Site, answer: str) -> None:
    tab = tablet(browser, site)
    settle(tab)
    before = len(site.store.events(site.job))
    tab.page.route("**/events", lambda route: route.fulfill(status=200, content_type="text/html", body=answer))
    read_cells(tab, "12")
    tab.send()
    assert contact(tab)["state"] == "no server"
    assert contact(tab)["waiting"] > 0
    assert len(site.store.events(site.job)) == before
    tab.page.unroute_all(behavior="ignoreErrors")
    settle(tab)
    whole(site, tab)
    assert tab.faults == []


CLOSE_ONCE = """() => {
  const real = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (...of) {
    IDBDatabase.prototype.transaction = real;
    this.close();
    window.letGo = (window.letGo ?? 0) + 1;
    return real.apply(this, of);
  };
}"""


def test_a_store_whose_connection_is_lost_is_opened_again_and_the_entry_is_there_once(
    browser: Browser, site: Site
) -> None:
    tab = tablet(browser, site)
    tab.context.set_offline(True)
    for number in range(3):
        tab.goto("/problem")
        tab.page.get_by_text("damaged").click()
        tab.page.locator("textarea").fill(f"number {number}")
        tab.page.evaluate(CLOSE_ONCE)
        tab.tap("Save the problem")
        tab.page.get_by_text("The problem is saved on this tablet.").wait_for()
    assert tab.page.evaluate("window.letGo") == 3
    texts = raws(tab.page, site.job)
    assert broken(texts) == []
    assert [each.data["text"] for each in record_of(texts).events if each.type == "problem"] == [
        "number 0", "number 1", "number 2",
    ]  # fmt: skip


def test_one_photo_that_is_refused_holds_up_no_other(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    settle(tab)
    refuse: list[str] = []

    def first(route: Route) -> None:
        sha = route.request.url.rpartition("/")[2]
        refuse[:] = refuse or [sha]
        if sha == refuse[0] and route.request.method == "PATCH":
            route.fulfill(status=415, json={"what": "The file is of a kind that is not taken.", "why": "", "do": ""})
        else:
            route.continue_()

    tab.page.route("**/files/*", first)
    for number in range(3):
        save_photo(tab, number)
    tab.send()
    while contact(tab)["photos"] != 1:
        tab.page.wait_for_timeout(50)
        tab.send()
    assert contact(tab)["state"] == "refused"
    assert "kind that is not taken" in contact(tab)["why"]
    tab.page.unroute_all(behavior="ignoreErrors")
    settle(tab)
    whole(site, tab)


def save_photo(tab: Tab, number: int) -> None:
    """Record a photo of its own colour."""
    out = io.BytesIO()
    Image.new("RGB", (300, 200), (number * 40, 90, 60)).save(out, "JPEG")
    tab.goto("/step/cover")
    before = tab.page.locator(".photos img, .photos p").count()
    tab.field("cover/photo").set_input_files({"name": "a.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()})
    tab.page.locator(".photos img, .photos p").nth(before).wait_for()


def test_a_copy_of_a_tablet_that_never_reached_the_office_is_taken_in_once_and_twice(
    browser: Browser, site: Site, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tab = tablet(browser, site)
    settle(tab)
    had = len(site.store.events(site.job))
    tab.context.set_offline(True)
    read_cells(tab, "12")
    note_problem(tab, "never sent")
    camera(tab)
    tab.goto("/record")
    with tab.page.expect_download() as copy:
        tab.tap("Make the copy")
    file = tmp_path / "copy.zip"
    copy.value.save_as(file)
    for new in (True, False):
        capsys.readouterr()
        assert run(["import", str(file), "--database", site.database]) == 0
        assert ("nothing new" in capsys.readouterr().out) is not new
        texts = [each.raw for each in site.store.events(site.job)]
        assert sorted(texts) == sorted(raws(tab.page, site.job))
        assert len(texts) > had
    photo = next(each.data["sha"] for each in record_of(texts).events if each.type == "photo")
    content = site.store.file(site.job, photo)
    assert content is not None
    assert content.startswith(b"\xff\xd8\xff")
    # Of a job that is not there nothing is taken.
    assert run(["import", str(file), "--database", f"sqlite:///{tmp_path}/other.db"]) != 0
    assert "import the folder of the job" in "".join(capsys.readouterr())
    # The tablet finds afterwards that all of it is there.
    tab.context.set_offline(False)
    settle(tab)
    whole(site, tab)
    assert broken(raws(tab.page, site.job)) == []


def test_the_code_on_one_tablet_is_read_by_another_and_cut_off_entries_are_known_to_be_missing(
    browser: Browser, site: Site, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    one, two = tablet(browser, site), tablet(browser, site, "Ben Invented")
    for tab in (one, two):
        settle(tab)
        tab.context.set_offline(True)
    read_cells(one, "12")
    one.goto("/record")
    one.page.locator("img.code").scroll_into_view_if_needed()
    shown = one.page.locator("img.code").screenshot()
    (read,) = zxingcpp.read_barcodes(Image.open(io.BytesIO(shown)))
    last = record_of(raws(one.page, site.job)).events[-1]
    assert read.text.split(" ")[1:] == [site.job, last.dev, str(last.seq), last.hash]
    two.goto("/record")
    two.tap("Read the code of the other tablet")
    two.page.locator(".scanner .camera input").set_input_files(
        {"name": "code.png", "mimeType": "image/png", "buffer": shown}
    )
    two.page.get_by_text("Witness saved on this tablet.").wait_for()
    told = two.told("witness")
    assert (told["dev"], told["seq"], told["hash"]) == (last.dev, last.seq, last.hash)
    two.context.set_offline(False)
    settle(two)
    # The first tablet is lost on the way home. What its last entries said nobody knows.
    texts = [each.raw for each in site.store.events(site.job)]
    assert max(each.seq for each in record_of(texts).events if each.dev == last.dev) < last.seq
    (tmp_path / "record.ndjson").write_text("".join(f"{each}\n" for each in texts), "utf-8")
    assert run(["verify", str(tmp_path / "record.ndjson")]) == 1
    said = capsys.readouterr().out
    assert last.dev in said
    assert f"{last.seq}" in said
