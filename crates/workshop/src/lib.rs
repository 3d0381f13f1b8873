//! What the command line and the tests share: comparing editions, gathering what members found, schemas.

pub mod compare;
pub mod gather;
pub mod schema;
