"""Computes which connecting parts fit which motorcycle drive chain and renders a club's handbook."""

__version__ = "0.1.0"
