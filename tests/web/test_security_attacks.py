"""Attacks that were tried on a running office, and what became of them."""

import ast
import json
import shutil
import traceback
import uuid
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from pathlib import Path
from zipfile import ZipFile

import pytest
from firm import JPEG, KEY, PASSWORD, PRIVATE, Firm
from test_server_office import reading, small

import standfast
from standfast.fieldwork.record.event import hash_of, read
from standfast.fieldwork.record.seal import Head, Sealed, sealed_by, sign
from standfast.fieldwork.record.verify import Given, verify
from standfast.fieldwork.record.vouched import Trust
from standfast.foreman.copies import bring_copy
from standfast.foreman.keeping import line_of
from standfast.foreman.office import accounts, handing, isolation, limits, own_log, sealing, standing, tablets
from standfast.foreman.office.cabinet import Refused, stamp
from standfast.foreman.office.jobs_in import take_in
from standfast.foreman.office.uploads import TooLarge, Uploads
from standfast.web.security import hosts


def test_half_a_character_in_a_text_stops_neither_the_state_nor_the_page(firm: Firm) -> None:
    """JSON can name half a character, UTF-8 cannot hold it: one such text would have closed the record to everybody."""
    job, tablet, office = firm.job(), firm.tablet(), firm.signed_in("office")
    sheet = handing.hand_out(firm.store, job, [tablet.dev], None, firm.now)
    problem = tablet.write(job, "problem", {"kind": "other", "text": "half \ud800 of it"})
    assert tablet.bring(job, tablet.begin(job, sheet), problem).status_code == 200
    state = office.api("GET", f"/api/v1/jobs/{job}/state")
    assert [each["text"] for each in state.json()["work"]["problems"].values()] == ["half \ud800 of it"]
    page = office.get(f"/office/jobs/{job}")
    assert page.status_code == 200 and "half ? of it" in page.text


def test_nobody_enrols_as_the_log_of_the_office(firm: Firm) -> None:
    """Its id stands in every record, and with it a tablet could have settled disputes in the office's name."""
    office = own_log.own(firm.store, firm.now)
    told = {"code": tablets.code(firm.store, firm.now), "dev": office.dev, "name": "T", "key": KEY}
    answer = firm.browser().api("POST", "/api/v1/enrol", told)
    assert (answer.status_code, answer.json()["what"]) == (422, "This tablet is known by another key.")
    assert tablets.device(firm.store, office.dev) is None


@pytest.mark.parametrize("sig", ["", "no signature", "A" * 86 + "=="])
def test_nobody_takes_the_place_of_a_tablet_by_its_public_key(firm: Firm, sig: str) -> None:
    """Id and public key stand in every record; a code for another tablet is not enough to be that one."""
    tablet, code = firm.tablet(), tablets.code(firm.store, firm.now)
    told = {"code": code, "dev": tablet.dev, "name": "T", "key": KEY, "sig": sig}
    assert firm.browser().api("POST", "/api/v1/enrol", told).status_code == 422
    assert tablet.browser.get("/api/v1/jobs").status_code == 200
    # A signature of another code is none either; the tablet itself still has the code to use.
    told["sig"] = sign(tablets.enrol_text(code[::-1], tablet.dev), PRIVATE)
    assert firm.browser().api("POST", "/api/v1/enrol", told).status_code == 422
    told["sig"] = sign(tablets.enrol_text(code, tablet.dev), PRIVATE)
    assert firm.browser().api("POST", "/api/v1/enrol", told).status_code == 200


def test_of_many_who_show_one_code_at_a_moment_one_is_enrolled(firm: Firm) -> None:
    code = tablets.code(firm.store, firm.now)

    def enrol(_: int) -> int:
        told = {"code": code, "dev": str(uuid.uuid4()), "name": "T", "key": KEY}
        found: int = firm.browser().api("POST", "/api/v1/enrol", told).status_code
        return found

    with ThreadPoolExecutor(6) as pool:
        assert sorted(pool.map(enrol, range(6))) == [200, *[422] * 5]
    assert len(firm.store.devices()) == 1


def test_marks_that_do_not_show_make_no_other_name_to_guess_at(firm: Firm) -> None:
    accounts.add(firm.store, "Anna Ruiz", "office", PASSWORD)
    names = ["Anna Ruiz", "Anna\u200b Ruiz", " ANNA  Ruiz ", "\uff21nna Ruiz", "Anna\u2060 \u200bRuiz", "anna ruiz"]
    told = [
        firm.browser().form("/office/sign-in", {"name": name, "password": "wrong wrong"}, on="/office/sign-in")
        for name in names
    ]
    assert [each.status_code for each in told] == [422] * 5 + [429]


def test_of_many_attempts_at_one_moment_no_more_are_let_in(firm: Firm) -> None:
    names = {"account and address": "Anna 10.0.0.1", "address": "10.0.0.1", "account": "Anna"}

    def attempt(_: int) -> bool:
        try:
            limits.attempt(firm.store, "sign in", limits.SIGN_IN, names, firm.now)
        except limits.TooOften:
            return False
        return True

    with ThreadPoolExecutor(12) as pool:
        assert sum(pool.map(attempt, range(24))) <= 5


def test_who_asks_is_counted_where_they_are_and_not_where_they_say(firm: Firm) -> None:
    told = {"name": "Anna", "password": "wrong wrong"}
    found = [
        firm.browser().form(
            "/office/sign-in", told, on="/office/sign-in",
            headers={"X-Forwarded-For": f"10.0.0.{each}", "Forwarded": f"for=10.0.0.{each}"},
        ).status_code
        for each in range(6)
    ]  # fmt: skip
    assert found == [422] * 5 + [429]


def test_a_link_in_a_folder_of_a_job_takes_no_file_of_this_machine_in(firm: Firm) -> None:
    """A folder that came from elsewhere named the master key as its plan, and the export would have carried it away."""
    firm.job()
    copy = firm.shelf / "from-elsewhere"
    shutil.copytree(firm.shelf / "one-wall", copy, ignore=shutil.ignore_patterns("job.id", "revisions", ".lock"))
    (copy / "documents" / "plan.pdf").symlink_to(firm.shelf.parent / "firm.db.key")
    with pytest.raises(Refused) as refused:
        take_in(firm.store, firm.shelf, "from-elsewhere", firm.now)
    assert "this is a link" in refused.value.why
    assert len(firm.store.jobs()) == 1


@pytest.mark.parametrize("type", ["seal", "erased"])
def test_no_tablet_seals_or_erases_in_the_office_s_name(firm: Firm, type: str) -> None:
    job, tablet = firm.job(), firm.tablet()
    sheet = handing.hand_out(firm.store, job, [tablet.dev], None, firm.now)
    answer = tablet.bring(job, tablet.begin(job, sheet), tablet.write(job, type, {"what": ["a" * 64], "reason": "x"}))
    assert (answer.status_code, answer.json()["what"]) == (403, "Sealing and erasing are the office's.")
    assert not firm.store.events(job)


def test_a_seal_that_the_office_did_not_sign_is_not_shown_as_one(firm: Firm) -> None:
    """It came with the folder of a job, in a log that says of itself that it is the office's."""
    job, tablet, office = firm.job(), firm.tablet(), firm.signed_in("office")
    sheet = handing.hand_out(firm.store, job, [tablet.dev], None, firm.now)
    begin = tablet.begin(job, sheet)
    assert tablet.bring(job, begin).status_code == 200
    state = standing.standing(firm.store, job, firm.now).state.hash
    sealed = Sealed(job, sheet, state, {tablet.dev: Head(1, hash_of(begin))})
    raw = tablet.write(job, "seal", {**sealed.as_data(), "sig": sign(sealed.text, PRIVATE)})
    firm.store.append(job, [line_of(raw)], stamp(firm.now))
    page = office.get(f"/office/jobs/{job}").text
    assert "Seal that this office did not sign" in page and "Seal of the record as it stands" not in page


@pytest.mark.parametrize(
    "host",
    ["evil.example", "[::1].evil.example", "127.0.0.1.evil.example", "localhost.evil.example", "127.0.0.1:80, evil",
     "evil@127.0.0.1", "[::1%25evil]", "127.0.0.1:", "localhost:80:80", ""],
)  # fmt: skip
def test_a_host_that_only_looks_like_ours_is_turned_away(firm: Firm, host: str) -> None:
    assert firm.browser().get("/office/sign-in", headers={"Host": host}).status_code == 421


@pytest.mark.parametrize("host", ["127.0.0.1:8000", "localhost", "LOCALHOST:8000", "[::1]:8000", "192.168.1.10"])
def test_a_host_that_is_ours_is_let_in(firm: Firm, host: str) -> None:
    assert firm.browser().get("/office/sign-in", headers={"Host": host}).status_code == 200


def test_what_comes_in_while_the_record_is_looked_at_is_not_sealed(firm: Firm, monkeypatch: pytest.MonkeyPatch) -> None:
    """To work out what is unsafe takes seconds. A failed reading that came meanwhile was sealed without a look."""
    job, (tablet,) = small(firm)
    assert tablet.bring(job, tablet.begin(job), reading(tablet, job, "5")).status_code == 200

    def slowly(*_: object) -> list[dict[str, object]]:
        assert tablet.bring(job, reading(tablet, job, "0.1")).status_code == 200
        return []

    monkeypatch.setattr(isolation, "unsafe_now", slowly)
    sealing.seal(firm.store, job, "", firm.now)
    lines = firm.store.events(job)
    sealed = sealed_by(read(lines[-1].raw))
    assert sealed is not None and sealed.heads[tablet.dev].seq == 2
    sheet = firm.store.file(job, sealed.sheet) or b""
    content = "".join(f"{line.raw}\n" for line in lines).encode()
    trust = Trust(frozenset({own_log.own(firm.store, firm.now).public}))
    found = verify(Given((("record.ndjson", content),), ((sealed.sheet, sealed.sheet),), lambda _: sheet, trust))
    assert {"seal broken", "sealed state", "bad signature"}.isdisjoint(each.kind for each in found.findings)
    assert "after the seal" in {each.kind for each in found.findings} and found.word == "cannot tell"


def test_what_is_begun_takes_the_room_of_its_whole_after_a_restart_too(
    firm: Firm, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A tablet that begins many large photos and ends none would else have filled the disk, piece by piece."""
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job))
    photos = [JPEG + bytes([each]) * 400 for each in range(3)]
    for each in photos:
        tablet.bring(job, tablet.write(job, "photo", {"sha": sha256(each).hexdigest(), "bytes": len(each)}))
    assert tablet.send(job, photos[0][:50], length=len(photos[0]), sha=sha256(photos[0]).hexdigest()).status_code == 204
    asked: list[str] = []
    held = type(firm.store).held
    monkeypatch.setattr(type(firm.store), "held", lambda self, job: asked.append(job) or held(self, job))
    restarted = Uploads(firm.store, job_bytes=2 * len(photos[0]) - 1)
    with pytest.raises(TooLarge, match="no room"):
        restarted.write(job, sha256(photos[1]).hexdigest(), 0, len(photos[1]), photos[1])
    assert asked == [job]
    # What was begun has its room, and the store is not asked again.
    done = restarted.write(job, sha256(photos[0]).hexdigest(), 50, len(photos[0]), photos[0][50:])
    assert done.done and asked == [job]


def test_who_is_sent_away_has_no_invitation_left(firm: Firm) -> None:
    person = accounts.add(firm.store, "Jo", "office", PASSWORD)
    firm.person("office")
    code = accounts.invite(firm.store, "office", firm.now)
    accounts.withdraw(firm.store, person, firm.now)
    assert accounts.invited(firm.store, code, firm.now) == ""
    assert firm.browser().get(f"/office/join/{code}").status_code == 404


def test_a_word_for_one_s_own_reading_under_a_second_card_is_not_sealed(firm: Firm) -> None:
    """Whoever holds a tablet makes cards; the failed reading was waved through by who took it."""
    job, (tablet,) = small(firm)
    told = [
        {"name": "Ana L\u00f3pez", "salt": "1"},
        {"name": "ana  lopez", "salt": "2"},
        {"name": "Ben Ito", "salt": "3"},
    ]
    cards = [json.dumps(each, ensure_ascii=False).encode() for each in told]
    ana, also_ana, ben = (sha256(each).hexdigest() for each in cards)
    values = {"values": [{"item": "s1/r", "value": "0.1", "unit": "MΩ"}], "done": True}
    override = {"of": "s1/r", "reason": "agreed", "by": also_ana}
    raws = [
        tablet.begin(job), tablet.write(job, "reading", values, step="s1", user=ana),
        tablet.write(job, "override", override, step="s1", user=ana),
    ]  # fmt: skip
    assert tablet.bring(job, *raws).status_code == 200
    assert [tablet.send(job, each).status_code for each in cards[:2]] == [204, 204]
    assert standing.standing(firm.store, job, firm.now).state.ready
    with pytest.raises(Refused) as refused:
        sealing.seal(firm.store, job, "", firm.now)
    assert "cards of one name" in refused.value.why
    tablet.bring(job, tablet.write(job, "override", {**override, "by": ben}, step="s1", user=ana))
    assert tablet.send(job, cards[2]).status_code == 204
    sealing.seal(firm.store, job, "", firm.now)
    assert read(firm.store.events(job)[-1].raw).type == "seal"


def test_a_body_of_two_lengths_is_refused_and_the_line_closed(firm: Firm) -> None:
    """A proxy that believes the other length would take the rest of the body for a request of the next visitor."""
    headers = {"Content-Length": "6", "Transfer-Encoding": "chunked"}
    answer = firm.browser().client.post("/office/sign-in", headers=headers, content=b"0\r\n\r\nG")
    assert (answer.status_code, answer.headers["Connection"]) == (400, "close")


@pytest.mark.parametrize(
    ("address", "counted"),
    [("10.0.0.1", "10.0.0.1"), ("::ffff:10.0.0.1", "10.0.0.1"), ("2001:db8:1:2:3::4", "2001:db8:1:2::"),
     ("2001:db8:1:2:ffff::9", "2001:db8:1:2::"), ("2001:db8:1:3::1", "2001:db8:1:3::"), ("testclient", "testclient")],
)  # fmt: skip
def test_a_line_with_many_addresses_is_one_place(address: str, counted: str) -> None:
    assert hosts.place(address) == counted


def test_a_fault_of_the_database_tells_no_value(firm: Firm) -> None:
    """Its message ends in the report of the fault and in the log; what was to be kept is none of theirs."""
    name = "Anna who shall stand in no report"
    person = accounts.add(firm.store, name, "crew", PASSWORD)
    with pytest.raises(Exception) as raised:
        firm.store.keep_person(person._replace(language=None))  # type: ignore[arg-type]
    assert "NOT NULL" in str(raised.value)
    told = "".join(traceback.format_exception(raised.value))
    assert name not in told and person.secret not in told


def test_the_office_calls_no_command_and_reads_nothing_that_could_run() -> None:
    """JSON and TOML only; nothing is unpickled, nothing evaluated, no other program started."""
    src = Path(standfast.__file__).parent
    rooms = [src / "web", src / "store", src / "foreman" / "office", src / "fieldwork"]
    seen = 0
    for path in (each for room in rooms for each in room.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Import | ast.ImportFrom):
                named = {each.name for each in node.names} | {getattr(node, "module", None)}
                assert not named & {"subprocess", "pickle", "marshal", "shelve", "yaml", "ctypes", "popen", "system"}, (
                    path
                )
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in ("eval", "exec", "compile", "__import__"), path
            seen += 1
    assert seen > 10_000


def test_a_copy_whose_files_have_odd_names_is_taken_in_without_them(firm: Firm, tmp_path: Path) -> None:
    job, (tablet,) = small(firm)
    copy = tmp_path / "copy.zip"
    with ZipFile(copy, "w") as made:
        made.writestr("record.ndjson", tablet.begin(job) + "\n")
        for name in (".", "photos", "photos/x/y", "a.ndjson.txt"):
            made.writestr(name, "{}")
    assert bring_copy(copy, firm.store, stamp(firm.now))[2:] == (0, 1, 0, 0)
