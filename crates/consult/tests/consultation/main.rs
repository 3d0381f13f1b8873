//! Consultations as a whole: any state that can be reached, by taps or by a link, on the bundled pack and on the small
//! invented one of the compiler's tests.
#![allow(clippy::unwrap_used, reason = "tests")]

mod common;
mod findings;
mod fragment;
mod gates;
mod halves;
mod handover;
mod marks;
mod measures;
mod photo;
mod robust;
mod sale;
mod screens;
mod strange_packs;
mod text;
mod undo;
mod way;
mod words;
mod years;
