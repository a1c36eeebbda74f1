//! What stands on the shelf for a device of a job.

use stubout::editor::Item;
use stubout::job::Device;

/// The item that places a device.
pub fn item(device: &Device) -> Item {
    Item::Device(device.kind())
}
