"""The set of a bike: what goes on its chain, its limits and keys, the cautions; a worn chain's stays at home."""

from collections.abc import Iterator, Sequence

from generator.compute.fit.result import PairFit
from generator.model.chain_parts import Chain, Link
from generator.model.dataset import Part
from generator.model.shipped import GET_HOME, NO_GO, RUNGS
from generator.model.tools_and_bikes import Bike
from generator.render.base.routes import part_route
from generator.render.cards.card import (
    Block,
    CardSet,
    Fact,
    Group,
    Listing,
    Run,
    Says,
    Section,
    Text,
    bold,
    plain,
    strong,
    tag,
)
from generator.render.cards.code import code
from generator.render.cards.desk import Desk, counted
from generator.render.cards.mending import mending_blocks
from generator.render.cards.pictures import clip_picture
from generator.render.cards.tools import tool_lines
from generator.render.cards.wear import length_limit, stays_home
from generator.render.cards.words import (
    NO_BREAK,
    cautions,
    fit_plate,
    labels,
    millimetres,
    paragraphs,
    plate,
    spaced,
    standing,
    tags_within,
    typed,
    typed_long,
    whole_mm,
)
from generator.render.say.joint import CLOSURES, seals_short

# letters of a label that takes a line, and of a block of such that has room under the verdict over its list
_LONG_LABEL, _UNDER_A_VERDICT = 28, 100
# the best links are said in full, the first of them with their names; of the others their labels tell them apart
_IN_FULL, _NAMED = 4, 3
_CAUTIONS = ("engine-off", "flying-parts")
_AT_THE_END = ("after-repair", "locking-wheel")


def bike_set(desk: Desk, bike: Part[Bike]) -> CardSet:
    route = part_route("bike", bike.id)
    return CardSet(
        kind="bike",
        subject=bike.id,
        head=(tag(bike.id),),
        title=f"Bike {bike.id}",
        page=route,
        sections=(
            Section("What goes on", tuple(_goes_on(desk, bike))),
            Section("If it breaks", tuple(mending_blocks(desk, bike))),
            Section("Limits and keys", tuple(_limits(desk, bike))),
            Section("Before you touch it", tuple(_before(desk, route))),
        ),
    )


def _before(desk: Desk, route: str) -> Iterator[Block]:
    yield from cautions(desk.dataset, *_CAUTIONS)
    yield from cautions(desk.dataset, *_AT_THE_END, why=False)
    yield from cautions(desk.dataset, "manual-first")
    yield from code(desk.site, route)


def _goes_on(desk: Desk, bike: Part[Bike]) -> Iterator[Block | Listing]:
    fits = desk.on_bike(bike.id)
    yield from stays_home(desk, bike)
    yield _what(desk, bike)
    yield from typed_long(bike)
    yield from _runs_now(desk, bike)
    yield from _serving(desk, fits)
    yield from _open(fits)
    yield from _refused(fits)


def _what(desk: Desk, bike: Part[Bike]) -> Says:
    chain = desk.dataset.chains[bike.record.chain]
    own = chain.record.own_link
    runs = (Run("Runs with "), tag(own), Run(".")) if own else plain("Its own link is not written down.")
    name = typed(bike)
    chain_words = (Run("Chain "), tag(chain.id), Run(f" {_kind(chain)}."))
    said_below = next(_runs_now(desk, bike), None) is not None
    return Says(spaced((*name, Run(".")) if name else (), chain_words, () if said_below else runs))


def _kind(chain: Part[Chain]) -> str:
    seal = {"O": "O-ring", "X": "X-ring"}.get(chain.record.seal, "sealed")
    kind = {"plain": "plain", "sealed": seal}.get(chain.record.kind, "plain or sealed not known")
    return f"{chain.record.size_code} {kind}"


def _runs_now(desk: Desk, bike: Part[Bike]) -> Iterator[Block]:
    """The joint as it is closed today; opened it is a new one, and stands in the lists below."""
    fit = desk.own_fit(bike.id)
    if fit is None or fit.runs_now is None:
        return
    now = fit.runs_now
    looked = (
        f"looked at {now.looked_on.isoformat()}" if now.looked_on else "not looked at since it was closed"
    )
    says = (bold("runs now"), Run(" with "), tag(fit.link), Run(f", {looked}; holds only while closed."))
    yield Group(plate(now.best, now.worst), says)


def _serving(desk: Desk, fits: Sequence[PairFit]) -> Iterator[Block | Listing]:
    """What counts as proper or get-home, then what is last-resort for certain."""
    if not any(counted(fit) in (0, GET_HOME) for fit in fits):
        yield Says((strong("No link in the bags brings this bike home."),))
    said = 0
    for alike in _alike(fits):
        first, left = alike[0], max(_IN_FULL - said, 0)
        full, others = alike[:left], alike[left:]
        says = standing(first)
        if full:
            links = (
                block for n, fit in enumerate(full, said) for block in _link(desk, fit, named=n < _NAMED)
            )
            yield Listing(Group(fit_plate(first, counted(first)), plain(says)), tuple(links))
        more = f"{'More: e' if full else 'E'}ach with the clip its page names."
        yield from labels(
            fit_plate(first, counted(first)), plain(f"{says} {more}".strip()), [fit.link for fit in others]
        )
        said += len(full)


def _alike(fits: Sequence[PairFit]) -> Iterator[list[PairFit]]:
    """Those that count, by what is said of them, best first."""
    groups: dict[tuple[int, str], list[PairFit]] = {}
    for fit in fits:
        rung = counted(fit)
        if rung is not None and (rung <= GET_HOME or fit.word == RUNGS[rung] != RUNGS[NO_GO]):
            groups.setdefault((rung, standing(fit)), []).append(fit)
    yield from groups.values()


def _link(desk: Desk, fit: PairFit, named: bool) -> Iterator[Block]:
    """The label on the bag finds it; the first few have their names too."""
    link = desk.dataset.links[fit.link]
    name = typed(link) if named else ()
    named_as = (*name, Run(".")) if name else ()
    texts = (spaced((tag(fit.link),), named_as), _how(fit), _press_to(fit), _where(link))
    whole = spaced(*texts)
    # what is said of a link stands together, unless its labels are so long that it may be taller than a side
    short = tags_within(whole, _LONG_LABEL)
    yield from map(Says, (whole,) if short else paragraphs(texts, _UNDER_A_VERDICT))
    if named:
        yield from typed_long(link)
    yield from typed_long(link, "kept_in")


def _where(link: Part[Link]) -> Text:
    kept = typed(link, "kept_in")
    return (Run("In "), *kept, Run(".")) if kept else ()


def _how(fit: PairFit) -> Text:
    """`Clip clip-blue-new, seals in.`"""
    option = fit.option
    if option is None:
        return ()
    if option.closure != "clip":
        return plain(f"{CLOSURES[option.closure]}, {seals_short(option)}.".capitalize())
    clip = (Run("Clip "), tag(option.clip)) if option.clip else plain("No clip in the bags")
    return (*clip, Run(f", {seals_short(option)}."))


def _press_to(fit: PairFit) -> Text:
    """Over the outer plates at the joint, as it is read while pressing; rivet pins have their flare too."""
    option = fit.option
    if option is None:
        return ()
    spacer = (
        (Run("A washer "), tag(option.spacer), Run(" on each pin under the clip.")) if option.spacer else ()
    )
    press: Text = ()
    if fit.press_to is not None:
        only = "only " if option.seat == "clip" else ""
        press = (Run(f"Press {only}to "), bold(millimetres(fit.press_to.nominal)), Run("."))
    return spaced(press, spacer, _flare(fit) if option.closure == "rivet" else ())


def _flare(fit: PairFit) -> Text:
    """The maker's figure comes first."""
    flare = fit.flare
    if flare is None or flare.target is None:
        return plain("Flare as its maker says; a crack means a new link.")
    low, high = millimetres(flare.target.low).removesuffix(f"{NO_BREAK}mm"), millimetres(flare.target.high)
    least = f", never under {millimetres(flare.least.high)}" if flare.least else ""
    return (Run("Flare to "), bold(f"{low} to {high}"), Run(f"{least}; a crack means a new link."))


def _open(fits: Sequence[PairFit]) -> Iterator[Listing]:
    """Not settled: by the worst each could be."""
    for rung in range(GET_HOME + 1, NO_GO + 1):
        ids = [fit.link for fit in fits if fit.word == "measure-first" and fit.worst == rung]
        says = plain(f"could be {RUNGS[rung]}; do not count on it:")
        yield from labels(plate(0, rung), says, ids)
    unknown = [fit.link for fit in fits if fit.worst is None]
    yield from labels(plate(None, None), plain("cannot judge; do not count on it:"), unknown)


def _refused(fits: Sequence[PairFit]) -> Iterator[Block | Listing]:
    """Every no-go of the right pitch by name: it is the one that looks as if it went."""
    no = [fit for fit in fits if fit.word == "no-go"]
    near = [fit.link for fit in no if fit.own_page]
    others = "; nor any link of another pitch or roller" if len(near) < len(no) else ""
    yield from labels(plate(NO_GO, NO_GO), (bold(f"do not fit{others}:"),), near)
    if others and not near:
        yield Says((strong("Do not fit a link of another pitch or roller."),))


def _limits(desk: Desk, bike: Part[Bike]) -> Iterator[Block]:
    yield from _clip_limit(desk, bike)
    yield from length_limit(desk, bike)
    yield _slack(bike)
    yield _turns(bike)
    yield clip_picture()
    yield from tool_lines(desk, bike)


def _clip_limit(desk: Desk, bike: Part[Bike]) -> Iterator[Block]:
    """The least thickness of the own clip that still counts as proper, if it was read when new."""
    fit = desk.own_fit(bike.id)
    option = fit.option if fit else None
    if option is None or option.clip is None:
        return
    checks = [check for check in option.checks if check.id in ("clip-wear", "clip-floor")]
    least = [edge.at for check in checks for edge in check.edges if edge.rung == 0 and edge.at is not None]
    if len(least) == len(checks):
        scrap = strong(f"scrap under {millimetres(max(least))}")
        yield Fact("Clip", (tag(option.clip), Run(" "), scrap, Run(" at its thinnest place.")))


def _slack(bike: Part[Bike]) -> Fact:
    low, high = bike.dims.get("slack_low"), bike.dims.get("slack_high")
    if not (low and high):
        return Fact("Slack", plain("Its manual's figure is not written down: look it up."))
    both = strong(f"{whole_mm(low.nominal).removesuffix(f'{NO_BREAK}mm')} to {whole_mm(high.nominal)}")
    return Fact("Slack", (both, Run(", measured as its manual says; never none at the tight point.")))


def _turns(bike: Part[Bike]) -> Fact:
    """The chain has been seen whole once so many turns of the rear wheel are over."""
    turns = -(-bike.record.pitches // bike.record.rear_teeth)
    text = (bold(f"{turns} wheel turns"), Run(f" show all {bike.record.pitches} pitches."))
    return Fact("Whole chain", text)
