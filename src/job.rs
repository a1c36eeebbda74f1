//! A job: only what a person decided.
//!
//! Joints on a lattice, runs between them, the devices that stand on joints, the supply, the settings and the title
//! block. Nothing that can be computed is kept here: sizes of new pipe, fittings, loads and pressures are the study's.
//! A job may be half drawn or wrong in every way that drawing allows; only ids are held together (each run joins two
//! joints that exist, ids are unique).

mod appliance;
mod as_it_stood;
pub mod bounds;
mod by_hand;
mod detail;
mod device;
mod gas;
mod joint;
mod lattice;
mod letter;
mod likeness;
pub mod line;
mod listed;
mod material;
mod measured_offset;
mod nature;
mod note;
mod offset;
mod own_table;
mod penetration;
mod run;
mod settings;
mod start_up;
mod store;
mod title;
mod title_field;
mod valve_kind;
mod variants;
mod words_at;

pub use appliance::{Appliance, Season};
pub use as_it_stood::as_it_stood;
pub use by_hand::{ByHand, Extra, OwnStep};
pub use detail::Detail;
pub use device::{
    Cap, Connector, Device, Meter, Placed, QuickCoupling, Rating, Regulator, SedimentTrap, Slot, Supply, SupplyBefore,
    SupplyChange, Unrated, Valve, Vent,
};
pub use gas::{Fuel, Gas};
pub use joint::{Joint, Turn};
pub use lattice::{Axis, Direction, LatticePoint};
pub use letter::Letter;
pub use likeness::Likeness;
pub(crate) use listed::listed;
pub use material::{CopperJoints, Joining, Material};
pub use measured_offset::{MeasuredOffset, Misfit};
pub use nature::{ClosureKind, Counted, DeviceKind, EndsWay, Fitted, Limit, Nature, OwnWay};
pub use note::Note;
pub use offset::{Found, FoundBy, Offset, same_turn, setback, stock_turn, travel, true_offset};
pub use own_table::OwnTable;
pub use penetration::{Barrier, Penetration, Seal};
pub use run::{Run, State, Surroundings};
pub use settings::{Method, NorthAxis, Settings};
pub use start_up::StartUp;
pub use store::{Id, JointId, Named, RunId, Store};
pub use title::{Revision, Status, TitleBlock};
pub use title_field::TitleField;
pub use valve_kind::ValveKind;
pub use variants::{Drawing, Variant, Variants};
pub use words_at::WordsAt;

/// One piping job, as drawn and typed by a person.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Job {
    /// What the title block says.
    pub title: TitleBlock,
    /// Units, step, profile, method and the like.
    pub settings: Settings,
    /// What burns.
    pub gas: Gas,
    /// Places on the lattice, and what stands there.
    pub joints: Store<Joint>,
    /// Pipe between two joints.
    pub runs: Store<Run>,
    /// Texts that point at a place on the drawing.
    pub notes: Vec<Note>,
    /// What is added to the take-off and the order of work.
    pub by_hand: ByHand,
    /// Other ways to do the job, beside the one that is shown.
    pub variants: Variants,
}

impl Job {
    /// The true length of a run: as typed or measured, or, when nothing was, its lattice steps times the job's step.
    ///
    /// A skew run counts the straight distance between its ends. A run with a dangling joint has no length.
    pub fn true_length(&self, run: &Run) -> crate::units::Length {
        run.given_length().unwrap_or_else(|| self.drawn_length(run))
    }

    /// The length that a run would have if the drawing were to scale: lattice distance times the job's step.
    pub fn drawn_length(&self, run: &Run) -> crate::units::Length {
        match (self.joints.get(run.from), self.joints.get(run.to)) {
            (Some(from), Some(to)) => self.settings.step.times((to.at - from.at).steps()),
            _ => crate::units::Length::ZERO,
        }
    }

    /// The material of a run: its own, or the job's.
    pub fn material(&self, run: &Run) -> Material {
        run.material.unwrap_or(self.settings.material)
    }

    /// How a run is joined to its fittings.
    pub fn joining(&self, run: &Run) -> Joining {
        self.settings.copper.joining(self.material(run))
    }
}
