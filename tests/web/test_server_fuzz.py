"""The ways of the record against their own description: right and wrong calls by the hundred, and no fault of ours."""

from typing import Any, NamedTuple

import pytest
import schemathesis
from firm import Firm, handed
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis.errors import Unsatisfiable
from schemathesis import GenerationMode
from schemathesis.checks import CHECKS, load_all_checks

from standfast.web.field.openapi import described
from standfast.web.field.routes import WAYS
from standfast.web.settings import Settings

load_all_checks()
EXAMPLES = 5
"""Of each way: by a tablet and by the office, right and wrong, on a job that is there and on one that is not."""
LEFT_OUT = ("positive_data_acceptance", "ignored_auth", "object_level_authorization")
"""An event, a code and a hash are right by what is in them, which no description of a call can say; and who may do what
is tested way by way in test_security_ways."""
LOOKED_AT = [each for name, each in zip(CHECKS.get_all_names(), CHECKS.get_all(), strict=True) if name not in LEFT_OUT]
QUICK = settings(
    max_examples=EXAMPLES, deadline=None, phases=[Phase.explicit, Phase.generate], database=None,
    suppress_health_check=list(HealthCheck),
)  # fmt: skip


@schemathesis.serializer("application/offset+octet-stream")
def as_bytes(_context: Any, value: Any) -> bytes:
    return value if isinstance(value, bytes) else str(value).encode("utf-8", "replace")


class Site(NamedTuple):
    firm: Firm
    job: str
    tablet: dict[str, str]
    schema: Any


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Site:
    firm = Firm(tmp_path_factory.mktemp("fuzz"), Settings(names=("testserver",)))
    job, (tablet,) = handed(firm)
    tablet.bring(job, tablet.begin(job))
    return Site(
        firm, job, dict(tablet.browser.client.cookies), schemathesis.openapi.from_asgi("/api/v1/openapi.json", firm.app)
    )


@pytest.mark.parametrize("who", ["tablet", "office"])
@pytest.mark.parametrize("mode", [GenerationMode.POSITIVE, GenerationMode.NEGATIVE], ids=["right", "wrong"])
@pytest.mark.parametrize("way", WAYS, ids=[f"{each.method} {each.path}" for each in WAYS])
def test_every_call_is_answered_as_described(site: Site, who: str, mode: GenerationMode, way: Any) -> None:
    operation = site.schema[way.path][way.method]
    there = {"job": site.job} if "{job}" in way.path else None
    cookies = site.tablet if who == "tablet" else dict(site.firm.signed_in("office").client.cookies)
    asked = 0

    for parts in (None, there) if there else (None,):
        try:
            cases = operation.as_strategy(generation_mode=mode, path_parameters=parts)
        except schemathesis.errors.SchemathesisError:
            continue

        @QUICK
        @given(cases)
        def call(case: Any) -> None:
            nonlocal asked
            asked += 1
            if way.path == "/api/v1/enrol":
                site.firm.later(minutes=20)  # so that no limit of attempts stands in the way
            answer = case.call(cookies={**(case.cookies or {}), **cookies})
            assert answer.status_code < 500
            case.validate_response(answer, checks=LOOKED_AT)

        try:
            call()
        except Unsatisfiable:
            # Nothing of such a call can be wrong: it has no part, or all of them are given.
            assert mode is GenerationMode.NEGATIVE
    assert asked or mode is GenerationMode.NEGATIVE


def test_the_description_is_made_from_the_table_and_the_models() -> None:
    told = described(WAYS)
    assert told["openapi"] == "3.1.0"
    assert {(path, method.upper()) for path, ways in told["paths"].items() for method in ways} == {
        (way.path, way.method) for way in WAYS
    }
    assert {"EventsIn", "EventsOut", "EnrolIn", "Error"} <= set(told["components"]["schemas"])
    assert told["components"]["schemas"]["EventsIn"]["additionalProperties"] is False
