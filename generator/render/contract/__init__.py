"""The JSON that other programs may rely on: results in, plain values out, each file with its schema."""
