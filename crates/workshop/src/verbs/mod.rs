//! One file for each verb.

pub(crate) mod build;
pub(crate) mod check;
pub(crate) mod codes;
pub(crate) mod marks;
pub(crate) mod print;
pub(crate) mod sheet;
pub(crate) mod simulate;
pub(crate) mod try_out;
pub(crate) mod words;
