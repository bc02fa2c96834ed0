"""The engine for a model that a person added: its registry, its check and its streaming decoder.
The library is only ever given a checked folder, for by name it would download. Everything that
may crash is tried in a process of its own (`model_probe`).
"""
