"""The full-screen app: one glance from a ladder. A thin shell over the conversation."""
