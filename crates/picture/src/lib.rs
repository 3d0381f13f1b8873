//! What a photograph of a piece beside a bank card can tell: lengths with their uncertainty, the outline of the sole at
//! true size, and what of the file is safe to keep. A crate of its own, because what works on pictures is loaded only
//! when a picture is there and needs nothing that is known about irons. Bytes and taps in, millimetres out. Never in
//! here: trade knowledge, sentences, a browser, a decoder of pictures.

mod linear;
mod pixels;
mod point;

pub mod ask;
pub mod outline;
pub mod photo;
pub mod propose;
pub mod strip;

pub use pixels::Pixels;
pub use point::Point;
