"""The shapes that every page, file and drawing is made of; they know of no page."""
