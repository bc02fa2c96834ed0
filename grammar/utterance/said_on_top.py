"""Words that put what is told on top of what was told before: "besides those"."""

from __future__ import annotations

ON_TOP_OF = (
    r"(?:on top of|besides?|in addition to|over and above|apart from|aside from|other than|beyond"
    r"|next to|alongside|along with|together with|not counting)"
)
"""A pattern of words in small letters; what they point at stands behind it."""
