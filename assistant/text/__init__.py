"""Text and file helpers that every room may use: sentence files, plurals, number words, atomic
files. They know nothing of boxes, dialogue or screens and import nothing of ours. Add a helper only
where two rooms need it; sentences themselves stay in each room's data folder.
"""
