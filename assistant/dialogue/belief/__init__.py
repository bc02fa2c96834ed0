"""Belief: whether an act is accepted, asked back or refused, and which words hold the verdict.
`belief_table.py` decides, `held_acts.py` keeps what waits, `unread_words.py` what nobody read.
Every threshold stands in data/belief.toml and nowhere else; tests/understanding holds it.
"""
