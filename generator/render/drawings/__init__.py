"""Drawings as pure functions: numbers in, SVG text out.

Goes in: dimensions and clearances.  Comes out: SVG that reads with or without a stylesheet.
"""
