"""A fleet that one machine does not hold: walks of many depots in one PostgreSQL database.

Depots publish their walks there and pull those of a vehicle that came from elsewhere. What lies
there proves nothing by itself: whoever may write there may change it. So a walk lies there as it
was sealed and signed, and what is pulled is checked and merged as any record file is. The tables
beside it are for questions in SQL.
"""
