//! Runs, one or many: the fields that they share, set on all at once; and what a single run leads to.

use super::form::Form;
use super::names::{self, STATES, SURROUNDINGS};
use super::shared::Shared;
use super::{found, put, reason};
use crate::codebook::PipeKind;
use crate::desk::Desk;
use crate::editor::Part;
use crate::editor::edit::RunField;
use crate::job::{Detail, Job, JointId, Material, Offset, Run, RunId, State, Surroundings};
use crate::sizing::{Origin, Section};
use crate::units::{Angle, Length, NominalSize, Show, UnitSystem};
use std::rc::Rc;

/// A single run.
pub fn show(form: &mut Form<'_>, id: RunId) {
    let Some(run) = form.desk.job().runs.get(id).cloned() else {
        return;
    };
    let end = |joint| (joint_words(form.desk.job(), joint), Part::Joint(joint));
    let ends = [end(run.from), end(run.to)];
    form.links("Ends", &ends);
    fields(form, &[id]);
    let passages: Vec<(String, Part)> = (0..run.penetrations.len())
        .map(|at| {
            let barrier = names::of(names::BARRIERS, &run.penetrations[at].barrier);
            (format!("{} {barrier}", at + 1), Part::Penetration(id, at))
        })
        .collect();
    if !passages.is_empty() {
        form.links("Passes through", &passages);
    }
    found::show(form);
    if let Some(section) = section_of(form, id) {
        reason::show(form, section, &[id]);
    }
}

/// A joint as a button: the person's own name for it, and what stands there.
pub fn joint_words(job: &Job, id: JointId) -> String {
    let joint = job.joints.get(id);
    match joint.and_then(|joint| joint.placed.as_ref()) {
        Some(placed) => format!("{id} {}", placed.device.name()),
        None => id.to_string(),
    }
}

/// The position of a run's section in what is shown.
pub fn section_of(form: &Form<'_>, id: RunId) -> Option<usize> {
    let shown = form.desk.shown();
    shown.checked.study.runs.get(shown.job.runs.position(id)?)?.section
}

/// What runs say, each field over all of them.
struct Said {
    length: Shared<Option<Length>>,
    rise: Shared<Option<Length>>,
    roll: Shared<Option<Length>>,
    advance: Shared<Option<Length>>,
    angle: Shared<Option<Angle>>,
    material: Shared<Option<Material>>,
    size: Shared<Option<NominalSize>>,
    state: Shared<State>,
    replaces: Shared<Option<NominalSize>>,
    surroundings: Shared<Surroundings>,
    cover: Shared<Option<Length>>,
    coated: Shared<bool>,
    tracer: Shared<bool>,
    bonded: Shared<bool>,
    jacketed: Shared<bool>,
    salvaged: Shared<bool>,
}

impl Said {
    fn of(runs: &[&Run]) -> Said {
        fn all<T: PartialEq>(runs: &[&Run], field: impl Fn(&Run) -> T) -> Shared<T> {
            Shared::of(runs.iter().map(|run| field(run)))
        }
        Said {
            length: all(runs, |run| run.length),
            rise: all(runs, |run| {
                run.offset
                    .map(|offset| offset.rise)
                    .filter(|rise| *rise != Length::ZERO)
            }),
            roll: all(runs, |run| {
                run.offset
                    .map(|offset| offset.roll)
                    .filter(|roll| *roll != Length::ZERO)
            }),
            advance: all(runs, |run| run.offset?.run),
            angle: all(runs, |run| run.offset?.angle),
            material: all(runs, |run| run.material),
            size: all(runs, |run| run.size),
            state: all(runs, |run| run.state),
            replaces: all(runs, |run| run.replaces),
            surroundings: all(runs, |run| run.surroundings),
            cover: all(runs, |run| run.cover),
            coated: all(runs, |run| run.coated),
            tracer: all(runs, |run| run.tracer),
            bonded: all(runs, |run| run.bonded),
            jacketed: all(runs, |run| run.jacketed),
            salvaged: all(runs, |run| run.salvaged),
        }
    }
}

/// The sizes in which a material is made: those of the job's own tables, then the published ones.
pub fn sizes(desk: &Desk, material: Material) -> Vec<NominalSize> {
    let (book, settings) = (desk.book(), &desk.job().settings);
    let profile = book.profile(&settings.profile).unwrap_or(book.default_profile());
    let mut sizes = book.tables_for(profile, settings).own_sizes(PipeKind::of(material));
    let published = book.sizes(material).iter().map(|pipe| pipe.size);
    let others: Vec<NominalSize> = published.filter(|size| !sizes.contains(size)).collect();
    sizes.extend(others);
    sizes
}

/// The fields that runs have.
pub fn fields(form: &mut Form<'_>, ids: &[RunId]) {
    let job = form.desk.job();
    let runs: Vec<&Run> = ids.iter().filter_map(|id| job.runs.get(*id)).collect();
    let said = Said::of(&runs);
    let ids: Rc<[RunId]> = ids.into();
    let (drawn, found) = (drawn_words(form, &runs), size_words(form, &runs));
    let slope = Slope::of(job, &runs);
    let materials = names::materials(job.settings.material);
    let made = match said.material {
        Shared::Same(material) => sizes(form.desk, material.unwrap_or(job.settings.material)),
        Shared::Several => Vec::new(),
    };

    let to = Rc::clone(&ids);
    form.quantity(Detail::Length, said.length, &drawn, move |desk, length| {
        put::runs(desk, &to, &RunField::Length(length))
    });
    if let Some(slope) = slope {
        slope.fields(form, &ids, &said);
    }
    form.choice(
        Detail::Material,
        &said.material,
        &names::borrowed(&materials),
        |desk, material| put::runs(desk, &ids, &RunField::Material(material)),
    );
    let to = Rc::clone(&ids);
    form.offered(Detail::Size, said.size, &found, &made, move |desk, size| {
        put::runs(desk, &to, &RunField::Size(size))
    });
    form.choice(Detail::State, &said.state, STATES, |desk, state| {
        put::runs(desk, &ids, &RunField::State(state))
    });
    // Only pipe that goes is kept for use again.
    if said.state == Shared::Same(State::Removed) || said.salvaged != Shared::Same(false) {
        form.check(Detail::Salvage, said.salvaged, |desk, salvaged| {
            put::runs(desk, &ids, &RunField::Salvaged(salvaged))
        });
    }
    form.choice(
        Detail::Location,
        &said.surroundings,
        SURROUNDINGS,
        |desk, surroundings| put::runs(desk, &ids, &RunField::Surroundings(surroundings)),
    );
    let rare = MORE.map(|field| (field, said.is_rare(field)));
    let of = |wanted: bool| -> Vec<Detail> {
        let those = rare.iter().filter(|(_, is_rare)| *is_rare == wanted);
        those.map(|(field, _)| *field).collect()
    };
    let more = More {
        ids: &ids,
        said: &said,
        made: &made,
    };
    for field in of(false) {
        more.row(form, field);
    }
    let rare = of(true);
    if !rare.is_empty() {
        form.rare("More: cover, coating, bonding", &rare, |form| {
            for field in &rare {
                more.row(form, *field);
            }
        });
    }
}

/// Fields that depend on where pipe lies and what it is; where they say nothing of the pipe at hand they are folded away.
const MORE: [Detail; 6] = [
    Detail::Replaces,
    Detail::Cover,
    Detail::Coated,
    Detail::Tracer,
    Detail::Bonded,
    Detail::Jacketed,
];

impl Said {
    /// Whether a field is asked rarely of pipe that lies so, and says nothing yet.
    fn is_rare(&self, field: Detail) -> bool {
        let lies = |those: &[Surroundings]| match self.surroundings {
            Shared::Same(surroundings) => those.contains(&surroundings),
            Shared::Several => true,
        };
        let underground = lies(&[Surroundings::Underground]);
        match field {
            Detail::Replaces => self.replaces == Shared::Same(None),
            Detail::Cover => !underground && self.cover == Shared::Same(None),
            Detail::Coated => {
                !lies(&[Surroundings::Underground, Surroundings::Outdoors]) && self.coated == Shared::Same(false)
            }
            Detail::Tracer => !underground && self.tracer == Shared::Same(false),
            Detail::Bonded => self.bonded == Shared::Same(false),
            Detail::Jacketed => self.jacketed == Shared::Same(false),
            _ => false,
        }
    }
}

/// The fields of [`MORE`].
struct More<'a> {
    ids: &'a Rc<[RunId]>,
    said: &'a Said,
    made: &'a [NominalSize],
}

impl More<'_> {
    fn row(&self, form: &mut Form<'_>, field: Detail) {
        let said = self.said;
        let to = Rc::clone(self.ids);
        match field {
            // Only new pipe takes the place of other pipe; what was said before it was marked so is not hidden.
            Detail::Replaces if said.state == Shared::Same(State::New) || said.replaces != Shared::Same(None) => {
                form.offered(field, said.replaces, "nothing", self.made, move |desk, size| {
                    put::runs(desk, &to, &RunField::Replaces(size))
                });
            }
            Detail::Cover => {
                let hint = match said.surroundings {
                    Shared::Same(Surroundings::Underground) | Shared::Several => "not entered",
                    Shared::Same(_) => "only underground",
                };
                form.quantity(field, said.cover, hint, move |desk, cover| {
                    put::runs(desk, &to, &RunField::Cover(cover))
                });
            }
            Detail::Coated => self.check(form, field, said.coated, RunField::Coated),
            Detail::Tracer => self.check(form, field, said.tracer, RunField::Tracer),
            Detail::Bonded => self.check(form, field, said.bonded, RunField::Bonded),
            Detail::Jacketed => self.check(form, field, said.jacketed, RunField::Jacketed),
            _ => {}
        }
    }

    fn check(&self, form: &mut Form<'_>, field: Detail, said: Shared<bool>, to: fn(bool) -> RunField) {
        form.check(field, said, |desk, is_so| put::runs(desk, self.ids, &to(is_so)));
    }
}

/// Runs that may be offsets: what was measured of one may be typed.
struct Slope {
    /// What follows from the measures of a single run.
    made: Option<Offset>,
}

impl Slope {
    /// `None` for pipe along an axis, unless it has measures of an offset: those are not hidden.
    fn of(job: &Job, runs: &[&Run]) -> Option<Slope> {
        let aslant = |run: &&Run| match (job.joints.get(run.from), job.joints.get(run.to)) {
            (Some(from), Some(to)) => (to.at - from.at).axis().is_none(),
            _ => false,
        };
        let shown = runs.iter().all(aslant) || runs.iter().any(|run| run.offset.is_some());
        shown.then(|| Slope {
            made: match runs {
                [run] => run.measured().and_then(Result::ok),
                _ => None,
            },
        })
    }

    fn fields(&self, form: &mut Form<'_>, ids: &Rc<[RunId]>, said: &Said) {
        let units = form.units();
        let follows = |what: fn(&Offset, UnitSystem) -> String| match &self.made {
            Some(offset) => format!("follows: {}", what(offset, units)),
            None => "as drawn".to_owned(),
        };
        let none = if self.made.is_some() { "none" } else { "as drawn" };
        let put = |field: fn(Option<Length>) -> RunField| {
            let to = Rc::clone(ids);
            move |desk: &mut Desk, length| put::runs(desk, &to, &field(length))
        };
        form.quantity(Detail::OffsetRise, said.rise, none, put(RunField::Rise));
        form.quantity(Detail::OffsetRoll, said.roll, none, put(RunField::Roll));
        let along = follows(|offset, units| offset.along.show(units));
        form.quantity(Detail::OffsetRun, said.advance, &along, put(RunField::Advance));
        let angle = follows(|offset, units| Angle::from_degrees(offset.degrees).show(units));
        let to = Rc::clone(ids);
        let stock = [Angle::from_degrees(45.0)];
        form.offered(Detail::OffsetAngle, said.angle, &angle, &stock, move |desk, angle| {
            put::runs(desk, &to, &RunField::Angle(angle))
        });
    }
}

/// What holds when no length is typed.
fn drawn_words(form: &Form<'_>, runs: &[&Run]) -> String {
    let (job, units) = (form.desk.job(), form.units());
    match runs {
        [run] => {
            let drawn = Run {
                length: None,
                ..Run::clone(run)
            };
            let by = match drawn.measured() {
                Some(Ok(_)) => "travel",
                Some(Err(_)) | None => "as drawn",
            };
            format!("{by}: {}", job.true_length(&drawn).show(units))
        }
        _ => "as drawn".to_owned(),
    }
}

/// What holds when no size is typed.
fn size_words(form: &Form<'_>, runs: &[&Run]) -> String {
    let [run] = runs else {
        return "to be sized".to_owned();
    };
    if run.state == State::Existing {
        return "not known: read it on the pipe".to_owned();
    }
    let study = &form.desk.shown().checked.study;
    let section = section_of(form, run.id).and_then(|section| study.sections.get(section));
    match section {
        Some(section) => found_words(section, form),
        None => "not connected to the gas supply".to_owned(),
    }
}

fn found_words(section: &Section, form: &Form<'_>) -> String {
    let sizing = &section.sizing;
    let size = match sizing.origin {
        Origin::Connector => return "part of the connector".to_owned(),
        Origin::Found => sizing.size,
        Origin::Fixed | Origin::Known | Origin::Unknown => sizing.needed,
    };
    match size {
        Some(size) => format!(
            "sized: {}",
            form.desk.shown().checked.study.names.show(section.material, size)
        ),
        None => "no size found".to_owned(),
    }
}
