"""Patterns: regular expressions over a clause's line, and an index of which can match at all.
What a pattern's words do stands in data/patterns.toml; a new one gets a case in the corpus.
They are compiled ahead, so a change here changes the fingerprint of `package_files`.
"""
