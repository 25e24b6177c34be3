//! A finding: a sentence with its figure, why it matters, and what would change it.

use egui::{
    Color32, CornerRadius, Id, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role, pos2, vec2,
};

use super::paint;
use crate::analysis::finding::Level;
use crate::report::words;
use crate::ui::theme::{self, Palette, space};

fn mark(level: Level) -> &'static str {
    match level {
        Level::Note => "i",
        Level::Caution => "!",
        Level::Problem => "!!",
    }
}

fn colours(level: Level, palette: &Palette) -> (Color32, Color32) {
    match level {
        Level::Note => (palette.accent, palette.accent_ground),
        Level::Caution => (palette.caution, palette.caution_ground),
        Level::Problem => (palette.problem, palette.problem_ground),
    }
}

/// A sentence whose units stay with their numbers where it is broken into lines.
#[must_use]
pub fn with_units(sentence: &str) -> String {
    let mut kept = String::with_capacity(sentence.len() + 16);
    let mut rest = sentence;
    while let Some(at) = rest.find(' ') {
        let (before, behind) = (&rest[..at], &rest[at + 1..]);
        let is_unit = before.ends_with(|last: char| last.is_ascii_digit())
            && ["%", "°C", "g", "K"].into_iter().any(|unit| {
                behind.strip_prefix(unit).is_some_and(|follows| !follows.starts_with(char::is_alphanumeric))
            });
        kept.push_str(before);
        kept.push(if is_unit { '\u{a0}' } else { ' ' });
        rest = behind;
    }
    kept + rest
}

/// One finding as a card.
#[derive(Clone, Copy, Debug)]
#[must_use = "call `ui` to show it"]
pub struct FindingCard<'a> {
    id: Id,
    level: Level,
    title: &'a str,
    detail: Option<&'a str>,
    action: Option<&'a str>,
    below: Option<&'a str>,
}

/// What a finding answers.
#[derive(Debug)]
pub struct FindingCardOutput {
    /// The whole card: pointed at, it lights up what it is about.
    pub response: Response,
    /// The action was chosen.
    pub action_clicked: bool,
    /// The action under the words was chosen.
    pub below_clicked: bool,
}

impl<'a> FindingCard<'a> {
    const MARK: f32 = 22.0;
    const PADDING: f32 = 13.0;

    /// A finding; `id` has to be the same for the same finding when the order changes.
    pub fn new(id: Id, level: Level, title: &'a str) -> Self {
        Self { id, level, title, detail: None, action: None, below: None }
    }

    /// Why it matters and what would change it.
    pub fn detail(mut self, detail: &'a str) -> Self {
        self.detail = Some(detail);
        self
    }

    /// What can be done about it at once, as a verb.
    pub fn action(mut self, action: &'a str) -> Self {
        self.action = Some(action);
        self
    }

    /// Another thing that can be done about it, under its words.
    pub fn action_below(mut self, action: &'a str) -> Self {
        self.below = Some(action);
        self
    }

    /// Draws the finding over the available width.
    pub fn ui(self, ui: &mut Ui) -> FindingCardOutput {
        let palette = Palette::of(ui);
        let width = ui.available_width();
        let text_left = Self::PADDING + Self::MARK + 12.0;
        let action = self.action.map(|action| paint::one_line(ui, action, theme::body(), palette.accent, width / 3.0));
        // Beside the words, or only beside the title where the other one stands under them.
        let action_width =
            action.as_ref().filter(|_| self.below.is_none()).map_or(0.0, |action| action.size().x + space::GROUP);
        let text_width = (width - text_left - Self::PADDING - action_width).max(60.0);
        let beside_title = action.as_ref().filter(|_| self.below.is_some());
        let title_width = text_width - beside_title.map_or(0.0, |action| action.size().x + space::GROUP);
        let title = paint::wrapped(ui, with_units(self.title), theme::body_bold(), palette.text, title_width.max(60.0));
        let detail =
            self.detail.map(|detail| paint::wrapped(ui, with_units(detail), theme::body(), palette.quiet, text_width));
        let text_height = title.size().y + detail.as_ref().map_or(0.0, |detail| detail.size().y + 2.0);
        let below = self.below.map(|action| paint::one_line(ui, action, theme::body(), palette.accent, text_width));
        let below_height = if below.is_some() { space::TARGET } else { 0.0 };
        let height = text_height.max(Self::MARK) + below_height + 2.0 * (Self::PADDING - 1.0);

        let (rect, _) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
        let response = ui.interact(rect, self.id, Sense::focusable_noninteractive());
        response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), self.name()));
        if ui.is_rect_visible(rect) {
            let radius = CornerRadius::same(space::CARD_RADIUS);
            ui.painter().rect(rect, radius, palette.card, palette.rule_stroke(), StrokeKind::Inside);
            let top = rect.top() + (height - below_height - text_height) / 2.0;
            self.mark_ui(
                ui,
                pos2(rect.left() + Self::PADDING + Self::MARK / 2.0, top + paint::first_line_height(&title) / 2.0),
            );
            let left = rect.left() + text_left;
            let detail_top = top + title.size().y + 2.0;
            ui.painter().galley(pos2(left, top), title, palette.text);
            if let Some(detail) = detail {
                ui.painter().galley(pos2(left, detail_top), detail, palette.quiet);
            }
            // Inside: the area that the cards scroll in ends at their edges.
            paint::focus_ring(ui, &response, rect.shrink(2.0), space::CARD_RADIUS);
        }

        let mut action_clicked = false;
        if let (Some(galley), Some(action)) = (action, self.action) {
            let middle = if self.below.is_some() { rect.top() + Self::PADDING + 8.0 } else { rect.center().y };
            let centre = pos2(rect.right() - Self::PADDING - galley.size().x / 2.0, middle);
            let size = vec2(galley.size().x + 12.0, space::TARGET + 2.0);
            let target = Rect::from_center_size(centre, size);
            action_clicked = self.action_ui(ui, (target, "action"), galley, action);
        }
        let mut below_clicked = false;
        if let (Some(galley), Some(action)) = (below, self.below) {
            let size = vec2(galley.size().x, space::TARGET);
            let bottom = rect.bottom() - Self::PADDING + 4.0;
            let target = Rect::from_min_size(pos2(rect.left() + text_left, bottom - size.y), size);
            below_clicked = self.action_ui(ui, (target.expand2(vec2(4.0, 0.0)), "below"), galley, action);
        }
        FindingCardOutput { response, action_clicked, below_clicked }
    }

    fn action_ui(
        self,
        ui: &Ui,
        (target, place): (Rect, &'static str),
        galley: std::sync::Arc<egui::Galley>,
        action: &str,
    ) -> bool {
        let palette = Palette::of(ui);
        let response = ui.interact(target, self.id.with(place), Sense::click());
        response
            .widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), format!("{action}: {}", self.title)));
        if response.hovered() {
            ui.painter().rect_filled(target, space::FIELD_RADIUS, palette.accent_ground);
        }
        let at = target.center() - galley.size() / 2.0;
        let underline = at.y + paint::baseline(&galley) + 2.5;
        let range = at.x..=at.x + galley.size().x;
        ui.painter().galley(at, galley, palette.accent);
        if response.hovered() {
            ui.painter().hline(range, underline, Stroke::new(1.0, palette.accent));
        }
        paint::focus_ring(ui, &response, target, space::FIELD_RADIUS);
        response.clicked()
    }

    fn mark_ui(self, ui: &Ui, centre: egui::Pos2) {
        let (colour, ground) = colours(self.level, Palette::of(ui));
        let galley = paint::one_line(ui, mark(self.level), theme::body_bold(), colour, f32::INFINITY);
        let centre = pos2(centre.x, centre.y.max(Self::MARK / 2.0));
        ui.painter().circle_filled(centre, Self::MARK / 2.0, ground);
        ui.painter().galley(centre - galley.size() / 2.0, galley, colour);
    }

    fn name(self) -> String {
        match self.detail {
            Some(detail) => format!("{}: {}. {detail}", words::level(self.level), self.title),
            None => format!("{}: {}", words::level(self.level), self.title),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::with_units;

    #[test]
    fn a_unit_stays_with_its_number() {
        assert_eq!(
            with_units("Seed at 25.8 to 29.6 °C with 7.5 g (1.09 %) of 35 good kg"),
            "Seed at 25.8 to 29.6\u{a0}°C with 7.5\u{a0}g (1.09\u{a0}%) of 35 good kg"
        );
    }
}
