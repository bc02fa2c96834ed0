"""The front end: what is made of audio before an engine decodes it (bandwidth extension, log-mel).
`log_mel` must agree with the published front end of the model and is not to be tuned; the
weights in data/upper_band.toml are fitted by tests/asr/ and never written by hand.
"""
