//! From rows to tables: one table a class, or several forms of it, with groups of questions that hang together.

mod choose;
mod forms;
mod groups;
mod table;

pub use choose::{Choice, choose};
pub use forms::{Form, Shape, forms};
pub use groups::groups;
pub use table::model;

use crate::data::{Data, Row};

/// The rows that may be learned from.
#[derive(Debug, Clone)]
pub struct Lesson<'a> {
    /// The table that they are from.
    pub data: &'a Data,
    /// Their indices.
    pub rows: Vec<usize>,
}

impl<'a> Lesson<'a> {
    /// All rows but those of a fold.
    #[must_use]
    pub fn without(data: &'a Data, fold: usize) -> Lesson<'a> {
        let rows = (0..data.rows.len()).filter(|r| data.fold_of[*r] != fold).collect();
        Lesson { data, rows }
    }

    /// What the things of a class show.
    pub(crate) fn of_class(&self, class: usize) -> Vec<&'a Row> {
        let of = |r: &&usize| self.data.class_of[**r] == class;
        self.rows.iter().filter(of).map(|r| &self.data.rows[*r]).collect()
    }
}
