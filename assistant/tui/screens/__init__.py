"""Screens: the box at hand, and what is laid over it (picker, comparison, help, welcome).
A screen composes widgets, binds keys and passes messages on; its text comes from presenters.
A new overlay subclasses `OverlayScreen` and is pushed by the app.
"""
