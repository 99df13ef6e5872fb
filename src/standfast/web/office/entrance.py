"""Signing in and out, making an account by a link, and one's own account."""

from starlette.responses import Response

from standfast.foreman.office import accounts, limits, passkeys, sessions
from standfast.foreman.office.cabinet import Refused, one_line
from standfast.web.office.page import page, to
from standfast.web.security import cookies
from standfast.web.security.logs import note
from standfast.web.security.way import OPEN, PEOPLE, Call, Way
from standfast.words import languages


def home(call: Call) -> Response:
    """Where somebody begins."""
    return to("/office/")


def show_sign_in(call: Call) -> Response:
    """The page on which one signs in."""
    return page(call, "sign_in.html", refused="", name="", passkeys=passkeys.offered())


def sign_in(call: Call) -> Response:
    """Name and password."""
    # As the account is found by it: marks that do not show would make another name to count by.
    name, store = one_line(call.form.get("name", ""))[: accounts.LONGEST_NAME], call.house.store
    names = {"account and address": f"{name} {call.visitor.address}", "address": call.visitor.address, "account": name}
    try:
        limits.attempt(store, "sign in", limits.SIGN_IN, names, call.now)
    except limits.TooOften:
        note("sign-in stopped", call.visitor.address)
        return page(call, "sign_in.html", 429, refused="too_often", name=name, passkeys=passkeys.offered())
    person = accounts.sign_in(store, name, call.form.get("password", ""))
    if person is None:
        note("sign-in refused", call.visitor.address)
        return page(call, "sign_in.html", 422, refused="wrong", name=name, passkeys=passkeys.offered())
    limits.forgive(store, "sign in", "account and address", names["account and address"], call.now)
    return let_in(call, person.id, to("/office/"))


def let_in(call: Call, person: str, response: Response) -> Response:
    """Begin a session for an account, in a browser that gets a new text for it."""
    found, store, secure = accounts.person(call.house.store, person), call.house.store, call.house.settings.secure
    if found is None:
        raise Refused("There is no such account.", "", "Ask the office.")
    before = call.visitor.session.token if call.visitor.session else ""
    cookies.give(response, cookies.SESSION, sessions.start(store, found, call.now, before), secure=secure)
    cookies.forget(response, cookies.MARK, secure=secure)
    note("signed in", found.id, call.visitor.address)
    return response


def sign_out(call: Call) -> Response:
    """Out of here, or of everywhere."""
    session = call.visitor.session
    if session is not None:
        sessions.end(call.house.store, session.token, call.now)
        if call.form.get("everywhere"):
            sessions.end_all(call.house.store, session.person, call.now)
        note("signed out", session.person.id, "everywhere" if call.form.get("everywhere") else "here")
    response = to("/office/sign-in")
    cookies.forget(response, cookies.SESSION, secure=call.house.settings.secure)
    response.headers["Clear-Site-Data"] = '"cache"'
    return response


def show_join(call: Call) -> Response:
    """The page of a link by which an account is made. Looking at it does not use it up."""
    names = {"address": call.visitor.address}
    role = accounts.invited(call.house.store, call.params["code"], call.now)
    if not role:
        limits.attempt(call.house.store, "link", limits.LINK, names, call.now)
    return page(call, "join.html", 200 if role else 404, role=role, refused=None, name="", languages=languages())


def join(call: Call) -> Response:
    """Make the account."""
    form, code = call.form, call.params["code"]
    role = accounts.invited(call.house.store, code, call.now)
    if not role:
        limits.attempt(call.house.store, "link", limits.LINK, {"address": call.visitor.address}, call.now)
    try:
        if form.get("password", "") != form.get("again", ""):
            raise Refused("The two passwords differ.", "", "Type it twice the same.")
        name, language = form.get("name", ""), form.get("language", "en")
        person = accounts.accept(call.house.store, code, name, form.get("password", ""), language, call.now)
    except Refused as refused:
        told = {"role": role, "refused": refused, "name": form.get("name", "")[: accounts.LONGEST_NAME]}
        return page(call, "join.html", 422, languages=languages(), **told)
    note("account made", person.id, person.role)
    return let_in(call, person.id, to("/office/"))


def account(call: Call) -> Response:
    """One's own account."""
    return _account(call, None)


def _account(call: Call, refused: Refused | None) -> Response:
    known = passkeys.names(call.house.store, call.person_id, call.now) if passkeys.offered() else []
    status = 422 if refused else 200
    return page(call, "account.html", status, refused=refused, passkeys=passkeys.offered(), known=known)


def change_password(call: Call) -> Response:
    """Another password; every session of the account ends, and this browser gets a new one."""
    session = call.visitor.session
    if session is None:
        return to("/office/sign-in")
    names = {"account and address": f"{session.person.name} {call.visitor.address}", "address": call.visitor.address,
             "account": session.person.name}  # fmt: skip
    limits.attempt(call.house.store, "sign in", limits.SIGN_IN, names, call.now)
    try:
        if call.form.get("new", "") != call.form.get("again", ""):
            raise Refused("The two passwords differ.", "", "Type it twice the same.")
        person = accounts.change_password(
            call.house.store, session.person, call.form.get("password", ""), call.form.get("new", "")
        )
    except Refused as refused:
        return _account(call, refused)
    sessions.end_all(call.house.store, person, call.now)
    note("password changed", person.id)
    return let_in(call, person.id, to("/office/account"))


WAYS = (
    Way("GET", "/", OPEN, home, "page"),
    Way("GET", "/office", OPEN, home, "page"),
    Way("GET", "/office/sign-in", OPEN, show_sign_in, "page"),
    Way("POST", "/office/sign-in", OPEN, sign_in, "page"),
    Way("POST", "/office/sign-out", PEOPLE, sign_out, "page"),
    Way("GET", "/office/join/{code}", OPEN, show_join, "page"),
    Way("POST", "/office/join/{code}", OPEN, join, "page"),
    Way("GET", "/office/account", PEOPLE, account, "page"),
    Way("POST", "/office/account/password", PEOPLE, change_password, "page"),
)
