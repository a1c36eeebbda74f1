//! What one part of the window asks of another. Requests wait on the desk and are done in one place, `App::serve`, in the
//! order in which they were made, at the beginning of the next frame.

use crate::editor::{CommandId, Part};
use crate::job::{Detail, Job};
use crate::scene::Point;
use crate::sheet::Field;

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum Request {
    /// A command that only the window can do.
    Command(CommandId),
    /// A job that lies in no file comes on the desk, once what lies there is safe.
    Begin(Box<Job>),
    /// Paper and sheet show another job whole.
    ShowWhole,
    /// The paper shows the place of a part.
    ShowPart(Part),
    /// The paper shows a place where nothing stands any more.
    ShowPlace(Point),
    /// The lists show what changed since the issue.
    ShowChanges,
    /// A part is chosen and shown on the paper that is drawn on.
    GoToPart(Part),
    /// A field of the title block is to be filled in beside the sheet.
    FillIn(Field),
    /// A field of the details is to be filled in.
    GoToDetail(Detail),
    /// A text goes into a field of the details, which has the cursor from then on.
    TypeInto(Detail, String),
    /// A list is to be saved for a spreadsheet: its name, and its text.
    SaveList(String, String),
}
