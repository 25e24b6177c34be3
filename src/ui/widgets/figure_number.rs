//! A large quiet number with its unit and a caption.

use egui::{Color32, Rect, Response, Sense, Stroke, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

use super::{
    explain::{Explanation, explain},
    paint, text,
};
use crate::ui::theme::{self, Hue, Palette, space};

/// A result to be read from across the table.
#[derive(Clone, Copy, Debug)]
#[must_use = "call `ui` to show it"]
pub struct FigureNumber<'a> {
    value: Option<&'a str>,
    unit: &'a str,
    caption: &'a str,
    detail: Option<&'a str>,
    ghost: Option<&'a str>,
    hue: Option<Hue>,
    explanation: Option<&'a Explanation>,
    min_width: f32,
}

impl<'a> FigureNumber<'a> {
    /// A number as text, its unit, and what it is; no value is shown as unknown.
    pub fn new(value: Option<&'a str>, unit: &'a str, caption: &'a str) -> Self {
        Self { value, unit, caption, detail: None, ghost: None, hue: None, explanation: None, min_width: 0.0 }
    }

    /// A second, quieter line: the same in grams, the band.
    pub fn detail(mut self, detail: &'a str) -> Self {
        self.detail = Some(detail);
        self
    }

    /// The same number in the pinned state, with its unit.
    pub fn ghost(mut self, ghost: Option<&'a str>) -> Self {
        self.ghost = ghost;
        self
    }

    /// The colour in which it is drawn elsewhere.
    pub fn hue(mut self, hue: Hue) -> Self {
        self.hue = Some(hue);
        self
    }

    /// What it says when it is pointed at.
    pub fn explanation(mut self, explanation: &'a Explanation) -> Self {
        self.explanation = Some(explanation);
        self
    }

    /// At least this wide, so that figures stand in columns.
    pub fn min_width(mut self, min_width: f32) -> Self {
        self.min_width = min_width;
        self
    }

    /// Draws the figure.
    pub fn ui(self, ui: &mut Ui) -> Response {
        let palette = Palette::of(ui);
        let (shown, font, colour) = match self.value {
            Some(value) => (value, theme::figure(), palette.text),
            None => (text::UNKNOWN, theme::heading(), palette.quiet),
        };
        let unit = if self.value.is_some() { self.unit } else { "" };
        let wide = f32::INFINITY;
        let value = paint::one_line(ui, shown, font, colour, wide);
        let unit_galley = paint::one_line(ui, unit, theme::table(), palette.quiet, wide);
        let caption_colour = if self.hue.is_some() { palette.text } else { palette.quiet };
        let caption = paint::one_line(ui, self.caption, theme::body(), caption_colour, wide);
        let detail = self.detail.map(|detail| paint::one_line(ui, detail, theme::body(), palette.quiet, wide));
        let ghost = self.ghost.map(|ghost| paint::one_line(ui, ghost, theme::body(), palette.quiet, wide));

        let mark = paint::SWATCH + 6.0;
        let caption_indent = if self.hue.is_some() { mark } else { 0.0 };
        let unit_gap = if unit.is_empty() { 0.0 } else { 5.0 };
        let line = caption.size().y + 1.0;
        let width = (value.size().x + unit_gap + unit_galley.size().x)
            .max(caption_indent + caption.size().x)
            .max(detail.as_ref().map_or(0.0, |detail| detail.size().x))
            .max(ghost.as_ref().map_or(0.0, |ghost| mark + ghost.size().x))
            .max(self.min_width);
        let lines = 1.0 + f32::from(u8::from(detail.is_some()) + u8::from(ghost.is_some()));
        let (rect, response) = ui.allocate_exact_size(vec2(width, value.size().y + line * lines), Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), self.name(shown, unit)));

        if ui.is_rect_visible(rect) {
            let painter = ui.painter();
            let base = rect.top() + paint::baseline(&value);
            let unit_at = pos2(rect.left() + value.size().x + unit_gap, base - paint::baseline(&unit_galley));
            let mut top = rect.top() + value.size().y;
            painter.galley(rect.min, value, palette.text);
            painter.galley(unit_at, unit_galley, palette.quiet);
            if let Some(hue) = self.hue {
                paint::swatch(painter, pos2(rect.left(), top + caption.size().y / 2.0), hue.fill());
            }
            painter.galley(pos2(rect.left() + caption_indent, top), caption, palette.quiet);
            top += line;
            if let Some(detail) = detail {
                painter.galley(pos2(rect.left(), top), detail, palette.quiet);
                top += line;
            }
            if let Some(ghost) = ghost {
                let centre = pos2(rect.left() + paint::SWATCH / 2.0, top + ghost.size().y / 2.0);
                ghost_mark(ui, centre, palette.quiet);
                painter.galley(pos2(rect.left() + mark, top), ghost, palette.quiet);
            }
        }
        if let Some(explanation) = self.explanation {
            explain(&response, explanation);
        }
        response
    }

    fn name(&self, shown: &str, unit: &str) -> String {
        let parts = [self.caption, shown, unit, self.detail.unwrap_or_default(), self.ghost.unwrap_or_default()];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
    }
}

/// Draws figures side by side in equal columns, in as many rows as they need.
pub fn figures_ui(ui: &mut Ui, figures: &[FigureNumber<'_>]) -> Vec<Response> {
    // Figures closer than this read as one number.
    const COLUMN: f32 = 112.0;
    let width = ui.available_width();
    let mut columns = figures.len().clamp(1, 4);
    while columns > 1 && width / columns_f32(columns) < COLUMN {
        columns -= 1;
    }
    // A short last row looks like a gap; six stand better in three columns than in four.
    if figures.len() > columns {
        let rows = figures.len().div_ceil(columns);
        columns = figures.len().div_ceil(rows);
    }
    let column = (width / columns_f32(columns)).floor();
    let mut responses = Vec::with_capacity(figures.len());
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, space::NEAR + 2.0);
        for row in figures.chunks(columns) {
            ui.horizontal_top(|ui| {
                for figure in row {
                    responses.push(figure.min_width(column).ui(ui));
                }
            });
        }
    });
    responses
}

#[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
fn columns_f32(columns: usize) -> f32 {
    columns as f32
}

/// The small dashed square that stands for the pin.
fn ghost_mark(ui: &Ui, centre: egui::Pos2, colour: Color32) {
    let rect = Rect::from_center_size(centre, vec2(paint::SWATCH - 1.0, paint::SWATCH - 1.0));
    paint::dashed_rect(ui.painter(), rect, Stroke::new(1.0, colour));
}
