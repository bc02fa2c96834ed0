"""The language model: n-grams and a pronunciation dictionary built from the grammar, and a cache.
Add missing pronunciations to data/pronunciations.dict. Whoever changes how a model is built
raises the build number in `language_model`, so that older caches are left behind.
"""
