//! What the browser does, one small module each. Nothing above knows `web-sys`; nothing here knows a consultation.

pub mod address;
pub mod clipboard;
pub mod clock;
pub mod darkroom;
pub mod database;
pub mod events;
pub mod guests;
pub mod pack;
pub mod page;
pub mod pause;
pub mod photo;
pub mod room;
pub mod save;
pub mod store;
mod turns;
pub mod windows;
