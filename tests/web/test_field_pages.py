"""The field pages in a real browser: without a server, in two languages, for every hand, on one tablet and on two."""

import io
import json
import re
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
import tomli
from field_site import PHONE, TABLET, Site, Tab, demo_sheet, launched, picture, site_of
from playwright.sync_api import Browser, sync_playwright

from standfast.cli import run
from standfast.fieldwork.record.event import hash_of
from standfast.web import shipped

STATIC = Path(__file__).parents[2] / "src" / "standfast" / "web" / "field" / "static"
WORDS = Path(__file__).parents[2] / "src" / "standfast" / "words"
SIZES = (PHONE, TABLET, {"width": 844, "height": 390}, {"width": 1180, "height": 820})
PAGES = ("", "/all", "/problems", "/problem", "/record", "/sign", "/people", "/disputes")


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = launched(playwright)
        yield browser
        browser.close()


@pytest.fixture
def site() -> Iterator[Site]:
    with site_of(json.loads(demo_sheet())) as site:
        yield site


def tablet(browser: Browser, site: Site, name: str = "Ana Invented", **more: Any) -> Tab:
    """A tablet that is enrolled, held by somebody, and stands at the first step."""
    tab = Tab(browser.new_context(**{"viewport": PHONE, "accept_downloads": True, **more}), site)
    tab.enrol(f"Tablet of {name}")
    tab.take(name)
    return tab


def step_of(site: Site, kind: str) -> dict[str, Any]:
    """The first step with an item of a kind."""
    found: dict[str, Any] = next(
        step for step in site.sheet["steps"] if any(item["kind"] == kind for item in step["items"])
    )
    return found


def test_after_the_first_visit_it_opens_writes_and_starts_again_without_a_server(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    tab.ready()
    site.close()
    tab.context.set_offline(True)
    tab.page.reload()
    tab.page.locator(".step").wait_for()
    tab.tap("Done")
    tab.page.get_by_text("Step 1 is saved on this tablet.").wait_for()
    tab.page.close()
    tab.page = tab.new_page()
    tab.page.goto(f"{site.url}/field/#/job/{site.job}")
    tab.page.locator(".number", has_text="2").first.wait_for()
    assert [each["type"] for each in tab.events() if each["type"] != "clock"] == ["begin", "person", "done"]
    tab.goto("/record")
    tab.tap("Send now")
    tab.page.locator("main section").get_by_text("No signal to the office. Work on.").wait_for()
    assert tab.faults == []


@pytest.fixture(scope="module")
def looked_at(browser: Browser) -> Iterator[Tab]:
    """A tablet whose pages are looked at; nothing is recorded on it."""
    with site_of(json.loads(demo_sheet())) as site:
        yield tablet(browser, site)


def speak(tab: Tab, language: str) -> None:
    """Change the language, as the settings do."""
    tab.page.evaluate("location.hash = '#/settings'")
    tab.page.locator(f"fieldset span[lang={language}]").click()
    tab.page.locator(f"html[lang={language}]").wait_for(state="attached")


def items_on(site: Site, path: str) -> list[dict[str, Any]]:
    """Items of the step of a page; none where it is another page."""
    return [item for step in site.sheet["steps"] if path == f"/step/{step['id']}" for item in step["items"]]


def every_kind(site: Site) -> list[str]:
    """Pages of steps that together have every kind of item, a hold point, a drawing and a caution."""
    found: dict[str, str] = {}
    for step in site.sheet["steps"]:
        kinds = [item["kind"] for item in step["items"]]
        for each in (*kinds, *(key for key in ("holds", "drawings", "cautions", "torque", "indication") if step[key])):
            found.setdefault(each, f"/step/{step['id']}")
    return sorted(set(found.values()))


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_page_keeps_to_wcag_and_to_the_size_of_a_glove(looked_at: Tab, language: str) -> None:
    tab = looked_at
    speak(tab, language)
    tab.page.locator("dl").wait_for()
    assert tab.violations() == []
    assert tab.small() == []
    for path in (*PAGES, *every_kind(tab.site)):
        tab.goto(path)
        assert tab.small() == [], path
        if language == "en":
            assert tab.violations() == [], path
    assert tab.faults == []


def test_no_page_is_wider_than_the_screen_and_the_way_on_is_always_in_sight(looked_at: Tab) -> None:
    tab = looked_at
    for size in SIZES:
        tab.page.set_viewport_size(size)
        for path in (*PAGES, *every_kind(tab.site)):
            tab.goto(path)
            assert tab.page.evaluate("document.documentElement.scrollWidth") <= size["width"], (size, path)
            done = tab.page.locator(".finish button.done")
            if "/step/" in path:
                box = done.bounding_box()
                assert box and 0 <= box["y"] <= size["height"] - box["height"], (size, path)
    tab.page.set_viewport_size(PHONE)


def test_spanish_leaves_no_english_sentence(looked_at: Tab) -> None:
    tab = looked_at
    speak(tab, "es")
    tab.page.get_by_role("heading", name="Esta tableta").wait_for()
    english = tomli.loads((WORDS / "en" / "field.toml").read_text("utf-8"))
    spanish = tomli.loads((WORDS / "es" / "field.toml").read_text("utf-8"))
    same = {text for key, text in english.items() if spanish[key] == text}
    sentences = [re.escape(text) for text in english.values() if "{" not in text and text not in same and len(text) > 3]
    one = re.compile(rf"^({'|'.join(sentences)})$", re.MULTILINE)
    for path in (*PAGES, *every_kind(tab.site)):
        tab.goto(path)
        text = tab.page.locator("body").inner_text()
        assert len(text) > 200
        assert one.findall(text) == [], path
        kinds = {kind for item in items_on(tab.site, path) for kind in item["tool_kind"]}
        assert not [kind for kind in kinds if kind in text.lower()], path
    speak(tab, "en")
    assert len(one.findall(tab.page.locator("body").inner_text())) > 3


def test_two_pages_of_one_tablet_write_one_log_without_a_gap(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    other = tab.new_page()
    other.goto(f"{site.url}/field/#/job/{site.job}")
    other.locator(".step").wait_for()
    write = """async () => {
        const { record } = await import("/field/static/work.js");
        const note = async () => {
          for (let n = 0; n < 20; n += 1) await record("problem", "", { kind: "other", text: `${n}` });
        };
        window.done = note();
    }"""
    for page in (tab.page, other):
        page.evaluate(write)
    for page in (tab.page, other):
        page.evaluate("window.done")
    events = tab.events()
    assert len([each for each in events if each["type"] == "problem"]) == 40
    assert [each["seq"] for each in events] == list(range(1, len(events) + 1))
    assert (
        tab.page.evaluate(
            """async job => { const { linesOf } = await import("/field/static/log.js");
        const { broken } = await import("/field/static/chain.js"); return broken(await linesOf(job)) }""",
            site.job,
        )
        is None
    )


def test_the_copy_is_a_zip_that_python_verifies_and_another_tablet_takes_in_once(
    browser: Browser, site: Site, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tab = tablet(browser, site)
    tab.goto("/step/job.delivery")
    tab.photo("job.delivery/photo")
    tab.context.set_offline(True)
    tab.goto("/problem")
    tab.page.get_by_text("damaged").click()
    tab.page.locator("textarea").fill("a dent ≥ 3 mm")
    tab.tap("Save the problem")
    tab.page.get_by_text("a dent ≥ 3 mm").wait_for()
    tab.goto("/record")
    with tab.page.expect_download() as downloaded:
        tab.tap("Make the copy")
    data = Path(downloaded.value.path()).read_bytes()
    with zipfile.ZipFile(io.BytesIO(data)) as copy:
        assert copy.testzip() is None
        lines = copy.read("record.ndjson").decode().splitlines()
        photos = [name for name in copy.namelist() if name.startswith("photos/")]
        assert copy.read("job.id").decode().strip() == site.job
    assert [json.loads(each)["prev"] for each in lines[1:]] == [hash_of(each) for each in lines[:-1]]
    assert len(photos) == 1
    (tmp_path / "copy.zip").write_bytes(data)
    assert run(["verify", str(tmp_path / "copy.zip")]) in (0, 1)
    told = capsys.readouterr().out
    assert tab.events()[0]["dev"] in told
    assert "fail" not in told.lower().replace("failed: 0", "")
    other = tablet(browser, site, "Ben Invented")
    for _ in range(2):
        other.goto("/record")
        other.page.locator("#copy-in").set_input_files(
            {"name": "copy.zip", "mimeType": "application/zip", "buffer": data}
        )
        other.page.get_by_text("What the copy has is here now.").wait_for()
        other.goto("/problems")
        other.page.get_by_text("a dent ≥ 3 mm").wait_for()
    assert other.page.get_by_text("a dent ≥ 3 mm").count() == 1
    damaged = data.replace("dent ≥".encode(), "dint ≥".encode())
    other.goto("/record")
    other.page.locator("#copy-in").set_input_files({"name": "x.zip", "mimeType": "application/zip", "buffer": damaged})
    other.page.get_by_role("alert").wait_for()


def test_a_photo_is_small_and_holds_no_position(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    raw = picture(2400, 1800)
    assert b"POSITION-IN-THE-PICTURE" in raw
    found = tab.page.evaluate(
        """async base64 => { const { photoOf } = await import("/field/static/media.js");
        const bytes = Uint8Array.from(atob(base64), each => each.charCodeAt(0));
        const photo = await photoOf(new Blob([bytes], { type: "image/jpeg" }));
        return { ...photo, text: await photo.blob.text() } }""",
        __import__("base64").b64encode(raw).decode(),
    )
    assert 10_000 < found["bytes"] <= 1_500_000
    assert "POSITION-IN-THE-PICTURE" not in found["text"]
    assert "Exif" not in found["text"]


def test_a_reading_that_fails_is_said_at_once_and_stays_after_it_is_read_again(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    tab.goto("/step/job.dead-tests")
    item = next(item for step in site.sheet["steps"] for item in step["items"] if item["id"] == "job.dead-tests/T1-1")
    tab.field(item["id"]).fill("0,4")
    assert tab.field(item["id"]).input_value() == "0.4"
    tab.page.get_by_text("DOES NOT HOLD").wait_for()
    tab.page.wait_for_function(
        """() => document.querySelector(".field .verdict").getBoundingClientRect().bottom
        <= document.querySelector(".finish").getBoundingClientRect().top"""
    )
    tab.tap("Save what is there")
    tab.page.locator(".recorded").get_by_text("DOES NOT HOLD").wait_for()
    tab.field(item["id"]).fill("OL")
    tab.tap("Save what is there")
    tab.page.locator(".recorded").get_by_text("a later one counts").wait_for()
    values = [each["data"]["values"][0]["value"] for each in tab.events() if each["type"] == "reading"]
    assert values == ["0.4", "OL"]
    assert tab.page.locator(".recorded").get_by_text("0.4 MΩ").count() == 1


def test_a_torque_is_read_in_the_unit_of_its_tool_whose_calibration_is_told(browser: Browser, site: Site) -> None:
    sheet = json.loads(json.dumps(site.sheet))
    tool = {"kind": "torque wrench", "functions": [], "unit": "N·m", "from": "2", "to": "20", "serial": "INV-1"}
    sheet["tools"] = [
        {**tool, "id": "old", "name": "old wrench", "calibrated_until": "2020-01-01"},
        {**tool, "id": "good", "name": "good wrench", "calibrated_until": "2999-01-01"},
    ]
    site.hand_in(sheet)
    tab = tablet(browser, site)
    tab.goto("/step/battery-1.bolt")
    item = next(each for step in sheet["steps"] for each in step["items"] if each["id"] == "battery-1.bolt/1")
    (also,) = item["limit"]["also"]
    tab.tap(f"Set to {also['value']} {also['unit']}")
    tab.page.locator(".verdict.pass").wait_for()
    tools = tab.page.get_by_role("group", name="Instrument used").get_by_role("combobox")
    tools.select_option("old")
    tab.page.get_by_text("Calibration ended 2020-01-01. Take another one.").wait_for()
    tools.select_option("good")
    tab.page.get_by_text("in calibration until 2999-01-01").wait_for()
    tab.tap("One differs")
    tab.page.get_by_label("which one").fill("upper left")
    tab.page.get_by_label("its value").fill("1")
    tab.page.locator(".exception .verdict.fail").wait_for()
    tab.tap("Save what is there")
    tab.page.locator(".recorded .verdict.fail").wait_for()
    told = tab.told("reading")
    assert told["tool"] == "good"
    assert told["values"] == [
        {
            "item": item["id"], "value": also["value"], "unit": also["unit"], "n": item["count"],
            "exceptions": [{"which": "upper left", "value": "1"}],
        }
    ]  # fmt: skip
    assert tab.faults == []


def test_work_out_of_order_is_asked_once_and_recorded(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    tab.goto("/step/battery-1.drill")
    tab.tap("Done")
    tab.page.get_by_text("It will be marked as out of order.").wait_for()
    assert "done" not in [each["type"] for each in tab.events()]
    tab.tap("Record it all the same")
    tab.page.get_by_text("is saved on this tablet").wait_for()
    tab.goto("/all")
    assert tab.page.get_by_text("done out of order").count() == 1


def test_two_tablets_that_read_differently_dispute_until_somebody_says_which_counts(
    browser: Browser, site: Site
) -> None:
    one, two = tablet(browser, site), tablet(browser, site, "Ben Invented", viewport=TABLET)
    for tab, value in ((one, "12"), (two, "0.2")):
        tab.context.set_offline(True)
        tab.goto("/step/job.dead-tests")
        tab.field("job.dead-tests/T1-1").fill(value)
        tab.tap("Save what is there")
        tab.page.locator(".recorded").get_by_text(f"{value} MΩ").wait_for()
    for tab in (one, two, one):
        tab.context.set_offline(False)
        tab.send()
    one.goto("/disputes")
    assert one.page.locator("fieldset .choice").count() == 2
    assert one.violations() == []
    one.page.locator("fieldset .choice", has_text="0.2 MΩ").click()
    one.page.get_by_label("Why does this one count?").fill("read again, the lead was broken")
    one.tap("This one counts")
    one.page.get_by_text("Nothing to settle.").wait_for()
    state = one.page.evaluate('async () => (await import("/field/static/work.js")).job().state.work.items')
    assert state["job.dead-tests/T1-1"]["word"] == "fail"
    assert len(state["job.dead-tests/T1-1"]["values"]) == 2


def test_a_tablet_is_the_witness_of_another_by_its_code_alone(browser: Browser, site: Site) -> None:
    one, two = tablet(browser, site), tablet(browser, site, "Ben Invented")
    one.goto("/record")
    one.page.locator("img.code").scroll_into_view_if_needed()
    code = one.page.locator("img.code").screenshot()
    two.context.set_offline(True)
    two.goto("/record")
    two.tap("Read the code of the other tablet")
    two.page.locator(".scanner .camera input").set_input_files(
        {"name": "code.png", "mimeType": "image/png", "buffer": code}
    )
    two.page.get_by_text("Witness saved on this tablet.").wait_for()
    told = two.told("witness")
    kept = one.page.evaluate(
        'async ([job, dev]) => (await (await import("/field/static/log.js")).linesOf(job, dev)).map(each => each.hash)',
        [site.job, told["dev"]],
    )
    assert told["hash"] == kept[told["seq"] - 1]
    assert one.faults == two.faults == []


def test_a_newer_sheet_waits_until_somebody_takes_it_up(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    newer = json.loads(json.dumps(site.sheet))
    newer["steps"][0]["text"] = {"en": "A newer first step.", "es": "Un primer paso más nuevo."}
    now = site.hand_in(newer)
    tab.send()
    tab.goto("")
    assert tab.page.get_by_text("A newer first step.").count() == 0
    tab.goto("/all")
    tab.tap("Take up the newer sheet")
    tab.goto("")
    tab.page.get_by_role("heading", name="A newer first step.").wait_for()
    assert next(each["data"]["sheet"] for each in reversed(tab.events()) if each["type"] == "sheet") == now


def test_a_timer_calls_on_every_page_and_a_judgement_before_its_end_says_nothing(browser: Browser, site: Site) -> None:
    step = step_of(site, "timer")
    item = next(each for each in step["items"] if each["kind"] == "timer")
    tab = tablet(browser, site)
    tab.goto(f"/step/{step['id']}")
    tab.tap(f"Start: {item['seconds']} s")
    tab.goto("/all")
    call = tab.page.locator("a.calls")
    call.wait_for()
    call.click()
    tab.tap("Seen")
    tab.page.get_by_text("Saved on this tablet.").wait_for()
    told = tab.told("timer")
    assert told["waited_ms"] >= item["seconds"] * 1000
    assert told["judged"] == "seen"


def test_a_store_that_was_thrown_away_is_told_and_the_tablet_is_no_new_one(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    tab.tap("Done")
    tab.page.get_by_text("Step 1 is saved on this tablet.").wait_for()
    tab.ready()
    site.close()
    tab.context.set_offline(True)
    tab.page.evaluate("indexedDB.deleteDatabase('standfast-field')")
    tab.page.reload()
    tab.page.get_by_role("heading", name="THE RECORD OF THIS TABLET IS NOT WHOLE").wait_for()
    tab.page.get_by_text(re.compile("[34] entries were here, 0 are.")).wait_for()
    assert tab.page.get_by_role("button").count() == 0
    assert tab.violations() == []
    tab.page.get_by_text("The office knows.").click()
    tab.tap("Begin as a new tablet")
    tab.page.get_by_role("heading", name="Enrol this tablet").wait_for()


def test_a_store_that_does_not_open_is_not_taken_for_an_empty_one(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    tab.context.add_init_script(
        "indexedDB.open = () => { throw new DOMException('Internal error opening backing store', 'UnknownError') }"
    )
    tab.page.goto(f"{site.url}/field/#enrol={site.code()}")
    tab.page.reload()
    tab.page.get_by_role("alert").get_by_text("Something went wrong.").wait_for()
    assert tab.page.locator("#code").count() == 0
    tab.page.get_by_role("button", name="Load the page again").wait_for()


def test_what_is_typed_stays_when_it_cannot_be_saved(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    tab.goto("/step/job.dead-tests")
    tab.field("job.dead-tests/T1-1").fill("12")
    tab.page.evaluate(
        """() => { const put = IDBObjectStore.prototype.add;
        IDBObjectStore.prototype.add = function (...given) {
          const asked = put.apply(this, given);
          this.transaction.abort();
          window.free = () => { IDBObjectStore.prototype.add = put };
          return asked;
        } }"""
    )
    tab.tap("Save what is there")
    tab.page.get_by_role("alert").get_by_text("NOT SAVED").wait_for()
    assert tab.field("job.dead-tests/T1-1").input_value() == "12"
    assert "reading" not in [each["type"] for each in tab.events()]
    assert tab.violations() == []
    tab.page.evaluate("window.free()")
    tab.tap("Save what is there")
    tab.page.locator(".recorded").get_by_text("12 MΩ").wait_for()
    assert [each["type"] for each in tab.events()].count("reading") == 1


def test_a_newer_version_of_the_pages_waits_for_a_button_between_two_jobs(browser: Browser, site: Site) -> None:
    tab = tablet(browser, site)
    tab.ready()
    tab.page.reload()
    tab.page.locator(".step").wait_for()
    older = tab.page.evaluate("caches.keys()")
    with newer_shell():
        tab.page.evaluate("navigator.serviceWorker.getRegistration().then(each => each.update()).then(() => 0)")
        until(tab, WAITS)
        tab.tap("Done")
        tab.page.get_by_text("Step 1 is saved on this tablet.").wait_for()
        assert tab.page.evaluate(WAITS)
        tab.page.evaluate("location.hash = '#/'")
        with tab.page.expect_navigation():
            tab.tap("Take it up now")
        until(tab, f"caches.keys().then(names => !names.includes('{shell_in(older)}'))")
        tab.page.get_by_role("heading", name="Jobs").wait_for()
    assert [each["type"] for each in tab.events() if each["type"] != "clock"] == ["begin", "person", "done"]
    assert tab.faults == []


WAITS = "navigator.serviceWorker.getRegistration().then(each => Boolean(each.waiting))"


def until(tab: Tab, told: str) -> None:
    """Wait until a promise tells that it is so."""
    for _ in range(100):
        if tab.page.evaluate(told):
            return
        tab.page.wait_for_timeout(100)
    pytest.fail(f"never: {told}")


def shell_in(names: list[str]) -> str:
    """The name of the cache that holds the shell."""
    (found,) = [name for name in names if name.startswith("standfast-shell-")]
    return found


@contextmanager
def newer_shell() -> Iterator[None]:
    """The server has newer pages for a while."""
    room = dict(shipped.shipped("field"))
    style = room["field.css"]
    newer = {**room, "field.css": shipped.Shipped(style.data + b"\n", style.kind, '"newer"')}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shipped, "shipped", lambda name: newer)
        shipped._worker.cache_clear()
        yield
    shipped._worker.cache_clear()


def test_every_word_of_the_pages_is_in_the_catalogue_and_every_word_of_the_catalogue_is_read() -> None:
    source = "\n".join(path.read_text("utf-8") for path in [*STATIC.glob("*.js"), *STATIC.glob("pages/*.js")])
    english = tomli.loads((WORDS / "en" / "field.toml").read_text("utf-8"))
    said = set(re.findall(r'\bsay\("([a-z_]+)"', source))
    assert said <= set(english)
    assert len(said) > 150
    assert {key for key in english if f'"{key}"' not in source} == set()


def test_no_module_of_the_pages_is_longer_than_two_hundred_lines_or_asks_another_host() -> None:
    modules = [*STATIC.glob("*.js"), *STATIC.glob("pages/*.js")]
    assert len(modules) > 20
    for path in modules:
        text = path.read_text("utf-8")
        assert len(text.splitlines()) <= 200, path.name
        assert not re.search(r"https?://", text), path.name
        assert "innerHTML" not in text, path.name
