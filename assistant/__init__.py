"""The assistant: dialogue, ears, mouth, and a front end for each way of working.
Each folder is a room; which other rooms it may know stands in tests/project/test_layers.py.
Only the version is kept here: whatever stood here would be loaded by every command.
"""

__version__ = "0.1.0"
