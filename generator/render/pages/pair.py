"""The page of one pair: the verdict first, what goes in, why with the drawing, what it needs, how it is fitted; then folds."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.compute.acts import Act
from generator.compute.fit.by_bike import OnBike
from generator.compute.fit.result import PairFit
from generator.compute.fit.ways import Way
from generator.compute.grouped import grouped
from generator.model.dataset import Dataset
from generator.model.shipped import GET_HOME, NO_GO, RUNGS
from generator.render.base.components import FitRow, KeyFact
from generator.render.base.lengths import shown_length
from generator.render.base.page import Page
from generator.render.base.routes import part_route
from generator.render.base.verdicts import ShownVerdict, range_verdict, shown_verdict
from generator.render.pages.book import Book
from generator.render.pages.clip_trail import clip_trail
from generator.render.pages.facts import Anchor
from generator.render.pages.fit_rows import bikes_alike, link_row, panel_of
from generator.render.pages.needs import needs_of
from generator.render.pages.pair_drawing import pair_drawing
from generator.render.pages.pair_numbers import numbers_of
from generator.render.pages.search_terms import pair_terms
from generator.render.say.acts import act_questions, act_title, where_written
from generator.render.say.basis import calculated_sentence, chance_sentence, evidence_sentence
from generator.render.say.cautions import pair_cautions
from generator.render.say.drawing import CAPTION
from generator.render.say.fitting import ease_back, fitting_steps
from generator.render.say.joint import Joining, between_plates, clip_short, seals_and_seat
from generator.render.say.names import listed, named, recipe_of, small_named
from generator.render.say.next_step import closer_with
from generator.render.say.panel import panel_says
from generator.render.say.reasons import Reason, reasons, short_reason
from generator.render.say.rungs import NO_SOURCE
from generator.render.say.said import Said
from generator.render.say.tried import tried_another_way

# of a club with thousands of pairs; fits.json has them all
MOST_WAYS, MOST_CLIPS = 1, 8


@dataclass(frozen=True, slots=True)
class Panel:
    """A verdict with what it means; `of` names the bikes it is for, empty for all that run the chain."""

    id: str
    verdict: ShownVerdict
    says: str
    of: str = ""
    why: Said = ()


@dataclass(frozen=True, slots=True)
class OtherWays:
    """Ways to join the pair that come to one verdict for one reason."""

    verdict: ShownVerdict
    reason: str
    ways: tuple[tuple[str, str], ...]  # what closes it, what lies between the plates


def pair_pages(book: Book) -> Iterator[Page]:
    """A page for each pair that pitch and size family do not rule out."""
    return (pair_page(book, fit) for fit in book.fits if fit.own_page)


def pair_page(book: Book, fit: PairFit) -> Page:
    """Its values are made when it is printed: a club may have thousands."""
    return Page(
        path=f"pairs/{fit.chain}/{fit.link}/",
        title=title_of(book.dataset, fit),
        description=f"Connecting link {fit.link} on chain {fit.chain}: {verdict_in_words(fit)}.",
        template="handbook/pair.html",
        context={},
        search=pair_terms(book.dataset, fit),
        kind="pair",
        brief=book.brief,
        later=lambda: pair_values(book, fit),
    )


def title_of(dataset: Dataset, fit: PairFit) -> str:
    return f"{named(dataset.links[fit.link])} on {small_named(dataset.chains[fit.chain])}"


def pair_values(book: Book, fit: PairFit) -> Mapping[str, object]:
    dataset = book.dataset
    plain = book.brief and fit.word == RUNGS[NO_GO]
    why, act = _reasons(dataset, fit, plain), book.acts.get((fit.chain, fit.link))
    return {
        "chain": Anchor(fit.chain, part_route("chain", fit.chain)),
        "link": Anchor(fit.link, part_route("link", fit.link)),
        "names": (named(dataset.links[fit.link]), small_named(dataset.chains[fit.chain])),
        "panels": panels_of(book, fit, stands=act is None),
        "keys": keys_of(dataset, fit),
        "tried": tried_another_way(fit),
        "cautions": pair_cautions(dataset.shelf.cautions, fit, dataset.links[fit.link].record.plate_fit),
        "bare": tuple(reason for reason in why if reason.place is None and reason.verdict),
        "last": tuple(reason for reason in why if reason.place is None and not reason.verdict),
        "numbered": tuple(reason for reason in why if reason.place is not None),
        "drawing": "" if fit.option is None or plain else pair_drawing(dataset, fit, why),
        "settled": fit.word in RUNGS,
        "needs": needs_of(book, fit),
        "fitting": () if book.brief else fitting_steps(dataset, fit),
        "ease_back": ease_back(dataset, fit),
        "next": next_of(book, act) if act else None,
        "better": better_links(book, fit),
        "lost": None if book.brief and fit.word not in RUNGS else clip_trail(book, fit),
        "ways": () if plain else other_ways(book, fit)[: MOST_WAYS if book.brief else None],
        "numbers": () if book.brief else numbers_of(dataset, fit),
        "evidence": evidence_sentence(dataset, fit, book.brief),
        "chance": chance_sentence(fit),
        "caption": CAPTION,
        "no_source": NO_SOURCE,
        "calculated": calculated_sentence(dataset, fit),
    }


def _reasons(dataset: Dataset, fit: PairFit, plain: bool) -> tuple[Reason, ...]:
    """What is no-go whatever else is found is told by that alone, where it must be told plainly."""
    found = reasons(dataset, fit)
    gravest = (each for each in found if each.verdict and each.verdict.word == RUNGS[NO_GO])
    return (tuple(gravest) if plain else ()) or found


def panels_of(book: Book, fit: PairFit, stands: bool) -> tuple[Panel, ...]:
    """One for all bikes, or one for those that are alike, the worst first; a page that is addressed shows its own first."""
    groups = bikes_alike(book, fit)
    if not groups:
        closer = closer_with(book.dataset, fit) if stands and fit.word == "measure-first" else ""
        return (Panel("verdict", _shown(fit), f"{panel_says(fit, stands)} {closer}".rstrip()),)
    return tuple(_on_bikes(book, fit, bikes, stands) for bikes in groups)


def _on_bikes(book: Book, fit: PairFit, bikes: Sequence[str], stands: bool) -> Panel:
    of_bike = next(each for each in book.by_bike[bikes[0]] if each.link == fit.link)
    return Panel(
        panel_of(book, fit, bikes[0]),
        _shown(of_bike),
        panel_says(of_bike, stands),
        of=f"On {listed(list(bikes))}",
        why=short_reason(book.dataset, of_bike) if of_bike.word != "proper" else (),
    )


def _shown(fit: PairFit) -> ShownVerdict:
    return shown_verdict(fit.word, fit.best, fit.worst)


def keys_of(dataset: Dataset, fit: PairFit) -> tuple[KeyFact, ...]:
    """What the hand needs: the width to press to, the clip, what lies between the plates; nothing under a no-go."""
    option = fit.option
    if option is None or fit.word == RUNGS[NO_GO]:
        return ()
    return tuple(_keys(dataset, fit))


def _keys(dataset: Dataset, fit: PairFit) -> Iterator[KeyFact]:
    option, width = fit.option, fit.press_to
    assert option is not None
    if width is not None:
        yield KeyFact("Press to, over both outer plates", large=shown_length(width.nominal))
        if fit.beside is not None:
            yield KeyFact(
                "Beside the joint", (shown_length(fit.beside.nominal), " over the plates of a neighbour")
            )
    clip = dataset.clips.get(option.clip or "")
    if clip is not None:
        yield KeyFact(
            "Clip", (_kept(clip.label, clip.record.kept_in),), tags=((clip.id, part_route("clip", clip.id)),)
        )
    else:
        yield KeyFact("Closed by", (clip_short(option),))
    if option.spacer is not None:
        yield KeyFact(
            "Under the clip",
            ("a washer on each pin",),
            tags=((option.spacer, part_route("seal", option.spacer)),),
        )
    seals = dataset.seals.get(option.seal_set or "")
    said = between_plates(dataset, option)
    if seals is not None and option.seals != "left-out":
        yield KeyFact(
            "Seals", (_kept(said, seals.record.kept_in),), tags=((seals.id, part_route("seal", seals.id)),)
        )
    else:
        yield KeyFact("Seals", (said,))


def _kept(what: str, where: str | None) -> str:
    return f"{what}, {where}" if where else what


def better_links(book: Book, fit: PairFit) -> tuple[FitRow, ...]:
    """Other links for the same chain, where this one is no use or a last resort, or could turn out to be."""
    if fit.worst is not None and fit.worst <= GET_HOME:
        return ()
    others = [other for other in book.better[fit.chain] if other.link != fit.link]
    return tuple(link_row(book, other) for other in others[: 1 if book.brief else len(others)])


def verdict_in_words(fit: PairFit | OnBike) -> str:
    shown = shown_verdict(fit.word, fit.best, fit.worst)
    return f"{shown.label}, {shown.span}" if shown.span else shown.label


@dataclass(frozen=True, slots=True)
class Next:
    """What to do next: one handling, with all that is asked of it, the ways to read it, and where the answers go."""

    title: str
    minutes: int
    asked: tuple[str, ...]
    recipes: tuple[Anchor, ...]
    written: str


def next_of(book: Book, act: Act) -> Next:
    found = (recipe_of(book.dataset, reading.kind, reading.field) for reading in act.ask)
    recipes = dict.fromkeys((recipe[1].title, f"measuring/{recipe[0]}/") for recipe in found if recipe)
    return Next(
        act_title(book.dataset, act),
        act.effort,
        tuple(dict.fromkeys(asked.split(" [")[0] for asked in act_questions(book.dataset, act))),
        tuple(Anchor(title, to) for title, to in recipes if to in book.elsewhere),
        where_written(book.dataset, act),
    )


def other_ways(book: Book, fit: PairFit) -> tuple[OtherWays, ...]:
    """Every way to join the pair but the chosen one, the best first, those of one verdict and one reason together."""
    rules = book.dataset.shelf.joint_rules
    ways = [way for way in book.ways_of(fit) if not _chosen(fit, way)]
    groups = grouped(ways, lambda way: (way.worst, way.best, rules[way.rule_id].title))
    return tuple(
        OtherWays(range_verdict(best, worst), reason, _ways(group, MOST_CLIPS if book.brief else None))
        for (worst, best, reason), group in sorted(groups.items(), key=lambda item: item[0][:2])
    )


def _chosen(fit: PairFit, way: Way) -> bool:
    option = fit.option
    return option is not None and _joined_by(way) == _joined_by(option)


def _joined_by(way: Joining) -> tuple[object, ...]:
    return (way.clip, way.seals, way.seal_set, way.seat, way.spacer)


def _ways(ways: Sequence[Way], most: int | None) -> tuple[tuple[str, str], ...]:
    """What closes it, by what lies between the plates; of a long list the first few and how many more."""
    by_seals = grouped(ways, seals_and_seat)
    return tuple((_first(map(clip_short, group), most), seals) for seals, group in by_seals.items())


def _first(names: Iterable[str], most: int | None) -> str:
    all_ = list(names)
    more = f" and {len(all_) - most} more" if most is not None and len(all_) > most else ""
    return ", ".join(all_[:most]) + more
