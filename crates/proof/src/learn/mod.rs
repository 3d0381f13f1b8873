//! From pieces to the tables of a model: forms of a kind, groups of questions, and which of several ways to learn is
//! taken, judged on the pieces learned from alone.

pub mod choose;
pub mod forms;
pub mod groups;
pub mod tables;

pub use choose::{Choice, choose};
pub use forms::{Form, Way};
