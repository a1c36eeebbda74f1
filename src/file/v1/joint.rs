//! Joints in the file.

use serde::{Deserialize, Serialize};

use super::device::Device;
use super::letter::Letter;
use super::text::{Text, known};
use super::usual;
use super::words::{State, Turn};
use super::words_at::{self, WordsAt};
use crate::job::{self, JointId, LatticePoint, Placed};
use crate::units::{Length, NominalSize};

/// `(id: 3, at: (4, 0, 2), device: valve(kind: plug))`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Joint {
    pub id: u32,
    pub at: (i32, i32, i32),
    #[serde(default, skip_serializing_if = "usual")]
    label: Option<String>,
    #[serde(default, skip_serializing_if = "usual")]
    pub device: Option<Box<Device>>,
    /// Of the device.
    #[serde(default, skip_serializing_if = "usual")]
    pub state: Option<State>,
    /// Of the device's own ends.
    #[serde(default, skip_serializing_if = "usual")]
    pub size: Option<Text<NominalSize>>,
    /// Of the device.
    #[serde(default, skip_serializing_if = "usual")]
    pub salvaged: bool,
    /// Of the device.
    #[serde(default, skip_serializing_if = "usual", alias = "takes")]
    pub take_out: Option<Text<Length>>,
    /// Of an outlet.
    #[serde(default, skip_serializing_if = "usual")]
    letter: Option<Letter>,
    #[serde(default, skip_serializing_if = "usual")]
    turn: Turn,
    #[serde(default, skip_serializing_if = "usual", alias = "fitting_takes")]
    pub fitting_take_out: Option<Text<Length>>,
    /// Of the words that stand here.
    #[serde(default, skip_serializing_if = "usual")]
    pub words_at: WordsAt,
}

impl From<&job::Joint> for Joint {
    fn from(joint: &job::Joint) -> Joint {
        let placed = joint.placed.as_ref();
        let state = placed.map(|placed| State::from(placed.state));
        Joint {
            id: joint.id.0,
            at: (joint.at.east, joint.at.north, joint.at.up),
            label: joint.label.clone(),
            device: placed.map(|placed| Box::new(Device::from(&placed.device))),
            state: state.filter(|state| !usual(state)),
            size: placed.and_then(|placed| placed.size).map(Text),
            salvaged: placed.is_some_and(|placed| placed.salvaged),
            take_out: placed.and_then(|placed| placed.takes).map(Text),
            letter: placed.and_then(|placed| placed.letter).map(Letter),
            turn: joint.turn.into(),
            fitting_take_out: joint.fitting_takes.map(Text),
            words_at: words_at::written(joint.words_at),
        }
    }
}

impl From<Joint> for job::Joint {
    fn from(joint: Joint) -> job::Joint {
        let (east, north, up) = joint.at;
        job::Joint {
            id: JointId(joint.id),
            at: LatticePoint::new(east, north, up),
            label: joint.label,
            placed: joint.device.map(|device| Placed {
                device: (*device).into(),
                state: joint.state.unwrap_or_default().into(),
                size: known(joint.size),
                salvaged: joint.salvaged,
                takes: known(joint.take_out),
                letter: joint.letter.map(|letter| letter.0),
            }),
            turn: joint.turn.into(),
            fitting_takes: known(joint.fitting_take_out),
            words_at: words_at::known(joint.words_at),
        }
    }
}
