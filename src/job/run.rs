//! Pipe between two joints.

use super::{JointId, Material, MeasuredOffset, Misfit, Named, Offset, Penetration, RunId, WordsAt};
use crate::units::{Length, NominalSize};

/// A straight length of pipe or tube between two joints.
///
/// Its two joints may be given in either order; which way gas flows follows from where the supply stands.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Run {
    /// Its id.
    pub id: RunId,
    /// One end.
    pub from: JointId,
    /// The other end.
    pub to: JointId,
    /// True length, centre to centre, as measured; drawn steps times the job's step when not given.
    pub length: Option<Length>,
    /// What was measured of it where it is an offset; its travel is then its true length.
    pub offset: Option<MeasuredOffset>,
    /// Material, when it is not the job's.
    pub material: Option<Material>,
    /// The known size of existing pipe, or a size fixed by hand for new pipe; new pipe without one is sized by the study.
    pub size: Option<NominalSize>,
    /// The size of the existing pipe that new pipe takes the place of; said of other pipe it counts nothing.
    pub replaces: Option<NominalSize>,
    /// Existing, new or to be removed.
    pub state: State,
    /// Where it lies.
    pub surroundings: Surroundings,
    /// Depth of cover below grade, for pipe underground.
    pub cover: Option<Length>,
    /// Whether the pipe is painted, coated or wrapped against corrosion.
    pub coated: bool,
    /// Whether tracer wire lies with it (plastic pipe underground).
    pub tracer: bool,
    /// Whether corrugated tubing is bonded to the grounding electrode system.
    pub bonded: bool,
    /// Whether corrugated tubing is listed with an arc-resistant jacket.
    pub jacketed: bool,
    /// Whether pipe to be removed is taken out so that it can be used again; said of other pipe it counts nothing.
    pub salvaged: bool,
    /// What the run passes through, uncut.
    pub penetrations: Vec<Penetration>,
    /// Where a person put the words of the run; `None` where they find their own place.
    pub words_at: Option<WordsAt>,
}

/// Whether pipe or a device is there, to come or to go.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum State {
    /// To be installed.
    #[default]
    New,
    /// Already there.
    Existing,
    /// Already there, to be taken out; carries no gas in the study.
    Removed,
}

impl State {
    /// What it is called in a list.
    pub const fn name(self) -> &'static str {
        match self {
            State::New => "new",
            State::Existing => "existing",
            State::Removed => "removed",
        }
    }

    /// What it is called before the work is done.
    pub const fn planned(self) -> &'static str {
        match self {
            State::New | State::Existing => self.name(),
            State::Removed => "to be removed",
        }
    }
}

/// Where a run lies; rules and notes follow from it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Surroundings {
    /// Indoors, to be seen.
    #[default]
    Indoors,
    /// Indoors, in a wall, floor or ceiling.
    Concealed,
    /// Outdoors above ground.
    Outdoors,
    /// Below ground.
    Underground,
}

impl Surroundings {
    /// What it is called in lists and on sheets.
    pub const fn name(self) -> &'static str {
        match self {
            Surroundings::Indoors => "exposed indoors",
            Surroundings::Concealed => "concealed",
            Surroundings::Outdoors => "outdoors",
            Surroundings::Underground => "underground",
        }
    }
}

impl Run {
    /// The size of the pipe that goes so that this may come in its place.
    pub fn replaced(&self) -> Option<NominalSize> {
        self.replaces.filter(|_| self.state == State::New)
    }

    /// The offset that was measured, or why its measures make none; `None` where none was.
    pub fn measured(&self) -> Option<Result<Offset, Misfit>> {
        self.offset.map(|offset| offset.made(self.length))
    }

    /// Its true length where one was typed or follows from what was measured.
    pub fn given_length(&self) -> Option<Length> {
        match self.measured() {
            Some(Ok(offset)) => Some(offset.travel),
            Some(Err(_)) | None => self.length,
        }
    }

    /// Whether it is taken out and kept for use again.
    pub fn is_salvaged(&self) -> bool {
        self.salvaged && self.state == State::Removed
    }
}

impl Named for Run {
    type Id = RunId;
    fn id(&self) -> RunId {
        self.id
    }
}
