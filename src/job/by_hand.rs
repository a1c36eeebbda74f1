//! What a person adds to the lists that follow from a drawing.

/// All that is added by hand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ByHand {
    /// Lines of one's own at the end of the take-off.
    pub extra: Vec<Extra>,
    /// Words of one's own in the order of work, by the id of a step; no id stands twice.
    pub order: Vec<OwnStep>,
}

/// A line of one's own in the take-off.
#[derive(Clone, Debug, PartialEq)]
pub struct Extra {
    /// What it is.
    pub what: String,
    /// How much of it; a number that is not less than 0.
    pub quantity: f64,
    /// In what unit, as the person writes it.
    pub unit: String,
    /// What must be known beside it.
    pub note: String,
}

/// What a person says of a step in the order of work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnStep {
    /// The id of the step.
    pub step: String,
    /// Words in place of those that follow from the drawing, in which `{words}` stands for those, and `{places}` for the
    /// places of the step.
    pub words: Option<String>,
    /// Lines after the step.
    pub after: Vec<String>,
    /// Whether the step is left out.
    pub left_out: bool,
}

impl Extra {
    /// The unit where none is said.
    pub const EACH: &str = "each";
    /// No line may have more.
    pub const MOST: f64 = 1e9;
}

impl Default for Extra {
    fn default() -> Extra {
        Extra {
            what: String::new(),
            quantity: 1.0,
            unit: Extra::EACH.to_owned(),
            note: String::new(),
        }
    }
}

impl OwnStep {
    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        self.words.is_none() && self.after.is_empty() && !self.left_out
    }
}

impl ByHand {
    /// What is said of a step.
    pub fn of_step(&self, id: &str) -> Option<&OwnStep> {
        self.order.iter().find(|own| own.step == id)
    }

    /// Changes what is said of a step; where nothing is said any more, the entry goes.
    pub fn change_step(&mut self, id: &str, change: impl FnOnce(&mut OwnStep)) {
        let at = match self.order.iter().position(|own| own.step == id) {
            Some(at) => at,
            None => {
                self.order.push(OwnStep {
                    step: id.to_owned(),
                    ..OwnStep::default()
                });
                self.order.len() - 1
            }
        };
        change(&mut self.order[at]);
        if self.order[at].is_empty() {
            self.order.remove(at);
        }
    }
}
