"""The lexer: text to tokens, what each token may stand for, numbers and misspelt words.
A word is added in data/, not here.
"""
