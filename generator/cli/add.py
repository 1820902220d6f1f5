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
from generator.model.node import LoadedFolder
from generator.model.record import Record
from generator.problems import Problem
from generator.render.say.asking import INTRO, LABEL, MUST, NOT_NOW, asked, more, needless, questions
from generator.render.schema.field_facts import FieldFacts
from generator.shipped import shipped_root
from generator.validate.dataset import build_dataset
from generator.validate.draft import KINDS
from generator.validate.measure import recipes_by_field
from generator.validate.shape import shape_file
from generator.validate.shelf import build_shelf

ADDED: Mapping[str, type[Record]] = {kind: model for kind, model in KINDS.items() if kind != "rule"}


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

    def record(self, answers: Mapping[str, str] | None = None) -> str:
        """As it will stand in the file."""
        told = self.answers if answers is None else answers
        return "".join([f"{self.id}:\n", *(f"  {name}: {_plain(value)}\n" for name, value in told.items())])


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
    recipes = recipes_by_field(asking.shelf)
    _ask_id(asking)
    facts = questions(asking.kind, asking.model, recipes)
    for fact in facts:
        if not needless(fact.name, asking.answers) and not _ask(asking, fact):
            break
    by_name = {fact.name: fact for fact in facts}
    # what the rest of the club says against it is asked again, each field once a round
    while wrong := {
        p.path[1]: p for p in _against(asking) if len(p.path) > 1 and p.path[1] in asking.answers
    }:
        for name, problem in wrong.items():
            _tell(problem)
            del asking.answers[name]
            _ask(asking, by_name[name])


def _ask_id(asking: Asking) -> None:
    while True:
        asking.id = _typed(f"{LABEL}: ")
        faults = [p for p in _shape_faults(asking, {}) if p.code != "R202"]
        taken = asking.id in asking.club.node(asking.model.file).entries
        if not faults and not taken and asking.id:
            return
        print(f"  '{asking.id}' stands in {asking.model.file} already" if taken else "", file=sys.stderr)
        for problem in faults:
            _tell(problem)


def _ask(asking: Asking, fact: FieldFacts) -> bool:
    """Until it is answered or left out; False ends the questions."""
    while True:
        told = _typed(f"{asked(asking.kind, fact)}: ")
        if told == "?":
            for line in more(asking.kind, fact, recipes_by_field(asking.shelf)):
                print(f"  {line}", file=sys.stderr)
        elif told in ("", ".") and fact.required:
            print(f"  {MUST}", file=sys.stderr)
        elif told == "" or told == ".":
            return told == ""
        else:
            faults = [p for p in _shape_faults(asking, {fact.name: told}) if p.code != "R202"]
            if not faults:
                asking.answers[fact.name] = told
                return True
            _tell(faults[0])


def _shape_faults(asking: Asking, answers: Mapping[str, str]) -> list[Problem]:
    root, problems = parse(
        asking.record(answers) if answers else f"{asking.id or '?'}: {{}}\n", asking.model.file
    )
    if root is None or problems:
        return list(problems)
    return shape_file(root, asking.model)[1]


def _against(asking: Asking) -> Iterator[Problem]:
    """Errors of this record beside everything else in the folder."""
    files = {name: text.encode() for name, text in asking.club.texts.items()}
    name = asking.model.file
    club = read_club({**files, name: _with(asking.club.texts.get(name, ""), asking.record()).encode()})
    for problem in build_dataset(club, asking.shelf_files)[1]:
        if problem.level == "error" and problem.place.file == name and problem.path[:1] == (asking.id,):
            yield problem


def _tell(problem: Problem) -> None:
    fix = f": {problem.fix}" if problem.fix else ""
    print(f"  {problem.code} {problem.message}{fix}", file=sys.stderr)


def _typed(prompt: str) -> str:
    print(prompt, end="", file=sys.stderr, flush=True)
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
    return FINE


def _kept(asking: Asking) -> int:
    """What was answered before the end stands in the file behind #, so that nothing is lost and nothing counts."""
    print("", file=sys.stderr)
    if not asking.answers:
        return FINE
    behind = "".join(f"# {line}\n" for line in asking.record().splitlines())
    return _written(asking, f"# {NOT_NOW}\n{behind}")
