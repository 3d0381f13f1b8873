//! Labels for tags: the bare number in letters and as a QR code (ISO/IEC 18004), so that any phone reads it and nobody learns
//! more from it than from the tag itself.

use qrcodegen_no_heap::{QrCode, QrCodeEcc, Version};

/// A label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// The number.
    pub number: String,
    /// The title.
    pub title: String,
    /// How many squares the code is wide, its margin of four included.
    pub wide: i32,
    /// The dark squares as a path.
    pub path: String,
}

/// The squares of margin that the standard asks for.
const MARGIN: i32 = 4;
/// Room for 20 letters and more at the middle level of repair; a number has at most 21.
const LARGEST: Version = Version::new(3);

impl Label {
    /// The label of a number; nothing when it is too long for a tag.
    #[must_use]
    pub fn new(number: &str, title: &str) -> Option<Label> {
        let mut spare = [0_u8; LARGEST.buffer_len()];
        let mut out = [0_u8; LARGEST.buffer_len()];
        let code = QrCode::encode_text(
            number,
            &mut spare,
            &mut out,
            QrCodeEcc::Medium,
            Version::MIN,
            LARGEST,
            None,
            true,
        )
        .ok()?;
        let mut path = String::new();
        for y in 0..code.size() {
            let mut x = 0;
            while x < code.size() {
                let from = x;
                while code.get_module(x, y) {
                    x += 1;
                }
                if x > from {
                    path.push_str(&format!(
                        "M{} {}h{}v1h-{}z",
                        from + MARGIN,
                        y + MARGIN,
                        x - from,
                        x - from
                    ));
                }
                x += 1;
            }
        }
        Some(Label {
            number: number.to_string(),
            title: title.to_string(),
            wide: code.size() + 2 * MARGIN,
            path,
        })
    }
}
