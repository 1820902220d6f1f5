"""Has text typeset by the compiler that comes as a package, with fonts that come as packages: no font of the machine."""

import json
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from functools import cache, lru_cache
from importlib.resources import files
from multiprocessing import get_context
from pathlib import Path
from typing import ParamSpec, TypeVar

import typst

P = ParamSpec("P")
T = TypeVar("T")
_TEMPLATES = Path(__file__).parent / "card_templates"
_NOT_SHOWN = re.compile(r'the text `"(.+?)"` could not be displayed', re.DOTALL)


class TypesettingFailed(Exception):
    """The compiler refused or warned: a fault of the templates, not of the data."""


@cache
def _fonts() -> typst.Fonts:
    """Fira Sans Condensed under the Open Font License, and the mono font within the compiler for signs it lacks."""
    folder = str(files("fontpkg_fira_sans_condensed") / "files")
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[folder])


def _compiler(template: str, text: str) -> typst.Compiler:
    return typst.Compiler(
        str(_TEMPLATES / template),
        root=str(_TEMPLATES),
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs={"data": text},
    )


def pdf(template: str, data: Mapping[str, object], seconds: int) -> bytes:
    """A tagged PDF/UA-1; any warning stops it."""
    return _made(template, _text(data), seconds, None)


def png(template: str, data: Mapping[str, object], dots_per_inch: int) -> bytes:
    """A picture of the first page."""
    return _made(template, _text(data), None, dots_per_inch)


def _text(data: object) -> str:
    return json.dumps(data, ensure_ascii=False)


_elsewhere: ProcessPoolExecutor | None = None


@contextmanager
def typesetting_apart() -> Iterator[None]:
    """All that is typeset meanwhile is made by another process: the compiler holds on to what it laid out lately, a
    gigabyte for the cards of a large club, and only the end of a process gives that back.  By this one where the
    system lets it have no other."""
    global _elsewhere
    try:
        other = ProcessPoolExecutor(1, get_context("spawn"))
    except (ImportError, NotImplementedError, OSError):
        yield
        return
    with other:
        _elsewhere = other
        try:
            yield
        finally:
            _elsewhere = None
            # so many that none would be kept until its turn comes again
            _made.cache_clear()


def _asked(make: Callable[P, T], *given: P.args, **named: P.kwargs) -> T:
    """Of this process or the other one."""
    return _elsewhere.submit(make, *given, **named).result() if _elsewhere else make(*given, **named)


# while a handbook is served, what did not change is not made again
@lru_cache(maxsize=512)
def _made(template: str, text: str, seconds: int | None, dots_per_inch: int | None) -> bytes:
    """A picture where dots are asked for, else a PDF made at `seconds`."""
    return _asked(_compiled, template, text, seconds, dots_per_inch)


def _compiled(template: str, text: str, seconds: int | None, dots_per_inch: int | None) -> bytes:
    as_pdf = dots_per_inch is None
    try:
        made, warnings = _compiler(template, text).compile_with_warnings(
            format="pdf" if as_pdf else "png",
            pdf_standards=["ua-1"] if as_pdf else [],
            timestamp=seconds,
            ppi=dots_per_inch,
        )
    except typst.TypstError as fault:
        raise TypesettingFailed(f"{fault.message}\n{fault.diagnostic}") from fault
    if warnings or made is None:
        raise TypesettingFailed("\n".join(warning.diagnostic for warning in warnings))
    return made if isinstance(made, bytes) else made[0]


def heights(data: Mapping[str, object]) -> list[float]:
    """Of each block of `data`, in mm."""
    return _asked(_heights, _text(data))


def _heights(text: str) -> list[float]:
    try:
        found = json.loads(_compiler("measure.typ", text).query("<height>", field="value"))
    except typst.TypstError as fault:
        raise TypesettingFailed(f"{fault.message}\n{fault.diagnostic}") from fault
    return [float(height) for height in found]


def not_in_fonts(signs: Iterable[str]) -> frozenset[str]:
    """Those that neither font has; found by having them typeset, which names the first one it cannot show."""
    missing: set[str] = set()
    left = sorted(set(signs))
    while left:
        refused = _refused(left)
        if not refused:
            break
        missing |= refused
        left = [sign for sign in left if sign not in refused]
    return frozenset(missing)


def _refused(signs: list[str]) -> set[str]:
    try:
        _compiler("signs.typ", _text(signs)).compile(format="pdf", pdf_standards=["ua-1"], timestamp=0)
    except typst.TypstError as fault:
        found = _NOT_SHOWN.search(fault.message)
        if not found:
            raise TypesettingFailed(f"{fault.message}\n{fault.diagnostic}") from fault
        return set(json.loads(f'"{found[1]}"')) & set(signs)
    return set()
