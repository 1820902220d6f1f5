"""What each published file holds, in one line.

Goes in: a file name below data/v1/.  Comes out: a text.
"""

FILES = {
    "bikes.json": "Every bike: sprockets, pitches, room beside the chain",
    "cautions.json": "Every caution with hazard, consequence and how to avoid it",
    "chains.json": "Every chain with its readings as intervals",
    "clip_links.json": "Every clip with every link that closes with one: verdict and checks",
    "clips.json": "Every clip with its readings and history",
    "club.json": "The club, its instruments and what it chose",
    "fit_rules.json": "Every rule with its limits, grade and source",
    "fits.json": "Every chain with every connecting link: verdict, checks, what to measure next",
    "glossary.json": "The words of the trade",
    "instruments.json": "Kinds of instrument and their permissible errors",
    "links.json": "Every connecting link with its readings as intervals",
    "overrides.json": "Limits the club set for itself, and why",
    "plate_fits.json": "Every loose side plate with every link",
    "plates.json": "Every loose side plate",
    "problems.json": "Every problem code with samples",
    "recipes.json": "How each dimension is measured",
    "rides.json": "Rides: which bikes, who leads, who sweeps",
    "seal_fits.json": "Every seal set in every joint made for sealed chain",
    "seals.json": "Every set of seals and washers",
    "sizes.json": "Every size code with sources and contradictions",
    "sources.json": "Every source",
    "strip_fits.json": "Every spare strip in every chain, and links with one pin in each",
    "strips.json": "Every spare strip",
    "tool_fits.json": "Every tool with the chains and links it works on, and with its key",
    "tools.json": "Every tool and the key it needs",
    "trials.json": "Every dry fit",
    "wear.json": "How worn each chain is, its limit on each bike, the hours it has left",
    "wear_limits.json": "Limits of elongation that somebody advises",
    "wear_log.json": "Every line of the wear log",
}


def what_it_is(name: str) -> str:
    return FILES.get(name, name.removesuffix(".json").replace("_", " ").replace("/", ", "))
