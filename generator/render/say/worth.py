"""The words of what is worth doing next."""

from collections.abc import Sequence


def lead_of(total: int, open_: int, unjudged: int) -> str:
    if not total:
        return "No pair to judge yet: write down a chain and a connecting link."
    if not open_ and not unjudged:
        return f"All of {total} pairs are settled by what is known."
    return f"Of {total} pairs {open_} are not settled and {unjudged} cannot be judged. First what ends most of them."


def stand_note(count: int) -> tuple[str, ...]:
    """What nothing of the club settles."""
    if not count:
        return ()
    pairs = "One pair stays" if count == 1 else f"{count} pairs stay"
    return (f"{pairs} open whatever the club does: each counts as the worst it could be.",)


def pairs_in_words(pairs: Sequence[object]) -> str:
    return f"{len(pairs)} open {'pair' if len(pairs) == 1 else 'pairs'}"


def helps(doing: str, pairs: Sequence[object], minutes: int) -> str:
    """`Look at it, about 2 minutes; helps 12 open pairs`"""
    return f"{doing}, about {minutes} minutes; helps {pairs_in_words(pairs)}"
