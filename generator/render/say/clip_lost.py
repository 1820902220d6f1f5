"""The words of what is put on where a clip is gone."""

from collections.abc import Mapping

TITLES: Mapping[str, str] = {
    "clip": "If the clip is lost",
    "rivet": "Without a riveter",
    "screw": "If its nuts are lost",
}
IN_NO_BAG = "place not written down"
WAYS_TO_CLOSE = "Snaps into both grooves, closed end leading."
OFF_A_BIKE = "The right clip off a bike that stays behind"
OFF_A_BIKE_WHY = "Off once, so get-home at best. It must still snap."
# what a makeshift is made of, by check
TO_MAKE: Mapping[str, str] = {
    "wire": "0.8 mm wire, two turns in each groove",
    "crimped-washer": "A washer on each tip, pliers",
    "peened": "Hammer and a heavy hammer held behind",
}
SITS = ("short of", "clear of")

LEAD = ("Put another clip on.", "Take the first of these you can:")
LADDER_NEW = (
    "A new clip of your link",
    "Which one: see your bike below",
    "Pliers, one minute. Both grooves, closed end leads.",
)
LADDER_OFF = (
    "The right clip off a bike that stays behind",
    "From a parked bike that runs with your link",
    "Off once, so get-home. It must still snap.",
)
DANGER = "engine-off"
NO_CLIP = "No clip to lose, their joint is riveted or screwed:"
NOT_WRITTEN = "It is not written down which link these run with:"
PLATE_IS = "The plate says what a makeshift is worth, where the clip beside it is not at hand."
CLIP_IS = "{name} ({tag}, {place})"
CLIP_NONE = "No clip for it in the bags"
ELSE_IS = "Without it: {name}."
ELSE_NOTHING = "Without it nothing is left that is better than no-go. Push."

# (head, text, caution before it); wire is laid outside the plate
WIRE_STEPS = (
    ("Plate fully down, grooves clear", "If a pressed plate moves by hand, stop here and push.", ""),
    ("Two turns round one pin, in the groove", "Soft wire of 0.8 mm, pulled tight with pliers.", ""),
    (
        "Straight across, outside the plate, two turns round the other",
        "Wire outside the plate wears on guide and slider: look at it every time you look at the joint.",
        "Never lead wire between plates: the teeth cut it.",
    ),
    (
        "Twist, fold the end flat, turn the wheel until the whole chain has gone round",
        "Nothing may touch.",
        "",
    ),
)
