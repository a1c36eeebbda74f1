//! The commands: one table from which menus, keys, palette and help are made.
//!
//! The desktop's own shortcuts where there is one. A bare letter takes a tool, which changes nothing of the job: a length
//! begins with a figure, so that one can be typed at any moment.

mod shortcut;
mod table;

pub use shortcut::{Cap, Shortcut};
pub use table::{COMMANDS, PENCIL_KEYS, PencilKey};

use super::Item;
use super::plane::Facing;
use crate::job::{Axis, State, Surroundings};

/// Names a command.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CommandId {
    /// A new, empty job.
    NewJob,
    /// Open a job file.
    OpenJob,
    /// Save the job.
    SaveJob,
    /// Save the job under another name.
    SaveJobAs,
    /// Hand over the sheet as a file.
    ExportSheet,
    /// Make the sheets to be printed and open them.
    Print,
    /// Compare the job with one that was issued.
    Compare,
    /// Compare it no longer.
    StopComparing,
    /// Issue the job as built.
    MakeAsBuilt,
    /// Look at the tables and profiles of one's own, and open others.
    OwnFiles,
    /// Leave the program.
    Quit,
    /// Take the last step back.
    Undo,
    /// Do it again.
    Redo,
    /// Copy and delete.
    Cut,
    /// Copy.
    Copy,
    /// Copy a sheet as a picture.
    CopyPicture,
    /// Put down what was copied.
    Paste,
    /// Delete and leave the gap.
    Delete,
    /// Delete and close the gap.
    DeleteAndClose,
    /// Choose everything.
    ChooseAll,
    /// Choose nothing.
    ChooseNothing,
    /// Choose everything downstream.
    ChooseDownstream,
    /// Go to the next part along the pipe.
    NextPart,
    /// Go to the part before.
    PreviousPart,
    /// Go to another of the things under the pointer.
    OtherPart,
    /// Take the choosing tool.
    Choose,
    /// Take the pencil.
    DrawPipe,
    /// Place a thing.
    Place(Item),
    /// Look for places in another plane.
    Plane(Facing),
    /// Bring the plane a step nearer.
    PlaneNearer,
    /// Take the plane a step farther.
    PlaneFarther,
    /// Set the state of what is chosen, or of what is drawn next.
    State(State),
    /// Set the surroundings of what is chosen, or of what is drawn next.
    Lies(Surroundings),
    /// Split the chosen run.
    Split,
    /// Join two runs in line.
    Join,
    /// Turn runs end for end.
    Reverse,
    /// Take the device off.
    TakeOff,
    /// Mirror the chosen branch across an axis.
    Mirror(Axis),
    /// Let the words of what is chosen find their own places again.
    FreeWords,
    /// Arrange the drawn lengths; shows it first.
    Arrange,
    /// Add a copy of the drawing as a variant.
    AddVariant,
    /// Show the next variant.
    NextVariant,
    /// Show the variant before.
    PreviousVariant,
    /// Repeat what is chosen; asks how often and which way.
    Repeat,
    /// Show the drawing larger.
    ZoomIn,
    /// Show the drawing smaller.
    ZoomOut,
    /// Show all of the drawing.
    ZoomFit,
    /// Turn to the paper that is drawn on.
    ShowDraw,
    /// Turn to the lists.
    ShowCheck,
    /// Turn to the sheets.
    ShowSheet,
    /// Show the details of what is chosen.
    ShowDetails,
    /// Put the cursor into the details.
    GoToDetails,
    /// Show the lists.
    ShowLists,
    /// Show all keys.
    ShowKeys,
    /// Show the user guide.
    ShowGuide,
    /// Go through a first drawing.
    FirstDrawing,
    /// Say what this program is and what it is not.
    About,
}

/// Where a command stands in the menus.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Menu {
    /// The job as a file.
    Job,
    /// Steps and choice.
    Edit,
    /// What is drawn.
    Draw,
    /// What is placed.
    Place,
    /// What is changed.
    Change,
    /// What is seen.
    View,
    /// What is explained.
    Help,
}

/// When a command can be used; [`When::instead`] says what is missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum When {
    /// At any time.
    Always,
    /// When there is a step to take back.
    SomethingDone,
    /// When there is a step to do again.
    SomethingUndone,
    /// When something is chosen.
    SomethingChosen,
    /// When one part is chosen.
    OneChosen,
    /// When a run is chosen.
    RunChosen,
    /// When a joint with a device is chosen.
    DeviceChosen,
    /// When two runs that meet are chosen, or the joint between them.
    LineChosen,
    /// When something was copied.
    SomethingCopied,
    /// When the job has another variant.
    SeveralVariants,
}

impl When {
    /// What to do first.
    pub const fn instead(self) -> &'static str {
        match self {
            When::Always => "",
            When::SomethingDone => "no step has been made yet",
            When::SomethingUndone => "no step has been undone",
            When::SomethingChosen => "select something first",
            When::OneChosen => "select one part first",
            When::RunChosen => "select a run first",
            When::DeviceChosen => "select a joint with a device first",
            When::LineChosen => "select two runs in line first, or the joint between them",
            When::SomethingCopied => "copy something first",
            When::SeveralVariants => "the job has no other variant: add one first",
        }
    }
}

/// A row of the command table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Command {
    /// Its name in code.
    pub id: CommandId,
    /// Where it stands.
    pub menu: Menu,
    /// What the menu says.
    pub label: &'static str,
    /// What it does, in one line.
    pub tip: &'static str,
    /// Its usual keys; the first is shown.
    pub keys: &'static [Shortcut],
    /// When it can be used.
    pub when: When,
}

impl CommandId {
    /// Its row of the table.
    pub fn row(self) -> Option<&'static Command> {
        COMMANDS.iter().find(|command| command.id == self)
    }

    /// The command that a shortcut calls.
    pub fn of(shortcut: Shortcut) -> Option<CommandId> {
        COMMANDS
            .iter()
            .find(|command| command.keys.contains(&shortcut))
            .map(|command| command.id)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::PALETTE;
    use std::collections::HashSet;

    #[test]
    fn every_command_has_one_row_one_label_and_keys_of_its_own() {
        let (mut ids, mut labels, mut keys) = (HashSet::new(), HashSet::new(), HashSet::new());
        for command in COMMANDS {
            assert!(ids.insert(command.id), "{:?} twice", command.id);
            assert!(labels.insert(command.label), "{} twice", command.label);
            assert!(
                !command.tip.is_empty() && !command.tip.ends_with('.'),
                "{}",
                command.label
            );
            for key in command.keys {
                assert!(keys.insert(*key), "{key} twice");
                assert_eq!(CommandId::of(*key), Some(command.id));
            }
        }
    }

    #[test]
    fn a_bare_letter_only_takes_a_tool_and_no_shortcut_is_a_key_of_the_pencil_or_types_a_length() {
        for command in &COMMANDS {
            for key in command.keys {
                let is_bare = !key.ctrl && !key.alt;
                let takes_a_tool = matches!(
                    command.id,
                    CommandId::DrawPipe | CommandId::Choose | CommandId::Place(_)
                );
                assert!(
                    !(is_bare && matches!(key.cap, Cap::Letter(_)) && !takes_a_tool),
                    "{key}"
                );
                assert!(!(is_bare && matches!(key.cap, Cap::Digit(_))), "{key}");
                assert!(PENCIL_KEYS.iter().all(|pencil| pencil.keys != *key), "{key}");
            }
        }
    }

    #[test]
    fn everything_on_the_palette_can_be_placed_by_a_command() {
        for row in PALETTE {
            let command = CommandId::Place(row.item)
                .row()
                .unwrap_or_else(|| panic!("{} has no command", row.name));
            assert_eq!((command.label, command.tip), (row.name, row.line));
        }
    }

    #[test]
    fn what_can_not_be_used_says_what_is_missing() {
        for command in COMMANDS {
            assert_eq!(
                command.when == When::Always,
                command.when.instead().is_empty(),
                "{}",
                command.label
            );
        }
    }
}
