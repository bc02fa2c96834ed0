"""Belief: whether an act is accepted, asked back or refused, and which words hold the verdict.
Every threshold stands in data/belief.toml and nowhere else; tests/understanding holds it.
"""
