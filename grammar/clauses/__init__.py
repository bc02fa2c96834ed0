"""Clauses: an utterance cut up, each clause with mood, polarity, patterns and referring
expressions. What a pattern's words do stands in data/patterns.toml.
"""
