//! What is written at a penetration: what it is, how it is built, how the gap is closed.

use crate::drawing::block::{Line, wrap};
use crate::job::{Penetration, Seal};
use crate::units::{Show, UnitSystem};

/// The lines of a penetration, each of at most so many letters.
pub fn lines(penetration: &Penetration, units: UnitSystem, most: usize) -> Vec<Line> {
    let mut what = penetration.barrier.title().to_owned();
    if let Some(construction) = penetration
        .construction
        .as_ref()
        .filter(|words| !words.trim().is_empty())
    {
        what.push_str(", ");
        what.push_str(construction.trim());
    }
    if let Some(thickness) = penetration.thickness {
        what.push_str(", ");
        what.push_str(&thickness.show(units));
    }
    let sleeve = penetration.sleeved.then_some("sleeve");
    let seal = match penetration.seal {
        Seal::Open => None,
        Seal::Outside => Some("sealed outside"),
        Seal::BothFaces => Some("sealed both faces"),
    };
    let closed: Vec<&str> = sleeve.into_iter().chain(seal).collect();
    let mut lines = even(&what, most);
    if !closed.is_empty() {
        lines.extend(wrap(&closed.join(", "), most));
    }
    lines
}

/// Lines as even as they can be without one more of them: no thickness stands alone.
fn even(words: &str, most: usize) -> Vec<Line> {
    let lines = wrap(words, most);
    let as_many = (1..most)
        .map(|most| wrap(words, most))
        .find(|even| even.len() == lines.len());
    as_many.unwrap_or(lines)
}
