//! The patio kitchen drawn from blank paper in the real window, with the mouse alone and with keys alone; what is typed
//! into fields is typed in both.

use crate::apart_from_ids::without_ids;
use crate::form::{By, Entry};
use crate::hand::Hand;
use crate::item::item;
use egui::accesskit::Role;
use egui::{Key, Modifiers, PointerButton, vec2};
use stubout::desk::VIEW;
use stubout::editor::tool::{Draw, Tool};
use stubout::editor::{CommandId, Item, Part, Toward};
use stubout::job::*;
use stubout::scene::Rect;
use stubout::sheet::Field;
use stubout::units::Show;

/// A name in the details and what goes there.
type Filled = Vec<(String, Entry)>;

fn text(filled: &mut Filled, label: &str, value: &str) {
    if !value.is_empty() {
        filled.push((label.to_owned(), Entry::Text(value.to_owned())));
    }
}

fn quantity<T: Show>(filled: &mut Filled, label: &str, value: Option<&T>) {
    text(filled, label, &value.map(Show::exact).unwrap_or_default());
}

fn of_job(job: &Job) -> Filled {
    let mut filled = Filled::new();
    text(&mut filled, "Elevations measured from", &job.settings.datum_name);
    quantity(&mut filled, "Elevation of grid zero", Some(&job.settings.datum));
    filled
}

fn of_title(title: &TitleBlock) -> Filled {
    let mut filled = Filled::new();
    for (field, value) in [
        (Field::Job, &title.job),
        (Field::Site, &title.site),
        (Field::Parcel, &title.parcel),
        (Field::Owner, &title.owner),
        (Field::Firm, &title.firm),
        (Field::Contact, &title.contact),
        (Field::LicenceHolder, &title.licence_holder),
        (Field::Licence, &title.licence),
        (Field::Permit, &title.permit),
        (Field::DrawnBy, &title.drawn_by),
        (Field::CheckedBy, &title.checked_by),
        (Field::Drawing, &title.drawing),
        (Field::Date, &title.date),
        (Field::Description, &title.description),
    ] {
        text(&mut filled, field.caption(), value);
    }
    filled
}

fn of_rating(filled: &mut Filled, names: [&str; 2], rating: &Rating) {
    quantity(filled, names[0], rating.capacity.as_ref());
    quantity(filled, names[1], rating.drop.as_ref());
}

fn of_joint(joint: &Joint) -> Filled {
    let mut filled = Filled::new();
    let label = joint.label.as_deref().unwrap_or_default();
    if joint.placed.is_none() {
        text(&mut filled, "Joint label", label);
    }
    if joint.turn == Turn::StreetElbow {
        filled.push(("Turn here".into(), Entry::Choice("street elbow")));
    }
    let Some(placed) = &joint.placed else { return filled };
    let plain = ["Rated flow", "Drop at rated flow"];
    match &placed.device {
        Device::Supply(it) => {
            quantity(&mut filled, "Delivery pressure", it.pressure.as_ref());
            if let Some(meter) = &it.meter {
                filled.push(("Supplier's meter".into(), Entry::Check));
                of_rating(&mut filled, ["Meter: rated flow", "Meter: drop at rated flow"], meter);
            }
            if let Some(regulator) = &it.regulator {
                filled.push(("Service regulator".into(), Entry::Check));
                of_rating(
                    &mut filled,
                    ["Regulator: rated flow", "Regulator: drop at rated flow"],
                    regulator,
                );
            }
        }
        Device::Valve(it) => {
            if it.kind == ValveKind::Plug {
                filled.push(("Kind".into(), Entry::Choice("plug valve")));
            }
            of_rating(&mut filled, plain, &it.rating);
        }
        Device::SedimentTrap(it) => quantity(&mut filled, "Drip-leg length", it.depth.as_ref()),
        Device::Connector(it) => {
            quantity(&mut filled, "Length", it.length.as_ref());
            of_rating(&mut filled, plain, &it.rating);
        }
        Device::QuickCoupling(it) => of_rating(&mut filled, plain, &it.rating),
        Device::Appliance(it) => {
            text(&mut filled, "Appliance", &it.name);
            if let Some(class) = &it.class {
                let offered = stubout::codebook::Codebook::published().appliance_classes();
                let offered = offered
                    .iter()
                    .find(|one| one.name == *class)
                    .expect("a class of the list");
                filled.push(("Appliance type".into(), Entry::Choice(offered.name)));
            }
            quantity(&mut filled, "Input", it.input.as_ref());
            quantity(&mut filled, "Minimum inlet pressure", it.least_inlet.as_ref());
            quantity(&mut filled, "Maximum inlet pressure", it.greatest_inlet.as_ref());
        }
        Device::Union => {}
        Device::Meter(_) | Device::Regulator(_) | Device::ExcessFlow { .. } | Device::Cap(_) | Device::TestGauge => {
            unreachable!("the patio kitchen has none")
        }
    }
    // What is placed is as the pipe is until somebody says otherwise.
    filled.push(("State".into(), Entry::Choice(placed.state.planned())));
    // What is rarely said is folded away.
    if !label.is_empty() || placed.size.is_some() {
        filled.push(("More: name, ends, take-outs".into(), Entry::Check));
    }
    text(&mut filled, "Joint label", label);
    quantity(&mut filled, "Size of its ends", placed.size.as_ref());
    filled
}

fn of_run(run: &Run, by: By) -> Filled {
    let mut filled = Filled::new();
    if by == By::Mouse {
        quantity(&mut filled, "True length", run.length.as_ref());
    }
    quantity(&mut filled, "Size", run.size.as_ref());
    if run.state == State::Existing {
        filled.push(("State".into(), Entry::Choice("existing")));
    }
    if run.surroundings == Surroundings::Outdoors {
        filled.push(("Location".into(), Entry::Choice("outdoors")));
    }
    if run.coated {
        filled.push(("Painted, coated or wrapped".into(), Entry::Check));
    }
    filled
}

fn of_passage(passage: &Penetration, from: &str) -> Filled {
    let mut filled = Filled::new();
    quantity(&mut filled, &format!("From {from}"), passage.at.as_ref());
    text(
        &mut filled,
        "Construction",
        passage.construction.as_deref().unwrap_or_default(),
    );
    quantity(&mut filled, "Thickness", passage.thickness.as_ref());
    if passage.sleeved {
        filled.push(("Sleeved".into(), Entry::Check));
    }
    if passage.seal == Seal::BothFaces {
        filled.push(("Sealed".into(), Entry::Choice("at both faces")));
    }
    filled
}

/// A hand that draws after a pattern.
struct Copyist<'a> {
    hand: Hand,
    target: &'a Job,
    by: By,
}

impl Copyist<'_> {
    fn place(&self, id: JointId) -> LatticePoint {
        self.target.joints.get(id).unwrap().at
    }

    fn fill(&mut self, filled: &Filled) {
        for (label, entry) in filled {
            // What is folded away lies open already where something was found of it.
            if label.starts_with("More: ") && !self.hand.widgets("Size of its ends").is_empty() {
                continue;
            }
            self.hand.fill(label, entry, self.by);
        }
    }

    /// Fills in what is said of the whole job.
    fn job(&mut self) {
        self.hand.fill("Units, elevations, north", &Entry::Check, self.by);
        self.hand.rest();
        self.fill(&of_job(self.target));
        self.hand.shortcut(CommandId::ShowSheet);
        self.hand.rest();
        self.hand.frame();
        self.fill(&of_title(&self.target.title));
        self.revisions();
        self.hand.shortcut(CommandId::ShowDraw);
        self.hand.rest();
    }

    fn revisions(&mut self) {
        let revisions = &self.target.title.revisions;
        if revisions.is_empty() {
            return;
        }
        self.hand.fill("Revisions", &Entry::Check, self.by);
        for (at, revision) in revisions.iter().enumerate() {
            self.hand.fill("Add an issue", &Entry::Check, self.by);
            for (name, value) in [
                ("mark", &revision.mark),
                ("date", &revision.date),
                ("what changed", &revision.what),
                ("by", &revision.by),
            ] {
                let mut filled = Filled::new();
                text(&mut filled, &format!("Issue {}: {name}", at + 1), value);
                self.fill(&filled);
            }
        }
    }

    /// Brings all places of the pattern into view, with the wheel and the middle button.
    fn make_room(&mut self) {
        let around = Rect::around(self.target.joints.iter().map(|joint| VIEW.point(joint.at))).unwrap();
        let middle = self.hand.screen(LatticePoint::default());
        self.hand.move_to(middle);
        while self.hand.app().canvas().camera.scale > 2.2 {
            self.hand.wheel(-1.0);
        }
        let now = self.hand.screen_of_paper(around.center());
        self.hand.drag_screen(
            now.lerp(middle, 0.5),
            middle + (middle - now) * 0.5,
            PointerButton::Middle,
        );
    }

    fn pencil(&self) -> Option<LatticePoint> {
        match self.hand.editor().tool() {
            Tool::Draw(Draw::Drawing(pencil)) => Some(pencil.start.at),
            _ => None,
        }
    }

    fn draw(&mut self, run: &Run) {
        let [from, to] = [run.from, run.to].map(|id| self.place(id));
        if self.pencil() != Some(from) {
            self.start_at(from);
        }
        assert_eq!(self.pencil(), Some(from), "{}", self.hand.status());
        match self.by {
            By::Mouse => self.hand.click_at(to),
            By::Keys => {
                let toward = Toward::of(to - from).expect("along an axis");
                self.hand.way(toward);
                for _ in 1..(to - from).dot(toward.way()) {
                    self.hand.key(Key::Space);
                }
                // Measured by hand, so that a typed length does not change how it is drawn.
                self.hand.key(Key::Space);
                self.hand.chord(Modifiers::SHIFT, Key::Space);
                self.hand
                    .type_text(&run.length.map_or(String::new(), |length| length.exact()));
                self.hand.key(Key::Enter);
            }
        }
    }

    fn start_at(&mut self, from: LatticePoint) {
        match self.by {
            By::Mouse => {
                self.hand.shelf("Draw pipe");
                self.hand.click_at(from);
            }
            By::Keys => {
                let here = self
                    .hand
                    .job()
                    .joints
                    .iter()
                    .find(|joint| joint.at == from)
                    .map(|joint| joint.id);
                self.put_down();
                match here {
                    // Pipe starts at what is chosen.
                    Some(id) => self.choose(Part::Joint(id)),
                    None => self.hand.shortcut(CommandId::ChooseAll),
                }
                self.hand.shortcut(CommandId::DrawPipe);
                self.hand.key(Key::Enter);
            }
        }
    }

    /// Puts down what is in hand: what was placed stays there until then.
    fn put_down(&mut self) {
        // A field that still has the keyboard keeps its keys: Esc gives them back to the paper.
        let types = |focused: crate::hand::Widget| focused.role == Role::TextInput;
        if self.by == By::Keys && self.hand.focused().is_some_and(types) {
            self.hand.key(Key::Escape);
        }
        match self.by {
            _ if matches!(self.hand.editor().tool(), Tool::Choose(_)) => {}
            By::Mouse => self.hand.shelf("Select and move"),
            By::Keys => self.hand.shortcut(CommandId::Choose),
        }
    }

    /// Chooses a part that was drawn.
    fn choose(&mut self, part: Part) {
        let is_chosen = |hand: &Hand| hand.editor().selection().single() == Some(part);
        if !is_chosen(&self.hand) {
            self.put_down();
        }
        for _ in 0..100 {
            if is_chosen(&self.hand) {
                // The details follow with the next frame.
                self.hand.frame();
                return;
            }
            match self.by {
                By::Mouse => {
                    let places = stubout::view::canvas::places(self.hand.job(), part);
                    let at = Rect::around(places).unwrap().center();
                    let at = self.hand.screen_of_paper(at);
                    self.hand.click_screen(at + vec2(1.0, -1.0));
                }
                By::Keys => {
                    self.hand.shortcut(CommandId::NextPart);
                }
            }
        }
        self.hand.look("cannot_be_chosen");
        panic!("{part} cannot be chosen: {}", self.hand.status());
    }

    /// Takes a thing from the shelf.
    fn take(&mut self, item: Item) {
        let name = item.row().name;
        match self.by {
            By::Mouse => self.hand.shelf(name),
            By::Keys => {
                self.hand
                    .tab_to(name, |_, focused| focused.words == name && focused.rect.max.x < 260.0);
                self.hand.key(Key::Enter);
            }
        }
    }

    fn joint(&mut self, joint: &Joint) {
        let drawn = self.hand.job().joints.iter().find(|one| one.at == joint.at).unwrap().id;
        let part = Part::Joint(drawn);
        let filled = of_joint(joint);
        match &joint.placed {
            Some(placed) => {
                if self.by == By::Keys {
                    self.choose(part);
                }
                self.take(item(&placed.device));
                match self.by {
                    By::Mouse => self.hand.click_at(joint.at),
                    By::Keys => self.hand.key(Key::Enter),
                }
            }
            None if filled.is_empty() => return,
            None => {}
        }
        self.choose(part);
        self.fill(&filled);
    }

    fn run(&mut self, run: &Run) {
        let [from, to] = [run.from, run.to].map(|id| self.place(id));
        let job = self.hand.job();
        let place = |id| job.joints.get(id).unwrap().at;
        let drawn = job
            .runs
            .iter()
            .find(|one| place(one.from) == from && place(one.to) == to)
            .unwrap()
            .id;
        let start = job.runs.get(drawn).unwrap().from;
        self.choose(Part::Run(drawn));
        self.fill(&of_run(run, self.by));
        for (at, passage) in run.penetrations.iter().enumerate() {
            if self.by == By::Keys {
                self.choose(Part::Run(drawn));
            }
            self.take(Item::Passage(passage.barrier));
            match self.by {
                By::Mouse => {
                    let middle = self.hand.screen(from).lerp(self.hand.screen(to), 0.5);
                    self.hand.click_screen(middle);
                }
                By::Keys => self.hand.key(Key::Enter),
            }
            assert_eq!(
                self.hand.editor().selection().single(),
                Some(Part::Penetration(drawn, at))
            );
            let start = match self.hand.job().joints.get(start).and_then(|joint| joint.device()) {
                Some(device) => format!("{start} {}", device.name()),
                None => start.to_string(),
            };
            self.fill(&of_passage(passage, &start));
        }
    }

    fn note(&mut self, note: &Note) {
        let at = self.place(note.at);
        let drawn = self.hand.job().joints.iter().find(|one| one.at == at).unwrap().id;
        if self.by == By::Keys {
            self.choose(Part::Joint(drawn));
        }
        self.take(Item::Note);
        if self.by == By::Mouse {
            self.hand.point(at);
        }
        self.hand.type_text(&note.text);
        match self.by {
            By::Mouse => self.hand.click(),
            By::Keys => self.hand.key(Key::Enter),
        }
    }
}

#[track_caller]
fn check(by: By) {
    let target = stubout::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
    let hand = Hand::new();
    let blank = hand.written();
    let mut copyist = Copyist {
        hand,
        target: &target,
        by,
    };
    copyist.job();
    if by == By::Mouse {
        copyist.make_room();
    }
    for run in &target.runs {
        copyist.draw(run);
    }
    for _ in 0..3 {
        copyist.hand.key(Key::Escape);
    }
    if by == By::Mouse {
        copyist.hand.menu("View", "Fit to window");
    }
    for joint in &target.joints {
        copyist.joint(joint);
    }
    for run in &target.runs {
        copyist.run(run);
    }
    for note in &target.notes {
        copyist.note(note);
    }
    let mut hand = copyist.hand;
    hand.key(Key::Escape);
    hand.rest();
    hand.look(&format!("redrawn_by_{by:?}"));
    let (drawn, wanted) = (without_ids(hand.job()), without_ids(&target));
    for (drawn, wanted) in drawn.lines().zip(wanted.lines()) {
        assert_eq!(drawn, wanted);
    }
    assert_eq!(drawn, wanted);
    // All of it is taken back and done again.
    let end = hand.written();
    let mut steps = 0;
    while hand.editor().can(CommandId::Undo) {
        match by {
            By::Mouse => hand.command(CommandId::Undo),
            By::Keys => hand.shortcut(CommandId::Undo),
        }
        steps += 1;
    }
    assert_eq!(hand.written(), blank);
    for _ in 0..steps {
        match by {
            By::Mouse => hand.command(CommandId::Redo),
            By::Keys => hand.shortcut(CommandId::Redo),
        }
    }
    assert_eq!(hand.written(), end);
}

#[test]
fn the_patio_kitchen_is_drawn_with_the_mouse() {
    check(By::Mouse);
}

#[test]
fn the_patio_kitchen_is_drawn_with_keys() {
    check(By::Keys);
}
