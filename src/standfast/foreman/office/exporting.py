"""A job as one file to carry away: the folder that `standfast export` writes, packed."""

import io
import zipfile
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from standfast.foreman import keeping
from standfast.foreman.office.cabinet import Cabinet, stamp

_EPOCH = (1980, 1, 1, 0, 0, 0)


def packed_job(store: Cabinet, job: str, now: datetime) -> bytes:
    """The job, its revisions, record, photos and cards as a ZIP file. Accounts and keys are no part of it."""
    with TemporaryDirectory(prefix="standfast-") as name:
        folder = Path(name) / "job"
        keeping.hand_out(job, folder, store, stamp(now))
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as pack:
            for path in sorted(folder.rglob("*")):
                if path.is_file() and not path.name.startswith("."):
                    entry = zipfile.ZipInfo(path.relative_to(folder).as_posix(), _EPOCH)
                    pack.writestr(entry, path.read_bytes(), zipfile.ZIP_DEFLATED)
        return out.getvalue()
