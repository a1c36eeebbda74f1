//! How shutoff valves are built.

use super::listed::listed;

listed! {
    /// How a valve is built.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
    pub enum ValveKind {
        /// A ball valve.
        #[default]
        Ball,
        /// A plug valve, the gas cock.
        Plug,
        /// A gate valve.
        Gate,
        /// A globe valve.
        Globe,
        /// The valve of a log lighter or log set, in the wall or hearth, turned by a key through its plate.
        Key,
    }
}

impl ValveKind {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            ValveKind::Ball => "ball valve",
            ValveKind::Plug => "plug valve",
            ValveKind::Gate => "gate valve",
            ValveKind::Globe => "globe valve",
            ValveKind::Key => "key valve",
        }
    }
}
