"""The office in a real browser: passkeys of a made-up device, every page looked at by axe, no fault on the console."""

import json
import socket
import threading
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import uvicorn
import zxingcpp
from firm import JPEG, PASSWORD, Firm
from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright
from test_server_office import reading, small
from test_server_record import card

from standfast.foreman.office import accounts

CHROMIUM = "/usr/bin/chromium"
ARGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-default-apps", "--disable-dev-shm-usage",
]  # fmt: skip
AXE = Path(__file__).parent / "axe" / "axe.min.js"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


class Office(NamedTuple):
    firm: Firm
    url: str
    browser: Browser


@pytest.fixture(scope="module")
def office(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Office]:
    firm = Firm(tmp_path_factory.mktemp("browser"))
    here = socket.create_server(("127.0.0.1", 0))
    config = uvicorn.Config(firm.app, lifespan="off", ws="none", log_config=None, access_log=False)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, args=([here],), daemon=True)
    thread.start()
    accounts.add(firm.store, "Ana Ruiz", "office", PASSWORD)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGS)
        yield Office(firm, f"http://localhost:{here.getsockname()[1]}", browser)
        browser.close()
    server.should_exit = True
    thread.join(10)
    here.close()
    firm.store.close()


@pytest.fixture
def page(office: Office) -> Iterator[Page]:
    """A page whose console has to stay silent."""
    context = office.browser.new_context()
    page, said = context.new_page(), list[str]()
    page.on("console", lambda line: said.append(line.text) if line.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    yield page
    context.close()
    # A refused form and a page that is not there are answered by a status that the browser names: that is meant.
    assert [line for line in said if "status of 422" not in line and "status of 404" not in line] == []


def sign_in(page: Page, office: Office) -> None:
    page.goto(f"{office.url}/office/sign-in")
    page.get_by_label("Your name").fill("Ana Ruiz")
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.get_by_role("button", name="Sign in", exact=True).click()
    page.wait_for_url("**/office/")


def test_a_passkey_is_made_signs_in_and_is_taken_away(office: Office, page: Page) -> None:
    devices = page.context.new_cdp_session(page)
    devices.send("WebAuthn.enable")
    options = {
        "protocol": "ctap2", "transport": "internal", "hasResidentKey": True, "hasUserVerification": True,
        "isUserVerified": True, "automaticPresenceSimulation": True,
    }  # fmt: skip
    made = devices.send("WebAuthn.addVirtualAuthenticator", {"options": options})["authenticatorId"]
    sign_in(page, office)
    page.goto(f"{office.url}/office/account")
    page.get_by_label("What to call it").fill("Phone <b>")
    page.get_by_role("button", name="Add a passkey of this device").click()
    page.get_by_text("Phone <b>").wait_for()
    (kept,) = devices.send("WebAuthn.getCredentials", {"authenticatorId": made})["credentials"]
    assert kept["isResidentCredential"] is True
    page.get_by_role("button", name="Sign out", exact=True).click()
    page.wait_for_url("**/office/sign-in")
    page.get_by_role("button", name="Sign in with a passkey").click()
    page.wait_for_url("**/office/")
    assert page.get_by_role("link", name="Ana Ruiz").is_visible()
    page.goto(f"{office.url}/office/account")
    page.get_by_role("button", name="Take away: Phone <b>").click()
    page.get_by_role("button", name="Take away: Phone <b>").wait_for(state="detached")
    page.get_by_role("button", name="Sign out", exact=True).click()
    page.wait_for_url("**/office/sign-in")
    page.get_by_role("button", name="Sign in with a passkey").click()
    page.get_by_text("The passkey did not work: The device's answer is not right.").wait_for()
    assert page.url.endswith("/office/sign-in")


def found_by_axe(page: Page) -> list[str]:
    """What axe finds, in words. The page lets no script of elsewhere in: axe is put in through the browser itself."""
    page.evaluate(AXE.read_text("utf-8"))
    told: dict[str, Any] = page.evaluate(f"axe.run(document, {{runOnly: {json.dumps(TAGS)}}})")
    return [f"{each['id']}: {node['html'][:100]}" for each in told["violations"] for node in each["nodes"]]


@pytest.mark.parametrize("width", [390, 1200])
def test_every_page_is_read_by_everybody(office: Office, page: Page, width: int) -> None:
    firm = office.firm
    job, (one, other) = small(firm, "Van 1", "Van 2")
    sha = card(firm, job, one)
    one.bring(job, one.write(job, "photo", {"sha": sha256(JPEG).hexdigest()}), reading(one, job, "5"))
    other.bring(job, other.begin(job), reading(other, job, "0.5"))
    one.bring(job, one.write(job, "problem", {"kind": "damage", "text": "Scratch on the cover"}, user=sha))
    page.set_viewport_size({"width": width, "height": 900})
    page.goto(f"{office.url}/office/sign-in")
    assert found_by_axe(page) == []
    code = accounts.invite(firm.store, "reader", firm.now)
    page.goto(f"{office.url}/office/join/{code}")
    assert found_by_axe(page) == []
    sign_in(page, office)
    paths = ["", "people", "tablets", "account", f"jobs/{job}", f"jobs/{job}/erase", "jobs/nothing"]
    for path in paths:
        page.goto(f"{office.url}/office/{path}")
        assert page.get_by_role("heading", level=1).count() == 1
        assert found_by_axe(page) == [], path
        overflow = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        assert overflow <= 0, path
        for each in page.locator("button:visible, nav a:visible, input[type=text]:visible").all():
            box = each.bounding_box()
            assert box is not None
            assert box["height"] >= 47.9, (path, each.inner_text())
    page.goto(f"{office.url}/office/tablets")
    page.get_by_role("button", name="Enrol a tablet").click()
    page.get_by_role("heading", name="Enrol a tablet").wait_for()
    assert found_by_axe(page) == []
    page.goto(f"{office.url}/office/people")
    page.get_by_role("button", name="Make a link for somebody").click()
    page.get_by_text("It is good for a day").wait_for()
    assert found_by_axe(page) == []


def test_the_code_on_the_page_is_read_by_a_camera(office: Office, page: Page, tmp_path: Path) -> None:
    sign_in(page, office)
    page.goto(f"{office.url}/office/tablets")
    page.get_by_role("button", name="Enrol a tablet").click()
    picture = tmp_path / "code.png"
    page.locator("figure.qr").screenshot(path=picture)
    (read,) = zxingcpp.read_barcodes(Image.open(picture))
    assert read.text == page.locator("p.code").inner_text()
    assert read.text.startswith(f"{office.url}/field/#enrol=")


def test_the_office_works_by_keyboard_alone(office: Office, page: Page) -> None:
    page.goto(f"{office.url}/office/sign-in")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "To the sheet"
    page.keyboard.press("Tab")
    page.keyboard.type("Ana Ruiz")
    page.keyboard.press("Tab")
    page.keyboard.type(PASSWORD)
    page.keyboard.press("Enter")
    page.wait_for_url("**/office/")
    page.keyboard.press("Tab")
    assert page.evaluate("getComputedStyle(document.activeElement).outlineWidth") == "4px"
