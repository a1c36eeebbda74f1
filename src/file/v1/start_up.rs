//! What was measured at an appliance, in the file.

use serde::{Deserialize, Serialize};

use super::text::{Text, known, written};
use super::usual;
use crate::job;
use crate::units::{Clocked, GaugePressure};

/// `start_up: (static: "7.1 in w.c.", working: "6.3 in w.c.", lock_up: "7.4 in w.c.", clocked: "2 ft3 in 96 s")`
#[derive(Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StartUp {
    #[serde(default, skip_serializing_if = "usual", rename = "static")]
    static_pressure: Option<Text<GaugePressure>>,
    #[serde(default, skip_serializing_if = "usual")]
    working: Option<Text<GaugePressure>>,
    #[serde(default, skip_serializing_if = "usual")]
    lock_up: Option<Text<GaugePressure>>,
    #[serde(default, skip_serializing_if = "usual")]
    clocked: Option<Text<Clocked>>,
}

impl From<&job::StartUp> for StartUp {
    fn from(read: &job::StartUp) -> StartUp {
        StartUp {
            static_pressure: written(&read.static_pressure),
            working: written(&read.working),
            lock_up: written(&read.lock_up),
            clocked: written(&read.clocked),
        }
    }
}

impl From<StartUp> for job::StartUp {
    fn from(file: StartUp) -> job::StartUp {
        job::StartUp {
            static_pressure: known(file.static_pressure),
            working: known(file.working),
            lock_up: known(file.lock_up),
            clocked: known(file.clocked),
        }
    }
}
