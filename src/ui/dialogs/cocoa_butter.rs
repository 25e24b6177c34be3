//! The form for the user's own analysis of a cocoa butter.

use egui::accesskit::Invalid;
use egui::{CornerRadius, Grid, Stroke, StrokeKind, TextEdit, Ui};

use super::{Confirm, DialogAnswer, choices_ui, takes_ctrl_enter, title_ui};
use crate::analysis::fat::WEST_AFRICAN;
use crate::document::Edit;
use crate::number::{DecimalSign, parse, typed};
use crate::recipe::{CocoaButter, OwnCocoaButter, Triglycerides};
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::number_cell::select_all;

/// What is typed in the form.
#[derive(Debug)]
pub struct CocoaButterForm {
    fields: [String; FIELDS.len()],
    /// What the fields were at first.
    before: [String; FIELDS.len()],
    was_drawn: bool,
}

/// The rows of the form: name and explanation.
const FIELDS: [(&str, &str); 8] = [
    ("POP", "palmitic – oleic – palmitic"),
    ("POS", "palmitic – oleic – stearic"),
    ("SOS", "stearic – oleic – stearic"),
    ("SOA", "stearic – oleic – arachidic"),
    ("Trisaturated", "three saturated acids"),
    ("Other triglycerides", "all others: they stay liquid"),
    ("Diglycerides", "wt% of the fat"),
    ("Free fatty acids", "wt% of the fat"),
];

impl CocoaButterForm {
    pub(super) fn new(now: CocoaButter, sign: DecimalSign) -> Self {
        let figures = match now {
            CocoaButter::Own(own) => own.triglycerides(),
            // The default type, to start from.
            _ => WEST_AFRICAN,
        };
        let figures = [
            figures.pop,
            figures.pos,
            figures.sos,
            figures.soa,
            figures.trisaturated,
            figures.other,
            figures.diglycerides_percent,
            figures.free_fatty_acids_percent,
        ];
        let fields = figures.map(|figure| typed(figure, sign));
        Self { before: fields.clone(), fields, was_drawn: false }
    }

    /// Whether something was typed.
    pub(super) fn is_touched(&self) -> bool {
        self.fields != self.before
    }

    pub(super) fn ui(&mut self, ui: &mut Ui) -> Option<DialogAnswer> {
        let is_first = !std::mem::replace(&mut self.was_drawn, true);
        let enter = takes_ctrl_enter(ui);
        title_ui(ui, "Own analysis of the cocoa butter");
        ui.label("Figures of the laboratory or the supplier; triglycerides in any common unit, usually wt%.");
        ui.add_space(space::NEAR);
        Grid::new("triglycerides").num_columns(3).spacing([space::GROUP, 6.0]).show(ui, |ui| {
            for (place, ((name, explanation), text)) in FIELDS.iter().zip(&mut self.fields).enumerate() {
                let label = ui.label(*name);
                let field = TextEdit::singleline(text).desired_width(72.0).min_size(egui::vec2(84.0, space::TARGET));
                let response = ui.add(field).labelled_by(label.id);
                if is_first && place == 0 {
                    response.request_focus();
                    select_all(ui.ctx(), response.id, text);
                }
                if let Err(error) = parse(text) {
                    let stroke = Stroke::new(2.0, Palette::of(ui).problem);
                    let radius = CornerRadius::same(space::FIELD_RADIUS);
                    ui.painter().rect_stroke(response.rect, radius, stroke, StrokeKind::Inside);
                    ui.ctx().accesskit_node_builder(response.id, |node| {
                        node.set_invalid(Invalid::True);
                        node.set_description(error.to_string());
                    });
                }
                ui.label(theme::caption(ui, *explanation));
                ui.end_row();
            }
        });
        let entered = self.entered();
        let reason = entered.as_ref().err().cloned();
        let words = reason.clone().unwrap_or_default();
        ui.label(egui::RichText::new(words).color(Palette::of(ui).problem));
        let buttons = vec![("Use it", true), ("Cancel", false)];
        let chosen = choices_ui(ui, buttons, reason.as_deref(), Confirm::CtrlEnter);
        match chosen.or((enter && reason.is_none()).then_some(true)) {
            Some(true) => entered.ok().map(|own| DialogAnswer::Edit(Edit::SetCocoaButter(CocoaButter::Own(own)))),
            Some(false) => Some(DialogAnswer::Closed),
            None => None,
        }
    }

    fn entered(&self) -> Result<OwnCocoaButter, String> {
        let mut figures = [0.0; FIELDS.len()];
        for ((figure, text), (name, _)) in figures.iter_mut().zip(&self.fields).zip(FIELDS) {
            *figure = parse(text).map_err(|error| format!("{name}: {error}"))?;
        }
        let [pop, pos, sos, soa, trisaturated, other, diglycerides_percent, free_fatty_acids_percent] = figures;
        Triglycerides { pop, pos, sos, soa, trisaturated, other, diglycerides_percent, free_fatty_acids_percent }
            .checked()
            .map_err(|error| error.to_string())
    }
}
