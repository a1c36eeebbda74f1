//! A person's hand on pointer and keys.

use stubout::drawing::Projection;
use stubout::editor::tool::{Draw, Tool};
use stubout::editor::{CommandId, Editor, Facing, Held, Input, Key, Outcome, Part, Pointer, Toward, Words};
use stubout::job::{Job, LatticePoint};
use stubout::scene::{Point, Segment, Vector};

/// An editor, and a hand on it.
pub struct Hand {
    pub editor: Editor,
    /// How far the hand is off, mm.
    pub shake: Vector,
    /// Words that lie on the paper.
    pub words: Option<Words>,
}

/// Where the lattice lies for the hand.
pub const VIEW: Projection = Projection {
    origin: Point::new(150.0, 100.0),
    step: 10.0,
};

/// How near to a thing one must point, mm.
const NEAR: f64 = 2.0;

pub fn at(east: i32, north: i32, up: i32) -> LatticePoint {
    LatticePoint::new(east, north, up)
}

impl Hand {
    pub fn on(job: Job) -> Hand {
        let mut editor = Editor::new(job);
        editor.set_view(VIEW);
        Hand {
            editor,
            shake: Vector::new(0.7, -0.4),
            words: None,
        }
    }

    /// What is drawn near a point of paper, nearest first; a joint's symbol reaches a little way around its place.
    pub fn hits(&self, point: Point) -> Vec<Part> {
        let job = self.editor.job();
        let place = |id| VIEW.point(job.joints.get(id).unwrap().at);
        let joints = job.joints.iter().map(|joint| {
            (
                (VIEW.point(joint.at).distance(point) - 1.0).max(0.0),
                Part::Joint(joint.id),
            )
        });
        let runs = job.runs.iter().map(|run| {
            let line = Segment::new(place(run.from), place(run.to));
            (line.distance(point), Part::Run(run.id))
        });
        let mut near: Vec<(f64, Part)> = joints.chain(runs).filter(|(distance, _)| *distance < NEAR).collect();
        near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        near.into_iter().map(|(_, part)| part).collect()
    }

    pub fn point_paper(&mut self, at: Point) {
        let hits = self.hits(at);
        let words = self.words.filter(|words| words.room.contains(at));
        let hits = words.iter().map(|words| words.part).chain(hits).collect();
        self.editor.handle(Input::Pointer(Pointer { at, hits, words }));
    }

    /// Points at a place, a little off.
    pub fn point(&mut self, place: LatticePoint) {
        self.point_paper(VIEW.point(place) + self.shake);
    }

    /// Whether the editor means a place.
    pub fn means(&self, place: LatticePoint) -> bool {
        self.editor.hint().ghost.place.is_some_and(|(at, _)| at == place)
    }

    /// Brings the level plane to a height.
    pub fn level(&mut self, up: i32) {
        self.run(CommandId::Plane(Facing::Level));
        while self.editor.plane().through.up < up {
            self.run(CommandId::PlaneNearer);
        }
        while self.editor.plane().through.up > up {
            self.run(CommandId::PlaneFarther);
        }
    }

    /// Points at a place and goes through what lies there until the editor means that place.
    pub fn find(&mut self, place: LatticePoint) {
        self.point(place);
        for _ in 0..20 {
            if self.means(place) {
                return;
            }
            self.editor.handle(Input::Key(Key::Other));
        }
        panic!("{place:?} cannot be pointed at: {}", self.editor.status());
    }

    pub fn press(&mut self) {
        self.editor.handle(Input::Press);
    }

    pub fn release(&mut self) {
        self.editor.handle(Input::Release);
    }

    pub fn click(&mut self) {
        self.press();
        self.release();
    }

    pub fn click_at(&mut self, place: LatticePoint) {
        self.point(place);
        self.click();
    }

    pub fn drag(&mut self, from: LatticePoint, to: LatticePoint) {
        self.point(from);
        self.press();
        self.point_paper(VIEW.point(from).midway(VIEW.point(to)));
        self.point(to);
        self.release();
    }

    pub fn key(&mut self, key: Key) {
        self.editor.handle(Input::Key(key));
    }

    pub fn type_text(&mut self, text: &str) {
        for character in text.chars() {
            self.editor.handle(Input::Text(character));
        }
    }

    pub fn hold(&mut self, held: Held) {
        self.editor.handle(Input::Held(held));
    }

    #[track_caller]
    pub fn run(&mut self, id: CommandId) {
        assert_eq!(self.editor.run(id), Outcome::Done, "{id:?}: {}", self.editor.status());
    }

    /// Leads the cursor to a place by direction keys, one axis after the other.
    pub fn lead(&mut self, place: LatticePoint) {
        for _ in 0..1000 {
            let (here, _) = self.editor.hint().ghost.place.expect("a cursor");
            let way = place - here;
            let next = Toward::ALL.into_iter().find(|toward| toward.way().dot(way) > 0);
            match next {
                Some(toward) => self.key(Key::Way(toward)),
                None => return,
            }
        }
        panic!("{place:?} was not reached");
    }

    /// The place where the pencil stands, when it is down.
    pub fn pencil(&self) -> Option<LatticePoint> {
        match self.editor.tool() {
            Tool::Draw(Draw::Drawing(pencil)) => Some(pencil.start.at),
            _ => None,
        }
    }

    #[track_caller]
    pub fn says(&self, words: &str) {
        let status = self.editor.status();
        assert!(status.contains(words), "status: {status}");
    }
}
