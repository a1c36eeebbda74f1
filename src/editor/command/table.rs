//! The table itself.

use super::{Cap, Command, CommandId as Id, Menu, Shortcut, When};
use crate::editor::palette::{ApplianceKind, Item, PALETTE, PaletteRow};
use crate::editor::plane::Facing;
use crate::editor::{Arrow, Key, Toward};
use crate::job::{Axis, Barrier, DeviceKind, State, Surroundings};

const fn with_ctrl(letter: char) -> Shortcut {
    Shortcut::ctrl(Cap::Letter(letter))
}

/// A bare letter, which takes a tool.
const fn tool(letter: char) -> Shortcut {
    Shortcut::plain(Cap::Letter(letter))
}

const fn digit(digit: u8) -> Shortcut {
    Shortcut::ctrl(Cap::Digit(digit))
}

const fn side(digit: u8) -> Shortcut {
    Shortcut::alt(Cap::Digit(digit))
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
const SINGLE: [Command; 64] = [
    row(Menu::Job, Id::NewJob, "New job", "Start an empty job", &[with_ctrl('N')], When::Always),
    row(Menu::Job, Id::OpenJob, "Open job…", "Open a job file", &[with_ctrl('O')], When::Always),
    row(Menu::Job, Id::SaveJob, "Save", "Save the job to its file", &[with_ctrl('S')], When::Always),
    row(Menu::Job, Id::SaveJobAs, "Save as…", "Save the job under another name", &[Shortcut::ctrl_shift(Cap::Letter('S'))], When::Always),
    row(Menu::Job, Id::ExportSheet, "Export sheets…", "Save the sheets as PDF, SVG, PNG or DXF", &[with_ctrl('E')], When::Always),
    row(Menu::Job, Id::Print, "Print…", "Make the PDF of the sheets and open it in your PDF viewer, to print from there", &[with_ctrl('P')], When::Always),
    row(Menu::Job, Id::Compare, "Compare with an issued job…", "Cloud and list what has changed since the job was issued", &[], When::Always),
    row(Menu::Job, Id::StopComparing, "Stop comparing", "Remove the clouds and the list of changes", &[], When::Always),
    row(Menu::Job, Id::MakeAsBuilt, "Convert to as-built", "Sizes stay as installed and removed pipe is taken off the drawing; enter the \
     lengths as measured", &[], When::Always),
    row(Menu::Job, Id::OwnFiles, "Your tables and profiles…", "Size by a tubing manufacturer's table or by a local profile, from files of your own", &[], When::Always),
    row(Menu::Job, Id::Quit, "Quit", "Close the program", &[with_ctrl('Q')], When::Always),

    row(Menu::Edit, Id::Undo, "Undo", "Undo the last step", &[with_ctrl('Z')], When::SomethingDone),
    row(Menu::Edit, Id::Redo, "Redo", "Redo what was undone", &[Shortcut::ctrl_shift(Cap::Letter('Z')), with_ctrl('Y')], When::SomethingUndone),
    row(Menu::Edit, Id::Cut, "Cut", "Copy the selection and delete it", &[with_ctrl('X')], When::SomethingChosen),
    row(Menu::Edit, Id::Copy, "Copy", "Copy the selection", &[with_ctrl('C')], When::SomethingChosen),
    row(Menu::Edit, Id::CopyPicture, "Copy sheet as picture", "Copy the first sheet, or the sheet in view, as a picture", &[], When::Always),
    row(Menu::Edit, Id::Paste, "Paste", "Paste what was copied where you point", &[with_ctrl('V')], When::SomethingCopied),
    row(Menu::Edit, Id::Delete, "Delete", "Delete the selection and leave the gap", &[Shortcut::plain(Cap::Delete)], When::SomethingChosen),
    row(Menu::Edit, Id::DeleteAndClose, "Delete and close the gap", "Delete runs; everything downstream moves over and is connected again", &[Shortcut::ctrl(Cap::Delete)], When::SomethingChosen),
    row(Menu::Edit, Id::ChooseAll, "Select all", "Select everything", &[with_ctrl('A')], When::Always),
    row(Menu::Edit, Id::ChooseNothing, "Clear selection", "Select nothing", &[Shortcut::ctrl_shift(Cap::Letter('A'))], When::SomethingChosen),
    row(Menu::Edit, Id::ChooseDownstream, "Select downstream", "Select everything downstream of the selected part", &[with_ctrl('D')], When::OneChosen),
    row(Menu::Edit, Id::NextPart, "Next part", "Go on along the pipe", &[Shortcut::ctrl(Cap::Right)], When::Always),
    row(Menu::Edit, Id::PreviousPart, "Previous part", "Go back along the pipe", &[Shortcut::ctrl(Cap::Left)], When::Always),
    row(Menu::Edit, Id::OtherPart, "Next part under the pointer", "Go to another part under the pointer", &[Shortcut::ctrl(Cap::Space)], When::Always),

    row(Menu::Draw, Id::DrawPipe, "Draw pipe", "Draw from a point of delivery, a joint, an end or the middle of a run", &[tool('D')], When::Always),
    row(Menu::Draw, Id::Choose, "Select and move", "Stop drawing: select parts and move them", &[tool('S')], When::Always),
    row(Menu::Draw, Id::Plane(Facing::Level), "Level plane", "Point at places at one elevation", &[digit(1)], When::Always),
    row(Menu::Draw, Id::Plane(Facing::EastUpright), "Vertical plane, east and west", "Point at places above and below the east-west axis, which goes to the lower right on the paper", &[digit(2)], When::Always),
    row(Menu::Draw, Id::Plane(Facing::NorthUpright), "Vertical plane, north and south", "Point at places above and below the north-south axis, which goes to the upper right on the paper", &[digit(3)], When::Always),
    row(Menu::Draw, Id::PlaneNearer, "Plane nearer", "Move the plane one step up or nearer", &[Shortcut::ctrl(Cap::Up)], When::Always),
    row(Menu::Draw, Id::PlaneFarther, "Plane farther", "Move the plane one step down or farther", &[Shortcut::ctrl(Cap::Down)], When::Always),
    row(Menu::Draw, Id::State(State::New), "New", "To be installed: the selection, or what you draw next", &[digit(4)], When::Always),
    row(Menu::Draw, Id::State(State::Existing), "Existing", "Already there: the selection, or what you draw next", &[digit(5)], When::Always),
    row(Menu::Draw, Id::State(State::Removed), "To be removed", "To be removed: the selection, or what you draw next", &[digit(6)], When::Always),
    row(Menu::Draw, Id::Lies(Surroundings::Indoors), "Exposed indoors", "Indoors and exposed: the selection, or what you draw next", &[Shortcut::alt(Cap::Digit(4))], When::Always),
    row(Menu::Draw, Id::Lies(Surroundings::Concealed), "Concealed", "In a wall, floor or ceiling: the selection, or what you draw next", &[Shortcut::alt(Cap::Digit(5))], When::Always),
    row(Menu::Draw, Id::Lies(Surroundings::Outdoors), "Outdoors", "Outdoors above ground: the selection, or what you draw next", &[Shortcut::alt(Cap::Digit(6))], When::Always),
    row(Menu::Draw, Id::Lies(Surroundings::Underground), "Underground", "Below grade: the selection, or what you draw next", &[Shortcut::alt(Cap::Digit(7))], When::Always),

    row(Menu::Change, Id::Split, "Split", "Split the selected run in its middle", &[with_ctrl('K')], When::RunChosen),
    row(Menu::Change, Id::Join, "Join", "Join two runs in line: select both, or the joint between", &[with_ctrl('J')], When::LineChosen),
    row(Menu::Change, Id::Reverse, "Reverse run", "Swap the ends of the selected runs", &[with_ctrl('R')], When::RunChosen),
    row(Menu::Change, Id::TakeOff, "Remove device", "Leave the plain joint", &[], When::DeviceChosen),
    row(Menu::Change, Id::Mirror(Axis::East), "Mirror across east and west", "Mirror the selected branch about the joint it connects to", &[], When::SomethingChosen),
    row(Menu::Change, Id::Mirror(Axis::North), "Mirror across north and south", "Mirror the selected branch about the joint it connects to", &[], When::SomethingChosen),
    row(Menu::Change, Id::Mirror(Axis::Up), "Mirror up and down", "Mirror the selected branch about the joint it connects to", &[], When::SomethingChosen),
    row(Menu::Change, Id::FreeWords, "Auto-place labels", "Place the selection's labels where there is room, not where they were dragged", &[], When::SomethingChosen),
    row(Menu::Change, Id::Arrange, "Arrange drawn lengths", "Stretch and shift the drawing until it reads; true lengths stay. It is shown before it is done", &[], When::Always),
    row(Menu::Change, Id::Repeat, "Repeat…", "Copy the selection several times at equal spacing along an axis", &[], When::SomethingChosen),
    row(Menu::Change, Id::AddVariant, "Add a variant", "Copy the drawing as another way to do the job, and go on in the copy", &[], When::Always),
    row(Menu::Change, Id::NextVariant, "Next variant", "Show the next variant of the job", &[Shortcut::plain(Cap::F(4))], When::SeveralVariants),
    row(Menu::Change, Id::PreviousVariant, "Previous variant", "Show the variant before", &[Shortcut::shift(Cap::F(4))], When::SeveralVariants),

    row(Menu::View, Id::ZoomIn, "Zoom in", "Show the drawing larger", &[Shortcut::ctrl(Cap::Plus)], When::Always),
    row(Menu::View, Id::ZoomOut, "Zoom out", "Show the drawing smaller", &[Shortcut::ctrl(Cap::Minus)], When::Always),
    row(Menu::View, Id::ZoomFit, "Fit to window", "Show all of the drawing", &[Shortcut::ctrl(Cap::Digit(0))], When::Always),
    row(Menu::View, Id::ShowDraw, "Draw", "Turn to the paper: draw and place", &[side(1)], When::Always),
    row(Menu::View, Id::ShowCheck, "Check", "Turn to the lists: is it right, is it enough, what would help, what to buy", &[side(2)], When::Always),
    row(Menu::View, Id::ShowSheet, "Sheet", "Turn to the sheets as they will be exported, and fill in the title block", &[side(3)], When::Always),
    row(Menu::View, Id::ShowDetails, "Details", "Show the fields of the selected part", &[Shortcut::ctrl_shift(Cap::Letter('D'))], When::Always),
    row(Menu::View, Id::GoToDetails, "Go to the details", "Put the cursor into the field of the selected part that is missing, else into its first", &[Shortcut::ctrl(Cap::Enter)], When::Always),
    row(Menu::View, Id::ShowLists, "Lists", "Open or close the lists under the paper", &[Shortcut::ctrl_shift(Cap::Letter('L'))], When::Always),

    row(Menu::Help, Id::ShowGuide, "User guide", "Open the guide at what is selected or in hand", &[Shortcut::plain(Cap::F(1))], When::Always),
    row(Menu::Help, Id::ShowKeys, "Keys", "Show every key and what it does", &[], When::Always),
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
        letter(from.item),
        When::Always,
    )
}

/// The letter that takes a thing from the shelf; those that are rarely placed have none.
const fn letter(item: Item) -> &'static [Shortcut] {
    match item {
        Item::Device(DeviceKind::Supply) => const { &[tool('P')] },
        Item::Device(DeviceKind::Meter) => const { &[tool('M')] },
        Item::Device(DeviceKind::Regulator) => const { &[tool('R')] },
        Item::Device(DeviceKind::Valve) => const { &[tool('V')] },
        Item::Device(DeviceKind::ExcessFlow) => const { &[tool('X')] },
        Item::Device(DeviceKind::Union) => const { &[tool('U')] },
        Item::Device(DeviceKind::SedimentTrap) => const { &[tool('T')] },
        Item::Device(DeviceKind::Connector) => const { &[tool('H')] },
        Item::Device(DeviceKind::QuickCoupling) => const { &[tool('Q')] },
        Item::Device(DeviceKind::Cap) => const { &[tool('C')] },
        Item::Device(DeviceKind::TestGauge) => const { &[tool('G')] },
        Item::Device(DeviceKind::Appliance) => const { &[tool('A')] },
        Item::Appliance(ApplianceKind::Furnace) => const { &[tool('F')] },
        Item::Appliance(ApplianceKind::WaterHeater) => const { &[tool('W')] },
        Item::Appliance(ApplianceKind::Range) => const { &[tool('K')] },
        Item::Appliance(ApplianceKind::Dryer) => const { &[tool('Y')] },
        Item::Appliance(ApplianceKind::Grill) => const { &[tool('B')] },
        Item::Passage(Barrier::ExteriorWall) => const { &[tool('E')] },
        Item::Passage(Barrier::InteriorWall) => const { &[tool('I')] },
        Item::Passage(Barrier::Foundation) => const { &[tool('O')] },
        Item::Passage(Barrier::Floor) => const { &[tool('L')] },
        Item::Note => const { &[tool('N')] },
        Item::Appliance(ApplianceKind::Fireplace | ApplianceKind::FirePit)
        | Item::Passage(Barrier::Roof | Barrier::Slab | Barrier::Ground) => &[],
    }
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

/// The keys of the canvas. The arrows go along the plane in hand; Page Up and Page Down are straight up and down in each.
/// With [`crate::editor::Held::skew`] a way leads the end of the run one step.
#[rustfmt::skip]
pub static PENCIL_KEYS: [PencilKey; 12] = [
    pencil(Key::Arrow(Arrow::Right), Cap::Right, "To the right in the plane in hand; again: one step longer, the opposite key: shorter; with Shift: the end one step that way"),
    pencil(Key::Arrow(Arrow::Left), Cap::Left, "To the left in the plane in hand"),
    pencil(Key::Arrow(Arrow::Up), Cap::Up, "Up the paper in the plane in hand"),
    pencil(Key::Arrow(Arrow::Down), Cap::Down, "Down the paper in the plane in hand"),
    pencil(Key::Way(Toward::Up), Cap::PageUp, "Straight up, whatever the plane"),
    pencil(Key::Way(Toward::Down), Cap::PageDown, "Straight down, whatever the plane"),
    pencil(Key::Longer, Cap::Space, "One step longer, if no length is typed"),
    PencilKey { key: Key::Shorter, keys: Shortcut::shift(Cap::Space), words: "One step shorter, if no length is typed" },
    pencil(Key::Enter, Cap::Enter, "Do what the status line says"),
    pencil(Key::Backspace, Cap::Backspace, "Delete the last character typed, or the last run"),
    pencil(Key::Escape, Cap::Escape, "End the line, cancel, clear the selection"),
    PencilKey { key: Key::Other, keys: Shortcut::shift(Cap::Enter), words: "Another part under the pointer" },
];
