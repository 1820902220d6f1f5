"""The guide to wear and care: its pages, what findings mean, and the plan of care."""
