from pathlib import Path

import pytest
from firm import Firm


@pytest.fixture
def firm(tmp_path: Path) -> Firm:
    return Firm(tmp_path)
