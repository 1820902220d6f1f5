"""Every cross-record rule over every record.

Goes in: the drafts of a club.  Comes out: problems.
"""

from collections.abc import Iterator

from generator.model.node import LoadedFolder
from generator.problems import Problem
from generator.validate.draft import ClubDraft


def cross_problems(draft: ClubDraft, club: LoadedFolder, shelf: LoadedFolder) -> Iterator[Problem]:
    """All rules; each looks only at what parsed."""
    yield from ()
