"""Widgets: input line, lists, answer bar, fill bar, verdict panel.
A widget draws what it is given and reports keys and clicks as messages; it knows no conversation.
Change here drawing, focus and bindings of one widget; what stands in it belongs in a presenter.
"""
