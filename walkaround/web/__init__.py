"""The web server: pages, sound clips and record files, all behind the gate of `access`.

Only this package uses both the screens and the files that are downloaded.
"""
