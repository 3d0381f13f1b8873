//! The pages of the site: Yew over `consult`, one small module for each thing the browser does. Never in here:
//! mathematics, trade knowledge, words of a finding.

pub mod app;
pub mod browser;
pub mod cabinet;
mod develop;
pub mod guide;
pub mod own;
pub mod pages;
pub mod practice;
mod rooms;
pub mod ui;
