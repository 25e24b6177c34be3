//! A field of the form into which a figure is typed.

use egui::accesskit::Invalid;
use egui::{CornerRadius, Id, Key, Modifiers, Response, RichText, Stroke, StrokeKind, TextEdit, Tooltip, Ui};

use super::super::choice::in_sight;
use super::fields::{At, Wrong};
use super::{Empty, with_sign};
use crate::number::DecimalSign;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::number_cell::select_all;
use crate::ui::widgets::{Explanation, explain_at_rest};

/// How wide a field for a figure is.
const FIGURE: f32 = 76.0;
/// How wide it is with an example in it.
const FIGURE_WITH_EXAMPLE: f32 = 132.0;
/// How high a field is: as high with an example as with what is typed.
pub(super) const HEIGHT: f32 = 27.0;

/// What the fields of a form have in common.
pub(super) struct Typing<'a> {
    pub(super) sign: DecimalSign,
    /// What is refused of what was typed before this frame.
    pub(super) wrong: Option<&'a Wrong>,
    /// Enter was pressed in a field: the next one gets the keyboard.
    pub(super) goes_on: &'a mut bool,
}

/// The field that is called so.
pub(super) fn field_id(name: &str) -> Id {
    Id::unique(("what to weigh", name))
}

impl Typing<'_> {
    /// A field with its place and its name for those who cannot see where it stands. Enter goes on to the next one.
    pub(super) fn field_ui(
        &mut self,
        ui: &mut Ui,
        (at, name): (At, &str),
        text: &mut String,
        empty: Empty<'_>,
        explain: impl FnOnce() -> Explanation,
    ) -> Response {
        let reason = self.wrong.filter(|wrong| wrong.at == Some(at)).map(|wrong| wrong.reason.as_str());
        // Smaller than what is typed, and with words: an example must not be taken for an amount.
        let (hint, width) = match empty {
            Empty::Example(example) => (
                RichText::new(with_sign(&format!("for instance {example}"), self.sign)).font(theme::small()),
                FIGURE_WITH_EXAMPLE,
            ),
            Empty::Counts(figure) => (RichText::new(with_sign(figure, self.sign)), FIGURE),
            Empty::Asks => (RichText::new(""), FIGURE),
        };
        let edit = TextEdit::singleline(text)
            .id(field_id(name))
            .hint_text(hint)
            .desired_width(width - 12.0)
            .align(egui::Align2::LEFT_CENTER)
            .return_key(None);
        let response = in_sight(ui.add(edit.min_size(egui::vec2(width, HEIGHT))));
        ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
        if let Some(reason) = reason {
            let radius = CornerRadius::same(space::FIELD_RADIUS);
            let stroke = Stroke::new(2.0, Palette::of(ui).problem);
            ui.painter().rect_stroke(response.rect, radius, stroke, StrokeKind::Inside);
            ui.ctx().accesskit_node_builder(response.id, |node| {
                node.set_invalid(Invalid::True);
                node.set_description(reason);
            });
            // It stands where the list will be: in the form it would move what is typed, over it it would cover the next fields.
            if response.hovered() {
                let mut bubble = Tooltip::for_widget(&response);
                bubble.popup = bubble.popup.open(true);
                bubble.show(|ui| ui.label(RichText::new(reason).color(Palette::of(ui).problem)));
            }
        } else {
            explain_at_rest(&response, explain);
        }
        // As in the sheet: what is reached by keys is typed over.
        if response.gained_focus() && !ui.input(|input| input.pointer.any_down() || input.pointer.any_released()) {
            select_all(ui.ctx(), response.id, text);
        }
        if response.has_focus() && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter)) {
            *self.goes_on = true;
        } else if std::mem::take(self.goes_on) {
            response.request_focus();
            select_all(ui.ctx(), response.id, text);
        }
        response
    }
}
