//! Ways to make the whole system carry its load: each a variant of the job, adopted as one step.
//!
//! What a remedy brings is for the study of the changed job to say ([`Outcome`](crate::study::Outcome) puts several side
//! by side): none is called right here, and one may leave something for another to mend.

use super::Cut;
use super::split::cut;
use crate::codebook::{Codebook, Inlet, PipeKind};
use crate::editor::draft::Draft;
use crate::editor::{Refusal, Step, line};
use crate::job::{Device, Job, JointId, Placed, Rating, Regulator, RunId, State, Vent};
use crate::study::{
    Cost, Enlargement, LeastCost, Mended, NewBranch, Origin, Price, Progress, RatingVerdict, Study, TieIn, TieInPlace,
    TieIns,
};
use crate::units::{Flow, GaugePressure, Length, PressureDrop, Show};

/// A way to mend what fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Remedy {
    /// The least length of larger pipe in place of what is too small by the profile's method.
    LeastLength,
    /// The same by the least weight.
    LeastWeight,
    /// The least length of larger pipe by which every outlet keeps its pressure: engineering information.
    ByPressure,
    /// The lightest sizes of new pipe by which every outlet keeps its pressure: engineering information, never laid on a job
    /// for a permit.
    ByPhysics,
    /// A line of its own for the new branch, from as near to the point of delivery as pipe can be tapped.
    SeparateLine,
    /// More pressure from the supplier, and a line regulator before each outlet that holds the pressure of now.
    HigherDelivery,
    /// A meter, or service regulator, that is rated for the load.
    LargerMeter,
}

/// Why a remedy is not to be had here.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NoRemedy {
    /// It would change nothing.
    #[error("{0}")]
    NothingToDo(&'static str),
    /// The search found no answer; the words name place and cure.
    #[error("{0}")]
    NoAnswer(String),
    /// No table is published for more pressure than now.
    #[error("no table for this pipe and fuel is made for a higher delivery pressure than now")]
    NoHigherTable,
    /// The line to an outlet is drawn too short for one more device.
    #[error("no room is drawn for a regulator before {0}: stretch a run of its own line to two steps or more")]
    NoRoomBefore(String),
    /// The drawing stands against it.
    #[error(transparent)]
    Refused(#[from] Refusal),
}

impl Remedy {
    /// All, in the order of lists.
    pub const ALL: [Remedy; 7] = [
        Remedy::LeastLength,
        Remedy::LeastWeight,
        Remedy::ByPressure,
        Remedy::SeparateLine,
        Remedy::HigherDelivery,
        Remedy::LargerMeter,
        Remedy::ByPhysics,
    ];

    /// Its name on lists and for undo.
    pub const fn name(self) -> &'static str {
        match self {
            Remedy::LeastLength => "Larger pipe, least length",
            Remedy::LeastWeight => "Larger pipe, least weight",
            Remedy::ByPressure => "Larger pipe by pressures",
            Remedy::ByPhysics => "Lightest by physics",
            Remedy::SeparateLine => "A line of its own",
            Remedy::HigherDelivery => "Higher delivery pressure",
            Remedy::LargerMeter => "Larger meter",
        }
    }

    /// What must be known beside it.
    pub const fn caution(self) -> &'static str {
        match self {
            Remedy::LeastLength | Remedy::LeastWeight => {
                "By the profile's method; existing pipe is replaced where it lies."
            }
            Remedy::ByPressure => "Engineering information by the flow equation, never the permit size.",
            Remedy::ByPhysics => {
                "Engineering information, never the permit size: by the profile's method such sizes may be too small, \
                 and are then found so."
            }
            Remedy::SeparateLine => {
                "The new branch leaves its tie-in and is led, along the lattice, to the nearest place behind the point of \
                 delivery: one way of many, without what it passes through. Draw it as it will lie."
            }
            Remedy::HigherDelivery => {
                "Only the gas supplier sets the delivery pressure: ask first. Every outlet of the first zone gets a line \
                 regulator, whose rating and vent are still to be said."
            }
            Remedy::LargerMeter => "The gas supplier says which meter and regulator stand there: ask first.",
        }
    }

    /// Whether it may be laid on a job that is for a permit; else it is to be looked at only.
    pub const fn is_for_permit(self) -> bool {
        !matches!(self, Remedy::ByPhysics)
    }

    /// The step that brings it.
    ///
    /// # Errors
    /// When nothing is to be mended in this way, or it cannot be.
    pub fn step(self, job: &Job, book: &Codebook, study: &Study) -> Result<Step, NoRemedy> {
        let by_method = |price| larger_pipe(self.name(), job, book, study, &price, Mended::Method);
        match self {
            Remedy::LeastLength => by_method(Price::Length),
            Remedy::LeastWeight => by_method(Price::Weight),
            Remedy::ByPressure => larger_pipe(
                self.name(),
                job,
                book,
                study,
                &Price::Length,
                Mended::Pressure(PressureDrop::ZERO),
            ),
            Remedy::ByPhysics => by_physics(job, book, study),
            Remedy::SeparateLine => separate_line(job, book, study),
            Remedy::HigherDelivery => higher_delivery(job, book, study),
            Remedy::LargerMeter => larger_meter(job, study),
        }
    }

    /// The job with it.
    ///
    /// # Errors
    /// As for [`Remedy::step`].
    pub fn adopted(self, job: &Job, book: &Codebook, study: &Study) -> Result<Job, NoRemedy> {
        let step = self.step(job, book, study)?;
        let mut adopted = job.clone();
        step.apply(&mut adopted)?;
        Ok(adopted)
    }
}

/// The least price of larger pipe in place of what is too small by the profile's method, by a list of one's own; the step
/// and what the pipe costs.
///
/// # Errors
/// As for [`Remedy::step`].
pub fn cheapest_larger_pipe(
    job: &Job,
    book: &Codebook,
    study: &Study,
    price: &Price,
) -> Result<(Step, Cost), NoRemedy> {
    let found = Enlargement::of(job, book, price, Mended::Method);
    let cost = found.map_or(Cost::ZERO, |found| found.cost);
    let step = larger_pipe("Larger pipe, least price", job, book, study, price, Mended::Method)?;
    Ok((step, cost))
}

fn larger_pipe(
    name: &str,
    job: &Job,
    book: &Codebook,
    study: &Study,
    price: &Price,
    mended: Mended,
) -> Result<Step, NoRemedy> {
    let found = Enlargement::of(job, book, price, mended).map_err(|why| NoRemedy::NoAnswer(why.words(job, study)))?;
    if found.larger.is_empty() {
        return Err(NoRemedy::NothingToDo(match mended {
            Mended::Method => "no existing or fixed pipe is too small by the profile's method",
            Mended::Pressure(_) => "every outlet keeps its pressure with the pipe as drawn",
        }));
    }
    let laid = found.laid(job);
    let mut draft = Draft::new(job);
    for run in found.larger.iter().flat_map(|larger| &larger.runs) {
        let id = job.runs.at(*run).id;
        if let Some(after) = laid.runs.get(id) {
            draft.change_run(id, |run| run.clone_from(after))?;
        }
    }
    Ok(draft.finish(name)?)
}

fn by_physics(job: &Job, book: &Codebook, study: &Study) -> Result<Step, NoRemedy> {
    let found = LeastCost::of(job, book, &Price::Weight, PressureDrop::ZERO);
    let found = found.map_err(|why| NoRemedy::NoAnswer(why.words(job, study)))?;
    let lighter = found
        .sections
        .iter()
        .filter(|cheap| cheap.by_method != Some(cheap.size));
    let mut draft = Draft::new(job);
    let mut any = false;
    for cheap in lighter {
        for &run in &study.sections[cheap.section].runs {
            draft.change_run(job.runs.at(run).id, |run| run.size = Some(cheap.size))?;
            any = true;
        }
    }
    match any {
        true => Ok(draft.finish(Remedy::ByPhysics.name())?),
        false => Err(NoRemedy::NothingToDo(
            "no lighter sizes of new pipe keep every outlet's pressure",
        )),
    }
}

/// The new run by which gas enters new pipe from old: of several the one that carries most.
fn first_new_run(job: &Job, study: &Study) -> Option<usize> {
    let stands = |run: usize| {
        let run = job.runs.at(run);
        run.state == State::Existing || run.replaced().is_some()
    };
    let enters = |run: &usize| {
        let Some((from, _)) = study.network.ends[*run] else {
            return false;
        };
        !stands(*run) && study.network.feed[from].is_some_and(stands)
    };
    let load = |run: usize| {
        let section = study.runs[run].section.map(|section| &study.sections[section]);
        section.map_or(0.0, |section| section.load.flow.cfh())
    };
    let entries = (0..job.runs.len()).filter(enters);
    entries.max_by(|a, b| load(*a).total_cmp(&load(*b)).then(b.cmp(a)))
}

fn separate_line(job: &Job, book: &Codebook, study: &Study) -> Result<Step, NoRemedy> {
    let none = NoRemedy::NothingToDo("no new branch is tied into existing pipe");
    let Some(run) = first_new_run(job, study) else {
        return Err(none);
    };
    let Some((tie_in, head)) = study.network.ends[run] else {
        return Err(none);
    };
    let mut draft = Draft::new(job);
    draft.remove_run(job.runs.at(run).id);
    let parted = draft.finish("Part the branch")?;
    let mut apart = job.clone();
    parted.apply(&mut apart)?;
    let branch = NewBranch {
        head: job.joints.at(head).id,
        ..NewBranch::default()
    };
    let found = TieIns::find(&apart, book, &branch, &Progress::default());
    let found = found.map_err(|why| NoRemedy::NoAnswer(why.to_string()))?;
    let before = Study::without_findings(
        &apart,
        book,
        book.profile(&study.profile).unwrap_or(book.default_profile()),
    );
    let distance = |row: &TieIn| {
        let of = |joint: JointId| before.joints[apart.joints.position(joint)?].distance;
        match row.place {
            TieInPlace::Joint(joint) => of(joint),
            TieInPlace::Run { run, along } => {
                let drawn = apart.runs.get(run)?;
                let (from, to) = (of(drawn.from)?, of(drawn.to)?);
                Some(if from <= to { from + along } else { from - along })
            }
        }
    };
    let mut rows: Vec<(Length, &TieIn)> = found
        .rows
        .iter()
        .filter_map(|row| Some((distance(row)?, row)))
        .collect();
    rows.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.place.cmp(&b.1.place)));
    let there = study.joints[tie_in].distance;
    let nearer = rows.into_iter().filter(|row| there.is_some_and(|there| row.0 < there));
    let step = nearer.filter_map(|(_, row)| super::tie_in(&apart, row).ok()).next();
    let step = step.ok_or(NoRemedy::NothingToDo(
        "no place nearer to the point of delivery can be tapped by a line along the lattice",
    ))?;
    Ok(Step::merged(Remedy::SeparateLine.name(), vec![parted, step]))
}

/// The nearest pressure above the present one for which a table of this pipe is made and the profile allows a drop.
fn next_pressure(job: &Job, book: &Codebook, now: GaugePressure) -> Option<GaugePressure> {
    let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
    let kind = PipeKind::of(job.settings.material);
    let made = book
        .tables()
        .iter()
        .filter(|table| table.fuel == job.gas.fuel && table.pipe == kind);
    let made = made.filter_map(|table| match table.inlet {
        Inlet::Exactly(inlet) => Some(inlet),
        Inlet::Below2Psi => None,
    });
    let higher =
        made.filter(|inlet| inlet.pa() > now.pa() * 1.01 && profile.allowed_drop(job.gas.fuel, *inlet).is_some());
    higher.min_by(|a, b| a.pa().total_cmp(&b.pa()))
}

fn higher_delivery(job: &Job, book: &Codebook, study: &Study) -> Result<Step, NoRemedy> {
    let (Some(zone), Some(supply)) = (study.zones.first(), study.network.supply) else {
        return Err(NoRemedy::NothingToDo("no point of delivery is drawn"));
    };
    let now = zone
        .inlet
        .ok_or(NoRemedy::NothingToDo("the delivery pressure is not given"))?;
    let more = next_pressure(job, book, now).ok_or(NoRemedy::NoHigherTable)?;
    let mut draft = Draft::new(job);
    if let Some(Placed {
        device: Device::Supply(supply),
        ..
    }) = &mut draft.joint_mut(job.joints.at(supply).id)?.placed
    {
        supply.pressure = Some(more);
    }
    if job.settings.allowed_drop.is_some() {
        // It was set for the pressure of before.
        let settings = crate::job::Settings {
            allowed_drop: None,
            ..job.settings.clone()
        };
        draft.set_settings(settings);
    }
    let outlets = study
        .outlets
        .iter()
        .filter(|outlet| study.joints[outlet.joint].zone == Some(0));
    for outlet in outlets {
        let (run, place) =
            room_before(job, study, outlet.joint).ok_or_else(|| NoRemedy::NoRoomBefore(outlet.called()))?;
        let joint = cut(&mut draft, run, place, Cut::InProportion)?;
        let regulator = Regulator {
            outlet: Some(now),
            allowed_drop: None,
            rating: Rating::default(),
            vent: Vent::NotSaid,
        };
        draft.joint_mut(joint)?.placed = Some(Placed::new(Device::Regulator(regulator)));
    }
    Ok(draft.finish(format!(
        "{} of {}",
        Remedy::HigherDelivery.name(),
        more.show(job.settings.units)
    ))?)
}

/// The nearest place in pipe before an outlet, on its own line, where a device can be drawn.
fn room_before(job: &Job, study: &Study, outlet: usize) -> Option<(RunId, crate::job::LatticePoint)> {
    let network = &study.network;
    let mut joint = outlet;
    loop {
        let run = network.feed[joint]?;
        let (from, to) = network.ends[run]?;
        let is_pipe = study.runs[run]
            .section
            .is_some_and(|section| study.sections[section].sizing.origin != Origin::Connector);
        let [from_at, to_at] = [from, to].map(|joint| job.joints.at(joint).at);
        let pieces = line::pieces(from_at, to_at);
        if is_pipe && pieces >= 2 {
            return Some((job.runs.at(run).id, line::place(from_at, to_at, pieces - 1)));
        }
        let parts = network
            .legs(from)
            .filter(|&run| job.runs.at(run).state != State::Removed)
            .count()
            > 2;
        if parts {
            return None;
        }
        joint = from;
    }
}

fn larger_meter(job: &Job, study: &Study) -> Result<Step, NoRemedy> {
    let mut draft = Draft::new(job);
    let mut any = false;
    for device in study
        .devices
        .iter()
        .filter(|device| device.verdict == RatingVerdict::Exceeded)
    {
        let Some(placed) = &mut draft.joint_mut(job.joints.at(device.joint).id)?.placed else {
            continue;
        };
        let rated = Rating {
            capacity: Some(Flow::from_cfh(device.flow.cfh().ceil())),
            drop: None,
        };
        any |= match &mut placed.device {
            Device::Supply(supply) => {
                let part = match device.name {
                    "meter" => &mut supply.meter,
                    _ => &mut supply.regulator,
                };
                *part = Some(rated);
                true
            }
            Device::Meter(meter) => {
                meter.rating = rated;
                placed.state = State::New;
                true
            }
            _ => false,
        };
    }
    if !any {
        return Err(NoRemedy::NothingToDo(
            "no meter or service regulator carries more than it is rated for",
        ));
    }
    Ok(draft.finish(Remedy::LargerMeter.name())?)
}
