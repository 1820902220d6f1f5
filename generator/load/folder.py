"""The only reader of data on disk: a club's folder and the folder that ships."""

from collections.abc import Iterator
from pathlib import Path

from generator.load.files import CLUB_FILES, head_of_page, read_club, read_shelf
from generator.load.yaml_text import MOST_BYTES
from generator.model.node import LoadedFolder
from generator.problems import Place, Problem

# what of the shipped data is read as records; the rest (the demo, schemas, problem texts) is not
SHELF_PATTERNS = ("*.yaml", "sizes/*.yaml", "rules/*.yaml")
NOT_RECORDS = ("problems.yaml",)
# of these a verdict is made; what else ships is said on pages
VERDICT_FILES = (
    "allowances.yaml",
    "dry_fit.yaml",
    "instruments.yaml",
    "recipes.yaml",
    "sources.yaml",
    "wear_limits.yaml",
)
VERDICT_FOLDERS = ("rules/", "sizes/")
# beside the data: hand-written pages whose head is a record
GUIDES = ("handbook_src", "pages", "care")


def load_club(folder: Path) -> LoadedFolder:
    """Every file of a club's folder, however many photographs lie beside them."""
    if not _is_folder(folder):
        fault = Problem("F101", f"'{_shown(folder)}' is not a folder that can be read", Place("."))
        return LoadedFolder({}, (fault,), unreadable=True)
    files: dict[str, bytes] = {}
    problems: list[Problem] = []
    try:
        names = sorted(path.name for path in folder.iterdir() if not path.name.startswith("."))
    except OSError as error:
        return LoadedFolder({}, (_unreadable(".", error),), unreadable=True)
    for name in names:
        for item in _read_one(folder / name, _printable(name), known=name in CLUB_FILES):
            if isinstance(item, Problem):
                problems.append(item)
            else:
                files[_printable(name)] = item
    return read_club(files, tuple(problems))


def load_shelf(data: Path, quick: bool = False) -> LoadedFolder:
    """The data that ship with the generator, and the pages of the guide beside them; `quick` parses only what a
    verdict is made of."""
    files: dict[str, bytes] = {}
    problems: list[Problem] = []
    for page in sorted(data.parent.joinpath(*GUIDES).glob("*.md")):
        files[f"care/{page.name}"] = head_of_page(page.read_bytes())
    paths = sorted(path for pattern in SHELF_PATTERNS for path in data.glob(pattern))
    for path in paths:
        name = path.relative_to(data).as_posix()
        if name in NOT_RECORDS:
            continue
        for item in _read_one(path, name, known=True):
            if isinstance(item, Problem):
                problems.append(item)
            else:
                files[name] = item
    wanted = {name for name in files if name in VERDICT_FILES or name.startswith(VERDICT_FOLDERS)}
    return read_shelf(files, tuple(problems), wanted if quick else None)


def _read_one(path: Path, name: str, known: bool) -> Iterator[bytes | Problem]:
    """The bytes of one file; only known files are opened, others are just named."""
    try:
        if not known:
            if path.is_file():
                yield b""
        elif path.is_symlink():
            yield Problem("F105", f"'{name}' is a link to another place", Place(name))
        elif not path.is_file():
            yield Problem("F106", f"'{name}' is not a file", Place(name))
        else:
            with path.open("rb") as file:
                yield file.read(MOST_BYTES + 1)
    except OSError as error:
        yield _unreadable(name, error)


def _unreadable(name: str, error: OSError) -> Problem:
    reason = (error.strerror or "unknown reason").lower()
    return Problem("F104", f"the file cannot be opened: {reason}", Place(name))


def _printable(name: str) -> str:
    """A file name that cannot upset a terminal."""
    shown = "".join(c if c.isprintable() else "\ufffd" for c in name)
    return shown if len(shown) <= 120 else f"{shown[:100]}...{shown[-17:]}"


def _is_folder(folder: Path) -> bool:
    """A name too long for the disk is no folder either."""
    try:
        return folder.is_dir()
    except OSError:
        return False


def _shown(folder: Path) -> str:
    return _printable(folder.name or str(folder))
