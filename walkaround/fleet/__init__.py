"""The walks of a fleet: those of many depots in one PostgreSQL database.

Depots publish their walks to the database and pull those of a vehicle that came from elsewhere. The
database itself proves nothing: whoever may write to it may change it. So it stores walks as they
were sealed and signed, and what is pulled is verified and merged like any record file. The other
tables are for queries in SQL.
"""
