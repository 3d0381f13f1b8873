//! The segments of a JPEG file (ITU-T T.81, annex B). Its bytes are hostile: every index is checked.

/// Why a file is not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spoiled {
    /// It does not begin as a JPEG does.
    NoJpeg,
    /// It ends, or breaks, before the picture begins.
    Broken,
}

/// One segment before the picture: its marker, what stands in it, and where it begins and ends with its marker.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Segment<'a> {
    pub(super) marker: u8,
    pub(super) holds: &'a [u8],
    from: usize,
    to: usize,
}

/// Start of scan: from here on the picture itself.
const SCAN: u8 = 0xDA;
const END: u8 = 0xD9;
/// No file has more segments than this before its picture.
const MOST: usize = 2000;

/// The segment that begins at `at`; fill bytes before its marker belong to none.
fn segment(bytes: &[u8], at: usize) -> Option<Segment<'_>> {
    let mut from = at;
    if *bytes.get(from)? != 0xFF {
        return None;
    }
    while *bytes.get(from + 1)? == 0xFF {
        from += 1;
    }
    let marker = *bytes.get(from + 1)?;
    // Markers that stand alone have no place before the picture.
    if marker == 0 || marker == 0x01 || (0xD0..=END).contains(&marker) {
        return None;
    }
    let size = usize::from(*bytes.get(from + 2)?) << 8 | usize::from(*bytes.get(from + 3)?);
    let to = from + 2 + size;
    let holds = bytes.get(from + 4..to)?;
    Some(Segment { marker, holds, from, to })
}

/// All segments up to the picture, and where its scan begins.
pub(super) fn segments(bytes: &[u8]) -> Result<(Vec<Segment<'_>>, usize), Spoiled> {
    if bytes.get(..2) != Some(&[0xFF, 0xD8]) {
        return Err(Spoiled::NoJpeg);
    }
    let (mut all, mut at) = (Vec::new(), 2);
    while all.len() < MOST {
        let found = segment(bytes, at).ok_or(Spoiled::Broken)?;
        if found.marker == SCAN {
            return Ok((all, found.from));
        }
        at = found.to;
        all.push(found);
    }
    Err(Spoiled::Broken)
}

/// Whether the picture cannot be shown without a segment. Of the applications' own, only JFIF (0), a colour profile (2)
/// and the colour transform (14) are kept: places, times, owners, names and small copies of the picture stand in others.
fn needed(segment: &Segment) -> bool {
    match segment.marker {
        0xE0 => segment.holds.starts_with(b"JFIF\0"),
        0xE2 => segment.holds.starts_with(b"ICC_PROFILE\0"),
        0xEE => segment.holds.starts_with(b"Adobe"),
        // Frames, tables, scans. The other applications' segments, comments and what nobody knows go.
        0xC0..=0xCF | SCAN..=0xDF => true,
        _ => false,
    }
}

/// The same picture without anything that speaks of where, when, by whom and with what it was made. Turning by EXIF is
/// lost too: read it before with [`super::about`]. What follows the end of the picture (a film, a second picture) goes.
///
/// # Errors
/// When the bytes are no JPEG up to the picture.
pub fn stripped(bytes: &[u8]) -> Result<Vec<u8>, Spoiled> {
    let (all, scan) = segments(bytes)?;
    let mut kept = vec![0xFF, 0xD8];
    for segment in all.iter().filter(|s| needed(s)) {
        let mut holds = segment.holds;
        // A small copy of the picture may follow the 14 bytes of JFIF; it shows what was later cut away.
        if segment.marker == 0xE0 {
            holds = holds.get(..14).ok_or(Spoiled::Broken)?;
        }
        // At most 65 533 bytes, as they came.
        let size = u16::try_from(holds.len() + 2).map_err(|_| Spoiled::Broken)?;
        kept.extend([0xFF, segment.marker]);
        kept.extend(size.to_be_bytes());
        if segment.marker == 0xE0 {
            kept.extend(holds.get(..12).unwrap_or_default());
            kept.extend([0, 0]);
        } else {
            kept.extend(holds);
        }
    }
    scans(bytes, scan, &mut kept)?;
    Ok(kept)
}

/// Copies the scans, with what stands between those of a progressive picture, up to the end marker.
fn scans(bytes: &[u8], scan: usize, kept: &mut Vec<u8>) -> Result<(), Spoiled> {
    let mut at = scan;
    while let Some(found) = segment(bytes, at) {
        if needed(&found) {
            kept.extend(bytes.get(found.from..found.to).unwrap_or_default());
        }
        at = found.to;
        if found.marker != SCAN {
            continue;
        }
        // Coded data: up to a marker that is neither a stuffed zero nor a restart.
        let coded = at;
        loop {
            match (bytes.get(at), bytes.get(at + 1)) {
                (Some(0xFF), Some(0 | 0xD0..=0xD7)) => at += 2,
                (Some(0xFF), Some(_)) => break,
                (Some(_), Some(_)) => at += 1,
                // Cut off by its sender: shown as far as it goes.
                _ => {
                    at = bytes.len();
                    break;
                }
            }
        }
        let coded = bytes.get(coded..at).unwrap_or_default();
        kept.extend(if at == bytes.len() { coded.strip_suffix(&[0xFF]).unwrap_or(coded) } else { coded });
    }
    if at == scan {
        return Err(Spoiled::Broken);
    }
    kept.extend([0xFF, END]);
    Ok(())
}
