"""The files of a folder as values: decoding, which files are known, and the reading of each."""

from collections.abc import Collection, Iterator, Mapping
from difflib import get_close_matches

from generator.load.strict_yaml import parse
from generator.load.table import read_table
from generator.load.yaml_text import MOST_BYTES, lines_of
from generator.model.club import Club
from generator.model.kinds import MODELS
from generator.model.node import LoadedFile, LoadedFolder, LogRow
from generator.problems import Place, Problem

WEAR_LOG = "wear_log.csv"
CLUB_FILES = (Club.file, *sorted(kind.file for kind in MODELS.values()), WEAR_LOG)
_NOT_OPENED = ("F104", "F105", "F106")
_DATA_ENDINGS = (".yaml", ".yml", ".csv", ".json")
MOST_NAMED = 40


def read_club(files: Mapping[str, bytes], problems: tuple[Problem, ...] = ()) -> LoadedFolder:
    """A club's folder; what it does not know is named, with the nearest name it does know."""
    known = {name: raw for name, raw in files.items() if name in CLUB_FILES}
    refused = any(problem.place.file == Club.file for problem in problems)
    missing = () if Club.file in files or refused else (_no_club(),)
    unknown = tuple(_unknown(sorted(set(files) - set(known)), files))
    return _read(known, (*problems, *missing, *unknown))


def read_shelf(
    files: Mapping[str, bytes], problems: tuple[Problem, ...] = (), parsed: Collection[str] | None = None
) -> LoadedFolder:
    """The data that ship with the generator; files that are not to be `parsed` are there without their values."""
    return _read(files, problems, parsed)


def head_of_page(raw: bytes) -> bytes:
    """What stands between the first two lines of dashes of a hand-written page, its lines counted as in the file."""
    _, head, _ = (raw.replace(b"\r\n", b"\n") + b"\n---\n---\n").split(b"---\n", 2)
    return b"\n" + head


def _read(
    files: Mapping[str, bytes], problems: tuple[Problem, ...], parsed: Collection[str] | None = None
) -> LoadedFolder:
    loaded: dict[str, LoadedFile] = {}
    found: list[Problem] = list(problems)
    log: tuple[LogRow, ...] = ()
    for name in sorted(files):
        text, fault = _decoded(files[name], name)
        if fault is not None:
            found.append(fault)
            loaded[name] = LoadedFile(name, "", None)
        elif parsed is not None and name not in parsed:
            loaded[name] = LoadedFile(name, text, None)
        elif name == WEAR_LOG:
            log, faults = read_table(text, name)
            found.extend(faults)
            loaded[name] = LoadedFile(name, text, None)
        else:
            node, faults = parse(text, name)
            found.extend(faults)
            loaded[name] = LoadedFile(name, text, node)
    for problem in problems:
        if problem.code in _NOT_OPENED:
            loaded[problem.place.file] = LoadedFile(problem.place.file, "", None)
    return LoadedFolder(loaded, tuple(found), log, any(p.code == "F104" for p in found))


def _decoded(raw: bytes, name: str) -> tuple[str, Problem | None]:
    """The text of a file, without the mark some editors put first."""
    if len(raw) > MOST_BYTES:
        return "", Problem("Y110", f"the file is larger than {MOST_BYTES} bytes", Place(name))
    try:
        return raw.decode("utf-8").removeprefix("\ufeff"), None
    except UnicodeDecodeError as error:
        before = lines_of(raw[: error.start].decode("utf-8", "replace").removeprefix("\ufeff"))
        place = Place(name, len(before), len(before[-1]) + 1, len(before[-1]) + 1)
        return "", Problem("Y112", "the file is not UTF-8 text from here on", place)


def _no_club() -> Problem:
    return Problem("F102", "there is no club.yaml in the folder", Place(Club.file))


def _unknown(names: list[str], files: Mapping[str, bytes]) -> Iterator[Problem]:
    """Data files with a name nobody reads, the first of them by name; other files are the club's own business."""
    told = [(name, near) for name in names if (near := _near(name)) is not None]
    for name, near in told[:MOST_NAMED]:
        hint = next((one for one in near if one not in files), None)
        yield Problem(
            "F103", f"nobody reads the file '{name[:60]}'", Place(name), did_you_mean=hint, level="warning"
        )
    if more := told[MOST_NAMED:]:
        message = f"nobody reads this and {len(more) - 1} more files after it"
        yield Problem("F103", message, Place(more[0][0]), level="warning")


def _near(name: str) -> list[str] | None:
    """The known name that was meant, if one is near; None for a file that is no data."""
    lowered = name.lower().removesuffix(".bak").removesuffix("~")
    near = get_close_matches(lowered, CLUB_FILES, 1, 0.8)
    if near or not lowered.endswith(_DATA_ENDINGS):
        return near or None
    return get_close_matches(f"{lowered.rsplit('.', 1)[0]}.yaml", CLUB_FILES, 1, 0.8)
