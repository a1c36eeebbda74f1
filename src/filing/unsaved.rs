//! Work that is not saved: what was left behind is offered, and of what lies on the desk a copy is kept.

use super::offer::{Offer, Wish};
use super::{Asking, Files};
use crate::desk::Desk;
use crate::disk::Print;
use egui::Context;
use std::time::Duration;

/// Seconds between two copies of unsaved work: whatever happens, no more than the drawing of two is lost, also where other
/// programs keep the window waiting.
const EVERY: f64 = 0.5;

impl Files {
    /// Offers work that was left behind, one piece at a time.
    pub(super) fn offer_left(&mut self, ctx: &Context, desk: &mut Desk) {
        let next = || self.left.pop().map(|left| Offer::of(left, &desk.book()));
        let Some(offer) = self.offered.take().or_else(next) else {
            return;
        };
        match offer.ui(ctx, self.left.len()) {
            Some(Wish::Recover) => self.take_up(offer, desk),
            Some(Wish::Discard) => offer.left.discard(),
            Some(Wish::Later) => {}
            None => self.offered = Some(offer),
        }
    }

    /// Puts work that was left behind on the desk, unsaved as it is. The rest is offered at the next start.
    fn take_up(&mut self, offer: Offer, desk: &mut Desk) {
        let Offer { left, read, .. } = offer;
        match read {
            Ok(job) => {
                desk.open(*job);
                desk.editor_mut().mark_unsaved();
                let print = left.of.as_deref().filter(|_| !left.is_older).and_then(Print::now);
                self.on_desk(desk, left.of.clone(), print);
                if self.recovery.keep(desk.job(), left.of.as_deref()).is_ok() {
                    left.discard();
                }
                self.left.clear();
            }
            Err(trouble) => self.asking = Some(Asking::Trouble(trouble)),
        }
    }

    /// Keeps the copy of unsaved work young.
    pub(super) fn keep_copy(&mut self, ctx: &Context, desk: &Desk) {
        if !self.recovery.is_on() || self.leaving {
            return;
        }
        if desk.editor().is_saved() {
            if self.copied.take().is_some() {
                self.recovery.forget();
            }
            return;
        }
        let (revision, (now, is_used)) = (desk.editor().revision(), ctx.input(|input| (input.time, input.focused)));
        if let Some((copied, at)) = self.copied {
            if copied == revision {
                return;
            }
            // Who turns to another program may come back to a machine without power.
            if now - at < EVERY && is_used {
                ctx.request_repaint_after(Duration::from_secs_f64((EVERY - now + at).max(0.1)));
                return;
            }
        }
        self.copied = Some((revision, now));
        if let Err(trouble) = self.recovery.keep(desk.job(), self.path.as_deref())
            && self.asking.is_none()
            && !std::mem::replace(&mut self.warned, true)
        {
            self.asking = Some(Asking::Trouble(trouble));
        }
    }
}
