"""What the server writes down: ways, answers and ids; never a secret, never what people typed."""

import io
import logging
from collections.abc import Iterator
from hashlib import sha256

import pytest
from firm import JPEG, PASSWORD, Firm
from test_server_office import small
from test_server_record import card

from standfast.foreman.office import accounts, tablets
from standfast.foreman.office.cabinet import secret
from standfast.web.security.logs import LOG, Masked, note, write_to


@pytest.fixture
def written() -> Iterator[io.StringIO]:
    stream = io.StringIO()
    handler = logging.StreamHandler(stream)
    before, level, spread = list(LOG.handlers), LOG.level, LOG.propagate
    write_to(handler)
    yield stream
    LOG.handlers[:] = before
    LOG.setLevel(level)
    LOG.propagate = spread


def test_a_day_of_the_office_leaves_no_secret_and_no_name_in_the_log(firm: Firm, written: io.StringIO) -> None:
    invitation = accounts.invite(firm.store, "office", firm.now)
    browser, path = firm.browser(), f"/office/join/{invitation}"
    told = {"name": "Ana Typed", "password": PASSWORD, "again": PASSWORD, "language": "en"}
    browser.form(path, told, on=path)
    wrong = {"name": "Ana Typed", "password": "a wrong one typed"}
    firm.browser().form("/office/sign-in", wrong, on="/office/sign-in")
    code = tablets.code(firm.store, firm.now)
    job, (tablet,) = small(firm, "Tablet Typed")
    sha = card(firm, job, tablet, "Jo Typed")
    tablet.bring(job, tablet.write(job, "photo", {"sha": sha256(JPEG).hexdigest()}))
    tablet.send(job, JPEG)
    tablet.browser.api("POST", "/api/v1/enrol", {"code": code, "dev": "no", "name": "Typed", "key": "no"})
    browser.form(f"/office/jobs/{job}/erase", {"title": firm.store.jobs()[0].title, "reason": "Typed reason"})
    browser.form("/office/people/invite", {"role": "crew"})
    browser.get(f"/office/jobs/{job}?token={secret()}")
    log = written.getvalue()
    shown = [
        PASSWORD, "a wrong one typed", invitation, code, browser.client.cookies["sf_session"],
        tablet.browser.client.cookies["sf_tablet"], "Typed", sha,
    ]  # fmt: skip
    assert [each for each in shown if each in log] == []
    for line in ("sign-in refused", "signed in", "account made", "erased", "invited crew by"):
        assert line in log
    assert "asked PATCH /api/v1/jobs/{job}/files/{sha} 204" in log


def test_what_looks_like_a_secret_is_blotted_out_and_a_line_stays_a_line(written: io.StringIO) -> None:
    token = secret()
    note("came", f"sf_session={token};", "two\r\nlines", "\x1b[31mred")
    (line,) = written.getvalue().splitlines()
    assert token not in line
    assert "sf_session=(secret);" in line
    assert "two??lines" in line
    assert "\x1b" not in line


def test_ids_and_hashes_are_no_secrets() -> None:
    text = "0c6e0d2e-7d1f-4b5c-9a55-5a6b7c8d9e0f " + "a" * 64
    record = logging.LogRecord("x", logging.INFO, "", 0, "%s", (text,), None)
    Masked().filter(record)
    assert record.getMessage() == text
