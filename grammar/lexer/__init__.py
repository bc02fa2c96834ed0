"""The lexer: text to tokens, what each token may stand for, numbers and misspelt words.
A word is added in data/, not here. Figures that are no plain number are one token, `%odd`.
Whatever the text, its time grows with its length and nothing is raised.
"""
