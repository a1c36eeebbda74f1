//! What holds for the whole job, in the file.

use serde::{Deserialize, Serialize};

use super::text::{Text, known, written};
use super::words::{Material, Method, NorthAxis, Units};
use super::{List, usual};
use crate::job;
use crate::units::{Length, PressureDrop};

/// `settings: (units: us, step: "1'", …)`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Settings {
    #[serde(skip_serializing_if = "usual")]
    units: Units,
    /// Always written: lengths follow from it.
    step: Text<Length>,
    #[serde(skip_serializing_if = "usual")]
    material: Material,
    /// Always written: what is right follows from it.
    profile: String,
    #[serde(skip_serializing_if = "usual")]
    tables: List<OwnTable>,
    #[serde(skip_serializing_if = "usual")]
    method: Option<Method>,
    #[serde(skip_serializing_if = "usual")]
    allowed_drop: Option<Text<PressureDrop>>,
    #[serde(skip_serializing_if = "usual")]
    altitude: Option<Text<Length>>,
    #[serde(skip_serializing_if = "no_length")]
    datum: Text<Length>,
    #[serde(skip_serializing_if = "usual_datum")]
    datum_name: String,
    #[serde(skip_serializing_if = "usual")]
    north: NorthAxis,
}

/// `(id: "…", figures: "…")`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct OwnTable {
    id: String,
    figures: String,
}

const DATUM: &str = "finished floor";

fn no_length(length: &Text<Length>) -> bool {
    length.0 == Length::ZERO
}

fn usual_datum(name: &str) -> bool {
    name == DATUM
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            units: Units::default(),
            step: Text(Length::from_feet(1.0)),
            material: Material::default(),
            profile: "us-ifgc".to_owned(),
            tables: List::default(),
            method: None,
            allowed_drop: None,
            altitude: None,
            datum: Text(Length::ZERO),
            datum_name: DATUM.to_owned(),
            north: NorthAxis::default(),
        }
    }
}

impl From<&job::Settings> for Settings {
    fn from(settings: &job::Settings) -> Settings {
        Settings {
            units: settings.units.into(),
            step: Text(settings.step),
            material: settings.material.into(),
            profile: settings.profile.clone(),
            tables: settings.tables.iter().map(OwnTable::from).collect(),
            method: settings.method.map(Method::from),
            allowed_drop: written(&settings.allowed_drop),
            altitude: written(&settings.altitude),
            datum: Text(settings.datum),
            datum_name: settings.datum_name.clone(),
            north: settings.north.into(),
        }
    }
}

impl From<Settings> for job::Settings {
    fn from(settings: Settings) -> job::Settings {
        job::Settings {
            units: settings.units.into(),
            step: settings.step.0,
            material: settings.material.into(),
            profile: settings.profile,
            tables: settings.tables.0.into_iter().map(job::OwnTable::from).collect(),
            method: settings.method.map(job::Method::from),
            allowed_drop: known(settings.allowed_drop),
            altitude: known(settings.altitude),
            datum: settings.datum.0,
            datum_name: settings.datum_name,
            north: settings.north.into(),
        }
    }
}

impl From<&job::OwnTable> for OwnTable {
    fn from(table: &job::OwnTable) -> OwnTable {
        let job::OwnTable { id, figures } = table.clone();
        OwnTable { id, figures }
    }
}

impl From<OwnTable> for job::OwnTable {
    fn from(OwnTable { id, figures }: OwnTable) -> job::OwnTable {
        job::OwnTable { id, figures }
    }
}
