//! A card: one thing to look at, with a title and what the title leaves open.

use egui::{CornerRadius, Frame, InnerResponse, Margin, Ui};

use crate::ui::theme::{self, Palette, space};

/// The frame around one group of results.
#[derive(Clone, Copy, Debug, Default)]
#[must_use = "call `ui` to show it"]
pub struct Card<'a> {
    title: Option<&'a str>,
    subtitle: Option<&'a str>,
}

impl<'a> Card<'a> {
    /// A card without words of its own.
    pub fn new() -> Self {
        Self::default()
    }

    /// What it shows.
    pub fn title(mut self, title: &'a str) -> Self {
        self.title = Some(title);
        self
    }

    /// Units, basis, what lines and shades mean.
    pub fn subtitle(mut self, subtitle: &'a str) -> Self {
        self.subtitle = Some(subtitle);
        self
    }

    /// Draws the card over the available width.
    pub fn ui<R>(self, ui: &mut Ui, add_contents: impl FnOnce(&mut Ui) -> R) -> InnerResponse<R> {
        frame(ui).show(ui, |ui| {
            ui.set_width(ui.available_width());
            if self.title.is_some() || self.subtitle.is_some() {
                ui.vertical(|ui| {
                    ui.spacing_mut().item_spacing.y = 3.0;
                    if let Some(title) = self.title {
                        ui.label(theme::strong(title));
                    }
                    if let Some(subtitle) = self.subtitle {
                        ui.label(theme::quiet(ui, subtitle));
                    }
                });
                ui.add_space(space::TIGHT);
            }
            add_contents(ui)
        })
    }
}

/// The look of a card for things that lay out their own content.
pub fn frame(ui: &Ui) -> Frame {
    let palette = Palette::of(ui);
    Frame::new()
        .fill(palette.card)
        .stroke(palette.rule_stroke())
        .corner_radius(CornerRadius::same(space::CARD_RADIUS))
        .inner_margin(Margin::symmetric(16, 14))
}
