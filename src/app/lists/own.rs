//! What a person types above a list: fields whose texts are kept until they are taken.

use crate::desk::Desk;
use crate::details::typing::Typing;
use egui::Id;

/// What is being typed.
#[derive(Default)]
pub struct Fields {
    /// The texts.
    pub typing: Typing<Id>,
    /// The job to which they belong, by [`Desk::opened`].
    opened: u64,
}

impl Fields {
    /// Starts a frame; says whether another job has come, to which nothing of before belongs.
    pub fn begin(&mut self, desk: &Desk) -> bool {
        let is_other = self.opened != desk.opened();
        if is_other {
            *self = Fields {
                opened: desk.opened(),
                ..Fields::default()
            };
        }
        self.typing.begin();
        is_other
    }

    /// Ends a frame: texts whose fields are no longer shown are taken.
    pub fn end(&mut self, desk: &mut Desk) {
        self.typing.end(desk);
    }

    /// Takes what is typed and not yet taken.
    pub fn settle(&mut self, desk: &mut Desk) {
        if self.opened == desk.opened() {
            self.typing.take_all(desk);
        }
    }
}
