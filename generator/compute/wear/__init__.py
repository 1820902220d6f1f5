"""How worn each chain is, against which limit, and how long it will last."""
