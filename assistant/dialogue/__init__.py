"""The dialogue: what acts do to the box at hand, what is in doubt, what to ask and to say.

>>> from boxaloud.assistant.dialogue import Conversation
>>> conversation = Conversation(edition="2020")
>>> reply = conversation.hear("three 14-2 cables and a receptacle in an 18 cubic inch box")
>>> reply.asks
'clamps'
>>> reply = conversation.hear("none")
>>> reply.verdict, str(reply.sheet.total), str(reply.sheet.margin)
('fits', '18.00', '0.00')

What is to be kept is taken after each reply, and gives the same conversation again:

>>> kept = [record.entry for record in conversation.take_records() if record.entry]
>>> again = Conversation(edition="2020", boxes={"box 1": kept})
>>> again.talk.state == conversation.talk.state
True

`assistant.storage.Session` does just that, with a file. Importing this reads no clock and opens
nothing but its own data.
"""

from boxaloud.assistant.dialogue.box_list import Resumed
from boxaloud.assistant.dialogue.conversation import Conversation, Record
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.reply import Reply

__all__ = ["Conversation", "Entry", "Record", "Reply", "Resumed"]
