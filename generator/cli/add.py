"""`handbook add KIND`: asks for one record in a terminal and writes it into the club's file, its comments kept."""

import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from generator.cli.club import club_folder
from generator.cli.exit_codes import BAD_DATA, CANNOT_READ_OR_WRITE, FINE, WRONG_USAGE
from generator.load.files import read_club
from generator.load.folder import load_club, load_shelf
from generator.load.strict_yaml import parse
from generator.model.dataset import Shelf
from generator.model.kinds import MODELS
from generator.model.node import LoadedFolder
from generator.model.record import Record
from generator.problems import Problem
from generator.render.say.asking import (
    AS_STAMPED,
    INTRO,
    MUST,
    MUST_BE_THERE,
    NOT_NOW,
    STUCK,
    TO_COME,
    asked,
    label_question,
    more,
    needless,
    questions,
)
from generator.render.say.names import listed
from generator.render.schema.field_facts import FieldFacts
from generator.shipped import shipped_root
from generator.validate.dataset import build_dataset
from generator.validate.may_name import WAITS, is_record, may_name, not_there, says_not_there, waiting_lines
from generator.validate.shape import shape_file
from generator.validate.shelf import build_shelf

ADDED: Mapping[str, type[Record]] = {kind: model for kind, model in MODELS.items() if kind != "rule"}


class Stopped(Exception):
    """The person went away: an interrupt, or the end of what was typed."""


@dataclass
class Asking:
    """One record on its way: what it is of, the club's files, and the answers so far as they were typed."""

    kind: str
    model: type[Record]
    folder: Path
    club: LoadedFolder
    shelf: Shelf
    shelf_files: LoadedFolder
    id: str = ""
    answers: dict[str, str] = field(default_factory=dict)
    # names of records that are not written down yet: behind a # they count for nothing and are not lost
    waiting: dict[str, str] = field(default_factory=dict)

    def record(self, answers: Mapping[str, str] | None = None) -> str:
        """As it will stand in the file."""
        told = self.answers if answers is None else answers
        lines = [f"  {name}: {_plain(value)}\n" for name, value in told.items()]
        waits = [
            f"  # {name}: {value}  # {WAITS}\n" for name, value in self.waiting.items() if name not in told
        ]
        return "".join([f"{self.id}:\n", *lines, *waits])


def add(club: Path | None, kind: str) -> int:
    """Exit code 0 where a record was written; what was answered is kept whatever happens."""
    folder = club_folder(club)
    data = shipped_root() / "data"
    if not (folder / "club.yaml").is_file() or folder.resolve() == (data / "demo").resolve():
        print("name the club's folder with --club; handbook start makes one", file=sys.stderr)
        return WRONG_USAGE
    shelf_files = load_shelf(data)
    loaded = load_club(folder)
    if loaded.is_broken(ADDED[kind].file):
        print(f"{ADDED[kind].file} cannot be read yet: handbook check says why", file=sys.stderr)
        return BAD_DATA
    asking = Asking(kind, ADDED[kind], folder, loaded, build_shelf(shelf_files)[0], shelf_files)
    try:
        _ask_all(asking)
    except (KeyboardInterrupt, Stopped):
        return _kept(asking)
    return _written(asking, asking.record())


def _ask_all(asking: Asking) -> None:
    print(INTRO, file=sys.stderr)
    recipes = asking.shelf.recipe_by_field
    _ask_id(asking)
    facts = questions(asking.kind, asking.model, recipes)
    for fact in facts:
        told = asking.waiting | asking.answers
        if not needless(asking.kind, fact, told) and not _ask(asking, fact):
            break
    by_name = {fact.name: fact for fact in facts}
    # what the rest of the club says against it is asked again, each field once a round
    while wrong := _wrong(asking):
        for name, problem in _not_for_want_of(asking, wrong).items():
            _tell(problem)
            del asking.answers[name]
            _ask(asking, by_name[name])


def _wrong(asking: Asking, answers: Mapping[str, str] | None = None) -> dict[str, Problem]:
    """By field that was answered."""
    found = _against(asking, asking.record(answers))
    return {p.path[1]: p for p in found if len(p.path) > 1 and p.path[1] in asking.answers}


def _not_for_want_of(asking: Asking, wrong: dict[str, Problem]) -> dict[str, Problem]:
    """What is wrong only because another record is still to come waits with its name."""
    if not asking.waiting:
        return wrong
    all_the_same = _wrong(asking, asking.answers | asking.waiting)
    for name in wrong.keys() - all_the_same.keys():
        asking.waiting[name] = asking.answers.pop(name)
    return {name: problem for name, problem in wrong.items() if name in asking.answers}


def _ask_id(asking: Asking) -> None:
    while True:
        asking.id = _typed(label_question(asking.kind))
        faults = [p for p in _shape_faults(asking, {}) if p.code != "R202"]
        taken = asking.id in asking.club.node(asking.model.file).entries
        if not faults and not taken and asking.id:
            return
        print(f"  '{asking.id}' stands in {asking.model.file} already" if taken else "", file=sys.stderr)
        for problem in faults:
            _tell(problem)


def _ask(asking: Asking, fact: FieldFacts) -> bool:
    """Until it is answered or left out; False ends the questions."""
    known, before = may_name(asking.kind, fact.name, asking.club, asking.shelf), ""
    while True:
        told = _typed(asked(asking.kind, fact, known))
        if told == "?":
            for line in more(asking.kind, fact, asking.shelf.recipe_by_field):
                print(f"  {line}", file=sys.stderr)
        elif told in ("", ".") and fact.required:
            print(f"  {MUST}", file=sys.stderr)
        elif told == "" or told == ".":
            return told == ""
        else:
            faults = [p for p in _shape_faults(asking, {fact.name: told}) if p.code != "R202"]
            if faults:
                _tell(faults[0])
            elif _taken(asking, fact, told, known, again=told == before):
                return True
            if told == before:
                print(f"  {STUCK}", file=sys.stderr)
            before = told


def _taken(asking: Asking, fact: FieldFacts, told: str, known: tuple[str, ...] | None, again: bool) -> bool:
    """What names nothing that is there is told at once.  Said again, a size code is as stamped and a record is still to
    come; what a record cannot do without, and an instrument, have to be there first."""
    gone = not_there(told, known) if known is not None else []
    record = is_record(asking.kind, fact.name)
    kept = fact.kind == "size" or (record and not fact.required)
    if gone and not (again and kept):
        for word in gone:
            print(f"  {says_not_there(asking.kind, fact.name, word, known or ())}", file=sys.stderr)
        print(f"  {TO_COME if record and kept else AS_STAMPED if kept else MUST_BE_THERE}", file=sys.stderr)
        return False
    (asking.waiting if gone and record else asking.answers)[fact.name] = told
    return True


def _shape_faults(asking: Asking, answers: Mapping[str, str]) -> list[Problem]:
    root, problems = parse(
        asking.record(answers) if answers else f"{asking.id or '?'}: {{}}\n", asking.model.file
    )
    if root is None or problems:
        return list(problems)
    return shape_file(root, asking.model)[1]


def _against(asking: Asking, record: str) -> Iterator[Problem]:
    """Errors of a record beside everything else in the folder."""
    files = {name: text.encode() for name, text in asking.club.texts.items()}
    name = asking.model.file
    club = read_club({**files, name: _with(asking.club.texts.get(name, ""), record).encode()})
    for problem in build_dataset(club, asking.shelf_files)[1]:
        if problem.level == "error" and problem.place.file == name and problem.path[:1] == (asking.id,):
            yield problem


def _tell(problem: Problem) -> None:
    fix = f": {problem.fix}" if problem.fix else ""
    print(f"  {problem.code} {problem.message}{fix}", file=sys.stderr)


def _typed(prompt: str) -> str:
    print(f"{prompt} " if prompt.endswith("?") else f"{prompt}: ", end="", file=sys.stderr, flush=True)
    line = sys.stdin.readline()
    if not line:
        raise Stopped
    return line.strip()


def _plain(value: str) -> str:
    """As it was typed where YAML reads that as one word or a list, else in quotes."""
    root, problems = parse(f"a: {value}\n", "")
    found = root.entries["a"].value if root is not None and not problems and "a" in root.entries else None
    same = found is not None and (getattr(found, "text", None) == value or value.startswith("["))
    return value if same else "'" + value.replace("'", "''") + "'"


def _with(text: str, record: str) -> str:
    """At the end, with all that stands there before."""
    between = "" if not text else "\n" if text.endswith("\n") else "\n\n"
    return f"{text}{between}{record}"


def _written(asking: Asking, record: str) -> int:
    """Beside the file first, then in its place, so that no half of it is ever there."""
    path = asking.folder / asking.model.file
    try:
        before = path.read_text(encoding="utf-8") if path.exists() else ""
        beside = path.with_name(f".{path.name}.new")
        beside.write_text(_with(before, record), encoding="utf-8", newline="\n")
        beside.replace(path)
    except OSError as fault:
        print(f"cannot write {path}: {fault.strerror or fault}; this is what was answered:", file=sys.stderr)
        sys.stdout.write(record)
        return CANNOT_READ_OR_WRITE
    print(f"written into {path}", file=sys.stderr)
    for line in _still_to_do(asking):
        print(line, file=sys.stderr)
    return FINE


def _still_to_do(asking: Asking) -> Iterator[str]:
    """What waits for other records, what waited for this one, and the command that looks over all of it."""
    come = [told for name, told in asking.waiting.items() if is_record(asking.kind, name)]
    if come:
        yield f"{listed(list(asking.waiting))}: behind a # until {listed(come)} is written down; take the # away then"
    for name, line, waits in waiting_lines(asking.club, asking.kind, asking.id):
        yield f"{name}, line {line}: {waits} waited for {asking.id}; take the # away there now, and below it what waits too"
    yield f"handbook check --club {asking.folder} says what is wrong and what is worth doing next"


def _kept(asking: Asking) -> int:
    """What was answered before the end stands in the file behind #, so that nothing is lost and nothing counts."""
    print("", file=sys.stderr)
    if not asking.answers:
        return FINE
    behind = "".join(f"# {line}\n" for line in asking.record().splitlines())
    return _written(asking, f"# {NOT_NOW}\n{behind}")
