"""Clauses: an utterance cut up, each clause with mood, polarity, patterns and referring
expressions. What a pattern's words do stands in data/patterns.toml.
Word lists (negators, marks of correction, verbs of change) stand in data/clauses.toml.
"""
