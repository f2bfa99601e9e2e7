"""The web server: pages, sound clips and record files, all behind the gate of `access`.

It alone knows both the screens and the files that are downloaded beside them.
"""
