//! What a person says of the steps, put beside what follows from the drawing.

use crate::job::ByHand;
use crate::study::Place;
use crate::work::{OrderOfWork, Step};

/// In a person's words: the words that follow from the drawing.
const WORDS: &str = "{words}";
/// In a person's words: the places of the step.
const PLACES: &str = "{places}";

/// Takes up the words of a person.
pub(super) fn take_up(order: &mut OrderOfWork, by_hand: &ByHand) {
    for step in &mut order.steps {
        let Some(own) = by_hand.of_step(step.id) else { continue };
        if let Some(words) = &own.words {
            step.words = filled(words, step);
        }
        step.after.clone_from(&own.after);
        step.left_out = own.left_out;
    }
    let gone = by_hand.order.iter();
    order.no_longer = gone.filter(|own| order.step(&own.step).is_none()).cloned().collect();
}

/// A person's words with what they stand for.
fn filled(words: &str, step: &Step) -> String {
    let places: Vec<String> = step.places.iter().map(Place::to_string).collect();
    let parts = words.split(WORDS).map(|part| part.replace(PLACES, &places.join(" ")));
    parts.collect::<Vec<_>>().join(&step.made)
}
