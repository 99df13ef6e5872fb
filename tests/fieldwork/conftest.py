"""The plan that most tests of this room start from."""

import pytest
from invented_job import make_plan

from standfast.fieldwork.plan import Plan


@pytest.fixture(scope="session")
def plan() -> Plan:
    return make_plan()
