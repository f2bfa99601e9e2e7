"""The TinyDB storage of one file of tables: every write is complete and on the disk on return."""
