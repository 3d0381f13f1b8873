//! What a person keeps: records with all their versions, as text, as one file, as a table, as linked data and as sheets;
//! merging, and finding again. Never in here: a browser, a store, a clock (times and ids are given), a pack's tables, HTML.

pub mod archive;
pub mod csv;
pub mod edtf;
pub mod find;
pub mod linked_art;
pub mod merge;
mod order;
pub mod record;
pub mod sheets;
pub mod text;
