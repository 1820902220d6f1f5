"""Turn records as written into a dataset, or say what is wrong."""
