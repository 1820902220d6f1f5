"""The few words of a drawing."""

CUT_ALONG = "Cut along one pin, to scale: link {link} on chain {chain}."
PRESS_TO = "press to {}"
CAPTION = "To scale, cut along one pin. Hatched: the chain and, far right, the bike. Dashed: not read, or the neighbours."
