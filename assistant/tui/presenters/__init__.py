"""Presenters: dialogue state and worksheets as rows, choices, drawings and sentences.
Pure functions and frozen data: no widget, no terminal, no input or output.
Change here what is shown and in which order; test them without starting the app.
"""
