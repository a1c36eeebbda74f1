//! What every kind of device is, in one table: no room decides it by itself, and a new kind answers all of it at once.

use super::Device;

/// What a kind of device is, wherever the house must know it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Nature {
    /// Whether pipe is screwed into it, in a line or at its end.
    pub stands_in_line: bool,
    /// How many runs it joins at most; as many as come where it is on the side of the line.
    pub most_runs: Option<usize>,
    /// Whether what leads on from it is the flexible line to an appliance, and no pipe.
    pub starts_connector: bool,
    /// Whether the pressure behind it is its own, so that a section ends there.
    pub sets_pressure: bool,
    /// How it takes a way of its own out of the fitting in which runs meet.
    pub own_way: OwnWay,
    /// Whether it can be drawn before any pipe leads to it.
    pub stands_alone: bool,
    /// When it comes to the pipe.
    pub fitted: Fitted,
    /// Whether an office asks for its maker's data.
    pub has_makers_data: bool,
}

/// Whether a device takes a way of its own out of a fitting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OwnWay {
    /// It stands in the line, or on it.
    None,
    /// Where a line goes past it.
    OnALine,
    /// Even at the end of a line: a trap is a tee.
    Always,
}

/// When a device comes to the pipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fitted {
    /// With the pipe, before the test.
    WithThePipe,
    /// After the test: it would suffer from the test pressure, or belongs to an appliance.
    AfterTheTest,
    /// By others or not for good: the point of delivery, an appliance, the gauge of the test.
    Apart,
}

impl Device {
    /// What it is.
    pub const fn nature(&self) -> Nature {
        match self {
            Device::Supply(_) => Nature {
                stands_in_line: false,
                most_runs: None,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::OnALine,
                stands_alone: true,
                fitted: Fitted::Apart,
                has_makers_data: false,
            },
            Device::Meter(_) => Nature {
                stands_in_line: true,
                most_runs: Some(2),
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::None,
                stands_alone: false,
                fitted: Fitted::AfterTheTest,
                has_makers_data: false,
            },
            Device::Regulator(_) => Nature {
                stands_in_line: true,
                most_runs: Some(2),
                starts_connector: false,
                sets_pressure: true,
                own_way: OwnWay::None,
                stands_alone: false,
                fitted: Fitted::AfterTheTest,
                has_makers_data: true,
            },
            Device::Valve(_) | Device::Union => Nature {
                stands_in_line: true,
                most_runs: Some(2),
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::None,
                stands_alone: false,
                fitted: Fitted::WithThePipe,
                has_makers_data: false,
            },
            Device::SedimentTrap(_) => Nature {
                stands_in_line: false,
                most_runs: Some(2),
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::Always,
                stands_alone: false,
                fitted: Fitted::WithThePipe,
                has_makers_data: false,
            },
            Device::Connector(_) | Device::QuickCoupling(_) => Nature {
                stands_in_line: true,
                most_runs: Some(2),
                starts_connector: true,
                sets_pressure: false,
                own_way: OwnWay::None,
                stands_alone: false,
                fitted: Fitted::AfterTheTest,
                has_makers_data: false,
            },
            Device::Appliance(_) => Nature {
                stands_in_line: false,
                most_runs: Some(1),
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::OnALine,
                stands_alone: true,
                fitted: Fitted::Apart,
                has_makers_data: true,
            },
            Device::Cap(_) => Nature {
                stands_in_line: false,
                most_runs: Some(1),
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::OnALine,
                stands_alone: false,
                fitted: Fitted::WithThePipe,
                has_makers_data: false,
            },
            Device::TestGauge => Nature {
                stands_in_line: false,
                most_runs: Some(2),
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::OnALine,
                stands_alone: false,
                fitted: Fitted::Apart,
                has_makers_data: false,
            },
        }
    }

    /// Whether pipe is screwed into it, in a line or at its end.
    pub const fn stands_in_line(&self) -> bool {
        self.nature().stands_in_line
    }
}
