"""The command line: argument parser, help, output, exit codes, and the table of commands.
It brings the other rooms together; no room may import it.
A new command is a row of the table and a module in `commands`; the parser knows no command by name.
"""
