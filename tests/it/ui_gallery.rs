//! The pieces of the window, each drawn and used alone.

use egui::{Id, Sense, Theme};
use egui_extras::{Column, TableBuilder};
use egui_kittest::{Harness, HarnessBuilder, kittest::Queryable};
use nibwright::analysis::finding::Level;
use nibwright::ui::{
    theme::{self, space},
    widgets::{Explanation, FigureNumber, FindingCard, explain, number_label},
};

mod gallery;
mod number_cell;
mod segment_bar;
mod tabs;
mod thermometer;

/// Frames after which a hover text stands.
const WAIT: usize = 20;

/// A harness of this size with the program's fonts and styles.
fn harness<'a, State>(
    size: [f32; 2],
    theme: Theme,
    state: State,
    draw: impl FnMut(&mut egui::Ui, &mut State) + 'a,
) -> Harness<'a, State> {
    builder(size, theme).build_ui_state(draw, state)
}

fn builder<State>(size: [f32; 2], theme: Theme) -> HarnessBuilder<State> {
    Harness::builder()
        .with_size(size)
        .with_theme(theme)
        // Two clicks are two frames each; at the harness's own pace they would be too slow for a double click.
        .with_step_dt(0.05)
        .with_max_steps(20)
        .with_context_setup(theme::install)
}

mod findings {
    use super::*;

    #[test]
    fn the_action_is_reported_once() {
        let mut harness = harness([400.0, 200.0], Theme::Light, 0, |ui, count| {
            let card = FindingCard::new(Id::unique("f"), Level::Caution, "Water activity 0.87");
            *count += i32::from(card.detail("it may grain").action("make this a target").ui(ui).action_clicked);
        });
        harness.run();
        harness.get_by_label("make this a target: Water activity 0.87").click();
        harness.run();
        assert_eq!(*harness.state(), 1);
        harness.get_by_label("caution: Water activity 0.87. it may grain");
        let target = harness.get_by_label("make this a target: Water activity 0.87").rect();
        assert!(target.height() >= space::TARGET && target.width() >= space::TARGET, "{target}");
    }
}

mod explanations {
    use super::*;

    pub(super) fn explanation() -> Explanation {
        Explanation {
            title: "form V limit".into(),
            what: "Above it the crystals that you want melt.".into(),
            formula: "temperature at which the last form V crystals melt in this fat".into(),
            range: "5 to 45 °C, cocoa butter at least 10 % of the fat".into(),
            source: "reference, table 4".into(),
            evidence: "2 of 5 inputs are class values".into(),
            uncertainty: "±1.0 K; replace class values by your supplier’s data sheet".into(),
        }
    }

    #[test]
    fn a_figure_that_is_pointed_at_says_what_it_is() {
        let mut harness = harness([500.0, 500.0], Theme::Light, (), move |ui, ()| {
            let response = FigureNumber::new(Some("29.8"), "°C", "limit").ui(ui);
            explain(&response, explanation);
        });
        harness.run();
        let explanation = explanation();
        assert!(harness.query_by_label(&explanation.what).is_none());
        harness.get_by_label("limit 29.8 °C").hover();
        harness.run_steps(WAIT);
        harness.get_by_label(&explanation.what);
        for (head, words) in explanation.parts() {
            harness.get_by_label(head);
            harness.get_by_label(words);
        }
    }

    #[test]
    fn a_number_in_a_row_that_takes_clicks_explains_itself() {
        let mut harness = harness([500.0, 500.0], Theme::Light, (), move |ui, ()| {
            TableBuilder::new(ui).sense(Sense::CLICK).column(Column::remainder()).body(|mut body| {
                body.row(30.0, |mut row| {
                    row.col(|ui| explain(&number_label(ui, "29.8".into()), explanation));
                });
            });
        });
        harness.run();
        harness.get_by_label("29.8").hover();
        harness.run_steps(WAIT);
        harness.get_by_label(&explanation().what);
    }
}
