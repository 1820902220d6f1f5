"""Where the time of a run goes, by phase: a phase inside another counts for itself only."""

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from types import FunctionType
from typing import Any


class Stopwatch:
    """Seconds by phase, and how long processors were at work meanwhile."""

    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}
        self.used: dict[str, float] = {}
        self._running: list[str] = []
        self._since = self._used_before = 0.0

    @contextmanager
    def phase(self, name: str) -> Iterator[None]:
        self._turn()
        self._running.append(name)
        try:
            yield
        finally:
            self._turn()
            self._running.pop()

    def _turn(self) -> None:
        now, used = time.perf_counter(), time.process_time()
        if self._running:
            phase = self._running[-1]
            self.seconds[phase] = self.seconds.get(phase, 0.0) + now - self._since
            self.used[phase] = self.used.get(phase, 0.0) + used - self._used_before
        self._since, self._used_before = now, used

    def watched(self, function: Callable[..., Any], name: str) -> Callable[..., Any]:
        @wraps(function)
        def inner(*given: Any, **named: Any) -> Any:
            with self.phase(name):
                return function(*given, **named)

        return inner


@contextmanager
def watching(watch: Stopwatch, where: str, made_in: str, phase: str) -> Iterator[None]:
    """Every function of the modules `made_in...` that the modules `where...` call is a phase, for a while."""
    before: list[tuple[Any, str, Any]] = []
    for module in [m for name, m in sys.modules.items() if name.startswith(where)]:
        for name, value in list(vars(module).items()):
            if isinstance(value, FunctionType) and value.__module__.startswith(made_in):
                before.append((module, name, value))
                setattr(module, name, watch.watched(value, phase))
    try:
        yield
    finally:
        for module, name, value in before:
            setattr(module, name, value)
