"""Cloth: what the pieces take of it. Pure Python, no Django."""
