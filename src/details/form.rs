//! The rows of the details: a name on the left, a field on the right, and beneath it in words what is wrong.
//!
//! Each field is known by its scope (the part that it belongs to) and its name: within a scope a name stands once.

mod typed;

use super::offers::Offers;
use super::quantity::{Quantity, optional};
use super::row::{DOWN, Name, row};
use super::shared::Shared;
use super::typing::{Done, Put, Typing};
use crate::desk::Desk;
use crate::job::Detail;
use crate::look;
use crate::rules::{Finding, Severity};
use crate::study::words::capital;
use crate::units::UnitSystem;
use egui::{Button, Checkbox, CollapsingHeader, ComboBox, Frame, Id, Label, RichText, TextStyle, Ui, UiBuilder};
use std::cell::RefCell;
use std::rc::Rc;
use typed::Lines;

/// What stands where parts differ.
const SEVERAL: &str = "several";

/// Rows of one scope.
pub struct Form<'a> {
    /// Where they stand.
    pub ui: &'a mut Ui,
    /// What they show and change.
    pub desk: &'a mut Desk,
    typing: &'a mut Typing<Id>,
    scope: Id,
    /// What was found of the part and is not told yet.
    findings: Rc<RefCell<Vec<Finding>>>,
}

impl<'a> Form<'a> {
    /// Rows of a scope.
    pub fn new(ui: &'a mut Ui, desk: &'a mut Desk, typing: &'a mut Typing<Id>, scope: Id) -> Form<'a> {
        Form {
            ui,
            desk,
            typing,
            scope,
            findings: Rc::default(),
        }
    }

    /// Rows under which stands what was found of each field.
    pub fn with_findings(mut self, findings: Vec<Finding>) -> Form<'a> {
        self.findings = Rc::new(RefCell::new(findings));
        self
    }

    /// The findings that no field so far has told.
    pub fn findings_left(&self) -> Vec<Finding> {
        self.findings.take()
    }

    /// The units in which the job speaks.
    pub fn units(&self) -> UnitSystem {
        self.desk.shown().checked.study.names.units()
    }

    /// The heading of what is chosen.
    pub fn title(&mut self, words: impl Into<String>) {
        let words = look::strong(words).text_style(TextStyle::Heading);
        self.ui.add(Label::new(words).wrap());
    }

    /// A heading of rows.
    pub fn heading(&mut self, words: impl Into<String>) {
        self.ui.add_space(6.0);
        self.ui.add(Label::new(look::strong(words)).wrap());
    }

    /// A sentence.
    pub fn say(&mut self, words: impl Into<String>) {
        self.ui.add(Label::new(words.into()).wrap());
    }

    /// A sentence of less weight.
    pub fn whisper(&mut self, words: impl Into<String>) {
        self.ui.add(Label::new(RichText::new(words).weak()).wrap());
    }

    /// The same with more that is told when it is pointed at.
    pub fn whisper_of(&mut self, words: impl Into<String>, more: &str) {
        let label = self.ui.add(Label::new(RichText::new(words).weak()).wrap());
        label.on_hover_text(more);
    }

    /// A sentence that warns.
    pub fn warn(&mut self, words: impl Into<String>) {
        let color = look::warning(self.ui.visuals().dark_mode);
        self.ui.add(Label::new(RichText::new(words).color(color)).wrap());
    }

    /// Rows that can be folded away; `open` is how they are at first.
    pub fn fold(&mut self, words: &str, open: Open, rows: impl FnOnce(&mut Form<'_>)) {
        self.folded(
            CollapsingHeader::new(look::strong(words))
                .id_salt(words)
                .default_open(open == Open::Yes),
            rows,
        );
    }

    /// Fields that are rarely used, folded away until one of them is sought or something was found of it.
    pub fn rare(&mut self, words: &str, fields: &[Detail], rows: impl FnOnce(&mut Form<'_>)) {
        let is_found = |finding: &Finding| finding.field.is_some_and(|field| fields.contains(&field));
        let is_needed = self.typing.wants(fields) || self.findings.borrow().iter().any(is_found);
        self.folded(
            CollapsingHeader::new(words)
                .id_salt(("rare", words))
                .open(is_needed.then_some(true)),
            rows,
        );
    }

    fn folded(&mut self, header: CollapsingHeader, rows: impl FnOnce(&mut Form<'_>)) {
        let (desk, typing, scope) = (&mut *self.desk, &mut *self.typing, self.scope);
        let findings = Rc::clone(&self.findings);
        header.show_unindented(self.ui, |ui| {
            rows(&mut Form {
                findings,
                ..Form::new(ui, desk, typing, scope)
            });
        });
    }

    /// Tells under a field what was found of it.
    fn found(&mut self, field: Option<Detail>) {
        let is_here = |finding: &mut Finding| field.is_some() && finding.field == field;
        let here: Vec<Finding> = self.findings.borrow_mut().extract_if(.., is_here).collect();
        for finding in here {
            self.finding(&finding);
        }
    }

    /// A finding: how severe it is, what, and what to do; on what it stands, when it is pointed at.
    pub fn finding(&mut self, finding: &Finding) {
        let visuals = self.ui.visuals();
        let color = match finding.severity {
            Severity::MustFix => look::warning(visuals.dark_mode),
            Severity::Check | Severity::Note => visuals.text_color(),
        };
        let frame = Frame::new().fill(visuals.faint_bg_color).inner_margin(6.0);
        let response = frame.show(self.ui, |ui| {
            ui.set_width(ui.available_width());
            let word = format!("{}: {}", capital(finding.severity.name()), finding.what);
            ui.add(Label::new(look::strong(word).color(color)).wrap());
            ui.add(Label::new(capital(&finding.remedy)).wrap());
        });
        response.response.on_hover_text(&finding.basis);
    }

    /// Rows of a scope within this one.
    pub fn within(&mut self, what: impl std::hash::Hash + std::fmt::Debug, rows: impl FnOnce(&mut Form<'_>)) {
        let scope = self.scope.with(what);
        let findings = Rc::clone(&self.findings);
        rows(&mut Form {
            findings,
            ..Form::new(self.ui, self.desk, self.typing, scope)
        });
    }

    /// Something that is known and cannot be set here.
    pub fn fact(&mut self, name: &str, value: impl Into<String>) {
        let value = value.into();
        row(self.ui, Name::Words(name), |ui, _| {
            ui.add_space(DOWN);
            ui.add(Label::new(RichText::new(value).weak()).wrap());
        });
    }

    /// Other parts that can be gone to.
    pub fn links(&mut self, name: &str, parts: &[(String, crate::editor::Part)]) {
        let desk = &mut *self.desk;
        row(self.ui, Name::Words(name), |ui, _| {
            ui.horizontal_wrapped(|ui| {
                for (words, part) in parts {
                    if ui.add(Button::new(words).small()).on_hover_text("Go there").clicked() {
                        desk.seek(*part);
                    }
                }
            });
        });
    }

    /// A button that does something at once.
    pub fn button(&mut self, words: &str, does: impl FnOnce(&mut Desk)) {
        if self.ui.button(words).clicked() {
            does(self.desk);
        }
    }

    /// Words of the person's own.
    pub fn words<'n>(
        &mut self,
        name: impl Into<Name<'n>>,
        value: &str,
        hint: &str,
        put: impl Fn(&mut Desk, String) -> Done + 'static,
    ) {
        let put: Put = Rc::new(move |desk, text| put(desk, text.trim().to_owned()));
        self.typed(name.into(), value, hint, Lines::One, &Offers::default(), put);
    }

    /// Words of the person's own in more than one line.
    pub fn lines<'n>(
        &mut self,
        name: impl Into<Name<'n>>,
        value: &str,
        hint: &str,
        put: impl Fn(&mut Desk, String) -> Done + 'static,
    ) {
        let put: Put = Rc::new(move |desk, text| put(desk, text.trim_end().to_owned()));
        self.typed(name.into(), value, hint, Lines::Many, &Offers::default(), put);
    }

    /// A quantity that may be left out; `hint` says what holds then.
    pub fn quantity<'n, T: Quantity>(
        &mut self,
        name: impl Into<Name<'n>>,
        value: Shared<Option<T>>,
        hint: &str,
        put: impl Fn(&mut Desk, Option<T>) -> Done + 'static,
    ) {
        self.offered(name, value, hint, &[], put);
    }

    /// The same with some usual values to choose from.
    pub fn offered<'n, T: Quantity>(
        &mut self,
        name: impl Into<Name<'n>>,
        value: Shared<Option<T>>,
        hint: &str,
        offers: &[T],
        put: impl Fn(&mut Desk, Option<T>) -> Done + 'static,
    ) {
        let units = self.units();
        let none = hint;
        let (shown, hint) = match value {
            Shared::Same(value) => (value.map(|value| value.written(units)).unwrap_or_default(), hint),
            Shared::Several => (String::new(), SEVERAL),
        };
        let put: Put = Rc::new(move |desk, text| {
            let value = optional(text, desk.shown().checked.study.names.units())?;
            put(desk, value)
        });
        let offers = Offers {
            none: none.to_owned(),
            values: offers.iter().map(|offer| offer.written(units)).collect(),
            unit: T::unit(units),
        };
        self.typed(name.into(), &shown, hint, Lines::One, &offers, put);
    }

    /// A quantity that must be there.
    pub fn needed<T: Quantity>(&mut self, name: Detail, value: T, put: impl Fn(&mut Desk, T) -> Done + 'static) {
        let put: Put = Rc::new(move |desk, text| {
            let value = T::read(text, desk.shown().checked.study.names.units())?;
            put(desk, value)
        });
        let shown = value.written(self.units());
        self.typed(
            name.into(),
            &shown,
            "",
            Lines::One,
            &Offers::in_unit(T::unit(self.units())),
            put,
        );
    }

    /// One of several.
    pub fn choice<'n, T: Clone + PartialEq>(
        &mut self,
        name: impl Into<Name<'n>>,
        value: &Shared<T>,
        offered: &[(T, &str)],
        put: impl FnOnce(&mut Desk, T) -> Done,
    ) {
        let of = |value: &T| offered.iter().find(|row| row.0 == *value).map_or("", |row| row.1);
        let shown = match value {
            Shared::Same(value) => of(value),
            Shared::Several => SEVERAL,
        };
        let name = name.into();
        let id = self.scope.with(name);
        let mut chosen = None;
        let response = row(self.ui, name, |ui, label| {
            let combo = ComboBox::from_id_salt(id)
                .selected_text(shown)
                .width(ui.available_width())
                .wrap();
            let response = combo.show_ui(ui, |ui| {
                for (one, words) in offered {
                    if ui
                        .selectable_label(*value == Shared::Same(one.clone()), *words)
                        .clicked()
                    {
                        chosen = Some(one.clone());
                        // With a key too, not by the mouse alone.
                        ui.close();
                    }
                }
            });
            response.response.labelled_by(label.id)
        });
        if self.typing.take_wanted(name.detail(), name.label(), false) {
            response.request_focus();
            response.scroll_to_me(None);
        }
        let response = response.on_hover_text(shown);
        if let Some(chosen) = chosen {
            let done = put(self.desk, chosen);
            self.typing.chosen(id, done);
            // The list that had the keyboard is gone.
            if !self.ui.input(|input| input.pointer.any_released()) {
                response.request_focus();
            }
        }
        self.fault(id, "");
        self.found(name.detail());
    }

    /// Yes or no.
    pub fn check<'n>(
        &mut self,
        name: impl Into<Name<'n>>,
        value: Shared<bool>,
        put: impl FnOnce(&mut Desk, bool) -> Done,
    ) {
        let name = name.into();
        let (id, words) = (self.scope.with(name), name.label());
        let mut is_so = value == Shared::Same(true);
        let several = value == Shared::Several;
        let shown = if several {
            format!("{words} ({SEVERAL})")
        } else {
            words.to_owned()
        };
        let check = Checkbox::new(&mut is_so, shown).indeterminate(several);
        // What comes and goes above it must not take the focus away.
        let steady = UiBuilder::new().scope_id(id.with("check"));
        let response = self.ui.scope_builder(steady, |ui| ui.add(check)).inner;
        if response.clicked() {
            let done = put(self.desk, is_so);
            self.typing.chosen(id, done);
        }
        if self.typing.take_wanted(name.detail(), words, false) {
            response.request_focus();
            response.scroll_to_me(None);
        }
        self.fault(id, "");
        self.found(name.detail());
    }

    /// Why the text of a field, or a choice, is not taken, and what can be done.
    fn fault(&mut self, id: Id, way_out: &str) {
        if let Some(why) = self.typing.fault(id) {
            let why = why.to_owned();
            self.ui.ctx().accesskit_node_builder(id, |node| {
                node.set_description(why.clone());
                node.set_invalid(egui::accesskit::Invalid::True);
            });
            self.warn(format!("Not accepted: {why}.{way_out}"));
        }
    }
}

/// Whether folded rows are open at first.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Open {
    /// They are.
    Yes,
    /// They are folded away.
    No,
}
