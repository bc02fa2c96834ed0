"""Pull boxes and conduit bodies: what was said of them, what is open, what they come to.
No dimension is told while a size or a word that weighs is open; the figures are from rules/.
What is asked stands in question_slots.py; how it is asked, in nlg/data/sentences.toml.
"""
