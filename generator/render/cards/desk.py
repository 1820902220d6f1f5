"""What every card is written from: the club, all its fits, and where the handbook is published."""

from dataclasses import dataclass

from generator.compute.all_fits import AllFits
from generator.compute.fit.result import PairFit
from generator.model.dataset import Dataset
from generator.model.shipped import GET_HOME
from generator.render.base.verdicts import best_first


@dataclass(frozen=True, slots=True)
class Desk:
    """`site` is the address of the published handbook with a slash at its end; empty for none."""

    dataset: Dataset
    fits: AllFits
    site: str

    def on_bike(self, bike: str) -> tuple[PairFit, ...]:
        """The links there is at least one of, best first as they count on the trail."""
        links = self.dataset.links
        carried = (fit for fit in self.fits.by_bike[bike] if links[fit.link].record.count > 0)
        return tuple(sorted(carried, key=lambda fit: (counted(fit) is None, *_order(fit), fit.link)))

    def own_fit(self, bike: str) -> PairFit | None:
        """Of the link the bike's chain runs with, as far as that is written down."""
        own = self.dataset.chains[self.dataset.bikes[bike].record.chain].record.own_link
        return next((fit for fit in self.fits.by_bike[bike] if fit.link == own), None)


def _order(fit: PairFit) -> tuple[int, int, int]:
    return (counted(fit) or 0, *best_first(fit.best, fit.worst))


def counted(fit: PairFit) -> int | None:
    """The rung that counts away from home: the worst possible, and get-home for what is proper by numbers alone."""
    if fit.worst is None:
        return None
    if fit.worst < GET_HOME and fit.strength != "dry-fitted":
        return GET_HOME
    return fit.worst
