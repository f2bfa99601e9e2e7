# Numbers, lists and places, as other messages need them.

place-in-file = { $where }, { $key }
