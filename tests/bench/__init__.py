"""Figures against the budgets: measured and printed, never asserted."""
