"""The engines, one folder each: what turns an utterance into hypotheses, behind one protocol.
A new engine is a new folder that implements `asr_types`; it is named in `assistant.asr` and
nowhere else. No engine imports another, and none is imported before it is used.
"""
