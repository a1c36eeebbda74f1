//! Why an edit is refused, in words for the status line.

use super::Part;
use crate::job::{JointId, Misfit, RunId};
use crate::units::{UnitError, UnitSystem};
use std::fmt;

/// What a part is called on the drawing as it is: what a refused edit would have made has no number there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Called(String);

impl Called {
    /// Words for a part that is not drawn yet.
    pub fn new(words: impl Into<String>) -> Called {
        Called(words.into())
    }
}

impl From<JointId> for Called {
    fn from(joint: JointId) -> Called {
        Called(joint.to_string())
    }
}

impl From<RunId> for Called {
    fn from(run: RunId) -> Called {
        Called(run.to_string())
    }
}

impl fmt::Display for Called {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Why an edit is refused: what stands against it, and what to do instead where that is not plain.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// The part is not in the job.
    #[error("{0} is no longer there")]
    Gone(Part),
    /// The job is not what it was when the step was made.
    #[error("the drawing has changed since: do it again")]
    Stale,
    /// The job is issued as built already.
    #[error("the job is marked as built already: its status is in the title block")]
    BuiltAlready,
    /// Nothing fit for the command is chosen; the words say what to choose.
    #[error("select {0} first")]
    Choose(&'static str),
    /// The pipe would start and end at one place.
    #[error("the pipe would end where it starts: point somewhere else")]
    NoWay,
    /// A line of one's own that is not there.
    #[error("that line is no longer there")]
    NoLine,
    /// A variant that is not there, or another one where there is only one drawing.
    #[error("the job has no other variant: add one in the list Variants")]
    NoVariant,
    /// Two variants of one name, or one without.
    #[error("a variant needs a name that no other one has")]
    VariantName,
    /// More variants than a job can have.
    #[error("a job has at most {0} variants: remove one")]
    VariantsFull(usize),
    /// A quantity that is none.
    #[error("enter a number from 0 to 1,000,000,000")]
    NoQuantity,
    /// A length of nothing or less.
    #[error("a run needs a length greater than zero")]
    NoLength,
    /// The measures of an offset do not agree.
    #[error("{run} would make no offset: {words}. {remedy}")]
    Misfit {
        /// The run.
        run: Called,
        /// What is wrong.
        words: String,
        /// What to do.
        remedy: &'static str,
    },
    /// An offset was typed for a run along an axis.
    #[error("an offset is drawn off the axes: hold Shift, or type the true length alone")]
    OffsetAlongAxis,
    /// More measures than an offset has were typed, or none.
    #[error("type a length, or an offset as rise x roll @ angle: 8\"x12\"@45, or with its run: 8\"x12\"x14-7/16\"")]
    OffsetUnread,
    /// A text is not the quantity that is wanted.
    #[error(transparent)]
    Unit(#[from] UnitError),
    /// A length was typed before a direction.
    #[error("give a direction first: point, or press an arrow key")]
    NoDirection,
    /// The place is beyond what can be drawn.
    #[error("that is too far out: the paper ends {farthest} steps from the middle")]
    TooFar {
        /// Steps from the middle to the edge.
        farthest: i32,
    },
    /// A line laid in one go would cross itself.
    #[error("the line would cross itself: take it through other places")]
    CrossesItself,
    /// Two joints would be at one place.
    #[error("{moved} would land on {there}")]
    Occupied {
        /// The joint that comes.
        moved: Called,
        /// The joint that is there.
        there: Called,
    },
    /// A run would join a joint to itself.
    #[error("{0} would connect a joint to itself")]
    ToItself(Called),
    /// A run's end is no joint.
    #[error("{0} would end at a joint that does not exist")]
    Dangling(Called),
    /// A second run between the same two joints.
    #[error("{from} and {to} are connected already, by {by}")]
    Doubled {
        /// One joint.
        from: Called,
        /// The other joint.
        to: Called,
        /// The run between them.
        by: Called,
    },
    /// A run would pass over a joint that it does not join.
    #[error("the pipe would run through {joint}: end it there, or take it around")]
    Through {
        /// The joint in its way.
        joint: Called,
    },
    /// A note points at a joint that would go.
    #[error("note {note} points at {joint}: move or delete the note first")]
    Noted {
        /// The note, counted from 1.
        note: usize,
        /// The joint.
        joint: JointId,
    },
    /// A device has no end left for one more run.
    #[error("{joint} has {}, which has no end for another pipe: start from another joint", one(.device))]
    NoEndLeft {
        /// The joint.
        joint: Called,
        /// The trade's name of the device.
        device: &'static str,
    },
    /// Too many runs meet where the device would go.
    #[error("{runs} runs meet at {joint}: {} has {ends}", one(.device))]
    TooManyRuns {
        /// The joint.
        joint: Called,
        /// The runs that meet there.
        runs: usize,
        /// The trade's name of the device.
        device: &'static str,
        /// How many ends it has, in words.
        ends: &'static str,
    },
    /// A device is there already.
    #[error("{joint} has {} already: point at the run beside it, or where that is drawn too short drag {joint} away (typed lengths stay)", one(.device))]
    Holds {
        /// The joint.
        joint: JointId,
        /// The trade's name of the device.
        device: &'static str,
    },
    /// No device is there.
    #[error("there is no device on {0}")]
    Bare(JointId),
    /// The item needs pipe under it.
    #[error("{} goes in pipe or at its end: point at pipe", one(.0))]
    NeedsPipe(&'static str),
    /// A penetration or split needs a run.
    #[error("point at a run of pipe")]
    NeedsRun,
    /// A note needs a joint.
    #[error("a note points at a joint: point at one")]
    NeedsJoint,
    /// The run has no room for a joint between its ends.
    #[error("{0} has no room for a joint there: it is drawn too short; stretch it first")]
    NoRoom(Called),
    /// The typed place is not on the run.
    #[error("{0} is not that long")]
    BeyondEnd(RunId),
    /// A passage would lie beyond the run's end.
    #[error("{run} would be too short for its penetration {passage}: move that first")]
    PassageBeyond {
        /// The run.
        run: RunId,
        /// The passage, counted from 1.
        passage: usize,
    },
    /// Not exactly two runs meet at the joint.
    #[error("{joint} connects {runs} runs: only two can be joined into one")]
    NotTwo {
        /// The joint.
        joint: JointId,
        /// How many runs meet there.
        runs: usize,
    },
    /// Two runs do not lie in line.
    #[error("{0} and {1} are not in line")]
    NotInLine(RunId, RunId),
    /// Two runs differ.
    #[error("{0} and {1} differ in {2}: make them the same first")]
    Unlike(RunId, RunId, &'static str),
    /// A gap cannot be closed because the piping goes round.
    #[error("{0} is in a loop: its gap cannot be closed")]
    Loop(RunId),
    /// Two devices would come together.
    #[error("{0} and {1} both have a device and would land on one joint")]
    TwoDevices(JointId, JointId),
    /// No gas reaches the part, so that nothing is downstream of it.
    #[error("{0} is not connected to the gas supply: nothing is downstream of it")]
    NoFlow(Part),
    /// Nothing was copied.
    #[error("nothing to paste: copy something first")]
    NothingCopied,
    /// More at one place than a job can hold.
    #[error("{at} has {most} {what} already: no more can be there")]
    Full {
        /// The run or joint.
        at: Called,
        /// What there would be too many of.
        what: &'static str,
        /// The most.
        most: usize,
    },
    /// A length that no job file can hold.
    #[error("{0} would get a length of more than 100 km")]
    TooLong(Called),
    /// More copies than the tool makes at once.
    #[error("repeat from 1 to {most} times")]
    Copies {
        /// The most.
        most: u32,
    },
    /// The command cannot be used now.
    #[error("{0}")]
    NotNow(&'static str),
}

impl Refusal {
    /// That the measures of a run's offset do not agree.
    pub fn misfit(run: impl Into<String>, misfit: Misfit, units: UnitSystem) -> Refusal {
        Refusal::Misfit {
            run: Called::new(run),
            words: misfit.words(units),
            remedy: misfit.remedy(),
        }
    }
}

/// A thing with its article.
fn one(thing: &str) -> String {
    let article = if thing.starts_with(['a', 'e', 'i', 'o']) {
        "an"
    } else {
        "a"
    };
    format!("{article} {thing}")
}
