//! How a piece of pipe is told: its lengths with their marks, its ends, how it is made, and what must be known beside it.

use super::{NEAR_NIPPLE, mark};
use crate::fittings::{End, Taken};
use crate::units::{Length, Show, UnitSystem};
use crate::work::{Making, Part, Piece, rounded};

impl Piece {
    /// What is cut for it, each length with its mark: the piece as it is made, or the parts of which sticks make it. A
    /// length is as sure as the take-outs of its ends; with one unknown it has a `?`, of whole sticks in a row the last;
    /// with both there is none.
    pub fn marked(&self, units: UnitSystem) -> Vec<(&str, String)> {
        let sure = if self.is_known() { "" } else { " ?" };
        match (self.must_be_measured(), self.parts.as_slice()) {
            (true, _) => vec![(&self.mark, self.to_measure().to_owned())],
            (false, []) => vec![(&self.mark, format!("{}{sure}", self.made(units)))],
            (false, parts) => parts
                .iter()
                .map(|part| {
                    let sure = if self.is_sure(part) { "" } else { " ?" };
                    (part.mark.as_str(), format!("{}{sure}", part.length.show(units)))
                })
                .collect(),
        }
    }

    /// Whether the length of a part is known: of a piece with one end to measure the whole sticks are, and the last is not.
    fn is_sure(&self, part: &Part) -> bool {
        self.is_known() || self.parts.last() != Some(part)
    }

    /// What stands where a length would, between two ends that nobody has measured.
    pub fn to_measure(&self) -> &'static str {
        match self.making {
            Making::Nipple(_) => "nipple, measure",
            _ => "measure",
        }
    }

    /// What is planned for a part, from a stick or coil: its length, and how sure that is.
    pub fn planned(&self, part: &Part, units: UnitSystem) -> String {
        let length = part.length.show(units);
        match (self.must_be_measured(), self.is_sure(part)) {
            (true, _) => format!("{} {length} center-to-center, measure", part.mark),
            (false, true) => format!("{} {length}", part.mark),
            (false, false) => format!("{} {length} ?", part.mark),
        }
    }

    /// What stands at each end and what it takes out: "90° elbow −7/8\"", "shutoff valve ?".
    pub fn end_words(&self, units: UnitSystem) -> [String; 2] {
        let shown = self.shown_take_outs(units);
        let words = |at: usize| {
            let (end, shown) = (&self.ends[at], shown[at]);
            match end.taken {
                _ if !end.is_known() && self.making == Making::Direct => end.what.clone(),
                _ if !end.is_known() => format!("{} ?", end.what),
                Taken::Male(_) if self.is_on_a_male_end() => {
                    format!("{} −{}: MALE END, no pipe goes on it", end.what, shown.show(units))
                }
                _ if shown == Length::ZERO => end.what.clone(),
                _ => format!("{} −{}", end.what, shown.show(units)),
            }
        };
        [words(0), words(1)]
    }

    /// The take-outs as they are printed: each to the next mark of the rule above or below, so that what is printed adds
    /// up, centre to centre less both being the cut length.
    pub fn shown_take_outs(&self, units: UnitSystem) -> [Length; 2] {
        let exact = [self.ends[0].take_out(), self.ends[1].take_out()];
        let mut shown = exact.map(|length| rounded(length, units));
        let printed = rounded(self.centre_to_centre, units) - rounded(self.cut(), units);
        let mut over = printed - shown[0] - shown[1];
        // Three roundings are never more than two marks apart; lengths past reckoning stay as they are.
        for _ in 0..2 {
            if over == Length::ZERO {
                break;
            }
            let mark = match over > Length::ZERO {
                true => mark(units),
                false => Length::ZERO - mark(units),
            };
            // Of the ends that take anything, the one that was rounded farthest the other way.
            let lost = |at: usize| (exact[at] - shown[at] - mark).magnitude();
            let ends = (0..2).filter(|&at| exact[at] != Length::ZERO);
            let Some(at) = ends.min_by_key(|&at| lost(at)) else {
                break;
            };
            shown[at] += mark;
            over = over - mark;
        }
        shown
    }

    /// How it is made where it is not cut or laid as its parts say; empty where it is.
    pub fn made(&self, units: UnitSystem) -> String {
        match self.making {
            Making::Nipple(length) => {
                // The stock length that is bought, and what would fit exactly.
                let wanted = rounded(self.cut(), units);
                let differs = match rounded(length, units) == wanted {
                    true => String::new(),
                    false => format!(" (exactly {})", wanted.show_short(units)),
                };
                format!("nipple {}{differs}", length.show_short(units))
            }
            Making::TooShort(shortest) => {
                format!("CANNOT BE MADE: {} center-to-center at least", shortest.show(units))
            }
            Making::TooLong => "too long to plan".to_owned(),
            Making::NoSize => "no size".to_owned(),
            Making::Direct => "no pipe".to_owned(),
            Making::Cut | Making::Coil => String::new(),
        }
    }

    /// What must be known beside the figures, in sentences without a full stop.
    pub fn remarks(&self, units: UnitSystem) -> Vec<String> {
        let mut remarks = Vec::new();
        for end in self.ends.iter().filter(|_| self.making != Making::Direct) {
            match end.taken {
                Taken::Unknown(reason) => remarks.push(format!("{}: {reason}; no take-out is counted for it", end.what)),
                Taken::Male(_) if self.is_on_a_male_end() => remarks.push(format!(
                    "{}: its male end threads straight into the part ahead of it; here pipe is drawn between them: turn with a 90° elbow, or draw \
                     the street elbow threaded straight in",
                    end.what
                )),
                Taken::Nothing | Taken::Figures { .. } | Taken::Male(_) => {}
            }
        }
        let rest = self.cut();
        if self.making == Making::Direct
            && self.ends.iter().all(End::is_known)
            && rest.magnitude() > Length::from_inches(NEAR_NIPPLE)
        {
            remarks.push(format!(
                "threaded straight in it is {} center-to-center, {} is drawn: everything downstream moves by the difference",
                rounded(self.taken_out(), units).show_short(units),
                rounded(self.centre_to_centre, units).show_short(units),
            ));
        }
        if self.couplings() > 0 && self.coupling.is_none() {
            remarks.push("the couplings between its parts are not measured: their length is not known".to_owned());
        }
        remarks
    }
}
