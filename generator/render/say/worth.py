"""The words of what is worth doing next."""


def lead_of(total: int, open_: int, unjudged: int) -> str:
    if not total:
        return "No pair to judge yet: write down a chain and a connecting link."
    if not open_ and not unjudged:
        return f"All of {total} pairs are settled by what is known."
    return f"Of {total} pairs {open_} are not settled and {unjudged} cannot be judged. First what ends most of them."


def worth_notes(tries: int, tried: int) -> tuple[str, ...]:
    """What no reading settles."""
    notes = []
    if tries:
        notes.append(
            f"No instrument listed settles {tries} of them: dry-fit them at home and write the trials down."
        )
    if tried:
        notes.append(
            f"Neither an instrument listed nor the dry fit settles {tried} of them: they count as the worse verdict."
        )
    return tuple(notes)


def as_closely(within: str) -> str:
    return f"to within ± {within}" if within else "as well as it goes"


def helps(of: str, within: str, pairs: int) -> str:
    """`Blue link, to within ± 0.05 mm; helps 12 open pairs`."""
    what = ", ".join(text for text in (of, within) if text)
    return f"{what}; helps {pairs} open {'pair' if pairs == 1 else 'pairs'}"
