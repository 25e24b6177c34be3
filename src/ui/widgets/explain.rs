//! The answer to "what is this": what every number says when it is pointed at.

use egui::{Frame, Margin, Response, Tooltip, Ui};

use super::text;
use crate::ui::theme::{self, space};

/// All that a person needs to judge a number.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Explanation {
    /// Its name.
    pub title: String,
    /// What it is and why it matters.
    pub what: String,
    /// How it is computed, in words.
    pub formula: Option<String>,
    /// Where that holds, and the range that is usual.
    pub range: Option<String>,
    /// Who says so.
    pub source: Option<String>,
    /// Measured, label, table, estimate; which inputs are class values.
    pub evidence: Option<String>,
    /// How far off it can be, and what would narrow it.
    pub uncertainty: Option<String>,
}

impl Explanation {
    /// An explanation of name and meaning; the rest is filled in where it is known.
    #[must_use]
    pub fn new(title: impl Into<String>, what: impl Into<String>) -> Self {
        Self { title: title.into(), what: what.into(), ..Self::default() }
    }

    /// Draws the explanation as it stands in a hover panel or a side pane.
    pub fn ui(&self, ui: &mut Ui) {
        Frame::new().inner_margin(Margin::symmetric(6, 4)).show(ui, |ui| {
            ui.set_max_width(space::EXPLANATION_WIDTH);
            ui.spacing_mut().item_spacing.y = 2.0;
            ui.label(theme::strong(&self.title));
            if !self.what.is_empty() {
                ui.label(&self.what);
            }
            for (label, content) in [
                (text::FORMULA, &self.formula),
                (text::RANGE, &self.range),
                (text::SOURCE, &self.source),
                (text::EVIDENCE, &self.evidence),
                (text::UNCERTAINTY, &self.uncertainty),
            ] {
                if let Some(content) = content {
                    ui.add_space(space::NEAR);
                    ui.label(theme::caption(ui, label));
                    ui.label(content);
                }
            }
        });
    }
}

/// Shows the explanation while the thing is pointed at.
pub fn explain(response: &Response, explanation: &Explanation) {
    Tooltip::for_enabled(response).width(space::EXPLANATION_WIDTH).show(|ui| explanation.ui(ui));
}
