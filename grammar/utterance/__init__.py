"""What is made of the clauses of an utterance: one module a thing that clauses share."""
