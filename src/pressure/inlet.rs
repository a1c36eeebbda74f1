//! Pressure at the outlets.

use super::march::March;
use crate::network::{Outlet, Zone};

impl Outlet {
    /// Enters what the march found.
    pub(crate) fn measure(&mut self, zones: &[Zone], zone: Option<usize>, march: &March) {
        self.pressure = march.pressure[self.joint];
        let untold = self.hose.is_some_and(|hose| hose.connector.is_none());
        self.unrated = march.unrated[self.joint] + usize::from(untold);
        let start = zone.and_then(|zone| march.pressure[zones[zone].start]);
        self.zone_drop = start.zip(self.pressure).map(|(start, end)| start - end);
        let least = self.least.filter(|least| least.pa().is_finite());
        self.margin = self.pressure.zip(least).map(|(found, least)| found - least);
    }
}
