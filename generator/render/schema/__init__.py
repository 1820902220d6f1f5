"""JSON Schemas (draft-07), made from the record models and from what is published; nothing is typed twice."""
