//! Small drawings that show one thing: a job with what it needs around it, of which only a few parts are kept.

use crate::draft::Draft;
use stubout::changes::Changes;
use stubout::codebook::Codebook;
use stubout::drawing::tags::{self, Subject};
use stubout::drawing::{Isometric, Lettering, Options, Projection, Scale, isometric};
use stubout::job::{Device, JointId, Placed, RunId};
use stubout::scene::{Affine, Group, Item, Point, Rect, Role, Scene, Tag};
use stubout::study::Study;
use stubout::units::{GaugePressure, NominalSize};

/// Paper of a lattice step, mm: two steps are short enough to bear no arrow of flow.
pub const STEP: f64 = 4.0;

/// A place of the lattice: east, north, up.
pub type At = (i32, i32, i32);

/// The six ways of the lattice.
pub const WAYS: [(&str, At); 6] = [
    ("east", (1, 0, 0)),
    ("west", (-1, 0, 0)),
    ("north", (0, 1, 0)),
    ("south", (0, -1, 0)),
    ("up", (0, 0, 1)),
    ("down", (0, 0, -1)),
];

/// So many steps a way.
pub fn times(way: At, steps: i32) -> At {
    (way.0 * steps, way.1 * steps, way.2 * steps)
}

/// A place further on.
pub fn beyond(at: At, way: At) -> At {
    (at.0 + way.0, at.1 + way.1, at.2 + way.2)
}

/// A small drawing in the making.
#[derive(Default)]
pub struct Small {
    pub draft: Draft,
    /// What is kept of the drawing.
    pub kept: Vec<Tag>,
    pub shows_words: bool,
    /// The area into which it is fitted, mm; `None` for a fixed scale.
    pub area: Option<(f64, f64)>,
    /// The job as it was issued.
    pub issued: Option<Draft>,
}

impl Small {
    /// With the point of delivery at a place, which is not kept, so that gas flows.
    pub fn fed_from(at: At) -> Small {
        let mut small = Small::default();
        let supply = small.joint(at);
        let device = stubout::job::Supply {
            pressure: Some(GaugePressure::from_inches_wc(7.0)),
            ..Default::default()
        };
        small.draft.put(supply, Device::Supply(device));
        small
    }

    pub fn joint(&mut self, (east, north, up): At) -> JointId {
        self.draft.at(east, north, up)
    }

    /// New 3/4 in pipe between two places, as long as it is drawn, kept.
    pub fn pipe(&mut self, from: At, to: At) -> RunId {
        let (from, to) = (self.joint(from), self.joint(to));
        let id = self.draft.run(from, to, 1.0);
        let run = self.draft.run_mut(id);
        (run.length, run.size) = (None, Some(NominalSize::Inch(12)));
        self.kept.push(tags::line(id));
        self.kept.push(tags::plane(id));
        id
    }

    /// A new device at a place, kept.
    pub fn device(&mut self, at: At, device: Device) -> &mut Placed {
        let joint = self.keep(at);
        self.draft.put(joint, device)
    }

    /// Keeps what stands at a place.
    pub fn keep(&mut self, at: At) -> JointId {
        let joint = self.joint(at);
        self.kept.push(tags::symbol(joint));
        joint
    }

    /// Shows words, and keeps those of some subject.
    pub fn keep_words(&mut self, subject: Subject) {
        self.shows_words = true;
        self.kept.extend([Role::Label, Role::Leader].map(|role| Tag {
            role,
            key: subject.key(),
        }));
    }

    /// Shows words, and keeps those at a place.
    pub fn keep_words_at(&mut self, at: At) {
        let joint = self.joint(at);
        self.keep_words(Subject::Joint(self.draft.joint_index(joint)));
    }

    pub fn study(&self) -> Study {
        Study::of(&self.draft.job, Codebook::published())
    }

    /// The whole drawing.
    pub fn drawn(&self) -> Isometric {
        let (job, study) = (&self.draft.job, self.study());
        let changes = self
            .issued
            .as_ref()
            .map(|issued| Changes::since(&issued.job, job, &study, Codebook::published()));
        let (width, height) = self.area.unwrap_or((60.0, 40.0));
        let fixed = Projection {
            origin: Point::default(),
            step: STEP,
        };
        let options = Options {
            scale: match self.area {
                Some(_) => Scale::Fit,
                None => Scale::Fixed(fixed),
            },
            lettering: if self.shows_words {
                Lettering::All
            } else {
                Lettering::Nothing
            },
            since: changes.as_ref(),
            ..Options::default()
        };
        isometric(job, &study, Rect::sized(Point::default(), width, height), options)
    }

    /// What is kept of it.
    pub fn group(&self) -> Group {
        only(&self.drawn().group, &self.kept)
    }
}

/// The tagged groups among `kept`, and all that bears no tag.
pub fn only(group: &Group, kept: &[Tag]) -> Group {
    let mut all = Group::new();
    (all.layer, all.label) = (group.layer, group.label.clone());
    for item in group.items() {
        match item {
            Item::Group(inner) => match inner.tag {
                Some(tag) if kept.contains(&tag) => all.push(inner.clone()),
                Some(_) => {}
                None => {
                    let inner = only(inner, kept);
                    if !inner.is_empty() {
                        all.push(inner);
                    }
                }
            },
            Item::Path(_) | Item::Text(_) => all.push(item.clone()),
        }
    }
    all
}

/// A sheet just as large as what is on it.
pub fn framed(name: &str, group: Group) -> Scene {
    let bounds = group
        .bounds()
        .unwrap_or_else(|| panic!("{name}: nothing is drawn"))
        .grown(1.0);
    let tenths = |mm: f64| (mm * 10.0).ceil() / 10.0;
    let mut scene = Scene::new(tenths(bounds.width()), tenths(bounds.height()), name);
    scene.push(group.map(Affine::to(Point::new(-bounds.min.x, -bounds.min.y))));
    scene
}

/// Several side by side.
pub fn in_a_row(groups: impl IntoIterator<Item = Group>) -> Group {
    let (mut all, mut x) = (Group::new(), 0.0);
    for group in groups {
        let Some(bounds) = group.bounds() else { continue };
        all.push(group.map(Affine::to(Point::new(x - bounds.min.x, 0.0))));
        x += bounds.width() + 3.0;
    }
    all
}
