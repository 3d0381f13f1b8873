"""Makes the archives beside this script with Python's zipfile, a program that knows nothing of this one.

stored.zip: as a person may pack an export again without compression, with a folder and a foreign file.
streamed.zip: written to a pipe, so that check and size stand behind the data (bit 3).
packed.zip: with compression, which is refused.
"""

import hashlib
import pathlib
import zipfile

here = pathlib.Path(__file__).parent
picture = b"\xff\xd8\xff" + b"a picture"
name = "photos/" + hashlib.sha256(picture).hexdigest() + ".jpg"
record = (here / "record.txt").read_bytes()


class Pipe:
    """A file that cannot be sought in."""

    def __init__(self, path):
        self.file = open(path, "wb")

    def write(self, data):
        return self.file.write(data)

    def flush(self):
        self.file.flush()


def fill(archive):
    archive.mkdir("photos")
    archive.writestr("README.txt", "as it was")
    archive.writestr("records/Bügeleisen.txt", record)
    archive.writestr("notes/mine.txt", "something of my own")
    archive.writestr(name, picture)


print(hashlib.sha256(picture).hexdigest())
with zipfile.ZipFile(here / "stored.zip", "w", zipfile.ZIP_STORED) as archive:
    archive.comment = "made by hand".encode()
    fill(archive)
with zipfile.ZipFile(Pipe(here / "streamed.zip"), "w", zipfile.ZIP_STORED) as archive:
    fill(archive)
with zipfile.ZipFile(here / "packed.zip", "w", zipfile.ZIP_DEFLATED) as archive:
    fill(archive)
