"""What the search field looks through: pages, words and pairs in, one script that holds the index out."""
