//! The findings under the sheet: most serious first, scrolling where there is no room for all.

use egui::{Id, ScrollArea, Ui};

use crate::analysis::finding::Finding;
use crate::report::words::FindingWords;
use crate::ui::explanations;
use crate::ui::targets::target_of_finding;
use crate::ui::theme::{self, space};
use crate::ui::view::{Action, Focus, Pointed, Scene, View};
use crate::ui::widgets::{FindingCard, explain, explain::arrive, is_attended, scroll_by_keys};

/// Draws the findings in the height that is left, or all of them where the whole sheet scrolls.
pub fn findings_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, are_all_shown: bool, actions: &mut Vec<Action>) {
    let findings = &scene.analysis.findings;
    view.is_on_findings = false;
    if findings.is_empty() {
        return;
    }
    let count = match findings.len() {
        1 => "1 finding".to_owned(),
        count => format!("{count} findings, most serious first"),
    };
    ui.label(theme::caption(ui, count));
    ui.add_space(space::TIGHT);
    let mut cards_ui = |ui: &mut Ui, view: &mut View| {
        ui.spacing_mut().item_spacing.y = space::NEAR;
        for (finding, words) in findings.iter().zip(scene.finding_words) {
            finding_ui(ui, scene, (finding, words), view, actions);
        }
        ui.add_space(space::NEAR);
    };
    if are_all_shown {
        // Without an area of their own: it would keep for itself which finding is to be brought into sight.
        ui.scope(|ui| cards_ui(ui, view));
    } else {
        let area = ScrollArea::vertical().id_salt("findings").auto_shrink([false, false]);
        area.show(ui, |ui| {
            cards_ui(ui, view);
            if view.is_on_findings {
                scroll_by_keys(ui);
            }
        });
    }
}

fn finding_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    (finding, words): (&Finding, &FindingWords),
    view: &mut View,
    actions: &mut Vec<Action>,
) {
    let lines = finding.lines();
    let is_shown = view.shows_every_reading || view.reading == finding.reading();
    let mut card = FindingCard::new(Id::unique(("finding", finding.code, &words.title)), finding.level, &words.title);
    card = card.detail(&words.detail);
    if !is_shown {
        card = card.action("show");
    }
    let target = target_of_finding(finding);
    if target.is_some() {
        card = card.action_below("make this a target");
    }
    let output = card.ui(ui);
    if let Some(target) = target.filter(|_| output.below_clicked) {
        actions.push(Action::MakeTarget(target));
    }
    if output.action_clicked {
        actions.push(Action::Show(finding.reading()));
    }
    if view.focus == Some(Focus::Findings) {
        view.focus = None;
        output.response.request_focus();
    }
    view.is_on_findings |= output.response.has_focus();
    arrive(&output.response);
    if is_attended(&output.response)
        && let Some(explanation) = explanations::finding::finding(finding, scene, view.sign)
    {
        explain(&output.response, || explanation);
    }
    if is_attended(&output.response)
        && let Some(&line) = lines.first()
    {
        view.point_at(Pointed::Line(line));
    }
}
