//! What lies on the desk: the job in the making and everything that follows from it, what one part of the window asks of
//! another, and what is remembered from one day to the next. Knows no widgets.
//!
//! After every change study and picture are made anew where it touches them, at once for jobs of up to [`AT_ONCE`] runs,
//! else on another thread; until that is done the desk says that what it shows is of an earlier state ([`Desk::is_current`]).

pub mod issued;
pub mod later;
pub mod request;
pub mod settings;
mod shown;

pub use shown::{Face, Shown, VIEW};

use crate::advice::{Audit, ComparedVariants, Headroom, OwnLists};
use crate::codebook::Codebook;
use crate::editor::edit::{Fixes, as_built};
use crate::editor::{self, CommandId, Editor, Part, Refusal, Selection, Step};
use crate::job::{Job, Status};
use crate::rules::Checked;
use crate::scene::Point;
use crate::sheet;
use crate::work::{CutList, OrderOfWork, StockPlan, TakeOff};
use issued::Issued;
use later::{Later, Lost, Task, Wake, let_go};
use request::Request;
use std::sync::Arc;

/// Jobs of up to so many runs are studied and drawn in the same frame.
pub const AT_ONCE: usize = 2_000;

/// What jobs of up to so many runs carry is worked out in the same frame.
const FEW: usize = 200;

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
            shown: Shown::of_pieces(Arc::clone(job), Arc::clone(&checked), revision, &words),
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
    /// The tables and profiles by which that was studied.
    studied_by: Arc<Codebook>,
    work: Option<Task<(Shown, Arc<Codebook>)>>,
    wake: Wake,
    carried: Later<Arc<Carried>>,
    fixes: Later<Arc<Fixes>>,
    variants: Later<Arc<ComparedVariants>>,
    takes: Later<Arc<Takes>>,
    order: Later<Arc<OrderOfWork>>,
    face: Face,
    issued: Option<Arc<Issued>>,
    /// How often the job was compared with another one, or no longer.
    compared: u64,
    requests: Vec<Request>,
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
            studied_by: Arc::clone(&book),
            book,
            booked: 0,
            shown,
            work: None,
            wake: Arc::new(wake),
            carried: Later::default(),
            fixes: Later::default(),
            variants: Later::default(),
            takes: Later::default(),
            order: Later::default(),
            face: Face::default(),
            issued: None,
            compared: 0,
            requests: Vec::new(),
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
        if issued.is_some() {
            self.ask(Request::ShowChanges);
        }
        self.issued = issued.map(Arc::new);
        self.compared += 1;
        self.refresh();
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
    pub fn carried(&mut self) -> Option<Arc<Carried>> {
        let (revision, job, book) = (self.shown.revision, Arc::clone(&self.shown.job), self.book());
        let make = move || {
            Arc::new(Carried {
                audit: Audit::of(&job, &book),
                headroom: Headroom::of(&job, &book),
            })
        };
        match self.shown.job.runs.len() <= FEW {
            true => self.carried.at_once(revision, make).cloned(),
            false => self.carried.of(revision, &self.wake, || make).cloned(),
        }
    }

    /// What the job that is shown takes; `None` while it is worked out.
    pub fn takes(&mut self) -> Option<Arc<Takes>> {
        let (revision, job, book) = (self.shown.revision, Arc::clone(&self.shown.job), self.book());
        let checked = Arc::clone(&self.shown.checked);
        let make = move || Arc::new(Takes::of(&job, checked, &book, revision));
        match self.shown.job.runs.len() <= FEW {
            true => self.takes.at_once(revision, make).cloned(),
            false => self.takes.of(revision, &self.wake, || make).cloned(),
        }
    }

    /// The order of work of the job that is shown.
    pub fn order(&mut self) -> Option<Arc<OrderOfWork>> {
        let (shown, book) = (&self.shown, &self.book);
        let make = || Arc::new(OrderOfWork::of(&shown.job, &shown.checked.study, book));
        self.order.at_once(shown.revision, make).cloned()
    }

    /// What the canvas shows: with the marks of the pieces where they are asked for and there by now.
    pub fn seen(&self) -> &Shown {
        match self.face {
            Face::Usual => &self.shown,
            Face::Pieces => {
                let takes = self.takes.kept(self.shown.revision);
                takes.map_or(&self.shown, |takes| &takes.shown)
            }
        }
    }

    /// How the canvas is to be lettered.
    pub fn letter(&mut self, face: Face) {
        self.face = face;
    }

    /// The ways to fix the job that is shown; `None` while they are worked out, which takes its time.
    pub fn fixes(&mut self) -> Option<Arc<Fixes>> {
        let (revision, job, book) = (self.shown.revision, Arc::clone(&self.shown.job), self.book());
        let checked = Arc::clone(&self.shown.checked);
        let make = move || Arc::new(Fixes::of(&job, &book, &checked));
        self.fixes.of(revision, &self.wake, || make).cloned()
    }

    /// The variants of the job that is shown, side by side; `None` while they are worked out.
    pub fn variants(&mut self) -> Option<Arc<ComparedVariants>> {
        let (revision, job, book) = (self.shown.revision, Arc::clone(&self.shown.job), self.book());
        let make = move || Arc::new(ComparedVariants::of(&job, &book, OwnLists::default()));
        self.variants.of(revision, &self.wake, || make).cloned()
    }

    /// Called from another thread when something new is to be seen.
    pub fn wake(&self) -> Wake {
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
        // Places of one job are none of another.
        self.requests
            .retain(|request| !matches!(request, Request::ShowPart(_) | Request::ShowPlace(_)));
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

    /// Whether a command can be used now.
    pub fn can(&self, id: CommandId) -> bool {
        match id {
            CommandId::StopComparing => self.issued.is_some(),
            CommandId::MakeAsBuilt => self.job().title.status != Status::AsBuilt && !self.job().runs.is_empty(),
            _ => self.editor.can(id),
        }
    }

    /// What is missing for a command that cannot be used.
    pub fn instead(&self, id: CommandId) -> &'static str {
        match id {
            CommandId::StopComparing => "the job is not being compared",
            CommandId::MakeAsBuilt if self.job().runs.is_empty() => "no pipe is drawn yet",
            CommandId::MakeAsBuilt => "the job is marked as built already",
            _ => id.row().map_or("", |row| row.when.instead()),
        }
    }

    /// Does a command, or puts it down for the window to do.
    pub fn run(&mut self, id: CommandId) {
        match self.editor.run(id) {
            editor::Outcome::Done | editor::Outcome::Refused(_) => self.refresh(),
            editor::Outcome::ForWindow => self.ask(Request::Command(id)),
        }
    }

    /// Asks something of another part of the window.
    pub fn ask(&mut self, request: Request) {
        self.requests.push(request);
    }

    /// What is asked, oldest first, and not done yet.
    pub fn requests(&self) -> &[Request] {
        &self.requests
    }

    /// What is asked, oldest first; it is taken away.
    pub fn take_requests(&mut self) -> Vec<Request> {
        std::mem::take(&mut self.requests)
    }

    /// Chooses a part and asks the canvas to show its place.
    pub fn seek(&mut self, part: Part) {
        self.editor.select([part].into_iter().collect::<Selection>());
        self.ask(Request::ShowPart(part));
    }

    /// Asks the canvas to show a place of paper where nothing stands any more.
    pub fn seek_place(&mut self, at: Point) {
        self.editor.select(Selection::none());
        self.ask(Request::ShowPlace(at));
    }

    /// Brings what is shown up to the job as it is, or sets another thread to it.
    pub fn refresh(&mut self) {
        match Task::ended(&mut self.work) {
            Some(Ok((shown, book))) => (self.shown, self.studied_by) = (shown, book),
            Some(Err(Lost)) => {}
            None if self.work.is_some() => return,
            None => {}
        }
        if self.is_current() {
            return;
        }
        let (job, book, revision) = (Arc::new(self.job().clone()), self.book(), self.revision());
        let issued = self.issued.clone();
        let before = Some(self.shown.clone()).filter(|_| Arc::ptr_eq(&self.studied_by, &book));
        let is_drawn = issued.is_none() && before.as_ref().is_some_and(|before| before.shows(&job));
        let few = is_drawn || job.runs.len() <= AT_ONCE;
        let make = move || {
            let shown = Shown::after(before.as_ref(), job, &book, revision, issued.as_deref());
            (shown, book)
        };
        match few {
            true => {
                let (shown, book) = make();
                let before = std::mem::replace(&mut self.shown, shown);
                self.studied_by = book;
                let_go(before);
            }
            false => self.work = Some(Task::begin(&self.wake, make)),
        }
    }
}
