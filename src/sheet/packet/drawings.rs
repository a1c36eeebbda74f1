//! The drawings of a packet by what was asked: ways to share a sheet and to part a drawing ask for the same again.

use crate::drawing::{Asked, Compass, Gone, Homeless, Isometric, Lettering, Options, Parts, Scale};
use crate::scene::Rect;
use std::cell::RefCell;
use std::rc::Rc;

/// So many are kept at most, the oldest goes first; of a large job only as many as have so many runs together.
const MOST: usize = 48;
const RUNS: usize = 20_000;

/// What was drawn of one job since one issue.
#[derive(Default)]
pub struct Drawings {
    most: usize,
    all: RefCell<Vec<(Key, Rc<Isometric>)>>,
}

/// What tells one drawing of a job from another.
#[derive(Clone, PartialEq)]
struct Key {
    area: Rect,
    scale: Scale,
    has_words: bool,
    gone: Gone,
    homeless: Homeless,
    compass: Compass,
    is_arranged: bool,
    asked: Asked,
    part: Option<(Parts, usize)>,
}

impl Key {
    /// `None` for words of somebody else, of which each drawing may have others.
    fn of(area: Rect, options: &Options<'_>) -> Option<Key> {
        // Since which issue is the same for all drawings of a packet.
        let Options {
            scale,
            lettering,
            since: _,
            gone,
            part,
            homeless,
            compass,
            is_arranged,
            asked,
        } = *options;
        let has_words = match lettering {
            Lettering::Nothing => false,
            Lettering::All => true,
            Lettering::OnScreen | Lettering::Other(_) => return None,
        };
        Some(Key {
            area,
            scale,
            has_words,
            gone,
            // Where there are no words, none is homeless.
            homeless: if has_words { homeless } else { Homeless::LeftOut },
            compass,
            is_arranged,
            asked,
            part: part.map(|part| (part.of.clone(), part.number)),
        })
    }
}

impl Drawings {
    /// Nothing drawn yet of a job of so many runs.
    pub fn new(runs: usize) -> Drawings {
        Drawings {
            most: (RUNS / runs.max(1)).clamp(1, MOST),
            all: RefCell::default(),
        }
    }

    /// The drawing that was asked for; `draw` makes it where it was not yet.
    pub fn get(&self, area: Rect, options: &Options<'_>, draw: impl FnOnce() -> Isometric) -> Rc<Isometric> {
        let Some(key) = Key::of(area, options) else {
            return Rc::new(draw());
        };
        let known = |(other, drawing): &(Key, Rc<Isometric>)| (*other == key).then(|| Rc::clone(drawing));
        if let Some(drawing) = self.all.borrow().iter().find_map(known) {
            return drawing;
        }
        let drawing = Rc::new(draw());
        let mut all = self.all.borrow_mut();
        if all.len() >= self.most.max(1) {
            all.remove(0);
        }
        all.push((key, Rc::clone(&drawing)));
        drawing
    }
}
