"""Drawings as pure functions: numbers in, SVG text out."""
