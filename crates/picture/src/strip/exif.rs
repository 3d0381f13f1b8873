//! What measuring needs of a JPEG's own words: its pixels, how it is turned, and the focal length (Exif 3.0, CIPA DC-008;
//! the tags stand in the order of TIFF 6.0).

use super::Spoiled;
use super::jpeg::segments;

/// What a file says of its picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct About {
    /// Pixels across, as they are stored.
    pub width: u16,
    /// Pixels down, as they are stored.
    pub height: u16,
    /// How the stored picture is turned and mirrored to be upright: 1 to 8, 1 is not at all. TIFF 6.0, tag 274.
    pub turned: u8,
    /// Focal length for film of 35 mm, mm: tag 0xA405.
    pub equivalent: Option<u16>,
    /// Whether it says where it was taken: tag 0x8825.
    pub place: bool,
}

impl About {
    /// Pixels across and down when it is upright.
    #[must_use]
    pub fn upright(&self) -> (u16, u16) {
        if self.turned >= 5 { (self.height, self.width) } else { (self.width, self.height) }
    }
}

/// Reads a JPEG's head. EXIF that is not there or makes no sense says nothing, and is no fault of the picture.
///
/// # Errors
/// When the bytes are no JPEG up to the picture, or it has no size.
pub fn about(bytes: &[u8]) -> Result<About, Spoiled> {
    let (all, _) = segments(bytes)?;
    // Start of frame: C0 to CF but for the tables C4, C8 and CC (T.81, table B.1).
    let frame = |m: u8| (0xC0..=0xCF).contains(&m) && !matches!(m, 0xC4 | 0xC8 | 0xCC);
    let size = all.iter().find(|s| frame(s.marker)).and_then(|s| {
        let holds: &[u8; 5] = s.holds.first_chunk()?;
        let [_, a, b, c, d] = *holds;
        Some((u16::from_be_bytes([c, d]), u16::from_be_bytes([a, b])))
    });
    let (width, height) = size.filter(|(w, h)| *w > 0 && *h > 0).ok_or(Spoiled::Broken)?;
    let mut found = About { width, height, turned: 1, equivalent: None, place: false };
    let exif = all.iter().filter(|s| s.marker == 0xE1).find_map(|s| s.holds.strip_prefix(b"Exif\0\0"));
    if let Some(tiff) = exif.and_then(Tiff::of) {
        tiff.read(&mut found);
    }
    Ok(found)
}

/// A TIFF head and what follows it.
struct Tiff<'a> {
    bytes: &'a [u8],
    little: bool,
}

impl<'a> Tiff<'a> {
    fn of(bytes: &'a [u8]) -> Option<Tiff<'a>> {
        match bytes.get(..4)? {
            b"II\x2A\0" => Some(Tiff { bytes, little: true }),
            b"MM\0\x2A" => Some(Tiff { bytes, little: false }),
            _ => None,
        }
    }

    fn short(&self, at: usize) -> Option<u16> {
        let two = *self.bytes.get(at..)?.first_chunk()?;
        Some(if self.little { u16::from_le_bytes(two) } else { u16::from_be_bytes(two) })
    }

    fn long(&self, at: usize) -> Option<usize> {
        let four = *self.bytes.get(at..)?.first_chunk()?;
        let n = if self.little { u32::from_le_bytes(four) } else { u32::from_be_bytes(four) };
        usize::try_from(n).ok()
    }

    /// Tag and place of each entry of the directory at `at`: no pointer is followed but the one to the EXIF directory,
    /// so nothing goes round in circles.
    fn entries(&self, at: usize) -> Vec<(u16, usize)> {
        let count = self.short(at).map_or(0, usize::from);
        let entry = |i: usize| {
            let at = at + 2 + 12 * i;
            Some((self.short(at)?, at))
        };
        (0..count).map_while(entry).collect()
    }

    /// The number in an entry that holds one of two bytes or of four.
    fn number(&self, entry: usize) -> Option<usize> {
        match (self.short(entry + 2)?, self.long(entry + 4)?) {
            (3, 1) => self.short(entry + 8).map(usize::from),
            (4, 1) => self.long(entry + 8),
            _ => None,
        }
    }

    fn read(&self, into: &mut About) {
        let first = self.long(4).map_or(Vec::new(), |at| self.entries(at));
        let exif = first.iter().find(|(tag, _)| *tag == 0x8769).and_then(|(_, at)| self.number(*at));
        let second = exif.map_or(Vec::new(), |at| self.entries(at));
        for (tag, at) in first.iter().chain(&second) {
            let number = self.number(*at);
            match tag {
                0x0112 => {
                    into.turned =
                        number.and_then(|n| u8::try_from(n).ok()).filter(|n| (1..=8).contains(n)).unwrap_or(1)
                }
                0x8825 => into.place = true,
                // 0 means that it is not known.
                0xA405 => into.equivalent = number.and_then(|n| u16::try_from(n).ok()).filter(|n| *n > 0),
                _ => {}
            }
        }
    }
}
