"""The page: the same engine in a browser, over the jobs of a laptop or on a phone alone.
What the page asks and is told is data (`page_requests`, `page_documents`); `data/page` is the page.
It fetches nothing from another host, and is let in by a token where it is served; keep both.
"""
