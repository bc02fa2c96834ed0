"""What is made of the clauses of an utterance: one module a thing that clauses share.
It is the last step of the grammar and may use all others; none of them knows it.
What is left over is graded in `unread_grading.py`, which decides what holds a verdict.
"""
