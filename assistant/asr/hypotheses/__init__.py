"""Hypotheses: the n-best list of an utterance, its confidences, and the grammar's choice in it.
Nothing here sees audio samples or an engine's own types. A change of a threshold changes what
is asked back, so run tests/asr/test_rescoring.py and the recordings.
"""
