//! What could be done: existing pipe before and after, spare capacity, what would be with more load, variants side by side,
//! the least that must be larger, tie-ins.
//!
//! Every answer is a study of a job so changed. Nothing here changes the job itself.

mod audit;
mod cheapest;
mod comparison;
mod enlargement;
mod headroom;
mod least_cost;
mod tie_in;
mod variants;
mod what_if;

pub use audit::{Audit, AuditPart, AuditRow, Held, Standing};
pub use cheapest::Exactness;
pub use comparison::{Lowest, Outcome, PipeBought, Variant};
pub use enlargement::{Enlargement, Larger, Mended};
pub use headroom::{Headroom, Limit, Limiting, Spare};
pub use least_cost::{CheapSection, LeastCost, NoAnswer};
pub use tie_in::{
    Already, Blocked, Fails, LeftOut, LowestInlet, MOST_PLACES, NewBranch, NoTieIn, Offer, Progress, RouteLeg, TieIn,
    TieInPlace, TieInStanding, TieIns, Unjudged,
};
pub use variants::{ComparedVariant, ComparedVariants, OwnLists, TakeOffDifference};
pub use what_if::WhatIf;
