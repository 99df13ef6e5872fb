"""The pages of people and tablets: who may come in, and by what."""

from starlette.responses import Response

from standfast.foreman.office import accounts, own_log, passkeys, sessions, tablets
from standfast.foreman.office.cabinet import Refused
from standfast.web.office.page import page
from standfast.web.security.logs import note
from standfast.web.security.way import OFFICE, Call, Way

_OFFICE = frozenset({OFFICE})


def people(call: Call) -> Response:
    """Everybody who has an account."""
    return page(call, "people.html", people=accounts.people(call.house.store), roles=accounts.ROLES, link="", role="")


def invite(call: Call) -> Response:
    """A link by which one account is made."""
    role = call.form.get("role", "")
    code = accounts.invite(call.house.store, role, call.now)
    note("invited", role, "by", call.person_id)
    people, link = accounts.people(call.house.store), f"{_own_address(call)}/office/join/{code}"
    return page(call, "people.html", people=people, roles=accounts.ROLES, link=link, role=role)


def withdraw_person(call: Call) -> Response:
    """Take an account away."""
    found = accounts.person(call.house.store, call.form.get("person", ""))
    if found is None:
        raise Refused("There is no such account.", "", "Look at the list of people.")
    accounts.withdraw(call.house.store, found, call.now)
    sessions.end_all(call.house.store, found, call.now)
    passkeys.forget(call.house.store, found.id, "", call.now)
    note("account withdrawn", found.id, "by", call.person_id)
    return people(call)


def show_tablets(call: Call) -> Response:
    """Every tablet."""
    own = own_log.own(call.house.store, call.now)
    return page(call, "tablets.html", tablets=tablets.devices(call.house.store), own=own)


def show_code(call: Call) -> Response:
    """A code for one tablet, as a picture and in letters."""
    code = tablets.code(call.house.store, call.now)
    link = f"{_own_address(call)}/field/#enrol={code}"
    note("code shown", "by", call.person_id)
    minutes = int(tablets.CODE_LASTS.total_seconds() // 60)
    return page(call, "code.html", picture=tablets.qr(link), link=link, minutes=minutes)


def withdraw_tablet(call: Call) -> Response:
    """Take a tablet's right to speak away."""
    gone = tablets.withdraw(call.house.store, call.form.get("dev", ""), call.now)
    note("tablet withdrawn", gone.id, "by", call.person_id)
    return show_tablets(call)


def _own_address(call: Call) -> str:
    """The server as this browser calls it; its Host was compared with our names before."""
    return f"{'https' if call.house.settings.secure else 'http'}://{call.headers['host']}"


WAYS = (
    Way("GET", "/office/people", _OFFICE, people, "page"),
    Way("POST", "/office/people/invite", _OFFICE, invite, "page"),
    Way("POST", "/office/people/withdraw", _OFFICE, withdraw_person, "page"),
    Way("GET", "/office/tablets", _OFFICE, show_tablets, "page"),
    Way("POST", "/office/tablets/code", _OFFICE, show_code, "page"),
    Way("POST", "/office/tablets/withdraw", _OFFICE, withdraw_tablet, "page"),
)
