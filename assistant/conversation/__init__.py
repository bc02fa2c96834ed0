"""The conversation: which slot is open, what to ask, what to say."""

from assistant.conversation.boxes import Resumed
from assistant.conversation.conversation import Conversation, Record
from assistant.conversation.journal import Entry
from assistant.conversation.reply import Reply

__all__ = ["Conversation", "Entry", "Record", "Reply", "Resumed"]
