"""Drawings for cards, without words in them: black on white, told in words beside them."""

from collections.abc import Mapping

from generator.render.cards.card import Picture, Run, bold


def clip_picture() -> Picture:
    """Both runs with an arrow each, and a clip whose closed end points along it; front of the bike to the left."""
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 44" fill="none" stroke="#000" stroke-width="1.6">'
        '<circle cx="9" cy="22" r="6"/><circle cx="48" cy="22" r="9.5"/>'
        '<path d="M9 16L48 12.5M9 28L48 31.5" stroke-width="1"/>'
        f"{_clip(18, 5, -1)}{_clip(18, 39, 1)}"
        '<path d="M54 5H44M47.500 1.500L44 5L47.500 8.500M44 39H54M50.500 35.500L54 39L50.500 42.500"/></svg>'
    )
    alt = (
        "Seen with the front of the bike to the left: on the top run chain and closed end of the clip point forward, "
        "on the bottom run rearward."
    )
    text = (
        bold("Closed end of the clip leads: "),
        Run("forward on the top run, rearward on the bottom run. Clip on the side you can see."),
    )
    return Picture(svg, alt, 17.0, text)


def _clip(x: float, y: float, way: int) -> str:
    """A spring clip over two pins, 22 long; its closed end points left (-1) or right (1)."""
    closed, open_ = (x + 4, x + 22) if way < 0 else (x + 18, x)
    sweep = 0 if way < 0 else 1
    return (
        f'<path stroke-width="2.2" d="M{open_} {y - 4}H{closed}A4 4 0 0 {sweep} {closed} {y + 4}H{open_}"/>'
        f'<circle cx="{x + 5}" cy="{y}" r="1.600" fill="#000"/><circle cx="{x + 17}" cy="{y}" r="1.600" fill="#000"/>'
    )


# links of a row seen from above: which are damaged, counted from the middle one, and whether that one is an outer link
_DAMAGED: Mapping[str, tuple[bool, tuple[int, ...]]] = {
    "joint": (True, (0,)),
    "outer": (True, (0,)),
    "inner": (False, (0,)),
    "outer-inner-outer": (False, (-1, 0, 1)),
    "inner-outer-inner": (True, (-1, 0, 1)),
    "joint-and-inner": (True, (0, 1)),
}
_HALF, _LENGTH = 3, 9.0  # links beside the middle one, and units of each


def damage_picture(damage: str) -> tuple[str, str] | None:
    """A drawing of seven links from above and what it shows: black is broken, dashed comes out with it; both ends that
    stay are narrow links."""
    if damage not in _DAMAGED:
        return None
    middle_outer, broken = _DAMAGED[damage]
    outer = {n: (n % 2 == 0) == middle_outer for n in range(-_HALF, _HALF + 1)}
    first, last = min(broken), max(broken)
    out = set(range(first - (not outer[first]), last + (not outer[last]) + 1))
    links = "".join(_link(n, outer[n], n in broken, n in out) for n in outer)
    size = f"{(2 * _HALF + 1) * _LENGTH + 2} 16"
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size}" fill="none" stroke="#000">{links}</svg>'
    kinds = " ".join("outer" if outer[n] else "narrow" for n in sorted(out))
    return svg, f"Seven links from above. Out come {len(out)}: {kinds}. Both ends that stay are narrow links."


def _link(at: int, outer: bool, broken: bool, out: bool) -> str:
    """Two plates, close together on a narrow link, and the roller or the pins between them."""
    x = 1 + (at + _HALF) * _LENGTH
    off = 6.0 if outer else 3.4
    left, wide = (x - 0.8, _LENGTH + 1.6) if outer else (x + 0.6, _LENGTH - 1.2)
    fill = "#000" if broken else "#fff"
    dash = ' stroke-dasharray="1.400 1"' if out and not broken else ""
    plates = "".join(
        f'<rect x="{left}" y="{8 + side * off - 0.9}" width="{wide}" height="1.800" fill="{fill}" stroke-width="0.700"{dash}/>'
        for side in (-1, 1)
    )
    if outer:
        return plates + "".join(
            f'<path d="M{end} 1.500V14.500" stroke-width="0.900"{dash}/>' for end in (x, x + _LENGTH)
        )
    return plates + "".join(
        f'<rect x="{end - 1.7}" y="5.800" width="3.400" height="4.400" fill="{fill}" stroke-width="0.700"{dash}/>'
        for end in (x + 1.7, x + _LENGTH - 1.7)
    )
