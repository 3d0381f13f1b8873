//! The first entry of an export: what this file is, for whoever opens it, whenever.

use crate::record::{Moment, Value};

/// The text of `README.txt`.
#[must_use]
pub fn readme(now: Moment, records: usize, photos: usize) -> String {
    format!(
        "\
A COLLECTION OF SMALL PRESSING IRONS
Export of a Pressmark cabinet, format 1, written {written}.
{records} records, {photos} photographs.

You need no special program for this. Everything in here is plain text, a table or a picture.

WHAT IS IN HERE
  README.txt     this page
  index.csv      a list of all pieces: open it with any spreadsheet program
  records/       one text file for each piece: open it with any text editor
  photos/        the photographs, as JPEG pictures
  practice/      where a learner stands, one text file for each guide, if there was one

WHICH PHOTOGRAPH BELONGS TO WHICH PIECE
  A record has parts that begin with [photograph]. The line \"sha256\" in such a part is the name of the
  picture: photos/<sha256>.jpg. The name is also a check: it is the SHA-256 of the picture, so that a
  changed picture can be told.

HOW A RECORD IS WRITTEN
  Its first line is \"Pressmark record, format 1\".
  A line is a key, a colon and a value. A line that begins with | goes on with the value above it.
  A name in [square brackets] begins a part: acquired, parted with, measurement, mark, event, valuation,
  photograph, opinion. A part ends where the next one begins.
  Lines that begin with # are remarks.
  \"id\" is the piece, for ever; \"number\" is only what stands on its tag.
  \"version\" and \"saved\" are one state of the record; \"after\" names the states it was made from. Two
  files of one id that do not name each other are two opinions of what the record should say.
  \"deleted: yes\" means that the piece was taken out of the cabinet.
  Sizes carry their unit; \"plus or minus\" is how far the true size may well be off.
  Days are year-month-day. \"date as edtf\" is a date by the Extended Date/Time Format of the Library of
  Congress: 1880~ is about 1880, 188X is the 1880s, 1871/.. is 1871 or later.
  Money is an amount and the three letters of a currency (ISO 4217). A valuation says what sort of figure it
  is, of which day, and what it rests on. It is evidence of prices, not an appraisal.
  \"answers\" is what was told of the piece when it was looked at, as the end of a link that opens the
  question page of Pressmark there.

BEFORE ANYTHING ELSE
  Never heat an old piece or plug it in to try it. Lines called \"cautions\" say what to be careful of.

TO KEEP IT
  This file is an ordinary ZIP without compression. Keep one copy in another house.
",
        written = now.shown()
    )
}
