//! A list on the screen: heads, and of the rows only those in view. Arrow keys go from row to row, Enter leads.

use super::row::{Column, Lines, Row, Set, Table};
use crate::look;
use crate::rules::Severity;
use egui::Color32;
use egui::style::ScrollAnimation;
use egui::text::LayoutJob;
use egui::{
    EventFilter, Galley, Id, Key, Pos2, Rect, Response, RichText, ScrollArea, Sense, Shape, Stroke, StrokeKind,
};
use egui::{TextStyle, TextWrapMode, Ui, WidgetInfo, WidgetText, pos2, vec2};
use std::sync::Arc;

/// Height of a row of one line, and of the heads.
const HEIGHT: f32 = 24.0;
/// Height that a second line adds.
const LINE: f32 = 18.0;
/// Room between columns.
const GAP: f32 = 14.0;
/// Room at the left for the mark of a row.
const GUTTER: f32 = 24.0;
/// A column as wide as its words is not wider.
const WIDEST: f32 = 220.0;
/// A column that shares room is not narrower.
const NARROWEST: f32 = 90.0;
/// No row has more lines than this.
const MOST_LINES: usize = 8;
/// Two lines of a head share its words no worse than so.
const UNEVEN: f32 = 0.62;

/// A list as it stands on the screen.
#[derive(Default)]
pub struct Grid {
    /// What the columns need for their words.
    widths: Vec<f32>,
    /// The row that Tab leads to.
    cursor: usize,
}

impl Grid {
    /// Forgets what was measured: other rows are to be shown.
    pub fn renew(&mut self) {
        self.widths.clear();
    }

    /// Shows a table; `is_chosen` marks rows. Gives the row that was asked for.
    pub fn ui(
        &mut self,
        ui: &mut Ui,
        name: &str,
        table: &Table,
        is_chosen: impl Fn(usize, &Row) -> bool,
    ) -> Option<usize> {
        if self.widths.len() != table.columns.len() {
            self.widths = widths(ui, table);
        }
        let spans = spans(&table.columns, &self.widths, ui.available_width());
        let whole = spans.last().map_or(0.0, |span| span.right + GAP / 2.0);
        let tall = match heads_fit(ui, &table.columns, &spans) {
            true => HEIGHT,
            false => HEIGHT + LINE,
        };
        let heads = ui.allocate_space(vec2(ui.available_width(), tall)).1;
        self.cursor = self.cursor.min(table.rows.len().saturating_sub(1));
        ui.spacing_mut().item_spacing.y = 0.0;
        let (height, lines) = match table.lines {
            Lines::One => (HEIGHT, 1),
            Lines::Two => (HEIGHT + LINE, 2),
            Lines::All => {
                let lines = most_lines(ui, table, &spans);
                (HEIGHT + LINE * (lines - 1) as f32, lines)
            }
        };
        let mut asked = None;
        let id = |row: usize| Id::unique(("row of", name, row));
        let area = ScrollArea::both().id_salt(name).auto_shrink(false);
        let shown = area.show_rows(ui, height, table.rows.len(), |ui, range| {
            let top = ui.max_rect().top();
            let first = range.start;
            let tabbed = if range.contains(&self.cursor) {
                self.cursor
            } else {
                first
            };
            let mut go = None;
            for at in range {
                let Some(row) = table.rows.get(at) else { break };
                let rect = ui.allocate_space(vec2(whole.max(ui.available_width()), height)).1;
                let sense = if at == tabbed { Sense::click() } else { Sense::CLICK };
                let response = ui.interact(rect, id(at), sense);
                let chosen = is_chosen(at, row);
                response.widget_info(|| {
                    WidgetInfo::selected(egui::Role::ListItem, true, chosen, row.spoken(&table.columns))
                });
                let is_cut = paint(ui, rect, row, &spans, lines, &response, chosen);
                if response.clicked() {
                    self.cursor = at;
                    response.request_focus();
                    asked = Some(at);
                }
                if response.has_focus() {
                    self.cursor = at;
                    go = steps(ui, &response).map(|step| at.saturating_add_signed(step).min(table.rows.len() - 1));
                }
                tip(response, row, is_cut);
            }
            if let Some(to) = go {
                self.cursor = to;
                ui.memory_mut(|memory| memory.request_focus(id(to)));
                let y = top + (to as f32 - first as f32) * height;
                let rect = Rect::from_min_size(pos2(ui.clip_rect().left(), y), vec2(1.0, height));
                ui.scroll_to_rect_animation(rect, None, ScrollAnimation::none());
            }
        });
        head(ui, heads, shown.state.clamped_offset().x, &table.columns, &spans);
        asked
    }
}

/// How far the arrow keys lead from a row that has the focus.
fn steps(ui: &Ui, response: &Response) -> Option<isize> {
    let filter = EventFilter {
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    let (down, up) = ui.input(|input| (input.num_presses(Key::ArrowDown), input.num_presses(Key::ArrowUp)));
    let step = down as isize - up as isize;
    (step != 0).then_some(step)
}

/// What the columns need, measured by their longest words; of those that share room, what their heads need in two lines.
fn widths(ui: &Ui, table: &Table) -> Vec<f32> {
    let width = |words: &str| laid(ui, words, f32::INFINITY, 1, Color32::BLACK).size().x.ceil();
    let column = |(at, column): (usize, &Column)| {
        // Heads stand in the heavier face; where room is shared they may take two lines.
        let heavy = |words: &str| width(words) * 1.08;
        if column.share > 0.0 {
            let word = column.head.split_whitespace().map(heavy).fold(NARROWEST, f32::max);
            return word.max(heavy(&column.head) * UNEVEN);
        }
        let head = heavy(&column.head);
        let cells = table.rows.iter().filter_map(|row| row.cells.get(at));
        // Of words nearly as long as the longest any may be the widest: capitals are wider.
        let most = cells.clone().map(|cell| cell.chars().count()).max().unwrap_or(0);
        let mut long: Vec<&String> = cells.filter(|cell| cell.chars().count() * 4 >= most * 3).collect();
        long.sort_unstable();
        long.dedup();
        let cells = long.into_iter().map(|cell| width(cell)).fold(0.0, f32::max);
        cells.min(WIDEST).max(head)
    };
    table.columns.iter().enumerate().map(column).collect()
}

/// How many lines the longest words of a table need.
fn most_lines(ui: &Ui, table: &Table, spans: &[Span]) -> usize {
    let lines = |(span, cell): (&Span, &String)| {
        laid(ui, cell, span.right - span.left, MOST_LINES, Color32::BLACK)
            .rows
            .len()
    };
    let rows = table
        .rows
        .iter()
        .flat_map(|row| spans.iter().zip(&row.cells).map(lines));
    rows.max().unwrap_or(1).max(1)
}

/// From where to where a column reaches, from the left edge, and how its cells stand.
#[derive(Clone, Copy, Debug)]
struct Span {
    left: f32,
    right: f32,
    set: Set,
}

impl Span {
    /// Where words stand in a row.
    fn place(&self, row: Rect, galley: &Galley) -> Pos2 {
        let x = match self.set {
            Set::Words => row.left() + self.left,
            Set::Figures => row.left() + self.right - galley.size().x,
        };
        pos2(x, row.center().y - galley.size().y / 2.0)
    }
}

fn spans(columns: &[Column], widths: &[f32], room: f32) -> Vec<Span> {
    let each = share(columns, widths, room);
    let mut left = GUTTER;
    let mut spans = Vec::new();
    for (column, width) in columns.iter().zip(widths) {
        let width = width.max(column.share * each);
        let (right, set) = (left + width, column.set);
        spans.push(Span { left, right, set });
        left += width + GAP;
    }
    spans
}

/// Whether every head stands in one line.
fn heads_fit(ui: &Ui, columns: &[Column], spans: &[Span]) -> bool {
    columns.iter().zip(spans).all(|(column, span)| {
        let words = WidgetText::from(look::strong(&column.head));
        let galley = words.into_galley(ui, Some(TextWrapMode::Extend), f32::INFINITY, TextStyle::Body);
        galley.size().x <= span.right - span.left + 0.5
    })
}

/// What one share of the room comes to. A column that needs more than its share has what it needs.
fn share(columns: &[Column], widths: &[f32], room: f32) -> f32 {
    let mut each = 0.0;
    for _ in 0..=columns.len() {
        let needs = |column: &Column, width: f32| column.share * each < width;
        let all = columns.iter().zip(widths);
        let (mut fixed, mut shares) = (0.0, 0.0);
        for (column, width) in all {
            fixed += GAP;
            match column.share > 0.0 && (each == 0.0 || !needs(column, *width)) {
                true => shares += column.share,
                false => fixed += *width,
            }
        }
        let next = ((room - GUTTER - fixed) / f32::max(shares, 1.0)).max(0.0);
        if next == each {
            break;
        }
        each = next;
    }
    each
}

fn head(ui: &Ui, rect: Rect, scrolled: f32, columns: &[Column], spans: &[Span]) {
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 0.0, ui.visuals().faint_bg_color);
    for (column, span) in columns.iter().zip(spans) {
        let words = WidgetText::from(look::strong(&column.head));
        let galley = words.into_galley(ui, Some(TextWrapMode::Wrap), span.right - span.left, TextStyle::Body);
        let at = span.place(rect.translate(vec2(-scrolled, 0.0)), &galley);
        painter.galley(at, galley, ui.visuals().text_color());
    }
}

/// Paints a row; says whether words had to be cut.
fn paint(ui: &Ui, rect: Rect, row: &Row, spans: &[Span], lines: usize, response: &Response, chosen: bool) -> bool {
    if !ui.is_rect_visible(rect) {
        return false;
    }
    let (painter, visuals) = (ui.painter(), ui.visuals());
    let seen = rect.intersect(ui.clip_rect());
    if chosen {
        painter.rect_filled(rect, 0.0, visuals.selection.bg_fill);
        let bar = Rect::from_min_size(seen.min, vec2(4.0, rect.height()));
        painter.rect_filled(bar, 0.0, visuals.selection.stroke.color);
    } else if response.hovered() {
        painter.rect_filled(rect, 0.0, visuals.faint_bg_color);
    }
    if response.has_focus() {
        let ring = seen.shrink(1.0);
        painter.rect_stroke(ring, 2.0, visuals.selection.stroke, StrokeKind::Inside);
    }
    let color = match row.mark {
        Some(Severity::MustFix) => look::warning(visuals.dark_mode),
        Some(Severity::Check | Severity::Note) | None => visuals.text_color(),
    };
    if let Some(severity) = row.mark {
        mark(ui, pos2(rect.left() + 14.0, rect.center().y), severity, color);
    }
    let mut is_cut = false;
    for (span, cell) in spans.iter().zip(&row.cells) {
        let galley = laid(ui, cell, span.right - span.left, lines, color);
        is_cut |= galley.elided;
        painter.galley(span.place(rect, &galley), galley, color);
    }
    is_cut
}

/// A filled square for what must be mended, a triangle for what wants a look, a ring for what is good to know.
fn mark(ui: &Ui, at: Pos2, severity: Severity, color: Color32) {
    let stroke = Stroke::new(1.5, color);
    ui.painter().add(match severity {
        Severity::MustFix => Shape::rect_filled(Rect::from_center_size(at, vec2(8.0, 8.0)), 0.0, color),
        Severity::Check => {
            let corners = [vec2(0.0, -5.0), vec2(5.0, 4.0), vec2(-5.0, 4.0)].map(|corner| at + corner);
            Shape::closed_line(corners.to_vec(), stroke)
        }
        Severity::Note => Shape::circle_stroke(at, 3.5, stroke),
    });
}

/// Words in so many lines at most, cut where they are too long.
fn laid(ui: &Ui, words: &str, width: f32, lines: usize, color: Color32) -> Arc<Galley> {
    let font = TextStyle::Body.resolve(ui.style());
    let mut job = LayoutJob::simple(words.to_owned(), font, color, width);
    job.wrap.max_rows = lines;
    job.wrap.break_anywhere = lines == 1;
    ui.fonts_mut(|fonts| fonts.layout_job(job))
}

/// What is cut is told in full when the row is pointed at.
fn tip(response: Response, row: &Row, is_cut: bool) {
    if !is_cut && row.aside.is_empty() {
        return;
    }
    response.on_hover_ui(|ui| {
        ui.set_max_width(520.0);
        if is_cut {
            for cell in &row.cells {
                ui.add(egui::Label::new(cell).wrap());
            }
        }
        if !row.aside.is_empty() {
            ui.add(egui::Label::new(RichText::new(&row.aside).weak()).wrap());
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_head_is_cut_where_room_is_shared() {
        let columns = [Column::words("a"), Column::wide("b", 1.0), Column::wide("c", 1.0)];
        let needed = [40.0, 260.0, 30.0];
        for room in [100.0, 500.0, 1200.0] {
            let spans = spans(&columns, &needed, room);
            let width = |at: usize| spans[at].right - spans[at].left;
            assert!((0..3).all(|at| width(at) >= needed[at]), "{room}: {spans:?}");
            assert!(room < 500.0 || spans[2].right + GAP <= room + 0.1, "{room}: {spans:?}");
        }
    }

    #[test]
    fn columns_share_the_room_that_others_leave_and_never_overlap() {
        let columns = [
            Column::words("a"),
            Column::wide("b", 2.0),
            Column::wide("c", 1.0),
            Column::figures("d"),
        ];
        for room in [100.0, 500.0, 1200.0] {
            let spans = spans(&columns, &[40.0, 30.0, 20.0, 60.0], room);
            assert!(
                spans.windows(2).all(|pair| pair[0].right + GAP <= pair[1].left + 0.01),
                "{spans:?}"
            );
            let width = |at: usize| spans[at].right - spans[at].left;
            assert_eq!((width(0), width(3)), (40.0, 60.0));
            assert!(width(1) >= 30.0 && width(2) >= 20.0);
            assert!(room < 500.0 || (width(1) - 2.0 * width(2)).abs() < 0.01);
            if room > 500.0 {
                assert!(
                    (spans[3].right + GAP - room).abs() < 0.1,
                    "all the room is used: {spans:?}"
                );
            }
        }
    }
}
