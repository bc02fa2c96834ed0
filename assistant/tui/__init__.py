"""The full-screen app: one glance from a ladder. A thin shell over the conversation.
Presenters make text and are pure; widgets and screens show it; keys and words enter one `Desk`.
Nothing of a reply is cut or worked out here. Sentences, colours and answers are in data/.
"""
