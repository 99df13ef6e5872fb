"""The office's pages: a job from the shelf to a tablet, its record as it stands, disputes, the seal, the erasure."""

import io
import json
import re
import zipfile
from base64 import b64encode
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from hashlib import sha256
from pathlib import Path
from uuid import uuid4

import pytest
from firm import JPEG, Firm, Tablet, handed
from test_server_record import card

from standfast.fieldwork.record.event import read
from standfast.fieldwork.record.seal import sealed_by, signed
from standfast.fieldwork.record.verify import Given, verify
from standfast.fieldwork.record.vouched import Trust
from standfast.foreman import keeping
from standfast.foreman.office import erasing, isolation, own_log, retention, sealing, sessions, standing, tablets
from standfast.foreman.office.cabinet import Refused
from standfast.foreman.office.exporting import packed_job
from standfast.foreman.verifying import verify_record
from standfast.shelf import adoptions
from standfast.store.interface import Person

SMALL = {
    "schema": 1, "adoption": "uk-2024", "program": "0.1.0", "languages": ["en", "es"], "tools": [], "drawings": [],
    "job": {"name": "Small (invented)", "address": "1 Example Lane", "revision": "A", "date": "2026-11-25"},
    "steps": [{
        "id": "s1", "number": 1, "part": "tests", "text": {"en": "Measure it", "es": "Mídalo"}, "after": [],
        "first": [], "torque": [], "indication": None, "cautions": [], "people": "", "tools": [], "holds": [],
        "drawing": None, "redo": [],
        "items": [{
            "id": "s1/r", "kind": "reading", "what": {"en": "Insulation", "es": "Aislamiento"}, "unit": "MΩ",
            "count": 1,
            "limit": {"relation": "at least", "value": "1", "unit": "MΩ", "over_range": "pass",
                      "text": {"en": "at least 1 MΩ", "es": "al menos 1 MΩ"},
                      "source": {"en": "invented", "es": "inventada"}},
            "uncertainty": None, "tool_kind": [], "why": "covered",
        }],
    }],
}  # fmt: skip


def small(firm: Firm, *names: str) -> tuple[str, list[Tablet]]:
    return handed(firm, *names, sheet=json.dumps(SMALL))


def reading(tablet: Tablet, job: str, value: str, **seen: int) -> str:
    values = {"values": [{"item": "s1/r", "value": value, "unit": "MΩ"}], "done": True}
    return tablet.write(job, "reading", values, seen or None, step="s1")


def test_a_job_goes_from_the_shelf_to_a_tablet(firm: Firm) -> None:
    firm.job()
    browser, tablet = firm.signed_in("office"), firm.tablet("Van 3")
    answer = browser.form("/office/jobs/take-in", {"folder": "one-wall"})
    path = answer.headers["location"]
    assert "was not handed out yet" in browser.get(path).text
    assert browser.form(f"{path}/hand-out", {"dev": tablet.dev}).status_code == 303
    (row,) = tablet.browser.get("/api/v1/jobs").json()["jobs"]
    assert path.endswith(row["job"])
    page = browser.get(path).text
    assert re.search(rf'value="{tablet.dev}" checked', page)
    assert "Not ready: " in page
    assert browser.form(f"{path}/hand-out").status_code == 303
    assert tablet.browser.get("/api/v1/jobs").json()["jobs"] == []
    assert browser.form(f"{path}/hand-out", {"dev": "no such"}).status_code == 422


def test_a_job_that_cannot_be_worked_out_is_told_and_not_handed_out(firm: Firm) -> None:
    job, tablet, browser = firm.job(), firm.tablet(), firm.signed_in("office")
    file = firm.shelf / "one-wall" / "job.toml"
    file.write_text(file.read_text("utf-8").replace('adoption = "us-2021"', 'adoption = "no-such"'), "utf-8")
    assert browser.form("/office/jobs/take-in", {"folder": "one-wall"}).status_code == 303
    answer = browser.form(f"/office/jobs/{job}/hand-out", {"dev": tablet.dev})
    assert answer.status_code == 422
    assert "cannot be worked out" in answer.text
    assert tablet.browser.get("/api/v1/jobs").json()["jobs"] == []


def test_two_values_at_one_time_are_a_dispute_until_somebody_says_which(firm: Firm) -> None:
    job, (one, other) = small(firm, "One", "Other")
    browser = firm.signed_in("office")
    one.bring(job, one.begin(job), reading(one, job, "5"))
    other.bring(job, other.begin(job), reading(other, job, "0.5"))
    page = browser.get(f"/office/jobs/{job}").text
    assert "In dispute" in page
    assert "FAILS" in page
    keeps = re.findall(r'name="keep" value="([\w-]+)"', page)
    assert len(keeps) == 2
    found = standing.standing(firm.store, job, firm.now)
    values = {each["event"]: each["value"] for each in found.state.work["items"]["s1/r"]["values"]}
    keep = next(id for id, value in values.items() if value == "5")
    told = {"item": "s1/r", "keep": keep, "reason": "the second meter was on the wrong range"}
    path = f"/office/jobs/{job}/resolve"
    assert browser.form(path, {**told, "reason": " "}).status_code == 422
    assert browser.form(path, {**told, "keep": "no such"}).status_code == 422
    assert browser.form(path, told).status_code == 303
    assert standing.standing(firm.store, job, firm.now).state.work["items"]["s1/r"]["state"] == "recorded"
    assert browser.form(path, told).status_code == 422
    # The tablets get the office's word with the next exchange, as a log of its own.
    dev = own_log.own(firm.store, firm.now).dev
    assert {each["dev"] for each in one.bring(job, have={one.dev: 2}).json()["events"]} == {other.dev, dev}


def test_what_does_not_count_stays_visible(firm: Firm) -> None:
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job), reading(tablet, job, "77"))
    event = read(firm.store.events(job)[-1].raw)
    browser = firm.signed_in("office")
    path = f"/office/jobs/{job}"
    assert browser.form(f"{path}/void", {"of": "no such", "reason": "x"}).status_code == 422
    assert browser.form(f"{path}/void", {"of": event.id, "reason": "wrong circuit"}).status_code == 303
    page = browser.get(path).text
    assert re.search(r"<del>\s*77 MΩ\s*</del>\s*\(does not count\)", page)


def test_a_record_is_sealed_only_when_it_is_ready_and_the_seal_holds(firm: Firm) -> None:
    job, (tablet,) = small(firm)
    browser, path = firm.signed_in("office"), None
    path = f"/office/jobs/{job}/seal"
    tablet.bring(job, tablet.begin(job))
    answer = browser.form(path)
    assert answer.status_code == 422
    assert "not ready to be sealed" in answer.text
    tablet.bring(job, reading(tablet, job, "5"))
    assert browser.form(path).status_code == 303
    event = read(firm.store.events(job)[-1].raw)
    sealed = sealed_by(event)
    assert sealed is not None
    office = own_log.own(firm.store, firm.now)
    assert {dev: head.seq for dev, head in sealed.heads.items()} == {tablet.dev: 2, office.dev: event.seq - 1}
    assert signed(sealed.text, event.data["sig"], office.public)
    assert "token" not in event.data
    assert "Seal of the record as it stands" in browser.get(f"/office/jobs/{job}").text
    tablet.bring(job, reading(tablet, job, "4"))
    assert "Seal of an earlier state" in browser.get(f"/office/jobs/{job}").text


def test_the_verification_finds_nothing_wrong_with_what_the_office_wrote(firm: Firm) -> None:
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job), reading(tablet, job, "5"))
    sealing.seal(firm.store, job, "", firm.now)
    text = "".join(line.raw + "\n" for line in firm.store.events(job)).encode()
    sheet = tablets.last_sheet(firm.store, job, firm.now)
    sheets = {sheet: (tablets.sheet(firm.store, job, sheet) or "").encode()}
    trust = Trust(frozenset({own_log.own(firm.store, firm.now).public}))
    report = verify(Given((("record.ndjson", text),), (("sheet.json", sheet),), sheets.get, trust))
    assert [each.what for each in report.findings if each.word == "fail"] == []
    assert {each.dev: each.sealed for each in report.logs} == {tablet.dev: 2, own_log.own(firm.store, firm.now).dev: 2}
    altered = text.replace(b'"value":"5"', b'"value":"6"')
    assert altered != text
    report = verify(Given((("record.ndjson", altered),), (("sheet.json", sheet),), sheets.get, trust))
    assert report.word == "fail"


def test_photos_and_names_are_erased_for_good_and_the_record_says_so(firm: Firm) -> None:
    job, (tablet,) = small(firm)
    sha = card(firm, job, tablet, "Jo Invented")
    tablet.bring(job, tablet.write(job, "photo", {"sha": sha256(JPEG).hexdigest()}))
    tablet.send(job, JPEG)
    browser, path = firm.signed_in("office"), f"/office/jobs/{job}"
    assert "Jo Invented" in browser.get(path).text
    assert "key of 2 photos and cards" in browser.get(f"{path}/erase").text
    title = firm.store.jobs()[0].title
    assert browser.form(f"{path}/erase", {"title": "another", "reason": "asked"}).status_code == 422
    assert browser.form(f"{path}/erase", {"title": title, "reason": " "}).status_code == 422
    assert browser.form(f"{path}/erase", {"title": title, "reason": "asked by the customer"}).status_code == 303
    page = browser.get(path).text
    assert "Jo Invented" not in page
    assert "Names and photos were erased" in page
    event = read(firm.store.events(job)[-1].raw)
    assert event.type == "erased"
    assert set(event.data["what"]) == {sha, sha256(JPEG).hexdigest()}
    assert tablet.browser.get(f"/api/v1/jobs/{job}/files/{sha}").status_code == 404
    assert tablet.browser.get(f"/api/v1/jobs/{job}/cards").json() == {"cards": {}}
    # A tablet that still has the photo cannot bring it back.
    tablet.send(job, JPEG)
    assert firm.store.file(job, sha256(JPEG).hexdigest()) is None
    count = len(firm.store.events(job))
    assert erasing.erase(firm.store, job, "once more", firm.now) == []
    assert len(firm.store.events(job)) == count


def test_an_erasure_that_was_cut_off_is_written_the_next_time(firm: Firm) -> None:
    job, (tablet,) = small(firm)
    sha = card(firm, job, tablet)
    firm.store.erase(job, "2026-11-25T21:00:00.000Z")
    assert erasing.erase(firm.store, job, "asked", firm.now) == [sha]


def test_an_export_holds_the_job_and_nothing_of_the_office(firm: Firm) -> None:
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job))
    firm.person("crew", "Somebody With An Account")
    answer = firm.signed_in("office").get(f"/office/jobs/{job}/export")
    assert answer.headers["content-disposition"] == f'attachment; filename="{job}.zip"'
    with zipfile.ZipFile(io.BytesIO(answer.content)) as pack:
        assert {"job.toml", "record.ndjson"} <= set(pack.namelist())
        text = b"".join(pack.read(name) for name in pack.namelist())
    assert tablet.dev.encode() in text
    assert b"Somebody With An Account" not in text


def test_the_key_of_the_office_stands_in_the_database_only_sealed(firm: Firm, tmp_path: Path) -> None:
    key = own_log.own(firm.store, firm.now).key.private_bytes_raw()
    assert own_log.own(firm.store, firm.now).key.private_bytes_raw() == key
    kept = b"".join(path.read_bytes() for path in tmp_path.glob("firm.db*"))
    for text in (key, key.hex().encode(), b64encode(key)):
        assert text not in kept


def test_two_threads_write_the_log_of_the_office_one_after_the_other(firm: Firm) -> None:
    job, _ = small(firm)
    with ThreadPoolExecutor(4) as pool:
        list(
            pool.map(
                lambda n: own_log.write(firm.store, job, "closed", {"of": "x", "text": str(n)}, firm.now), range(8)
            )
        )
    assert list(firm.store.forks(job)) == []
    assert dict(firm.store.acked(job)) == {own_log.own(firm.store, firm.now).dev: 9}


def test_another_program_in_the_middle_of_its_word_is_waited_for(firm: Firm, monkeypatch: pytest.MonkeyPatch) -> None:
    job, _ = small(firm)
    firm.store.put("office turn", "0" * 43, "", "2999-01-01T00:00:00.000Z")
    monkeypatch.setattr(own_log, "_WAITS", 2)
    with pytest.raises(Refused, match="Another program"):
        own_log.write(firm.store, job, "closed", {"of": "x", "text": "y"}, firm.now)


def test_the_retention_clock_is_shown_and_nothing_goes_by_itself(firm: Firm) -> None:
    job, (tablet,) = small(firm)
    assert "nothing recorded yet" in firm.signed_in("reader").get(f"/office/jobs/{job}").text
    sha = card(firm, job, tablet)
    page = firm.signed_in("office").get(f"/office/jobs/{job}").text
    assert "ask on 2032-11-25 whether they may go" in page
    assert "from memory" in page
    firm.later(days=365 * 30)
    firm.signed_in("office").get(f"/office/jobs/{job}")
    assert firm.store.file(job, sha) is not None


def test_every_adoption_has_years_with_a_source() -> None:
    for name in adoptions():
        rule = retention.retention(name)
        assert rule.years > 0
        assert rule.source
        assert rule.seen in ("print", "memory", "none")
    assert retention.ends("uk-2024", date(2024, 2, 29)) == date(2030, 3, 1)


def test_the_pages_speak_spanish_to_who_wants_it(firm: Firm) -> None:
    assert "Entrar" in firm.browser().get("/office/sign-in", headers={"Accept-Language": "es-MX,en;q=0.5"}).text
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job), reading(tablet, job, "0.5"))
    browser = firm.signed_in("reader")
    firm.store.keep_person(next(each for each in firm.store.people() if each.role == "reader")._replace(language="es"))
    page = browser.get(f"/office/jobs/{job}").text
    assert "Aislamiento" in page
    assert "FALLA" in page


def test_a_reader_reads_and_finds_no_button(firm: Firm) -> None:
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job), reading(tablet, job, "5"))
    page = firm.signed_in("reader").get(f"/office/jobs/{job}").text
    main = page[page.index("<main") :]
    assert "<button" not in main
    assert "/erase" not in main


def test_work_out_of_order_is_told_to_the_office_and_what_it_left_untested_is_not_sealed(
    firm: Firm, monkeypatch: pytest.MonkeyPatch
) -> None:
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job), reading(tablet, job, "5"))
    browser, path = firm.signed_in("office"), f"/office/jobs/{job}"
    assert "as the work really went" not in browser.get(path).text
    tablet.bring(job, tablet.write(job, "done", {}, step="job.connect-main"))
    page = browser.get(path).text
    assert "as the work really went" in page and "was done while" in page
    row = {"kind": "untested", "step": "job.dead-tests", "text": {"en": "Not tested.", "es": "Sin probar."}}
    monkeypatch.setattr(isolation, "unsafe_now", lambda *_: [row])
    answer = browser.form(f"{path}/seal")
    assert answer.status_code == 422 and "Not tested." in answer.text
    monkeypatch.setattr(isolation, "unsafe_now", lambda *_: [{**row, "kind": "was"}, {**row, "kind": "now"}])
    assert browser.form(f"{path}/seal").status_code == 303


def test_the_export_of_the_office_is_verified_by_itself(firm: Firm, tmp_path: Path) -> None:
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job), reading(tablet, job, "5"))
    sealing.seal(firm.store, job, "", firm.now)
    (tmp_path / "export.zip").write_bytes(packed_job(firm.store, job, firm.now))
    key = own_log.own(firm.store, firm.now).public
    report = verify_record(tmp_path / "export.zip", [key])
    assert [each for each in report.findings if each.word == "fail"] == []
    assert report.state is not None and report.state.ready
    assert all(log.trusted and log.sealed == log.last for log in report.logs)
    with zipfile.ZipFile(tmp_path / "export.zip") as packed:
        packed.extractall(tmp_path / "folder")
    assert verify_record(tmp_path / "folder", [key]) == report


def test_photos_are_shown_where_they_are_and_told_where_they_are_not(firm: Firm) -> None:
    told = json.loads(json.dumps(SMALL))
    told["steps"][0]["items"].append({**told["steps"][0]["items"][0], "id": "s1/p", "kind": "photo", "limit": None})
    job, (tablet,) = handed(firm, sheet=json.dumps(told))
    browser, sha = firm.signed_in("reader"), sha256(JPEG).hexdigest()
    photo = {"item": "s1/p", "sha": sha, "bytes": len(JPEG), "mime": "image/jpeg"}
    tablet.bring(job, tablet.begin(job), tablet.write(job, "photo", photo, step="s1"))
    page = browser.get(f"/office/jobs/{job}").text
    assert "not here yet" in page
    assert "<img" not in page
    tablet.send(job, JPEG)
    page = browser.get(f"/office/jobs/{job}").text
    (source,) = re.findall(r'<img loading="lazy"[^>]* alt="Photo [^"]+" src="([^"]+)"', page)
    assert browser.get(source).content == JPEG
    erasing.erase(firm.store, job, "asked", firm.now)
    page = browser.get(f"/office/jobs/{job}").text
    assert "<img" not in page
    assert "(erased)" in page


def test_a_record_from_elsewhere_is_read_under_the_sheet_that_came_along(firm: Firm, tmp_path: Path) -> None:
    job, (tablet,) = handed(firm, sheet=json.dumps(SMALL))
    sheet = sha256(json.dumps(SMALL).encode()).hexdigest()
    tablet.bring(job, tablet.begin(job, sheet), reading(tablet, job, "0.5"))
    (tmp_path / "other").mkdir()
    other = Firm(tmp_path / "other")
    keeping.copy(firm.store, other.store, job, "2026-11-25T22:00:00Z")
    page = other.signed_in("reader").get(f"/office/jobs/{job}").text
    assert "was not handed out yet" not in page
    assert "0.5 MΩ" in page
    other.store.close()


def test_a_person_a_tick_and_what_differs_are_shown_in_words(firm: Firm) -> None:
    asked = [("n", "name"), ("m", "mark"), ("r", "torque")]
    whole = {"unit": "", "count": 1, "limit": None, "uncertainty": None, "tool_kind": [], "why": "covered"}
    items = [{**whole, "id": f"s1/{id}", "kind": kind, "what": {"en": kind}} for id, kind in asked]
    sheet = {**SMALL, "steps": [{**SMALL["steps"][0], "items": items}]}
    job, (tablet,) = handed(firm, sheet=json.dumps(sheet))
    sha = card(firm, job, tablet)
    told = [
        {"item": "s1/n", "value": sha, "unit": ""},
        {"item": "s1/m", "value": "yes", "unit": ""},
        {"item": "s1/r", "value": "9", "unit": "N·m", "n": 4, "exceptions": [{"which": "upper", "value": "8"}]},
    ]
    assert tablet.bring(job, tablet.write(job, "reading", {"values": told}, step="s1")).status_code == 200
    page = firm.signed_in("reader").get(f"/office/jobs/{job}").text
    assert "Jo Invented" in page.partition("<tbody>")[2].partition("</tbody>")[0]
    assert sha not in page.partition("<tbody>")[2].partition("</tbody>")[0]
    assert "9 N·m × 4; upper: 8 N·m" in page
    person = Person(str(uuid4()), "Eva", "reader", "no hash", "es")
    firm.store.keep_person(person)
    browser = firm.browser()
    browser.show("session", sessions.start(firm.store, person, firm.now))
    assert "sí " in browser.get(f"/office/jobs/{job}").text
