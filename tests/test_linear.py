"""Reading, validating and reporting take time in step with the file, whatever stands in it: seen at a mebibyte.

A processor limit ends what takes longer by a power: a mebibyte squared is hours.  What is in step takes seconds.
"""

import resource
import subprocess
import sys
from pathlib import Path

import pytest

from generator.problems import Place, Problem
from generator.problems.report import AFTER, BEFORE, OF_IT, text_report
from tests.linear_worker import FILES, patterns

MOST_SECONDS = 240
LONGEST = 700  # a sentence of advice; no line of a file is shown in full
PATTERNS = sorted({name for name, _ in patterns()})


def within_limit(*arguments: str) -> str:
    ran = subprocess.run(
        [sys.executable, "-m", "tests.linear_worker", *arguments],
        cwd=Path(__file__).resolve().parent.parent,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS)),
        capture_output=True,
        text=True,
    )
    assert ran.returncode == 0, ran.stderr[-500:] or "it was ended by its limit"
    return ran.stdout


@pytest.mark.long
@pytest.mark.parametrize("name", PATTERNS)
def test_every_pattern_goes_through_a_text_once(name: str) -> None:
    within_limit("match", name)


def test_the_patterns_are_found() -> None:
    """Those that met blanks, quotation marks and brackets badly before."""
    assert {"generator.load.table._CELLS", "generator.model.told_text._GOES"} <= set(PATTERNS)


@pytest.mark.long
@pytest.mark.parametrize("case", sorted(FILES))
def test_every_report_is_in_step_with_its_file(case: str) -> None:
    problems, longest, _ = map(int, within_limit("report", case).split())
    assert problems > 0
    assert longest < LONGEST


@pytest.mark.parametrize("column", [1, 5000, 9999])
@pytest.mark.parametrize("width", [1, 50, 9999])
def test_a_long_line_and_its_caret_are_cut(column: int, width: int) -> None:
    problem = Problem("L101", "wrong", Place("a.yaml", 1, column, min(column + width - 1, 10_000)))
    _, line, caret, *_ = text_report([problem], {"a.yaml": "x" * 10_000}).split("\n")
    assert max(len(line), len(caret)) <= 4 + len("… ") + BEFORE + OF_IT + AFTER + len(" …") + 1
    assert set(line[caret.index("^") : caret.rindex("^") + 1]) == {"x"}
