//! Version 1 of the job file: what each key is called, what may stand there, and its value when it is left out.
//!
//! A file of this version opens for ever: a key or word that gets another name is read by its old one too (`old.rs`), and the values of keys left out are
//! written here, apart from the defaults of [`crate::job`], which may change. Only shapes live here; what makes a file
//! wrong as a whole is found by `check`.

mod by_hand;
mod device;
mod gas;
mod joint;
mod letter;
mod list;
mod note;
pub mod old;
mod run;
mod settings;
mod start_up;
mod text;
mod title;
mod variant;
mod words;
mod words_at;

pub use by_hand::{Extra, OwnStep};
pub use joint::Joint;
pub use list::List;
pub use note::Note;
pub use run::Run;
pub use variant::Variant;

use gas::Gas;
use serde::{Deserialize, Serialize};
use settings::Settings;
use title::Title;

use crate::job;

/// The number that `version` has in such a file.
pub const VERSION: u32 = 1;

/// A whole file.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Job {
    version: u32,
    #[serde(default, skip_serializing_if = "usual")]
    title: Title,
    #[serde(default)]
    settings: Settings,
    #[serde(default)]
    pub gas: Gas,
    #[serde(default, skip_serializing_if = "usual")]
    pub joints: List<Joint>,
    #[serde(default, skip_serializing_if = "usual")]
    pub runs: List<Run>,
    #[serde(default, skip_serializing_if = "usual")]
    pub notes: List<Note>,
    #[serde(default, skip_serializing_if = "usual")]
    pub extra: List<Extra>,
    #[serde(default, skip_serializing_if = "usual", alias = "order")]
    pub work_steps: List<OwnStep>,
    #[serde(default, skip_serializing_if = "usual")]
    pub variants: List<Variant>,
}

/// Whether a value is the one that a key left out has.
fn usual<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

impl From<&job::Job> for Job {
    fn from(job: &job::Job) -> Job {
        Job {
            version: VERSION,
            title: Title::from(&job.title),
            settings: Settings::from(&job.settings),
            gas: Gas::from(&job.gas),
            joints: job.joints.iter().map(Joint::from).collect(),
            runs: job.runs.iter().map(Run::from).collect(),
            notes: job.notes.iter().map(Note::from).collect(),
            extra: job.by_hand.extra.iter().map(Extra::from).collect(),
            work_steps: job.by_hand.order.iter().map(OwnStep::from).collect(),
            variants: variant::written(job),
        }
    }
}

impl From<Job> for job::Job {
    fn from(mut file: Job) -> job::Job {
        // A store takes parts in order fast, and in any other order slowly.
        file.joints.0.sort_by_key(|joint| joint.id);
        file.runs.0.sort_by_key(|run| run.id);
        let variants = std::mem::take(&mut file.variants);
        let mut job = job::Job {
            title: file.title.into(),
            settings: file.settings.into(),
            gas: file.gas.into(),
            joints: file.joints.0.into_iter().map(job::Joint::from).collect(),
            runs: file.runs.0.into_iter().map(job::Run::from).collect(),
            notes: file.notes.0.into_iter().map(job::Note::from).collect(),
            by_hand: job::ByHand {
                extra: file.extra.0.into_iter().map(job::Extra::from).collect(),
                order: file.work_steps.0.into_iter().map(job::OwnStep::from).collect(),
            },
            variants: job::Variants::default(),
        };
        job.variants = variant::known(variants, &job);
        job
    }
}
