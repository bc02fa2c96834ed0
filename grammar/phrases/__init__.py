"""The phrase engine: data files compiled to one automaton, and the best cover of an utterance by
it. Its statements stay inside the grammar; no other room reads them.
A module that decides what is compiled belongs in `package_files.COMPILING`.
"""
