//! What every kind of device is, in one table: no room decides it by itself, and a new kind answers all of it at once.

use super::ValveKind;
use super::listed::listed;
use crate::units::Flow;

listed! {
    /// The kinds of devices, in the order in which gas comes to them.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum DeviceKind {
        /// The point of delivery.
        Supply,
        /// A meter in the line.
        Meter,
        /// A line regulator.
        Regulator,
        /// A shutoff valve.
        Valve,
        /// A valve that shuts by itself when too much gas flows.
        ExcessFlow,
        /// A union.
        Union,
        /// A sediment trap.
        SedimentTrap,
        /// A flexible connector.
        Connector,
        /// A quick-disconnect coupling.
        QuickCoupling,
        /// A gas appliance.
        Appliance,
        /// A cap.
        Cap,
        /// A gauge for the pressure test.
        TestGauge,
    }
}

/// What a kind of device is, wherever the house must know it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nature {
    /// The trade's name of one, in lower case.
    pub name: &'static str,
    /// Its name where there is little room.
    pub short: &'static str,
    /// The name of several.
    pub plural: &'static str,
    /// Its name on the shelf of things to place.
    pub shelf: &'static str,
    /// What it is, in one line, for the shelf.
    pub about: &'static str,
    /// Whether pipe is screwed into it, in a line or at its end.
    pub stands_in_line: bool,
    /// How many runs it joins at most; as many as come where it is on the side of the line.
    pub most_runs: Option<usize>,
    /// Whether it may stand on the side of a line that goes on past it.
    pub may_stand_beside: bool,
    /// Whether it closes the end of a line.
    pub closes_end: bool,
    /// Whether what leads on from it is the flexible line to an appliance, and no pipe.
    pub starts_connector: bool,
    /// Whether the pressure behind it is its own, so that a section ends there.
    pub sets_pressure: bool,
    /// How it takes a way of its own out of the fitting in which runs meet.
    pub own_way: OwnWay,
    /// How it is put on a way that a branching has for it.
    pub ends_way: EndsWay,
    /// Whether it can be drawn before any pipe leads to it.
    pub stands_alone: bool,
    /// How far around its joint it is drawn where that is more than beside its pipe, mm.
    pub drawn_around: f64,
    /// When it comes to the pipe.
    pub fitted: Fitted,
    /// What is done at it for the pressure test; `None` where nothing is.
    pub in_test: Option<ClosureKind>,
    /// Where the take-off counts it.
    pub counted: Counted,
    /// Under which names a person may write down its own length along the line; none where it has no such length.
    pub own_lengths: &'static [&'static str],
    /// What the flow means that is typed for it.
    pub limit: Limit,
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

/// How a device is put on a way of a branching.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndsWay {
    /// It is a capped nipple itself.
    CappedNipple,
    /// As a plug or cap.
    Plug,
    /// By its own male thread.
    MaleThread,
    /// By its female thread, on a nipple.
    FemaleThread,
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

/// Where a device is counted in the take-off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counted {
    /// By itself.
    Alone,
    /// Among the fittings.
    AmongFittings,
    /// Only where it is to be removed: the customer's or the supplier's.
    OnlyRemoved,
}

/// What the flow means that a device is known for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// It carries so much, and no more.
    Carries,
    /// It shuts off at so much: its load has to stay below.
    Trips,
}

impl Limit {
    /// Whether a flow is allowed by it.
    pub fn allows(self, flow: Flow, most: Flow) -> bool {
        match self {
            Limit::Carries => flow <= most,
            Limit::Trips => flow < most,
        }
    }
}

/// Kinds of places that matter in a test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ClosureKind {
    /// New pipe meets the supplier's point of delivery.
    Supply,
    /// New pipe meets pipe that stands.
    TieIn,
    /// A valve in the tested pipe.
    Valve,
    /// A line regulator at the tested pipe.
    Regulator,
    /// A meter at the tested pipe.
    Meter,
    /// An appliance, or the connector or coupling to one.
    Appliance,
    /// A cap or plug that is drawn.
    Cap,
    /// An end with nothing on it.
    OpenEnd,
    /// The gauge of the test.
    Gauge,
}

/// The valves by their names, as [`ValveKind::ALL`] has them.
const VALVES: [&str; ValveKind::ALL.len()] = {
    let mut names = [""; ValveKind::ALL.len()];
    let mut at = 0;
    while at < names.len() {
        names[at] = ValveKind::ALL[at].name();
        at += 1;
    }
    names
};

impl DeviceKind {
    /// What it is.
    pub const fn nature(self) -> Nature {
        match self {
            DeviceKind::Supply => Nature {
                name: "point of delivery",
                short: "point of delivery",
                plural: "points of delivery",
                shelf: "Point of delivery",
                about: "Where the customer's piping starts: meter set or tank regulator",
                stands_in_line: false,
                most_runs: None,
                may_stand_beside: true,
                closes_end: true,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::OnALine,
                ends_way: EndsWay::FemaleThread,
                stands_alone: true,
                drawn_around: 3.4,
                fitted: Fitted::Apart,
                in_test: Some(ClosureKind::Supply),
                counted: Counted::OnlyRemoved,
                own_lengths: &[],
                limit: Limit::Carries,
                has_makers_data: false,
            },
            DeviceKind::Meter => Nature {
                name: "meter",
                short: "meter",
                plural: "meters",
                shelf: "Meter",
                about: "Another meter in the line",
                stands_in_line: true,
                most_runs: Some(2),
                may_stand_beside: false,
                closes_end: false,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::None,
                ends_way: EndsWay::FemaleThread,
                stands_alone: false,
                drawn_around: 3.4,
                fitted: Fitted::AfterTheTest,
                in_test: Some(ClosureKind::Meter),
                counted: Counted::Alone,
                own_lengths: &["meter"],
                limit: Limit::Carries,
                has_makers_data: false,
            },
            DeviceKind::Regulator => Nature {
                name: "line regulator",
                short: "regulator",
                plural: "line regulators",
                shelf: "Line regulator",
                about: "Reduces the pressure; a new zone starts downstream of it",
                stands_in_line: true,
                most_runs: Some(2),
                may_stand_beside: false,
                closes_end: false,
                starts_connector: false,
                sets_pressure: true,
                own_way: OwnWay::None,
                ends_way: EndsWay::FemaleThread,
                stands_alone: false,
                drawn_around: 3.0,
                fitted: Fitted::AfterTheTest,
                in_test: Some(ClosureKind::Regulator),
                counted: Counted::Alone,
                own_lengths: &["line regulator"],
                limit: Limit::Carries,
                has_makers_data: true,
            },
            DeviceKind::Valve => Nature {
                name: "shutoff valve",
                short: "valve",
                plural: "shutoff valves",
                shelf: "Shutoff valve",
                about: "Shuts the line off by hand",
                stands_in_line: true,
                most_runs: Some(2),
                may_stand_beside: false,
                closes_end: false,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::None,
                ends_way: EndsWay::FemaleThread,
                stands_alone: false,
                drawn_around: 0.0,
                fitted: Fitted::WithThePipe,
                in_test: Some(ClosureKind::Valve),
                counted: Counted::Alone,
                own_lengths: &VALVES,
                limit: Limit::Carries,
                has_makers_data: false,
            },
            DeviceKind::ExcessFlow => Nature {
                name: "excess-flow valve",
                short: "excess-flow valve",
                plural: "excess-flow valves",
                shelf: "Excess-flow valve",
                about: "Shuts by itself when more gas flows than it is made for",
                stands_in_line: true,
                most_runs: Some(2),
                may_stand_beside: false,
                closes_end: false,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::None,
                ends_way: EndsWay::FemaleThread,
                stands_alone: false,
                drawn_around: 0.0,
                fitted: Fitted::WithThePipe,
                in_test: Some(ClosureKind::Valve),
                counted: Counted::Alone,
                own_lengths: &["excess-flow valve"],
                limit: Limit::Trips,
                has_makers_data: true,
            },
            DeviceKind::Union => Nature {
                name: "union",
                short: "union",
                plural: "unions",
                shelf: "Union",
                about: "Opens the line without turning pipe",
                stands_in_line: true,
                most_runs: Some(2),
                may_stand_beside: false,
                closes_end: false,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::None,
                ends_way: EndsWay::FemaleThread,
                stands_alone: false,
                drawn_around: 0.0,
                fitted: Fitted::WithThePipe,
                in_test: None,
                counted: Counted::Alone,
                own_lengths: &["union"],
                limit: Limit::Carries,
                has_makers_data: false,
            },
            DeviceKind::SedimentTrap => Nature {
                name: "sediment trap",
                short: "trap",
                plural: "sediment traps",
                shelf: "Sediment trap",
                about: "Tee and capped nipple that catch dirt ahead of an appliance",
                stands_in_line: false,
                most_runs: Some(2),
                may_stand_beside: false,
                closes_end: false,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::Always,
                ends_way: EndsWay::CappedNipple,
                stands_alone: false,
                drawn_around: 0.0,
                fitted: Fitted::WithThePipe,
                in_test: None,
                counted: Counted::AmongFittings,
                own_lengths: &[],
                limit: Limit::Carries,
                has_makers_data: false,
            },
            DeviceKind::Connector => Nature {
                name: "connector",
                short: "connector",
                plural: "connectors",
                shelf: "Connector",
                about: "Flexible tube between pipe and appliance",
                stands_in_line: true,
                most_runs: Some(2),
                may_stand_beside: false,
                closes_end: false,
                starts_connector: true,
                sets_pressure: false,
                own_way: OwnWay::None,
                ends_way: EndsWay::FemaleThread,
                stands_alone: false,
                drawn_around: 0.0,
                fitted: Fitted::AfterTheTest,
                in_test: Some(ClosureKind::Appliance),
                counted: Counted::Alone,
                own_lengths: &["connector"],
                limit: Limit::Carries,
                has_makers_data: false,
            },
            DeviceKind::QuickCoupling => Nature {
                name: "quick-disconnect coupling",
                short: "coupling",
                plural: "quick-disconnect couplings",
                shelf: "Quick-disconnect",
                about: "Hand coupling that shuts off when disconnected",
                stands_in_line: true,
                most_runs: Some(2),
                may_stand_beside: false,
                closes_end: true,
                starts_connector: true,
                sets_pressure: false,
                own_way: OwnWay::None,
                ends_way: EndsWay::FemaleThread,
                stands_alone: false,
                drawn_around: 0.0,
                fitted: Fitted::AfterTheTest,
                in_test: Some(ClosureKind::Appliance),
                counted: Counted::Alone,
                own_lengths: &["quick-disconnect coupling"],
                limit: Limit::Carries,
                has_makers_data: false,
            },
            DeviceKind::Appliance => Nature {
                name: "appliance",
                short: "appliance",
                plural: "appliances",
                shelf: "Appliance",
                about: "Burns gas; ends the line",
                stands_in_line: false,
                most_runs: Some(1),
                may_stand_beside: true,
                closes_end: true,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::OnALine,
                ends_way: EndsWay::FemaleThread,
                stands_alone: true,
                drawn_around: 4.6,
                fitted: Fitted::Apart,
                in_test: Some(ClosureKind::Appliance),
                counted: Counted::OnlyRemoved,
                own_lengths: &[],
                limit: Limit::Carries,
                has_makers_data: true,
            },
            DeviceKind::Cap => Nature {
                name: "cap",
                short: "cap",
                plural: "caps",
                shelf: "Cap",
                about: "Closes an end, or in a line the outlet of a tee, for good or for a future appliance",
                stands_in_line: false,
                most_runs: None,
                may_stand_beside: true,
                closes_end: true,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::OnALine,
                ends_way: EndsWay::Plug,
                stands_alone: false,
                drawn_around: 0.0,
                fitted: Fitted::WithThePipe,
                in_test: Some(ClosureKind::Cap),
                counted: Counted::AmongFittings,
                own_lengths: &[],
                limit: Limit::Carries,
                has_makers_data: false,
            },
            DeviceKind::TestGauge => Nature {
                name: "test gauge",
                short: "test gauge",
                plural: "test gauges",
                shelf: "Test gauge",
                about: "Where the pressure test is read",
                stands_in_line: false,
                most_runs: Some(2),
                may_stand_beside: true,
                closes_end: true,
                starts_connector: false,
                sets_pressure: false,
                own_way: OwnWay::OnALine,
                ends_way: EndsWay::MaleThread,
                stands_alone: false,
                drawn_around: 3.0,
                fitted: Fitted::Apart,
                in_test: Some(ClosureKind::Gauge),
                counted: Counted::Alone,
                own_lengths: &[],
                limit: Limit::Carries,
                has_makers_data: false,
            },
        }
    }
}
