//! What the acceptance tests share.

#[cfg(feature = "browser")]
pub mod harness;
