//! A kind of thing, as the catalogue describes it.

use serde::{Deserialize, Serialize};

use super::category::Category;

/// What a thing is: toothbrush, notebook. Belongs to one category.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kind {
    /// The name, singular and lower case; also the key it is known by.
    pub name: String,
    /// Other names for the same thing.
    pub also: Vec<String>,
    /// The category it serves unless a line says otherwise.
    pub category: Category,
    /// Whether it is given as a set: a pack of crayons is one thing of many pieces.
    pub set: bool,
}
