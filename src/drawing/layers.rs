//! The layers of a sheet: what a drawing program shows, hides and inks together. What says nothing of itself, such as the
//! frame, lies on none of them.

use crate::job::State;
use crate::scene::Layer;

/// Walls, floors, roofs and ground lines that pipe passes.
pub const BUILDING: Layer = Layer::new("building");
/// Hatched planes by which skew pipe is read.
pub const PLANES: Layer = Layer::new("helper-planes");
/// Arrows of flow and breaks on pipe.
pub const MARKS: Layer = Layer::new("flow-marks");
/// Words on the drawing.
pub const WORDS: Layer = Layer::new("words");
/// Thin lines from words to their places.
pub const LEADERS: Layer = Layer::new("leaders");
/// Clouds around what changed since an issue, with their marks.
pub const CLOUDS: Layer = Layer::new("clouds");
/// Match lines, at which a drawing goes on on another sheet, and the key plan that shows where its parts lie.
pub const MATCH_LINES: Layer = Layer::new("match-lines");
/// Strokes of a study across the drawing.
pub const STUDY: Layer = Layer::new("study");
/// Schedules, notes and legend.
pub const SCHEDULES: Layer = Layer::new("schedules");
/// The title block.
pub const TITLE: Layer = Layer::new("title-block");

/// Lines of pipe.
pub const fn pipe(state: State) -> Layer {
    match state {
        State::New => Layer::new("pipe-new"),
        State::Existing => Layer::new("pipe-existing"),
        State::Removed => Layer::new("pipe-to-be-removed"),
    }
}

/// Symbols of devices and fittings.
pub const fn symbols(state: State) -> Layer {
    match state {
        State::New => Layer::new("symbols-new"),
        State::Existing => Layer::new("symbols-existing"),
        State::Removed => Layer::new("symbols-to-be-removed"),
    }
}
