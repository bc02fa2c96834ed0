"""Generation: system acts become sentences, shown and spoken.
All wording is in data/sentences.toml; the order of a reply is in reply_composer.py.
Nothing here knows the state of a talk; where a box stands is told by policy/box_status.py.
"""
