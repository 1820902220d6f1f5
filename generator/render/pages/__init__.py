"""One module a kind of page: a club and its fits in, page values out, nothing left for templates to work out."""
