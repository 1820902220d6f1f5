"""A process for test_linear.py to limit: reads, validates and reports one club folder with a file of a mebibyte."""

import re
import sys
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages

from generator.load.files import read_club
from generator.load.problem_texts import load_catalogue
from generator.problems.report import json_report, text_report
from generator.validate.dataset import build_dataset
from tests.clubs import DATA, shelf_files

SIZE = 1 << 20
BASE = DATA / "problems_base"
LOG = "date,chain,hours,pitches,inside,outside,place,new_chain\n"


def full(unit: str, before: str = "", after: str = "") -> str:
    """The unit again and again until the file is full."""
    return before + unit * ((SIZE - len(before) - len(after)) // len(unit)) + after


FILES = {
    "blanks before a stray mark": ("wear_log.csv", full(" ", LOG, '"x')),
    "marks": ("wear_log.csv", full('"', LOG)),
    "cells": ("wear_log.csv", full(",", LOG)),
    "the same column": ("wear_log.csv", full("date,")),
    "short rows": ("wear_log.csv", full("x,\n", LOG)),
    "a length of digits": ("links.yaml", full("1", "a:\n  pin_reach: ")),
    "a length of readings": ("links.yaml", full("1.1, ", "a:\n  pin_reach: ", "1 mm")),
    "a length that goes": ("links.yaml", full(" ", "a:\n  pin_reach: 'goes 1", "x'")),
    "a word": ("links.yaml", full("x", "a:\n  closure: ")),
    "an id": ("links.yaml", full("x", "", ": y")),
    "a tab a line": ("links.yaml", full("\tx: y\n", "a:\n")),
    "the same record": ("links.yaml", full("a: x\n")),
    "the same bike": ("rides.yaml", full("b, ", "a:\n  bikes: [", "b]\n")),
    "an open mark": ("links.yaml", full("b\n", 'a: "')),
}
UNITS = (
    " ",
    "\t",
    "1",
    "1 ",
    "1, ",
    "1/1 ",
    ".",
    "a",
    "a ",
    '"',
    "'",
    '""',
    ",",
    ":",
    "[",
    "a[",
    "a[a]",
    "#",
    "±",
    "-",
    "_",
    "<",
)
AROUND = (("", ""), ("goes 1", "x"), ("a[", "x"), ("longer by", ""), ('"', "x"), ("", "\n"))


def patterns() -> Iterator[tuple[str, re.Pattern[str]]]:
    """Those that meet what a club typed before anything bounds its length."""
    for package in ("load", "model", "validate", "problems", "rules"):
        home = import_module(f"generator.{package}")
        for module in walk_packages(home.__path__, f"{home.__name__}."):
            for name, value in vars(import_module(module.name)).items():
                several = value.values() if isinstance(value, dict) else (value,)
                yield from ((f"{module.name}.{name}", one) for one in several if isinstance(one, re.Pattern))


def report(case: str) -> None:
    name, text = FILES[case]
    files = {path.name: path.read_bytes() for path in Path(BASE).iterdir() if path.is_file()}
    club = read_club(files | {name: text.encode()})
    _, problems = build_dataset(club, shelf_files())
    catalogue = load_catalogue(DATA)
    longest = max(map(len, text_report(problems, club.texts, catalogue).split("\n")))
    print(len(problems), longest, len(json_report(problems, len(files), catalogue)))


def match(name: str) -> None:
    for pattern in (pattern for found, pattern in patterns() if found == name):
        for text in (full(unit, *around) for unit in UNITS for around in AROUND):
            pattern.match(text)
            pattern.fullmatch(text)


if __name__ == "__main__":
    {"report": report, "match": match}[sys.argv[1]](sys.argv[2])
