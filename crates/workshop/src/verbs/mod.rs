//! One file for each verb.

pub(crate) mod build;
pub(crate) mod check;
pub(crate) mod codes;
pub(crate) mod words;
