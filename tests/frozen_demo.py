"""The demo as it stood when format 1 was declared stable, in one archive.

`python -m frozen_demo` in the folder of the tests writes the archive anew, from the demo of today. That is done once, when
the format is declared stable; afterwards what lies in it must check without errors for good. The archive is the same,
byte for byte, for the same files: sorted names and one fixed time.
"""

import io
import lzma
import sys
import tarfile
from pathlib import Path

from bayleaf.manual_files import find_files

ROOT = Path(__file__).resolve().parents[1]
ARCHIVE = Path(__file__).resolve().parent / "data" / "format-1.tar.xz"
#: The day on which the demo was frozen; calibrations and tests of gloves are held against it.
FROZEN = (2026, 11, 29)


def members(root: Path = ROOT) -> dict[str, bytes]:
    """What of a manual is frozen: its files of the format and its free pages. Photos are left out: they are no format."""
    names = ["mkdocs.yml", *(file.path for file in find_files(root).files)]
    return {name: (root / name).read_bytes() for name in sorted(names)}


def packed(files: dict[str, bytes]) -> bytes:
    """The archive of these files."""
    out = io.BytesIO()
    with tarfile.open(fileobj=out, mode="w", format=tarfile.USTAR_FORMAT) as archive:
        for name, data in sorted(files.items()):
            member = tarfile.TarInfo(name)
            member.size = len(data)
            archive.addfile(member, io.BytesIO(data))
    return lzma.compress(out.getvalue(), preset=9)


def unpacked(data: bytes) -> dict[str, bytes]:
    """The files of an archive, by their names."""
    with tarfile.open(fileobj=io.BytesIO(lzma.decompress(data))) as archive:
        return {one.name: archive.extractfile(one).read() for one in archive.getmembers()}  # type: ignore[union-attr]


def main() -> int:
    """Writes the archive."""
    files = members()
    ARCHIVE.write_bytes(packed(files))
    print(f"{len(files)} files, {ARCHIVE.stat().st_size} bytes in {ARCHIVE.relative_to(ROOT)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
