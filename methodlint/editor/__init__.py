"""A server for editors, speaking the Language Server Protocol over standard input and output.

Nothing else imports it: it comes with an extra, and the library below it takes a third of a second
to import. `server` alone knows the protocol's loop; what it answers is made from a report by the
other files, each of which can be tried without a server.
"""
