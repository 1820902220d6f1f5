"""One verdict as a row: its plate, the name and the bag label, what goes in, one sentence of reason, its numbers."""

from generator.compute.fit.result import CheckFit, OptionFit, PairFit
from generator.compute.grouped import grouped
from generator.render.base.components import FitRow, KeyFact
from generator.render.base.routes import pair_route
from generator.render.base.verdicts import shown_verdict
from generator.render.pages.book import Book
from generator.render.say.around import joint_around
from generator.render.say.checks import ends_in_short, found_in_short, rule_of
from generator.render.say.joint import goes_in, link_kept
from generator.render.say.names import named
from generator.render.say.reasons import PLACES, short_reason
from generator.render.say.said import Said, joined


def link_row(book: Book, fit: PairFit, bike: str | None = None, numbers: bool = False) -> FitRow:
    """The link of a pair, where the chain is known from the page; on a bike at that bike's verdict."""
    link = book.dataset.links[fit.link]
    with_ = (
        (goes_in(book.dataset, fit.option), link_kept(book.dataset, fit.link)) if fit.word != "no-go" else ()
    )
    return FitRow(
        verdict=shown_verdict(fit.word, fit.best, fit.worst),
        name=named(link),
        tags=(fit.link,),
        goes_in=" · ".join(part for part in with_ if part),
        why=short_reason(book.dataset, fit),
        to=pair_at(book, fit, bike),
        numbers=row_numbers(book, fit) if numbers and not book.brief else (),
    )


def chain_row(book: Book, fit: PairFit) -> FitRow:
    """The chain of a pair, and the bikes that run it."""
    bikes = book.bikes_of[fit.chain]
    on = ", ".join(bikes)
    return FitRow(
        verdict=shown_verdict(fit.word, fit.best, fit.worst),
        name=named(book.dataset.chains[fit.chain]),
        tags=(fit.chain,),
        goes_in=f"Runs on {on}" if on else "Runs on no bike of the club",
        why=short_reason(book.dataset, fit),
        to=pair_route(fit),
    )


def pair_at(book: Book, fit: PairFit, bike: str | None) -> str:
    """The page of a pair; where its bikes are not alike, at the panel of one of them."""
    panel = panel_of(book, fit, bike) if bike is not None and fit.own_page else ""
    return f"{pair_route(fit)}#{panel}" if panel else pair_route(fit)


def panel_of(book: Book, fit: PairFit, bike: str | None) -> str:
    """The name of the panel that speaks of a bike; empty where one speaks of all."""
    groups = bikes_alike(book, fit)
    return next((f"on-{bikes[0]}" for bikes in groups if bike in bikes), "")


def bikes_alike(book: Book, fit: PairFit) -> tuple[tuple[str, ...], ...]:
    """The bikes of a pair that is not the same on all of them, those with one verdict together, the worst first."""
    apart = book.apart.get((fit.chain, fit.link), ())
    groups = grouped(apart, lambda each: (each.best, each.worst))
    worst_first = sorted(
        groups.items(), key=lambda item: [-1 if r is None else -r for r in reversed(item[0])]
    )
    return tuple(tuple(each.bike for each in group) for _, group in worst_first)


def row_numbers(book: Book, fit: PairFit) -> tuple[KeyFact, ...]:
    """What the drawing shows of a joint, a number a place."""
    if fit.option is None:
        return ()
    around = joint_around(book.dataset, fit.chain, fit.link, fit.option)
    checks = (check_of_place(book, fit.option, place) for place in PLACES)
    return tuple(
        KeyFact(
            rule_of(book.dataset, check.rule_id).title,
            _found(found_in_short(check, around), ends_in_short(check, around)),
        )
        for check in checks
        if check is not None and check.clearance is not None and check.category is None
    )


def check_of_place(book: Book, option: OptionFit, place: str) -> CheckFit | None:
    """The gravest check of a place of the drawing, the first of equals."""
    checks = [check for check in option.checks if rule_of(book.dataset, check.rule_id).drawn == place]
    return min(checks, key=lambda c: (-c.worst, -c.best, c.id != option.deciding), default=None)


def _found(found: Said, ends: Said) -> Said:
    return joined((found, ("(", *ends, ")"))) if ends else found
