"""What each published file holds, in one line."""

from collections.abc import Mapping

from generator.model.kinds import KINDS

_OTHERS = {
    "cautions.json": "Every caution with hazard, consequence and how to avoid it",
    "clip_links.json": "Every clip with every link that closes with one: verdict and checks",
    "club.json": "The club, its instruments and what it chose",
    "findings.json": "What is seen on a chain, what it means, what to do",
    "fit_rules.json": "Every rule with its limits, grade and source",
    "fits.json": "Every chain with every connecting link: verdict, checks, what to measure next",
    "glossary.json": "The words of the trade",
    "instruments.json": "Kinds of instrument and their permissible errors",
    "plan.json": "Who carries what, which failures that mends, and the proof that less would not do",
    "plate_fits.json": "Every loose side plate with every link",
    "practices.json": "Figures that the guide prints, with their sources",
    "problems.json": "Every problem code with samples",
    "recipes.json": "How each dimension is measured",
    "seal_fits.json": "Every seal set in every joint made for sealed chain",
    "sizes.json": "Every size code with sources and contradictions",
    "sources.json": "Every source",
    "strip_fits.json": "Every spare strip in every chain, and links with one pin in each",
    "tasks.json": "What is done again and again, and how often",
    "tool_fits.json": "Every tool with the chains and links it works on, and with its key",
    "wear.json": "How worn each chain is, its limit on each bike, the hours it has left",
    "dry_fits.json": "What the answers of a dry fit prove",
    "allowances.json": "What counts where nobody read or looked closer",
    "wear_limits.json": "Limits of elongation that somebody advises",
    "wear_log.json": "Every line of the wear log",
}
_OF_CLUB = {f"{'overrides' if id_ == 'rule' else kind.stem}.json": kind.holds for id_, kind in KINDS.items()}
FILES: Mapping[str, str] = dict(sorted((_OTHERS | _OF_CLUB).items()))
