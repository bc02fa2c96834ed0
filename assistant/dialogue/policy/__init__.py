"""Policy: where the box stands, what is asked next, and how questions of the user are answered.
Nothing here changes the box; a question answered may only propose something for “do it”.
A fixed question is a row of `ABOUT` in user_questions.py.
"""
