"""One module a command, each a function that does it and returns the exit code.
A module is imported only when its command runs, so that starting one loads nothing of the others.
Put here what is printed and in which order; what is worked out belongs in the room below.
"""
