//! Shared harness of the tests that need more than one crate. Nothing here is shipped.
