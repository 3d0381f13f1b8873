//! The byte encoding: small whole numbers in few bytes, texts and lists with their length in front.
//!
//! Written out by hand, since a general decoder costs the question page five kilobytes of brotli: one reading loop for
//! numbers serves every field. A reader never panics and never takes more memory than the bytes it was given warrant.

use alloc::string::String;
use alloc::vec::Vec;
use units::{Basis, Currency, Money, Period};

/// Memory for lists, in bytes, that each byte of a pack warrants. The bundled pack takes three. Basis: practice.
const WARRANTED: usize = 8;
/// What small packs may take beyond that.
const FREE: usize = 1 << 20;

/// The longest text, in bytes.
const LONGEST_TEXT: usize = 4_000;

/// Bytes still to be read, the memory that the lists in them may still take, and why a text was refused.
pub(crate) struct Bytes<'a>(pub(crate) &'a [u8], usize, pub(crate) Option<&'static str>);

/// What can travel.
pub(crate) trait Wire: Sized {
    /// Appends the value.
    fn put(&self, out: &mut Vec<u8>);
    /// Reads a value; `None` when the bytes do not hold one.
    fn take(from: &mut Bytes<'_>) -> Option<Self>;
}

impl<'a> Bytes<'a> {
    pub(crate) fn new(bytes: &'a [u8]) -> Bytes<'a> {
        Bytes(bytes, FREE + WARRANTED * bytes.len(), None)
    }

    /// A whole number, seven bits a byte, low bits first (LEB128).
    #[inline(never)]
    fn number(&mut self) -> Option<u64> {
        let mut value = 0;
        for shift in (0..64).step_by(7) {
            let (byte, rest) = self.0.split_first()?;
            self.0 = rest;
            value |= u64::from(byte & 0x7f).checked_shl(shift)?;
            if byte & 0x80 == 0 {
                return Some(value);
            }
        }
        None
    }

    /// A whole number with its sign in the lowest bit.
    fn signed(&mut self) -> Option<i64> {
        let n = self.number()?;
        Some((n >> 1).cast_signed() ^ -(n & 1).cast_signed())
    }

    /// A length that the remaining bytes can hold: every item takes at least one.
    fn length(&mut self) -> Option<usize> {
        let n = usize::try_from(self.number()?).ok()?;
        (n <= self.0.len()).then_some(n)
    }

    /// The length of a list whose items take `size` bytes of memory each. Many small items in a pack could take a
    /// hundred times its length: a phone would end the page.
    #[inline(never)]
    fn list(&mut self, size: usize) -> Option<usize> {
        let n = self.length()?;
        self.1 = self.1.checked_sub(n.checked_mul(size)?)?;
        Some(n)
    }
}

#[inline(never)]
fn put_number(mut n: u64, out: &mut Vec<u8>) {
    while n >= 0x80 {
        out.push((n & 0x7f) as u8 | 0x80);
        n >>= 7;
    }
    out.push(n as u8);
}

fn put_signed(n: i64, out: &mut Vec<u8>) {
    put_number((n << 1 ^ n >> 63).cast_unsigned(), out);
}

/// Whole numbers of either sign.
macro_rules! numbers {
    ($put:ident, $take:ident, $wide:ty: $($narrow:ty)*) => {$(
        impl Wire for $narrow {
            fn put(&self, out: &mut Vec<u8>) {
                $put(<$wide>::from(*self), out);
            }
            fn take(from: &mut Bytes<'_>) -> Option<Self> {
                from.$take()?.try_into().ok()
            }
        }
    )*};
}
numbers!(put_number, number, u64: u8 u16 u32);
numbers!(put_signed, signed, i64: i16 i32 i64);

impl Wire for bool {
    fn put(&self, out: &mut Vec<u8>) {
        out.push(u8::from(*self));
    }
    fn take(from: &mut Bytes<'_>) -> Option<Self> {
        match u8::take(from)? {
            0 => Some(false),
            1 => Some(true),
            _ => None,
        }
    }
}

impl Wire for String {
    fn put(&self, out: &mut Vec<u8>) {
        put_number(self.len() as u64, out);
        out.extend_from_slice(self.as_bytes());
    }
    #[inline(never)]
    fn take(from: &mut Bytes<'_>) -> Option<Self> {
        let n = from.length()?;
        let (text, rest) = from.0.split_at_checked(n)?;
        from.0 = rest;
        let text = core::str::from_utf8(text).ok()?;
        from.2 = wrong(text);
        from.2.is_none().then(|| String::from(text))
    }
}

/// Why a text is refused. It is shown as text only, but unseen and direction-changing characters could still disguise it.
fn wrong(text: &str) -> Option<&'static str> {
    let disguises = |c: char| {
        (c.is_control() && c != '\n')
            || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
    };
    if text.len() > LONGEST_TEXT {
        return Some("This pack holds a text of more than 4000 bytes.");
    }
    text.contains(disguises).then_some("This pack holds text with hidden control characters.")
}

impl<T: Wire> Wire for Vec<T> {
    fn put(&self, out: &mut Vec<u8>) {
        put_number(self.len() as u64, out);
        self.iter().for_each(|item| item.put(out));
    }
    fn take(from: &mut Bytes<'_>) -> Option<Self> {
        let n = from.list(size_of::<T>())?;
        let mut list = Vec::with_capacity(n);
        for _ in 0..n {
            list.push(T::take(from)?);
        }
        Some(list)
    }
}

impl<T: Wire> Wire for Option<T> {
    fn put(&self, out: &mut Vec<u8>) {
        self.is_some().put(out);
        if let Some(value) = self {
            value.put(out);
        }
    }
    fn take(from: &mut Bytes<'_>) -> Option<Self> {
        if bool::take(from)? { T::take(from).map(Some) } else { Some(None) }
    }
}

impl<A: Wire, B: Wire> Wire for (A, B) {
    fn put(&self, out: &mut Vec<u8>) {
        self.0.put(out);
        self.1.put(out);
    }
    fn take(from: &mut Bytes<'_>) -> Option<Self> {
        Some((A::take(from)?, B::take(from)?))
    }
}

impl Wire for [u8; 8] {
    fn put(&self, out: &mut Vec<u8>) {
        out.extend_from_slice(self);
    }
    fn take(from: &mut Bytes<'_>) -> Option<Self> {
        let (bytes, rest) = from.0.split_first_chunk()?;
        from.0 = rest;
        Some(*bytes)
    }
}

/// A struct field by field, in the order written.
macro_rules! fields {
    ($($name:ident { $($field:ident),* })*) => {$(
        impl Wire for $name {
            fn put(&self, out: &mut Vec<u8>) {
                $(self.$field.put(out);)*
            }
            fn take(from: &mut Bytes<'_>) -> Option<Self> {
                Some($name { $($field: Wire::take(from)?),* })
            }
        }
    )*};
}

/// An enum without fields by the place of its value in the list; a value is never moved or taken out.
macro_rules! places {
    ($($name:ident: $($value:ident)*;)*) => {$(
        impl Wire for $name {
            fn put(&self, out: &mut Vec<u8>) {
                let all = [$($name::$value),*];
                let at = all.iter().position(|v| v == self);
                out.push(at.unwrap_or(0) as u8);
            }
            fn take(from: &mut Bytes<'_>) -> Option<Self> {
                let all = [$($name::$value),*];
                all.into_iter().nth(usize::from(u8::take(from)?))
            }
        }
    )*};
}
pub(crate) use {fields, places};

places! { Basis: Published Practice Memory Invented; }
fields! {
    Period { earliest, likely_from, likely_to, latest }
    Money { minor, currency }
}

impl Wire for Currency {
    fn put(&self, out: &mut Vec<u8>) {
        out.extend_from_slice(self.code().as_bytes());
    }
    fn take(from: &mut Bytes<'_>) -> Option<Self> {
        let (code, rest) = from.0.split_first_chunk::<3>()?;
        from.0 = rest;
        Currency::new(core::str::from_utf8(code).ok()?)
    }
}
