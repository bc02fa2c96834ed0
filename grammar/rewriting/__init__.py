"""Rewriting: the words of an utterance in a plainer form of the same length, before any is read.
Each way to say something is a row of data/rewrites*.toml, tried in the order of the rows; the few
replacements that have to be worked out stand in worked_out.py. Nothing here knows what is read."""
