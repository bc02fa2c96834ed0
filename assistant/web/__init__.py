"""The text interface in a browser: the server, its address, and the page it gives out.
It starts the app as a process of its own and imports nothing of it.
The page fetches nothing from elsewhere; who brings no token is refused; keep both.
"""
