"""Drawings for cards, without words in them: black on white, told in words beside them."""

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
