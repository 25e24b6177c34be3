//! A large quiet number with its unit and a caption.

use std::sync::Arc;

use egui::{Galley, Response, Sense, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

use super::{paint, text};
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
    min_width: f32,
    wrap_width: f32,
}

/// The laid out texts of a figure.
struct Parts {
    value: Arc<Galley>,
    unit: Arc<Galley>,
    unit_gap: f32,
    caption: Arc<Galley>,
    caption_indent: f32,
    detail: Option<Arc<Galley>>,
    ghost: Option<Arc<Galley>>,
}

/// Room for a swatch or the mark of the pin in front of a word.
const MARK: f32 = paint::SWATCH + 6.0;

impl Parts {
    fn width(&self) -> f32 {
        (self.value.size().x + self.unit_gap + self.unit.size().x)
            .max(self.caption_indent + self.caption.size().x)
            .max(self.detail.as_ref().map_or(0.0, |detail| detail.size().x))
            .max(self.ghost.as_ref().map_or(0.0, |ghost| MARK + ghost.size().x))
    }

    /// What cannot be broken into lines: the number with its unit, and the line under its caption.
    fn least_width(&self) -> f32 {
        (self.value.size().x + self.unit_gap + self.unit.size().x)
            .max(self.detail.as_ref().map_or(0.0, |detail| detail.size().x))
    }
}

impl<'a> FigureNumber<'a> {
    /// A number as text, its unit, and what it is; no value is shown as unknown.
    pub fn new(value: Option<&'a str>, unit: &'a str, caption: &'a str) -> Self {
        Self { value, unit, caption, detail: None, ghost: None, hue: None, min_width: 0.0, wrap_width: f32::INFINITY }
    }

    /// A second, quieter line: the same in grams, the band.
    pub fn detail(mut self, detail: &'a str) -> Self {
        self.detail = Some(detail);
        self
    }

    /// The same number in the pinned state, with its unit; shown small behind the mark of the pin.
    pub fn ghost(mut self, ghost: Option<&'a str>) -> Self {
        self.ghost = ghost;
        self
    }

    /// The colour in which it is drawn elsewhere.
    pub fn hue(mut self, hue: Hue) -> Self {
        self.hue = Some(hue);
        self
    }

    /// At least this wide, so that figures stand in columns.
    pub fn min_width(mut self, min_width: f32) -> Self {
        self.min_width = min_width;
        self
    }

    /// A column of just this width, with captions broken into lines where they are longer.
    pub fn column(mut self, width: f32) -> Self {
        (self.min_width, self.wrap_width) = (width, width);
        self
    }

    /// Draws the figure.
    pub fn ui(self, ui: &mut Ui) -> Response {
        let palette = Palette::of(ui);
        let parts = self.parts(ui);
        let width = parts.width().max(self.min_width);
        let line = |galley: &Option<Arc<Galley>>| galley.as_ref().map_or(0.0, |galley| galley.size().y + 1.0);
        let caption_height = parts.caption.size().y + 1.0;
        let height = parts.value.size().y + caption_height + line(&parts.detail) + line(&parts.ghost);
        let size = vec2(width, height);
        let (rect, response) = ui.allocate_exact_size(size, Sense::focusable_noninteractive());
        response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), self.name()));

        if ui.is_rect_visible(rect) {
            let painter = ui.painter();
            let base = rect.top() + paint::baseline(&parts.value);
            let unit_left = rect.left() + parts.value.size().x + parts.unit_gap;
            let mut top = rect.top() + parts.value.size().y;
            painter.galley(pos2(unit_left, base - paint::baseline(&parts.unit)), parts.unit, palette.quiet);
            painter.galley(rect.min, parts.value, palette.text);
            if let Some(hue) = self.hue {
                paint::swatch(
                    painter,
                    pos2(rect.left(), top + paint::first_line_height(&parts.caption) / 2.0),
                    hue.fill(),
                );
            }
            painter.galley(pos2(rect.left() + parts.caption_indent, top), parts.caption, palette.quiet);
            top += caption_height;
            if let Some(detail) = parts.detail {
                let height = detail.size().y + 1.0;
                painter.galley(pos2(rect.left(), top), detail, palette.quiet);
                top += height;
            }
            if let Some(ghost) = parts.ghost {
                let centre = pos2(rect.left() + paint::SWATCH / 2.0, top + paint::first_line_height(&ghost) / 2.0);
                paint::ghost_mark(painter, centre, palette.quiet);
                painter.galley(pos2(rect.left() + MARK, top), ghost, palette.quiet);
            }
            paint::focus_ring(ui, &response, rect.expand2(vec2(6.0, 3.0)), space::FIELD_RADIUS);
        }
        response
    }

    fn parts(&self, ui: &Ui) -> Parts {
        let palette = Palette::of(ui);
        let line = |text: &str, font, colour| paint::one_line(ui, text, font, colour, f32::INFINITY);
        let (value, unit) = match self.value {
            Some(value) => (line(value, theme::figure(), palette.text), self.unit),
            None => (line(text::UNKNOWN, theme::unknown_figure(), palette.quiet), ""),
        };
        let caption_indent = if self.hue.is_some() { MARK } else { 0.0 };
        let caption_colour = if self.hue.is_some() { palette.text } else { palette.quiet };
        Parts {
            value,
            unit: line(unit, theme::table(), palette.quiet),
            unit_gap: if unit.is_empty() { 0.0 } else { 5.0 },
            caption: paint::wrapped(ui, self.caption, theme::body(), caption_colour, self.wrap_width - caption_indent),
            caption_indent,
            detail: self.detail.map(|detail| paint::wrapped(ui, detail, theme::body(), palette.quiet, self.wrap_width)),
            ghost: self
                .ghost
                .map(|ghost| paint::wrapped(ui, ghost, theme::small(), palette.quiet, self.wrap_width - MARK)),
        }
    }

    fn name(&self) -> String {
        let (shown, unit) = self.value.map_or((text::UNKNOWN, ""), |value| (value, self.unit));
        let ghost = self.ghost.map(|ghost| format!("pinned {ghost}")).unwrap_or_default();
        let parts = [self.caption, shown, unit, self.detail.unwrap_or_default(), &ghost];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
    }
}

/// Draws figures side by side: in one row if they fit, else in equal columns and as many rows as they need.
pub fn figures_ui(ui: &mut Ui, figures: &[FigureNumber<'_>]) -> Vec<Response> {
    // Figures closer than this read as one number.
    const GAP: f32 = 20.0;
    const WIDE_GAP: f32 = 40.0;
    const LEAST_COLUMN: f32 = 100.0;
    let width = ui.available_width();
    let widths: Vec<f32> = figures.iter().map(|figure| figure.parts(ui).width().ceil()).collect();
    let widest = widths.iter().copied().fold(1.0, f32::max);
    let spare = width - widths.iter().sum::<f32>();
    let gaps = columns_f32(figures.len().saturating_sub(1).max(1));
    let mut responses = Vec::with_capacity(figures.len());
    if figures.len() <= 4 && spare >= GAP * gaps {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = (spare / gaps).min(WIDE_GAP);
            responses.extend(figures.iter().map(|figure| figure.ui(ui)));
        });
        return responses;
    }
    let least: Vec<f32> = figures.iter().map(|figure| figure.parts(ui).least_width().ceil()).collect();
    let narrow = ((width + GAP) / (gaps + 1.0)).floor() - GAP;
    if figures.len() <= 4 && narrow >= LEAST_COLUMN && least.iter().all(|least| *least <= narrow) {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = GAP;
            responses.extend(figures.iter().map(|figure| figure.column(narrow).ui(ui)));
        });
        return responses;
    }
    // Where equal columns are too narrow for a number, each is as wide as it needs.
    let spare = width - least.iter().sum::<f32>() - GAP * gaps;
    if figures.len() <= 4 && narrow >= LEAST_COLUMN && spare >= 0.0 {
        let more = (spare / (gaps + 1.0)).floor();
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = GAP;
            let shown = figures.iter().zip(&least).map(|(figure, least)| figure.column(least + more).ui(ui));
            responses.extend(shown);
        });
        return responses;
    }
    let mut columns = figures.len().clamp(1, 4);
    while columns > 1 && width < columns_f32(columns) * (widest + GAP) - GAP {
        columns -= 1;
    }
    // A short last row looks like a gap: six stand better in three columns than in four.
    let rows = figures.len().div_ceil(columns).max(1);
    columns = figures.len().div_ceil(rows).max(1);
    let column = ((width + GAP) / columns_f32(columns)).floor() - GAP;
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing = vec2(GAP, space::NEAR + 2.0);
        for row in figures.chunks(columns) {
            ui.horizontal_top(|ui| responses.extend(row.iter().map(|figure| figure.column(column).ui(ui))));
        }
    });
    responses
}

#[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
fn columns_f32(columns: usize) -> f32 {
    columns as f32
}
