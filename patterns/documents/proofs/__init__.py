"""Proofs of the books: which to look at, what is painted on their pages, and what is wrong with it."""
