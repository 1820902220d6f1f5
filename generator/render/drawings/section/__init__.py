"""The drawing of a joint cut along one pin."""
