"""The documents that leave or enter the program as JSON, CSV or YAML: models and their schemas.
May import `rules` and `dialogue` values; nothing else of ours imports it before a document is read
or written, since its models take long to load. A changed field is a changed contract.
"""
