//! What lies on the desk: the job in the making and everything that follows from it. Knows no widgets.
//!
//! After every change study and picture are made anew, at once for jobs of up to [`AT_ONCE`] runs, else on another
//! thread; until that is done the desk says that what it shows is of an earlier state ([`Desk::is_current`]).

use super::issued::Issued;
use super::later::Later;
use crate::advice::{Audit, Headroom};
use crate::changes::Changes;
use crate::codebook::Codebook;
use crate::drawing::tags::{self, Subject};
use crate::drawing::{Isometric, Lettering, Options, Projection, Scale, isometric};
use crate::editor::edit::{Fixes, as_built};
use crate::editor::tool::Tool;
use crate::editor::{self, CommandId, Editor, Part, Refusal, Selection, Step, Words};
use crate::job::{Job, JointId, RunId};
use crate::rules::Checked;
use crate::scene::{Group, Item, Point, Rect, Role, Scene, Tag, hit};
use crate::sheet;
use crate::work::{CutList, OrderOfWork, StockPlan, TakeOff};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

/// Jobs of up to so many runs are studied and drawn in the same frame.
pub const AT_ONCE: usize = 2_000;

/// What jobs of up to so many runs carry is worked out in the same frame.
const FEW: usize = 200;

/// Where the lattice lies on the paper of the canvas: steps as long as on a roomy sheet, so that words keep their
/// proportion to pipe.
pub const VIEW: Projection = Projection {
    origin: Point::new(0.0, 0.0),
    step: 5.0,
};

/// So many times farther than another tool one that places something on pipe is led to it.
const SNAP: f64 = 2.0;

/// A joint is meant within so many steps of its place, so that short runs can be pointed at beside it.
const JOINT_REACH: f64 = 0.3;

/// How the drawing is lettered on the canvas.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Face {
    /// As on the permit drawing.
    #[default]
    Usual,
    /// With the marks and lengths of the cut list.
    Pieces,
}

/// A job with all that follows from it, at one revision.
#[derive(Clone, Debug)]
pub struct Shown {
    /// The editor's revision that it was made of.
    pub revision: u64,
    /// How it is lettered.
    pub face: Face,
    /// The job as it was then.
    pub job: Arc<Job>,
    /// What follows from it, and what the rules found.
    pub checked: Arc<Checked>,
    /// What it looks like on the canvas, without its axes.
    pub picture: Isometric,
    /// What changed since the issue that it is compared with.
    pub changes: Option<Arc<Changes>>,
    /// The axes with north and scale, which stay in a corner of the canvas.
    pub axes: Option<Group>,
    /// The same as a scene, to be asked what lies under the pointer.
    scene: Scene,
}

impl Shown {
    /// Studies and draws a job.
    pub fn of(job: Arc<Job>, book: &Codebook, revision: u64, issued: Option<&Issued>) -> Shown {
        let checked = Arc::new(Checked::of(&job, book));
        let changes = issued.map(|issued| Arc::new(issued.changes(&job, &checked.study)));
        Shown::lettered(job, checked, revision, Lettering::All, changes)
    }

    fn lettered(
        job: Arc<Job>,
        checked: Arc<Checked>,
        revision: u64,
        lettering: Lettering<'_>,
        changes: Option<Arc<Changes>>,
    ) -> Shown {
        let options = Options {
            scale: Scale::Fixed(VIEW),
            lettering,
            since: changes.as_deref(),
            ..Options::default()
        };
        let area = Rect::new(Point::new(-90.0, -60.0), Point::new(90.0, 60.0));
        let mut picture = isometric(&job, &checked.study, area, options);
        let mut axes = None;
        picture.group = without_axes(&picture.group, &mut axes);
        picture.bounds = picture.group.bounds();
        let mut scene = Scene::new(1.0, 1.0, "");
        scene.push(picture.group.clone());
        let face = match lettering {
            Lettering::Other(_) => Face::Pieces,
            Lettering::All | Lettering::SizesBlank | Lettering::Nothing => Face::Usual,
        };
        Shown {
            revision,
            face,
            job,
            checked,
            picture,
            changes,
            axes,
            scene,
        }
    }

    /// What a tool means at a point of paper, within `radius` mm: a hand that chooses may point at words, one that draws or
    /// places means the pipe, whatever words lie there, and is led to it from farther away where it can go nowhere else.
    pub fn meant_at(&self, at: Point, radius: f64, tool: &Tool) -> Vec<Part> {
        let drawn = |radius, near| self.found_at(at, [radius, near], |tag| !is_wordy(tag));
        let near = radius.min(VIEW.step * JOINT_REACH);
        match tool {
            Tool::Choose(_) => self.parts_at(at, radius),
            Tool::Draw(_) | Tool::Put(_) => drawn(radius, near),
            Tool::Place(_) => {
                let here = drawn(radius, near);
                match here.is_empty() {
                    true => drawn(radius * SNAP, 0.0).into_iter().take(1).collect(),
                    false => here,
                }
            }
        }
    }

    /// The parts drawn within `radius` mm of a point of paper: joints whose place is meant, then the rest, nearest first.
    /// An elbow or an open end has no symbol of its own, yet one can point at it.
    pub fn parts_at(&self, at: Point, radius: f64) -> Vec<Part> {
        self.found_at(at, [radius, radius.min(VIEW.step * JOINT_REACH)], |_| true)
    }

    /// The parts drawn within the first of two radii; joints whose place lies within the second come before them.
    fn found_at(&self, at: Point, [radius, near]: [f64; 2], which: impl Fn(&Tag) -> bool) -> Vec<Part> {
        let places = self.job.joints.iter().map(|joint| (VIEW.point(joint.at), joint.id));
        let mut meant: Vec<(f64, JointId)> = places
            .map(|(place, id)| (place.distance(at), id))
            .filter(|(distance, _)| *distance <= near)
            .collect();
        meant.sort_by(|(a, _), (b, _)| a.total_cmp(b));
        let mut parts: Vec<Part> = meant.into_iter().map(|(_, id)| Part::Joint(id)).collect();
        for tag in hit(&self.scene, at, radius).into_iter().filter(which) {
            if let Some(part) = self.part(tag, at)
                && !parts.contains(&part)
            {
                parts.push(part);
            }
        }
        parts
    }

    /// The words at a point of paper, which a person may put elsewhere; those of the cut list may not be.
    pub fn words_at(&self, at: Point) -> Option<Words> {
        if self.face == Face::Pieces {
            return None;
        }
        let here = self
            .picture
            .lettered
            .iter()
            .find(|lettered| lettered.room.contains(at))?;
        Some(Words {
            part: self.speaks_of(here.subject)?,
            room: here.room,
            anchor: here.anchor,
        })
    }

    /// The part that words speak of.
    fn speaks_of(&self, subject: Subject) -> Option<Part> {
        match subject {
            Subject::Run(position) => Some(Part::Run(self.job.runs.iter().nth(position)?.id)),
            Subject::Joint(position) => Some(Part::Joint(self.job.joints.iter().nth(position)?.id)),
            Subject::Note(position) => Some(Part::Note(position)),
            Subject::Passage(position) => {
                let (run, passage) = tags::passage(&self.job, position)?;
                Some(Part::Penetration(self.job.runs.iter().nth(run)?.id, passage))
            }
            Subject::Change(_) | Subject::Sheet => None,
        }
    }

    /// What a tag of the picture stands for, seen from a point of paper.
    fn part(&self, tag: Tag, at: Point) -> Option<Part> {
        match tag.role {
            Role::Line => Some(Part::Run(RunId(tag.key))),
            Role::Symbol => Some(Part::Joint(JointId(tag.key))),
            Role::Plane => self.passage(RunId(tag.key), at),
            Role::Label | Role::Leader => self.speaks_of(Subject::of(tag)?),
            Role::Frame | Role::Table | Role::Mark => None,
        }
    }

    /// The passage of a run that lies nearest to a point; the run itself when it has none.
    fn passage(&self, run: RunId, at: Point) -> Option<Part> {
        let it = self.job.runs.get(run)?;
        let (from, to) = (self.job.joints.get(it.from)?, self.job.joints.get(it.to)?);
        let (a, b) = (VIEW.point(from.at), VIEW.point(to.at));
        let whole = self.job.true_length(it).feet();
        let distance = |passage: usize| {
            let share = it.penetrations[passage]
                .at
                .map_or(0.5, |along| along.feet() / whole.max(1e-9));
            a.toward(b, share.clamp(0.0, 1.0)).distance(at)
        };
        let nearest = (0..it.penetrations.len()).min_by(|a, b| distance(*a).total_cmp(&distance(*b)));
        Some(nearest.map_or(Part::Run(run), |passage| Part::Penetration(run, passage)))
    }
}

/// Whether a tag is one of words or of the line that leads to them.
fn is_wordy(tag: &Tag) -> bool {
    matches!(tag.role, Role::Label | Role::Leader)
}

/// A group without the axes in it, which are taken out.
fn without_axes(group: &Group, axes: &mut Option<Group>) -> Group {
    let mut rest = Group::new();
    (rest.tag, rest.label) = (group.tag, group.label.clone());
    for item in group.items() {
        match item {
            Item::Group(inner) if inner.tag.and_then(Subject::of) == Some(Subject::Sheet) => *axes = Some(arms(inner)),
            Item::Group(inner) => rest.push(without_axes(inner, axes)),
            Item::Path(_) | Item::Text(_) => rest.push(item.clone()),
        }
    }
    rest
}

/// The arms of the axes with their letters; what else stands with them is for the sheet.
fn arms(axes: &Group) -> Group {
    let is_letter = |item: &&Item| match item {
        Item::Text(text) => text.words().len() <= "up".len(),
        Item::Path(_) | Item::Group(_) => true,
    };
    axes.items()
        .iter()
        .filter(is_letter)
        .fold(Group::new(), |arms, item| arms.with(item.clone()))
}

/// What the system of a job carries, and what can be added to it.
#[derive(Clone, Debug)]
pub struct Carried {
    /// What stands, before and after.
    pub audit: Audit,
    /// What can be added at each joint.
    pub headroom: Headroom,
}

/// What a job takes: its pieces, the sticks that they are cut from, and everything that is bought.
#[derive(Clone, Debug)]
pub struct Takes {
    /// The pieces.
    pub cuts: CutList,
    /// The sticks.
    pub stock: StockPlan,
    /// Everything.
    pub take_off: TakeOff,
    /// The job lettered with the marks of the pieces.
    pub shown: Shown,
}

impl Takes {
    fn of(job: &Arc<Job>, checked: Arc<Checked>, book: &Codebook, revision: u64) -> Takes {
        let study = &checked.study;
        let cuts = CutList::of(job, study, book);
        let words = sheet::piece_words(job, study, &cuts);
        let stock = StockPlan::of(&cuts, study, book);
        Takes {
            take_off: TakeOff::of(job, study, book, &cuts, &stock),
            shown: Shown::lettered(
                Arc::clone(job),
                Arc::clone(&checked),
                revision,
                Lettering::Other(&words),
                None,
            ),
            cuts,
            stock,
        }
    }
}

/// The job in the making with what follows from it.
pub struct Desk {
    editor: Editor,
    book: Arc<Codebook>,
    /// How often other tables or profiles came to hand.
    booked: u64,
    shown: Shown,
    work: Option<Receiver<Shown>>,
    wake: Arc<dyn Fn() + Send + Sync>,
    carried: Later<Carried>,
    fixes: Later<Fixes>,
    takes: Later<Takes>,
    order: Later<OrderOfWork>,
    face: Face,
    issued: Option<Arc<Issued>>,
    /// How often the job was compared with another one, or no longer.
    compared: u64,
    newly_compared: bool,
    sought_place: Option<Point>,
    asked: Vec<CommandId>,
    sought: Option<Part>,
    opened: u64,
}

impl Desk {
    /// A desk with a job that lies saved as it is; `wake` is called from another thread when something new is to be
    /// seen.
    pub fn new(job: Job, wake: impl Fn() + Send + Sync + 'static) -> Desk {
        let book = Arc::new(Codebook::published().clone());
        let mut editor = Editor::new(job);
        editor.set_view(VIEW);
        let shown = Shown::of(Arc::new(editor.job().clone()), &book, editor.revision(), None);
        Desk {
            editor,
            book,
            booked: 0,
            shown,
            work: None,
            wake: Arc::new(wake),
            carried: Later::default(),
            fixes: Later::default(),
            takes: Later::default(),
            order: Later::default(),
            face: Face::default(),
            issued: None,
            compared: 0,
            newly_compared: false,
            sought_place: None,
            asked: Vec::new(),
            sought: None,
            opened: 0,
        }
    }

    /// The editor.
    pub fn editor(&self) -> &Editor {
        &self.editor
    }

    /// The editor, to be worked with. What follows is made anew at the next [`Desk::refresh`].
    pub fn editor_mut(&mut self) -> &mut Editor {
        &mut self.editor
    }

    /// The job as it is now.
    pub fn job(&self) -> &Job {
        self.editor.job()
    }

    /// What is published, with the tables and profiles of the person's own that are at hand.
    pub fn book(&self) -> Arc<Codebook> {
        Arc::clone(&self.book)
    }

    /// Works by other tables and profiles from now on.
    pub fn take_book(&mut self, book: Codebook) {
        self.book = Arc::new(book);
        self.booked += 1;
        self.refresh();
    }

    /// What is shown: of the job as it is when [`Desk::is_current`] says so.
    pub fn shown(&self) -> &Shown {
        &self.shown
    }

    /// Whether what is shown is of the job as it is.
    pub fn is_current(&self) -> bool {
        self.shown.revision == self.revision()
    }

    /// Counts whatever changes what is shown: edits, what the job is compared with, and what is published.
    pub fn revision(&self) -> u64 {
        self.editor.revision() + self.compared + self.booked
    }

    /// The issue that the job is compared with.
    pub fn issued(&self) -> Option<&Arc<Issued>> {
        self.issued.as_ref()
    }

    /// Compares the job with an issue from now on, or with none.
    pub fn compare(&mut self, issued: Option<Issued>) {
        self.newly_compared = issued.is_some();
        self.issued = issued.map(Arc::new);
        self.compared += 1;
        self.refresh();
    }

    /// Whether the job was set beside an issue since this was last asked.
    pub fn take_newly_compared(&mut self) -> bool {
        std::mem::take(&mut self.newly_compared)
    }

    /// Issues the job as built, in one step.
    pub fn make_as_built(&mut self) {
        self.refresh();
        let checked = match self.is_current() {
            true => Arc::clone(&self.shown.checked),
            false => Arc::new(Checked::of(self.job(), &self.book)),
        };
        self.attempt(|job| as_built(job, &checked.study));
    }

    /// What the system carries, of the revision that is shown; `None` while it is worked out.
    pub fn carried(&mut self) -> Option<&Carried> {
        let (revision, job, book) = (self.shown.revision, Arc::clone(&self.shown.job), self.book());
        let make = move || Carried {
            audit: Audit::of(&job, &book),
            headroom: Headroom::of(&job, &book),
        };
        match self.shown.job.runs.len() <= FEW {
            true => self.carried.at_once(revision, make),
            false => self.carried.of(revision, &self.wake, make),
        }
    }

    /// The same where it is there already.
    pub fn carried_by_now(&self) -> Option<&Carried> {
        self.carried.kept(self.shown.revision)
    }

    /// What the job that is shown takes; `None` while it is worked out.
    pub fn takes(&mut self) -> Option<&Takes> {
        let (revision, job, book) = (self.shown.revision, Arc::clone(&self.shown.job), self.book());
        let checked = Arc::clone(&self.shown.checked);
        let make = move || Takes::of(&job, checked, &book, revision);
        match self.shown.job.runs.len() <= FEW {
            true => self.takes.at_once(revision, make),
            false => self.takes.of(revision, &self.wake, make),
        }
    }

    /// The same where it is there already.
    pub fn takes_by_now(&self) -> Option<&Takes> {
        self.takes.kept(self.shown.revision)
    }

    /// The order of work of the job that is shown.
    pub fn order(&mut self) -> Option<&OrderOfWork> {
        let Shown {
            revision, job, checked, ..
        } = &self.shown;
        let book = &self.book;
        self.order
            .at_once(*revision, || OrderOfWork::of(job, &checked.study, book))
    }

    /// The same where it is there already.
    pub fn order_by_now(&self) -> Option<&OrderOfWork> {
        self.order.kept(self.shown.revision)
    }

    /// What the canvas shows: with the marks of the pieces where they are asked for and there by now.
    pub fn seen(&self) -> &Shown {
        match self.face {
            Face::Usual => &self.shown,
            Face::Pieces => self.takes_by_now().map_or(&self.shown, |takes| &takes.shown),
        }
    }

    /// How the canvas is to be lettered.
    pub fn letter(&mut self, face: Face) {
        self.face = face;
    }

    /// The ways to fix the job that is shown; `None` while they are worked out, which takes its time.
    pub fn fixes(&mut self) -> Option<&Fixes> {
        let (revision, job, book) = (self.shown.revision, Arc::clone(&self.shown.job), self.book());
        let checked = Arc::clone(&self.shown.checked);
        let make = move || Fixes::of(&job, &book, &checked);
        self.fixes.of(revision, &self.wake, make)
    }

    /// Called from another thread when something new is to be seen.
    pub fn wake(&self) -> Arc<dyn Fn() + Send + Sync> {
        Arc::clone(&self.wake)
    }

    /// Does an edit; what stands against it is said in the status line.
    pub fn attempt(&mut self, edit: impl FnOnce(&Job) -> Result<Step, Refusal>) {
        if let Err(why) = self.editor.edit(edit) {
            self.editor.say(why);
        }
        self.refresh();
    }

    /// Goes over to another job that lies saved as it is.
    pub fn open(&mut self, job: Job) {
        self.editor.open(job);
        self.editor.set_view(VIEW);
        (self.sought, self.sought_place) = (None, None);
        // Parts of one job are none of another.
        if self.issued.take().is_some() {
            self.compared += 1;
        }
        self.opened += 1;
        self.refresh();
    }

    /// How often the desk went over to another job: parts of one job are none of another.
    pub fn opened(&self) -> u64 {
        self.opened
    }

    /// Does a command, or puts it down for the window to do.
    pub fn run(&mut self, id: CommandId) {
        match self.editor.run(id) {
            editor::Outcome::Done | editor::Outcome::Refused(_) => self.refresh(),
            editor::Outcome::ForWindow => self.asked.push(id),
        }
    }

    /// Whether the window is to do a command.
    pub fn is_asked(&self) -> bool {
        !self.asked.is_empty()
    }

    /// The commands that the window is to do, oldest first; they are taken away.
    pub fn take_asked(&mut self) -> Vec<CommandId> {
        std::mem::take(&mut self.asked)
    }

    /// Chooses a part and asks the canvas to show its place.
    pub fn seek(&mut self, part: Part) {
        self.editor.select([part].into_iter().collect::<Selection>());
        self.sought = Some(part);
    }

    /// Asks the canvas to show a place of paper where nothing stands any more.
    pub fn seek_place(&mut self, at: Point) {
        self.editor.select(Selection::none());
        self.sought_place = Some(at);
    }

    /// The place that is to be shown; it is taken away.
    pub fn take_sought_place(&mut self) -> Option<Point> {
        self.sought_place.take()
    }

    /// The part whose place is to be shown; it is taken away.
    pub fn take_sought(&mut self) -> Option<Part> {
        self.sought.take()
    }

    /// Brings what is shown up to the job as it is, or sets another thread to it.
    pub fn refresh(&mut self) {
        if let Some(work) = &self.work {
            match work.try_recv() {
                Ok(shown) => {
                    self.work = None;
                    self.shown = shown;
                }
                Err(TryRecvError::Empty) => return,
                Err(TryRecvError::Disconnected) => self.work = None,
            }
        }
        if self.is_current() {
            return;
        }
        let (job, book, revision) = (Arc::new(self.job().clone()), self.book(), self.revision());
        let issued = self.issued.clone();
        if job.runs.len() <= AT_ONCE {
            self.shown = Shown::of(job, &book, revision, issued.as_deref());
            return;
        }
        let (to, from) = channel();
        let wake = Arc::clone(&self.wake);
        std::thread::spawn(move || {
            // Nobody may be waiting any more: then there is nothing to do.
            if to.send(Shown::of(job, &book, revision, issued.as_deref())).is_ok() {
                wake();
            }
        });
        self.work = Some(from);
    }
}
