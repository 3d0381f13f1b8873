//! Consultations as a whole: any state that can be reached, by taps or by a link, on the bundled pack and on the small
//! invented one of the compiler's tests.
#![allow(clippy::unwrap_used, reason = "tests")]

mod common;
mod fragment;
mod robust;
mod undo;
