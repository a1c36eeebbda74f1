//! The table itself.

use super::{Cap, Command, CommandId as Id, Menu, Shortcut, When};
use crate::editor::palette::{PALETTE, PaletteRow};
use crate::editor::plane::Facing;
use crate::editor::{Key, Toward};
use crate::job::{Axis, State, Surroundings};

const fn letter(letter: char) -> Shortcut {
    Shortcut::ctrl(Cap::Letter(letter))
}

const fn f(number: u8) -> Shortcut {
    Shortcut::plain(Cap::F(number))
}

const fn row(
    menu: Menu,
    id: Id,
    label: &'static str,
    tip: &'static str,
    keys: &'static [Shortcut],
    when: When,
) -> Command {
    Command {
        id,
        menu,
        label,
        tip,
        keys,
        when,
    }
}

/// The commands that stand by themselves.
#[rustfmt::skip]
const SINGLE: [Command; 55] = [
    row(Menu::Job, Id::NewJob, "New job", "Start an empty job", &[letter('N')], When::Always),
    row(Menu::Job, Id::OpenJob, "Open job…", "Open a job file", &[letter('O')], When::Always),
    row(Menu::Job, Id::SaveJob, "Save", "Save the job to its file", &[letter('S')], When::Always),
    row(Menu::Job, Id::SaveJobAs, "Save as…", "Save the job under another name", &[Shortcut::ctrl_shift(Cap::Letter('S'))], When::Always),
    row(Menu::Job, Id::ExportSheet, "Hand over the sheet…", "Write the sheet as SVG, PDF, PNG or DXF", &[letter('E')], When::Always),
    row(Menu::Job, Id::Compare, "Compare with an issued job…", "Cloud and list what is different from the job as it was issued", &[], When::Always),
    row(Menu::Job, Id::StopComparing, "Stop comparing", "Take the clouds and the list of changes away", &[], When::Always),
    row(Menu::Job, Id::MakeAsBuilt, "Make it an as-built drawing", "Issue the job as built: laid pipe keeps its sizes, what goes is drawn no more; type the lengths as measured", &[], When::Always),
    row(Menu::Job, Id::OwnFiles, "Own tables and profiles…", "Size by a tubing maker's table or by an office's profile, from files of your own", &[], When::Always),
    row(Menu::Job, Id::Quit, "Quit", "Leave the program", &[letter('Q')], When::Always),

    row(Menu::Edit, Id::Undo, "Undo", "Take the last step back", &[letter('Z')], When::SomethingDone),
    row(Menu::Edit, Id::Redo, "Redo", "Do again what was taken back", &[Shortcut::ctrl_shift(Cap::Letter('Z')), letter('Y')], When::SomethingUndone),
    row(Menu::Edit, Id::Cut, "Cut", "Copy what is chosen and delete it", &[letter('X')], When::SomethingChosen),
    row(Menu::Edit, Id::Copy, "Copy", "Copy what is chosen", &[letter('C')], When::SomethingChosen),
    row(Menu::Edit, Id::Paste, "Paste", "Put down what was copied, where you point", &[letter('V')], When::SomethingCopied),
    row(Menu::Edit, Id::Delete, "Delete", "Delete what is chosen and leave the gap", &[Shortcut::plain(Cap::Delete)], When::SomethingChosen),
    row(Menu::Edit, Id::DeleteAndClose, "Delete and close the gap", "Delete runs; what is downstream moves up and is joined", &[Shortcut::ctrl(Cap::Delete)], When::SomethingChosen),
    row(Menu::Edit, Id::ChooseAll, "Choose all", "Choose everything", &[letter('A')], When::Always),
    row(Menu::Edit, Id::ChooseNothing, "Choose nothing", "Let go of what is chosen", &[Shortcut::ctrl_shift(Cap::Letter('A'))], When::SomethingChosen),
    row(Menu::Edit, Id::ChooseDownstream, "Choose downstream", "Choose all that gas reaches through the chosen part", &[letter('D')], When::OneChosen),
    row(Menu::Edit, Id::NextPart, "Next part", "Go on along the pipe", &[Shortcut::ctrl(Cap::Right)], When::Always),
    row(Menu::Edit, Id::PreviousPart, "Part before", "Go back along the pipe", &[Shortcut::ctrl(Cap::Left)], When::Always),
    row(Menu::Edit, Id::OtherPart, "Other part here", "Go to another of the things under the pointer", &[Shortcut::ctrl(Cap::Space)], When::Always),

    row(Menu::Draw, Id::DrawPipe, "Draw pipe", "Take the pencil: from a supply, a joint, an end or the middle of a run", &[f(2)], When::Always),
    row(Menu::Draw, Id::Choose, "Choose and move", "Put the pencil down: choose parts and move them", &[f(3)], When::Always),
    row(Menu::Draw, Id::Plane(Facing::Level), "Level plane", "Find places at one height", &[f(5)], When::Always),
    row(Menu::Draw, Id::Plane(Facing::EastUpright), "Upright plane, falling", "Find places above and below the axis that falls to the right", &[f(6)], When::Always),
    row(Menu::Draw, Id::Plane(Facing::NorthUpright), "Upright plane, rising", "Find places above and below the axis that rises to the right", &[f(7)], When::Always),
    row(Menu::Draw, Id::PlaneNearer, "Plane nearer", "Bring the plane one step up or nearer", &[Shortcut::ctrl(Cap::Up)], When::Always),
    row(Menu::Draw, Id::PlaneFarther, "Plane farther", "Take the plane one step down or farther", &[Shortcut::ctrl(Cap::Down)], When::Always),
    row(Menu::Draw, Id::State(State::New), "New", "To be installed: what is chosen, else what is drawn next", &[Shortcut::alt(Cap::Digit(1))], When::Always),
    row(Menu::Draw, Id::State(State::Existing), "Existing", "Already there: what is chosen, else what is drawn next", &[Shortcut::alt(Cap::Digit(2))], When::Always),
    row(Menu::Draw, Id::State(State::Removed), "To be removed", "To be taken out: what is chosen, else what is drawn next", &[Shortcut::alt(Cap::Digit(3))], When::Always),
    row(Menu::Draw, Id::Lies(Surroundings::Indoors), "Indoors", "Indoors, to be seen: what is chosen, else what is drawn next", &[Shortcut::alt(Cap::Digit(4))], When::Always),
    row(Menu::Draw, Id::Lies(Surroundings::Concealed), "Concealed", "In a wall, floor or ceiling: what is chosen, else what is drawn next", &[Shortcut::alt(Cap::Digit(5))], When::Always),
    row(Menu::Draw, Id::Lies(Surroundings::Outdoors), "Outdoors", "Outdoors above ground: what is chosen, else what is drawn next", &[Shortcut::alt(Cap::Digit(6))], When::Always),
    row(Menu::Draw, Id::Lies(Surroundings::Underground), "Underground", "In the soil: what is chosen, else what is drawn next", &[Shortcut::alt(Cap::Digit(7))], When::Always),

    row(Menu::Change, Id::Split, "Split", "Make two runs of the chosen one, in its middle", &[letter('K')], When::RunChosen),
    row(Menu::Change, Id::Join, "Join", "Make one run of two in line: choose both, or the joint between", &[letter('J')], When::SomethingChosen),
    row(Menu::Change, Id::Reverse, "Turn end for end", "Swap the ends of the chosen runs", &[letter('R')], When::RunChosen),
    row(Menu::Change, Id::TakeOff, "Take off the device", "The joint stays", &[], When::JointChosen),
    row(Menu::Change, Id::Mirror(Axis::East), "Mirror across east and west", "Turn the chosen branch over about the joint that it hangs on", &[], When::SomethingChosen),
    row(Menu::Change, Id::Mirror(Axis::North), "Mirror across north and south", "Turn the chosen branch over about the joint that it hangs on", &[], When::SomethingChosen),
    row(Menu::Change, Id::Mirror(Axis::Up), "Mirror up and down", "Turn the chosen branch over about the joint that it hangs on", &[], When::SomethingChosen),
    row(Menu::Change, Id::FreeWords, "Let labels find their places", "The words of what is chosen stand where there is room, no longer where they were dragged", &[], When::SomethingChosen),
    row(Menu::Change, Id::Repeat, "Repeat…", "Copy what is chosen at equal steps along an axis", &[], When::SomethingChosen),

    row(Menu::View, Id::ZoomIn, "Larger", "Show the drawing larger", &[Shortcut::ctrl(Cap::Plus)], When::Always),
    row(Menu::View, Id::ZoomOut, "Smaller", "Show the drawing smaller", &[Shortcut::ctrl(Cap::Minus)], When::Always),
    row(Menu::View, Id::ZoomFit, "Whole drawing", "Show all of the drawing", &[Shortcut::ctrl(Cap::Digit(0))], When::Always),
    row(Menu::View, Id::ShowSheet, "Sheet", "Show the sheet as it will be handed over", &[f(8)], When::Always),
    row(Menu::View, Id::ShowDetails, "Details", "Show what is said of the chosen part", &[f(9)], When::Always),
    row(Menu::View, Id::GoToDetails, "Go to the details", "Put the cursor into the first field that is said of the chosen part", &[f(4)], When::Always),
    row(Menu::View, Id::ShowLists, "Lists", "Show findings, sections, fittings and appliances", &[Shortcut::shift(Cap::F(9))], When::Always),

    row(Menu::Help, Id::ShowKeys, "Keys", "Show every key and what it does", &[f(1)], When::Always),
    row(Menu::Help, Id::FirstDrawing, "A first drawing", "Draw a short gas line in five steps, with help", &[], When::Always),
];

const ABOUT: Command = row(
    Menu::Help,
    Id::About,
    "About and cautions",
    "What this program is, what it checks, and what it does not",
    &[],
    When::Always,
);

const fn place(from: PaletteRow) -> Command {
    row(
        Menu::Place,
        Id::Place(from.item),
        from.name,
        from.line,
        &[],
        When::Always,
    )
}

const COUNT: usize = SINGLE.len() + PALETTE.len() + 1;

const fn all() -> [Command; COUNT] {
    let mut rows = [ABOUT; COUNT];
    let mut at = 0;
    while at < SINGLE.len() {
        rows[at] = SINGLE[at];
        at += 1;
    }
    let mut item = 0;
    while item < PALETTE.len() {
        rows[at + item] = place(PALETTE[item]);
        item += 1;
    }
    rows
}

/// Every command, menu by menu; those that place something follow the palette.
pub static COMMANDS: [Command; COUNT] = all();

/// A key that works over the canvas while something is drawn, placed or chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PencilKey {
    /// The key, as the editor takes it.
    pub key: Key,
    /// The key on the keyboard.
    pub keys: Shortcut,
    /// What it does.
    pub words: &'static str,
}

const fn pencil(key: Key, cap: Cap, words: &'static str) -> PencilKey {
    PencilKey {
        key,
        keys: Shortcut::plain(cap),
        words,
    }
}

/// The keys of the canvas. The six ways lie on the keys as they lie on the paper: on a keyboard's number block they are
/// a hexagon; the arrows left and right turn the pencil where that block is missing. With [`crate::editor::Held::skew`]
/// a way leads the end of the run one step.
#[rustfmt::skip]
pub static PENCIL_KEYS: [PencilKey; 14] = [
    pencil(Key::Way(Toward::Up), Cap::Up, "Up; again: one step longer, the way back: shorter; with Shift: the end one step up"),
    pencil(Key::Way(Toward::Down), Cap::Down, "Down; with Shift: the end one step down, and so for every way"),
    pencil(Key::Way(Toward::North), Cap::PageUp, "Up to the right"),
    pencil(Key::Way(Toward::South), Cap::End, "Down to the left"),
    pencil(Key::Way(Toward::East), Cap::PageDown, "Down to the right"),
    pencil(Key::Way(Toward::West), Cap::Home, "Up to the left"),
    pencil(Key::Clockwise, Cap::Right, "Turn the pencil clockwise"),
    pencil(Key::Counterclockwise, Cap::Left, "Turn the pencil counterclockwise"),
    pencil(Key::Longer, Cap::Space, "One step longer, while no length is typed"),
    PencilKey { key: Key::Shorter, keys: Shortcut::shift(Cap::Space), words: "One step shorter, while no length is typed" },
    pencil(Key::Enter, Cap::Enter, "Do what the status line says"),
    pencil(Key::Backspace, Cap::Backspace, "Take back the last character typed, else the last run"),
    pencil(Key::Escape, Cap::Escape, "End the line, give up, let go"),
    PencilKey { key: Key::Other, keys: Shortcut::shift(Cap::Enter), words: "Another of the things under the pointer" },
];
