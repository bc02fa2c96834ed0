"""The embedded engine: a hidden Markov model decoder with our n-grams, and its rejection.
Its thresholds come from tests/asr/measure_rejection.py. The acoustic model and the decoder
are the installed package's and stay as they are.
"""
