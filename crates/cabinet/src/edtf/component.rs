//! One component of a date: digits and lost digits, and what qualifies it.

/// A component as it is written.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Component<'a> {
    /// Digits and `X`.
    pub digits: &'a str,
    /// A sign of doubt stands before it.
    pub before: bool,
    /// A sign of doubt stands behind it.
    pub behind: bool,
}

const DOUBT: [char; 3] = ['?', '~', '%'];

impl<'a> Component<'a> {
    /// Reads one of a length.
    pub(super) fn read(text: &'a str, length: usize) -> Option<Component<'a>> {
        let (before, rest) = text.strip_prefix(DOUBT).map_or((false, text), |rest| (true, rest));
        let (behind, digits) = rest.strip_suffix(DOUBT).map_or((false, rest), |rest| (true, rest));
        let sound = digits.len() == length && digits.bytes().all(|b| b.is_ascii_digit() || b == b'X');
        sound.then_some(Component { digits, before, behind })
    }

    /// How many digits are lost.
    pub(super) fn lost(&self) -> usize {
        self.digits.bytes().filter(|b| *b == b'X').count()
    }

    /// Whether a number may be meant.
    pub(super) fn fits(&self, number: i64) -> bool {
        let mut left = number;
        self.digits.bytes().rev().all(|b| {
            let digit = left % 10;
            left /= 10;
            b == b'X' || i64::from(b - b'0') == digit
        })
    }

    /// The number, when no digit is lost.
    pub(super) fn number(&self) -> Option<i64> {
        self.digits.parse().ok()
    }
}
