from functools import partial
from pathlib import Path

import argon2
import pytest
from firm import Firm


@pytest.fixture
def firm(tmp_path: Path) -> Firm:
    return Firm(tmp_path)


@pytest.fixture(autouse=True)
def quick_hashes(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hashes of passwords that take no time; one test takes the real ones, and so does a server of its own process."""
    cheap = partial(argon2.PasswordHasher, time_cost=1, memory_cost=64, parallelism=1)
    monkeypatch.setattr(argon2, "PasswordHasher", cheap)
