"""The assistant: dialogue, ears, mouth, and a front end for each way of working."""

__version__ = "0.1.0"
