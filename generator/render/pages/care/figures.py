"""The figures that hand-written texts may print, by the name that stands for each in a sentence."""

from collections.abc import Iterator
from fractions import Fraction

from markupsafe import Markup

from generator.compute.wear.limits import club_rule
from generator.model.care import Practice
from generator.model.dataset import Dataset
from generator.model.quantity import NM_PER_MM
from generator.model.written import Written
from generator.render.base.lengths import ShownLength, shown_length
from generator.render.say.wear import per_cent


def figures(dataset: Dataset) -> dict[str, Markup]:
    """`slack_off_road`: 30 to 50 mm; of a range also `.._low` and `.._high`."""
    told = {**dataset.shelf.care.practices, **dataset.shelf.allowances}
    found = dict(pair for id_, each in told.items() for pair in _named(id_, each))
    rule = club_rule(dataset)[1]
    limits = {f"limit_{kind}": per_cent(Fraction(getattr(rule, kind))) for kind in ("plain", "sealed")}
    every = [
        Fraction(value) for each in dataset.shelf.wear_limits.values() for value in (each.plain, each.sealed)
    ]
    limits |= {"limit_least": per_cent(min(every)), "limit_most": per_cent(max(every))}
    return found | {name: Markup(f'<b class="fig">{text}</b>') for name, text in limits.items()}


def figure_text(figure: Practice) -> str:
    """`300 to 1000 km`, of a figure that is no length."""
    return f"{' to '.join(text for text in (figure.number, figure.to) if text)} {figure.unit}"


def _named(id_: str, figure: Practice) -> Iterator[tuple[str, Markup]]:
    name = id_.replace("-", "_")
    if figure.length is None:
        yield (
            name,
            Markup('<b class="fig">{}</b>').format(figure_text(figure).replace(" ", "\N{NO-BREAK SPACE}")),
        )
        return
    low = _shown(figure.length)
    if figure.to_length is None:
        yield name, _num(low)
        return
    high = _shown(figure.to_length)
    both = ShownLength(
        f"{low.mm.removesuffix(' mm')} to {high.mm}", f"{low.inch.removesuffix(' in')} to {high.inch}", low.nm
    )
    yield from ((name, _num(both)), (f"{name}_low", _num(low)), (f"{name}_high", _num(high)))


def _shown(written: Written) -> ShownLength:
    """Whole millimetres where it was written so."""
    nm = int(written.readings[0])
    shown = shown_length(nm)
    return (
        ShownLength(f"{nm // NM_PER_MM} mm", shown_length(nm, 0).inch, nm) if nm % NM_PER_MM == 0 else shown
    )


def _num(length: ShownLength) -> Markup:
    """As the face's macro for a length prints it."""
    inner = '<span class="num"><span><b>{}</b> mm</span><i> {}</i></span>'
    return Markup(inner).format(length.mm.removesuffix(" mm"), length.inch)
