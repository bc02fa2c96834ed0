"""The tracker: what accepted acts do to the described box, a module for each kind of change.
act_handlers.py names the handler of every act; a new act gets its row there.
A handler makes a new state of the old; doubt was decided before it is called.
"""
