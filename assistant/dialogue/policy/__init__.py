"""Policy: where the box stands, what is asked next, and how questions of the user are answered.
Nothing here changes the box.
"""
