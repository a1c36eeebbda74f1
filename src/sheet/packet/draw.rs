//! The finished sheets as scenes.

use super::{Composer, STAMP};

use super::notice::{self, Lacking, left_out};
use crate::drawing::{Isometric, layers};
use crate::scene::{Affine, Group, Ink, Pen, Point, Rect, Scene, Stroke};
use crate::sheet::block::{Block, Part};
use crate::sheet::cautions;
use crate::sheet::field::Field;
use crate::sheet::fill::Filled;
use crate::sheet::plan::{Foot, Plan};
use crate::sheet::pour::Poured;
use crate::sheet::purpose::Purpose;
use crate::sheet::strip::{boxed, rule};
use crate::sheet::tags::Schedule;
use crate::sheet::title_strip::TitleStrip;

/// The least width of room for a schedule, mm.
pub const LEAST_ROOM: f64 = 64.0;

/// Which of the sheets of its set, and what it is for.
#[derive(Clone, Copy, Debug)]
pub struct Which {
    /// Its number, from 1.
    pub number: usize,
    /// The number of all.
    pub of: usize,
    /// What it is for.
    pub purpose: Purpose,
}

impl Which {
    fn number(self) -> String {
        format!("{} of {}", self.number, self.of)
    }
}

/// A sheet with a drawing and what stands around it; `stamp` is the room for one.
pub fn drawn(
    composer: &Composer<'_>,
    plan: &Plan,
    (drawing, filled): (&Isometric, &Filled),
    stamp: Option<Rect>,
    which: Which,
) -> Scene {
    let mut sheet = blank(composer, which);
    let mut all = Group::new().label("drawing").with(drawing.group.clone());
    let over = (composer.matter).over(composer.drawn, composer.study, composer.book, drawing);
    if !over.items().is_empty() && matches!(which.purpose, Purpose::Study(_)) {
        all.push(over.on(layers::STUDY).label("study"));
    }
    sheet.push(all);
    for (at, laid) in &filled.placed {
        sheet.push(laid.whole().ink.map(Affine::to(*at)));
    }
    if let Some(place) = stamp {
        let room = Block::new(Schedule::Stamp, "", vec![Part::Blank(place.height() - 2.4, STAMP)]);
        sheet.push(room.lay(place.width()).whole().ink.map(Affine::to(place.min)));
    }
    foot(composer, plan, which, &mut sheet);
    sheet
}

/// The sheet, with what it says where its drawing leaves words out.
pub fn noticed(mut sheet: Scene, (plan, drawing): (&Plan, &Isometric), lacking: Lacking) -> Scene {
    if let Some(place) = plan.notice.filter(|_| left_out(drawing) > 0) {
        let said = notice::block(lacking, left_out(drawing)).lay(place.width()).whole().ink;
        sheet.push(said.map(Affine::to(place.min)));
    }
    sheet
}

/// A sheet of schedules.
pub fn later(composer: &Composer<'_>, plan: &Plan, schedules: Poured, columns: &[Rect], which: Which) -> Scene {
    let mut sheet = blank(composer, which);
    for column in columns.iter().skip(1) {
        let (top, end) = (column.min, Point::new(column.min.x, column.max.y));
        sheet.push(rule(top, end, Pen::Medium, Ink::Black));
    }
    sheet.push(schedules.ink);
    foot(composer, plan, which, &mut sheet);
    sheet
}

/// A sheet of whatever was laid out on its body.
pub fn page(composer: &Composer<'_>, plan: &Plan, body: impl IntoIterator<Item = Group>, which: Which) -> Scene {
    let mut sheet = blank(composer, which);
    body.into_iter().for_each(|ink| sheet.push(ink));
    foot(composer, plan, which, &mut sheet);
    sheet
}

fn blank(composer: &Composer<'_>, Which { number, of, purpose }: Which) -> Scene {
    let (width, height) = composer.paper.size(composer.orientation);
    let says = |field| purpose.value(field, composer.job, composer.checked, composer.profile);
    let names = [Field::Drawing, Field::Job].map(says);
    let name = names
        .iter()
        .map(|name| name.trim())
        .filter(|name| !name.is_empty())
        .collect::<Vec<_>>()
        .join(" ");
    let name = if name.is_empty() { "Gas piping isometric" } else { &name };
    Scene::new(width, height, format!("{name}, sheet {number} of {of}"))
}

/// What stands along the foot of a sheet, and the frame around all.
fn foot(composer: &Composer<'_>, plan: &Plan, which: Which, sheet: &mut Scene) {
    match plan.foot {
        Foot::First { cautions, title, .. } => {
            let words = cautions::strip(composer.profile, cautions.width()).ink;
            sheet.push(words.map(Affine::to(cautions.min)));
            sheet.push(boxed(cautions, Stroke::new(Pen::Medium)));
            sheet.push(composer.title.draw(title, &which.number()));
        }
        Foot::Later { strip } => {
            let title = TitleStrip {
                purpose: which.purpose,
                job: composer.job,
                checked: composer.checked,
                profile: composer.profile,
            };
            sheet.push(title.draw(strip, &which.number()));
        }
    }
    sheet.push(boxed(plan.frame, Stroke::new(Pen::Heavy)));
}
