//! The guide as pages: every link leads somewhere, and what stands on a page is what the pack says.
#![allow(clippy::unwrap_used, reason = "tests")]

mod common;
mod desk;
mod links;
mod pages;
mod reading;
mod search;
