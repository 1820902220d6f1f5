"""The pages under `How it is known`, safety and the ways to measure."""
