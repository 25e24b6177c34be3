//! The pieces of the window, each drawn and used alone.

use egui::{Id, Theme};
use egui_kittest::{Harness, HarnessBuilder, kittest::Queryable};
use nibwright::ui::{
    theme::{self, space},
    widgets::{Explanation, FigureNumber, FindingCard, FindingLevel},
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
            let card = FindingCard::new(Id::unique("f"), FindingLevel::Caution, "Water activity 0.87");
            *count += i32::from(card.detail("it may grain").action("make this a target").ui(ui).action_clicked);
        });
        harness.run();
        harness.get_by_label("make this a target").click();
        harness.run();
        assert_eq!(*harness.state(), 1);
        harness.get_by_label("caution: Water activity 0.87. it may grain");
        let target = harness.get_by_label("make this a target").rect();
        assert!(target.height() >= space::TARGET && target.width() >= space::TARGET, "{target}");
    }
}

mod explanations {
    use super::*;

    #[test]
    fn a_figure_that_is_pointed_at_says_what_it_is() {
        let explanation = Explanation {
            source: Some("reference, table 4".to_owned()),
            ..Explanation::new("form V limit", "Above it the crystals melt.")
        };
        let mut harness = harness([500.0, 300.0], Theme::Light, (), move |ui, ()| {
            FigureNumber::new(Some("29.8"), "°C", "limit").explanation(&explanation).ui(ui);
        });
        harness.run();
        assert!(harness.query_by_label("Above it the crystals melt.").is_none());
        harness.get_by_label("limit 29.8 °C").hover();
        harness.run_steps(WAIT);
        harness.get_by_label("Above it the crystals melt.");
        harness.get_by_label("reference, table 4");
    }
}
