//! What stands on the shelf for a device of a job.

use stubout::editor::Item;
use stubout::job::Device;

/// The item that places a device.
pub fn item(device: &Device) -> Item {
    match device {
        Device::Supply(_) => Item::Supply,
        Device::Meter(_) => Item::Meter,
        Device::Regulator(_) => Item::Regulator,
        Device::Valve(_) => Item::Valve,
        Device::Union => Item::Union,
        Device::SedimentTrap(_) => Item::SedimentTrap,
        Device::Connector(_) => Item::Connector,
        Device::QuickCoupling(_) => Item::QuickCoupling,
        Device::Appliance(_) => Item::Appliance,
        Device::Cap(_) => Item::Cap,
        Device::TestGauge => Item::TestGauge,
    }
}
