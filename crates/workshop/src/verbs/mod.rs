//! One file for each verb.

pub(crate) mod build;
pub(crate) mod check;
pub(crate) mod codes;
pub(crate) mod compare;
pub(crate) mod exchange;
pub(crate) mod explain;
pub(crate) mod gather;
pub(crate) mod marks;
pub(crate) mod new;
pub(crate) mod print;
pub(crate) mod schema;
pub(crate) mod sheet;
pub(crate) mod simulate;
mod stated;
pub(crate) mod try_out;
pub(crate) mod words;
