"""The removal of every demo job, in every condition."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from demo_jobs import Removed

from standfast.aftercare.carriage import Condition
from standfast.aftercare.leaving import leaving
from standfast.aftercare.removal import Removal, removal
from standfast.design.wiring.by_book import electrical
from standfast.fieldwork.plan import Plan
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import JobPlan, make_plan


@pytest.fixture(scope="session")
def job_of(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], JobPlan]:
    @cache
    def made(name: str) -> JobPlan:
        folder: Path = tmp_path_factory.mktemp("job") / name
        return make_plan(write_demo(name, folder), runner_up=False)

    return made


@pytest.fixture(scope="session")
def plan_of(job_of: Callable[[str], JobPlan]) -> Callable[[str], Plan]:
    return cache(lambda name: sitework(job_of(name)))


@pytest.fixture(scope="session")
def removed(job_of: Callable[[str], JobPlan], plan_of: Callable[[str], Plan]) -> Removed:
    @cache
    def made(name: str, condition: Condition) -> Removal:
        job, plan = job_of(name), plan_of(name)
        bonds = electrical(job.adoption, job.sheets).bonds(job.survey, leaving(plan).graph)
        return removal(plan, job.adoption.carriage, bonds, condition)

    return made
