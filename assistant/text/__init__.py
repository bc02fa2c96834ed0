"""Text and file helpers that every room may use: sentence files, problems, what is printed, what is
written whole. They know nothing of boxes, dialogue or screens and import nothing of ours. Add a
helper only where two rooms need it; sentences themselves stay in each room's data folder.
"""
