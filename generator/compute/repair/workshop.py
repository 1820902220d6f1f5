"""Which tools of a club do which job on which chain or link."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from generator.compute.grouped import grouped
from generator.compute.others.result import OtherFits, PartFit
from generator.compute.repair.result import Job, Lack
from generator.model.dataset import Dataset, Part
from generator.model.shipped import NO_GO, PROPER
from generator.model.tools_and_bikes import Tool

# heads of riveted pins from 5/8 in pitch up are filed off before a breaker pushes them (common practice, no source)
HEADS_FILED_FROM = 15_875_000


@dataclass(frozen=True)
class Workshop:
    """A club's tools that are there, with the fits of those that are made for some sizes only."""

    dataset: Dataset
    others: OtherFits

    @cached_property
    def _does(self) -> Mapping[str, list[str]]:
        """Tools in stock, by job."""
        there = [tool for tool in self.dataset.tools.values() if tool.record.count > 0]
        return {
            does: [tool.id for tool in tools]
            for does, tools in grouped(there, lambda tool: str(tool.record.does)).items()
        }

    @cached_property
    def _on(self) -> Mapping[tuple[str, str], list[PartFit]]:
        """Fits of tools by what they work on."""
        return grouped(
            self.others.tools,
            lambda fit: (fit.parts[-1].kind, fit.parts[-1].id),
        )

    def plain(self, does: str) -> Job:
        return Job(does, "", tuple((id_, PROPER) for id_ in self._does.get(does, ())))

    def opens(self, chain: str) -> Job:
        return self._job("breaker", "open", "chain", chain)

    def presses(self, link: str) -> Job:
        return self._job("press", "press", "link", link)

    def rivets(self, link: str) -> Job:
        return self._job("riveter", "close", "link", link)

    @cached_property
    def _known(self) -> dict[tuple[str, str], Job]:
        return {}

    def _job(self, tool_does: str, does: str, kind: str, on: str) -> Job:
        """Looked up once for each part."""
        if (does, on) not in self._known:
            self._known[does, on] = self._find(tool_does, does, kind, on)
        return self._known[does, on]

    def _find(self, tool_does: str, does: str, kind: str, on: str) -> Job:
        """A tool counts at the worst end of its range; one that is not looked at closely enough cannot be used."""
        there = set(self._does.get(tool_does, ()))
        found = [
            (fit.id_of("tool"), fit.worst)
            for fit in self._on.get((kind, on), ())
            if fit.id_of("tool") in there and fit.worst is not None and fit.worst < NO_GO
        ]
        return Job(does, on, tuple(sorted(found, key=lambda one: (one[1], one[0]))))

    def opening(self, chain: str) -> tuple[Job, ...]:
        """The breaker, and the file its big heads ask for."""
        jobs = (self.opens(chain),)
        return (*jobs, self.plain("file")) if self.heads_are_filed(chain) else jobs

    def heads_are_filed(self, chain: str) -> bool:
        size = self.dataset.shelf.sizes.get(self.dataset.chains[chain].record.size_code)
        pitch = size.dims.get("pitch") if size is not None else None
        return pitch is None or pitch.nominal >= HEADS_FILED_FROM

    def closing(self, link: str) -> tuple[Job, ...]:
        """What it takes to close a joint with this link."""
        record = self.dataset.links[link].record
        jobs: list[Job] = []
        if record.plate_fit != "slip" and record.closure != "screw":
            jobs.append(self.presses(link))
        if record.closure == "rivet":
            jobs.append(self.rivets(link))
        jobs.extend([self.plain("pliers")] if record.closure == "clip" else [])
        jobs.extend([self.plain("spanner")] if record.closure == "screw" else [])
        return tuple(jobs)

    def lack(self, job: Job) -> Lack:
        """Why nothing does the job: a key that is gone, or no such tool."""
        keyless = next((tool for tool in self._made_for(job) if _key_gone(self.dataset, tool)), None)
        if keyless is not None:
            return Lack("S005", "tool", keyless.id)
        unread = next((tool for tool in self._made_for(job) if self._could_do(tool, job)), None)
        if unread is not None:
            return Lack("S019", "tool", unread.id)
        if job.does in ("press", "close"):
            return Lack("S004", "link", job.on)
        if job.does == "open":
            # without a file no breaker is fit for its heads
            unfiled = self.heads_are_filed(job.on) and not self.plain("file").able
            return Lack("S014" if unfiled else "S003", "chain", job.on)
        return Lack("S014", "word", job.does) if job.does == "file" else Lack("S015", "word", job.does)

    def _could_do(self, tool: Part[Tool], job: Job) -> bool:
        """It is there, and what nobody has read of it leaves open whether it does the job."""
        kind = "chain" if job.does == "open" else "link"
        fits = (fit for fit in self._on.get((kind, job.on), ()) if fit.id_of("tool") == tool.id)
        return tool.record.count > 0 and any(
            fit.best is not None and fit.best < NO_GO == fit.worst for fit in fits
        )

    def _made_for(self, job: Job) -> Iterable[Part[Tool]]:
        """Tools of the right kind and size, whatever is missing of them."""
        does = {"open": "breaker", "press": "press", "close": "riveter"}.get(job.does, "")
        part = self.dataset.chains.get(job.on) or self.dataset.links.get(job.on)
        code = part.record.size_code if part is not None else ""
        for tool in self.dataset.tools.values():
            if tool.record.does == does and code in tool.record.takes:
                yield tool


def _key_gone(dataset: Dataset, tool: Part[Tool]) -> bool:
    key = dataset.tools.get(tool.record.key or "")
    return tool.record.count > 0 and tool.record.key is not None and (key is None or key.record.count == 0)


def first_missing(jobs: Iterable[Job]) -> Job | None:
    return next((job for job in jobs if not job.able), None)
