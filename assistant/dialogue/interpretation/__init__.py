"""Interpretation in context: bare answers, references and restarts become full acts.
An act that enters here has the clause's meaning; one that leaves has the dialogue's.
Thresholds of doubt are not here but in belief/.
"""
