//! What a person adds to lists, in the file.

use serde::{Deserialize, Serialize};

use super::{List, usual};
use crate::job;

/// `(what: "…", quantity: 3, unit: "…", note: "…")`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Extra {
    what: String,
    #[serde(default = "one")]
    pub quantity: f64,
    #[serde(default = "each", skip_serializing_if = "is_each")]
    unit: String,
    #[serde(default, skip_serializing_if = "usual")]
    note: String,
}

/// `(step: "shut", words: "…", after: ["…"], left_out: true)`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnStep {
    pub step: String,
    #[serde(default, skip_serializing_if = "usual")]
    words: Option<String>,
    #[serde(default, skip_serializing_if = "usual")]
    after: List<String>,
    #[serde(default, skip_serializing_if = "usual")]
    left_out: bool,
}

fn one() -> f64 {
    1.0
}

fn each() -> String {
    "each".to_owned()
}

fn is_each(unit: &str) -> bool {
    unit == "each"
}

impl From<&job::Extra> for Extra {
    fn from(extra: &job::Extra) -> Extra {
        let job::Extra {
            what,
            quantity,
            unit,
            note,
        } = extra.clone();
        Extra {
            what,
            quantity,
            unit,
            note,
        }
    }
}

impl From<Extra> for job::Extra {
    fn from(extra: Extra) -> job::Extra {
        job::Extra {
            what: extra.what,
            quantity: extra.quantity,
            unit: extra.unit,
            note: extra.note,
        }
    }
}

impl From<&job::OwnStep> for OwnStep {
    fn from(own: &job::OwnStep) -> OwnStep {
        OwnStep {
            step: own.step.clone(),
            words: own.words.clone(),
            after: own.after.iter().cloned().collect(),
            left_out: own.left_out,
        }
    }
}

impl From<OwnStep> for job::OwnStep {
    fn from(own: OwnStep) -> job::OwnStep {
        job::OwnStep {
            step: own.step,
            words: own.words,
            after: own.after.0,
            left_out: own.left_out,
        }
    }
}
