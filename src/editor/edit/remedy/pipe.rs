//! Larger pipe, and sizes by physics.

use super::{Change, NoRemedy, Remedy};
use crate::advice::{Enlargement, LeastCost, Mended};
use crate::codebook::Codebook;
use crate::editor::Step;
use crate::editor::draft::Draft;
use crate::job::{Job, Material, State, Status, TitleBlock};
use crate::study::{Places, Study};
use crate::units::{NominalSize, PressureDrop, Show};
use crate::work::Price;

/// The least enlargement, laid.
pub fn larger(
    name: &str,
    job: &Job,
    book: &Codebook,
    study: &Study,
    price: &Price,
    mended: Mended,
) -> Result<Change, NoRemedy> {
    let found = Enlargement::of(job, book, price, mended).map_err(|why| NoRemedy::NoAnswer(why.words(job, study)))?;
    if found.larger.is_empty() {
        return Err(NoRemedy::NothingToDo(match mended {
            Mended::Method => "no existing pipe and no size set by hand is undersized by the profile's method",
            Mended::Pressure(_) => "every outlet keeps its pressure with the pipe as drawn",
        }));
    }
    let laid = found.laid(job);
    let units = job.settings.units;
    let mut draft = Draft::new(job);
    let mut does = Vec::new();
    for larger in &found.larger {
        let mut stood = false;
        for &run in &larger.runs {
            let drawn = job.runs.at(run);
            stood |= drawn.state == State::Existing || drawn.replaced().is_some();
            if let Some(after) = laid.runs.get(drawn.id) {
                draft.change_run(drawn.id, |run| run.clone_from(after))?;
            }
        }
        let material = study.sections.get(larger.section).map(|section| section.material);
        let named_size = |size: NominalSize| match material {
            Some(material) => study.names.show(material, size),
            None => size.show(units),
        };
        does.push(format!(
            "{}: {} {} {} {}, {}.",
            named(job, study, &larger.runs),
            named_size(larger.size),
            material.map_or("pipe", Material::short),
            if stood { "replaces" } else { "instead of" },
            named_size(larger.was),
            larger.length.show(units)
        ));
    }
    Ok(Change {
        step: draft.finish(name)?,
        does,
    })
}

/// The lightest sizes of new pipe that keep every outlet's pressure.
pub fn by_physics(job: &Job, book: &Codebook, study: &Study) -> Result<Change, NoRemedy> {
    let found = LeastCost::of(job, book, &Price::Weight, PressureDrop::ZERO);
    let found = found.map_err(|why| NoRemedy::NoAnswer(why.words(job, study)))?;
    let lighter = found
        .sections
        .iter()
        .filter(|cheap| cheap.by_method != Some(cheap.size));
    let mut draft = Draft::new(job);
    let mut does = Vec::new();
    for cheap in lighter {
        let section = &study.sections[cheap.section];
        let runs = &section.runs;
        let named_size = |size| study.names.show(section.material, size);
        for &run in runs {
            draft.change_run(job.runs.at(run).id, |run| run.size = Some(cheap.size))?;
        }
        let was = cheap.by_method.map_or_else(|| "no size found".to_owned(), named_size);
        does.push(format!(
            "{}: {} instead of {was}.",
            named(job, study, runs),
            named_size(cheap.size)
        ));
    }
    match does.is_empty() {
        true => Err(NoRemedy::NothingToDo(
            "no lighter sizes of new pipe keep every outlet's pressure",
        )),
        false => Ok(Change {
            step: draft.finish(Remedy::ByPhysics.name())?,
            does,
        }),
    }
}

/// A change that is no permit size: the job with it is a study, and every sheet of it says so.
pub fn as_study(job: &Job, change: Change) -> Result<Change, NoRemedy> {
    let mut draft = Draft::of_changes(job, change.step.changes());
    draft.set_title(TitleBlock {
        status: Status::Study,
        ..job.title.clone()
    });
    let name = change.step.name().to_owned();
    let step: Step = draft.finish(name)?;
    Ok(Change { step, ..change })
}

/// "tee 1 – tee 2 (R1, R2)", "meter – A (R1 to R9)": from where to where along the flow, with the runs.
fn named(job: &Job, study: &Study, runs: &[usize]) -> String {
    let id = |run: &usize| job.runs.at(*run).id.to_string();
    let ids = match runs {
        [first, .., last] if runs.len() > 3 => format!("{} to {}", id(first), id(last)),
        few => few.iter().map(id).collect::<Vec<_>>().join(", "),
    };
    let ends = |run: Option<&usize>| run.and_then(|&run| study.network.ends[run]);
    match (ends(runs.first()), ends(runs.last())) {
        (Some((from, _)), Some((_, to))) => {
            let places = Places::of(job, study);
            format!("{} – {} ({ids})", places.mark(from), places.mark(to))
        }
        _ => ids,
    }
}
