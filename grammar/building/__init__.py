"""Acts built of a clause that tells: of its patterns, and of its things one by one.
A pattern's `act` in data/patterns.toml names a builder of `builders.py`.
A builder that gives None leaves the clause to the next pattern.
"""
