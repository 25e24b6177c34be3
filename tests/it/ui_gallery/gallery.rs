//! The gallery: every widget in a state in which it is seen in the window.

use egui::{Id, Theme, pos2, vec2};
use egui_kittest::{Harness, kittest::Queryable};
use nibwright::analysis::finding::Level;
use nibwright::ui::{
    theme::{self, Hue, Palette, space},
    widgets::{
        Card, FigureNumber, FindingCard, NumberCell, RangeRow, Segment, SegmentBar, Thermometer, ThermometerMarks,
        explain, figures_ui, focus_cell,
        fold::{Fold, set_open},
        range_rows_ui, tabs_ui, told_row_ui,
    },
};

use super::{WAIT, builder};

fn parse(text: &str) -> Result<f64, String> {
    text.replace(',', ".").parse().map_err(|_| format!("“{text}” is not a number"))
}

fn sheet_ui(ui: &mut egui::Ui) {
    let palette = Palette::of(ui);
    ui.label(egui::RichText::new("Dark cut ganache").font(theme::heading()));
    ui.label(theme::quiet(ui, "ganache for cutting · batch 685 g · cocoa butter West African"));
    ui.add_space(space::NEAR);
    let rows = [("Dark couverture 64 %", "400", "58.4"), ("Cream 35 %", "200", "29.2"), ("Butter 82 %", "40", "5.8")];
    for (idx, (name, grams, percent)) in rows.into_iter().enumerate() {
        ui.horizontal(|ui| {
            let (rect, _) = ui.allocate_exact_size(vec2(180.0, space::ROW), egui::Sense::hover());
            let galley = ui.painter().layout_no_wrap(name.to_owned(), theme::table(), palette.text);
            ui.painter().galley(rect.left_center() - vec2(0.0, galley.size().y / 2.0), galley, palette.text);
            let name = format!("{name}, amount");
            NumberCell::new(Id::unique(("amount", idx)), &name, grams, &parse).ui(ui);
            ui.label(egui::RichText::new("g").font(theme::table()).color(palette.quiet));
            ui.label(egui::RichText::new(percent).font(theme::table()).color(palette.quiet));
        });
    }
    ui.add_space(space::NEAR);
    let segments = phases();
    SegmentBar::new("phases", &segments).ui(ui);
    ui.label(theme::quiet(ui, "what it is at 20.0 °C, % of the mass"));
    ui.add_space(space::NEAR);
    let pinned = [0.20, 0.18, 0.40, 0.0, 0.20, 0.02];
    let lit = [0.05, 0.05, 0.2, 0.0, 0.0, 0.01];
    SegmentBar::new("phases and pin", &segments).ghost(Some(&pinned)).lit(Some(&lit)).ui(ui);
    ui.add_space(space::NEAR);
    FindingCard::new(Id::unique("a"), Level::Problem, "The emulsion will split: dispersed share 0.79 of 0.74")
        .detail("Take 60 g of the couverture out, or add 30 g water.")
        .ui(ui);
    FindingCard::new(Id::unique("b"), Level::Caution, "Water activity 0.87, usual for a keeping ganache at most 0.85")
        .detail("Replacing 15 g of the couverture’s sugar by dextrose brings it to 0.85; more sucrose would not.")
        .action("make this a target")
        .ui(ui);
    FindingCard::new(Id::unique("c"), Level::Note, "The emulsion has room").action("show").ui(ui);
}

pub fn phases() -> Vec<Segment> {
    vec![
        Segment::new("fat crystals 17 %", 0.17, Hue::CocoaButter).short("crystals 17 %").hatched(),
        Segment::new("liquid fat 22 %", 0.22, Hue::CocoaButter),
        Segment::new("syrup 46 %", 0.46, Hue::Water).detail("water 20 %, sugars 26 %"),
        Segment::new("undissolved sugar 0 %", 0.0, Hue::Sugars),
        Segment::new("cocoa 14 %", 0.13, Hue::CocoaSolids),
        Segment::new("other particles 1 %", 0.015, Hue::OtherSolids),
    ]
}

fn readings_ui(ui: &mut egui::Ui, selected: &mut usize) {
    let names = ["Make-up", "Emulsion", "Water", "Fat crystals", "Setting"];
    *selected = tabs_ui(ui, Id::unique("tabs"), &names, *selected).unwrap_or(*selected);
    Card::new().ui(ui, |ui| {
        let responses = figures_ui(
            ui,
            &[
                FigureNumber::new(Some("29.8"), "°C", "form V limit ±1.0"),
                FigureNumber::new(Some("43"), "%", "solid fat at 20\u{a0}°C\u{a0}±5").ghost(Some("46 %")),
                FigureNumber::new(None, "g", "seed: milk fat missing"),
            ],
        );
        if let Some(response) = responses.first() {
            explain(response, super::explanations::explanation);
        }
    });
    Card::new().ui(ui, |ui| {
        let figures: Vec<_> = [
            ("23.1", "cocoa butter", "158 g", Hue::CocoaButter),
            ("15.0", "milk fat", "103 g", Hue::MilkFat),
            ("25.0", "sugars", "171 g", Hue::Sugars),
            ("19.9", "water", "136 g", Hue::Water),
            ("14.3", "cocoa solids", "98 g", Hue::CocoaSolids),
            ("2.5", "other solids", "17 g", Hue::OtherSolids),
        ]
        .into_iter()
        .map(|(value, caption, grams, hue)| FigureNumber::new(Some(value), "%", caption).detail(grams).hue(hue))
        .collect();
        figures_ui(ui, &figures);
    });
    Card::new().title("Who brings what").subtitle("grams in the batch by line").ui(ui, |ui| {
        let bars = [
            vec![
                ("fat", 158.0, Hue::CocoaButter),
                ("sugar", 140.0, Hue::Sugars),
                ("water", 3.0, Hue::Water),
                ("cocoa", 98.0, Hue::CocoaSolids),
            ],
            vec![
                ("fat", 70.0, Hue::MilkFat),
                ("sugar", 6.0, Hue::Sugars),
                ("water", 118.0, Hue::Water),
                ("rest", 5.0, Hue::OtherSolids),
            ],
            vec![("fat", 33.0, Hue::MilkFat), ("water", 7.0, Hue::Water)],
        ];
        for bar in bars {
            let segments: Vec<_> = bar.iter().map(|(label, share, hue)| Segment::new(*label, *share, *hue)).collect();
            SegmentBar::new("line", &segments).total(400.0).height(14.0).ui(ui);
        }
        ui.add_space(space::NEAR);
        for (now, pinned, hue) in [(23.1, 22.7, Hue::CocoaButter), (19.9, 22.2, Hue::Water)] {
            SegmentBar::new("against the pin", &[Segment::new("now", now, hue)])
                .total(40.0)
                .height(12.0)
                .ghost(Some(&[pinned]))
                .ui(ui);
        }
    });
    Card::new().title("Seeding plan").subtitle("a way, and its steps").ui(ui, |ui| {
        told_row_ui(ui, "the mass comes to", "27.8 °C: it lives and grows", Some("27.5 °C"));
        told_row_ui(ui, "it changes", "fat 38.3 to 39.0 %, cocoa butter 23.1 to 23.9 %, water 19.9 to 19.7 %", None);
        let open = egui::Id::unique("open step");
        set_open(ui, open, true);
        Fold::new(open, "1  Melt out").detail("45 to 50 °C · 400 g").ui(ui, |ui| {
            ui.label("It is smooth and flows evenly");
        });
        let closed = egui::Id::unique("closed step");
        Fold::new(closed, "2  Cool to the window").detail("25.8 to 29.6 °C, best 27.8 · 28 to 62 minutes").ui(
            ui,
            |ui| {
                ui.label("not drawn");
            },
        );
    });
    Card::new().title("Usual for cutting").subtitle("% of the mass · trade habit").ui(ui, |ui| {
        let row = |label: &str, value: f64, usual: [f64; 2]| RangeRow {
            label: label.to_owned(),
            value: Some(value),
            value_text: format!("{value:.1} %"),
            usual: Some(usual),
            usual_text: format!("{} to {}", usual[0], usual[1]),
            ..RangeRow::default()
        };
        range_rows_ui(
            ui,
            &[
                row("water", 19.9, [16.0, 20.0]),
                row("total fat", 38.3, [33.0, 40.0]),
                row("sugars", 25.0, [28.0, 36.0]),
                row("dry cocoa", 14.3, [8.0, 18.0]),
                RangeRow {
                    label: "milk fat".to_owned(),
                    value_text: "unknown".to_owned(),
                    usual: Some([8.0, 15.0]),
                    usual_text: "8 to 15".to_owned(),
                    ..RangeRow::default()
                },
            ],
        );
    });
}

pub fn marks() -> ThermometerMarks<'static> {
    ThermometerMarks {
        form_iv_c: Some(23.9),
        form_v_c: Some(29.8),
        form_vi_c: Some(32.1),
        window_c: Some([25.8, 29.6]),
        window_label: "seed here",
        unmixed_window_c: Some([28.2, 32.0]),
        unmixed_window_label: "fresh",
        handling_c: Some([32.0, 36.0]),
        ..ThermometerMarks::default()
    }
}

pub struct Seen {
    selected: usize,
    celsius: f64,
}

pub fn gallery(theme: Theme, pixels_per_point: f32) -> Harness<'static, Seen> {
    let seen = Seen { selected: 3, celsius: 20.0 };
    let draw = |ui: &mut egui::Ui, seen: &mut Seen| {
        let palette = Palette::of(ui);
        ui.painter().rect_filled(ui.max_rect().expand(20.0), 0, palette.ground);
        let rect = ui.max_rect();
        let panel = egui::Rect::from_min_max(pos2(rect.left() + 540.0, rect.top() - 20.0), rect.max + vec2(20.0, 20.0));
        ui.painter().rect_filled(panel, 0, palette.panel);
        ui.horizontal_top(|ui| {
            let column = |ui: &mut egui::Ui, width: f32, add: &mut dyn FnMut(&mut egui::Ui)| {
                ui.vertical(|ui| {
                    ui.set_width(width);
                    ui.spacing_mut().item_spacing.y = 10.0;
                    add(ui);
                });
            };
            column(ui, 510.0, &mut sheet_ui);
            ui.add_space(30.0);
            column(ui, 420.0, &mut |ui| readings_ui(ui, &mut seen.selected));
            let text = format!("{:.1}", seen.celsius);
            let marks = marks();
            let thermometer = Thermometer::new(Id::unique("thermometer"), "temperature", seen.celsius, &text, &marks);
            seen.celsius = thermometer.ui(ui).chosen_c.unwrap_or(seen.celsius);
        });
    };
    builder([1100.0, 860.0], theme).with_pixels_per_point(pixels_per_point).build_ui_state(draw, seen)
}

/// Missing glyphs, inputs without a name and frames that never end make the harness panic.
#[test]
fn every_widget_is_drawn_named_and_settles_in_both_themes() {
    for theme in [Theme::Light, Theme::Dark] {
        let mut harness = gallery(theme, 1.0);
        harness.run();
        harness.get_by_label("caution: Water activity 0.87, usual for a keeping ganache at most 0.85. Replacing 15 g of the couverture’s sugar by dextrose brings it to 0.85; more sucrose would not.");
        harness.get_by_label("sugars 25.0 % 28 to 36 below the usual range");
        harness.get_by_label("form V limit ±1.0 29.8 °C");
        harness.get_by_label("seed: milk fat missing unknown");
        // To look at it: `NIBWRIGHT_PICTURES=folder cargo test --test it gallery`.
        if let Ok(folder) = std::env::var("NIBWRIGHT_PICTURES") {
            for pixels_per_point in [1.0, 2.0] {
                let mut harness = gallery(theme, pixels_per_point);
                focus_cell(&harness.ctx, Id::unique(("amount", 1_usize)));
                harness.run();
                save(&mut harness, &format!("{folder}/gallery-{theme:?}-{pixels_per_point}.png"));
            }
            harness.get_by_label("Cream 35 %, amount").focus();
            harness.run();
            harness.get_by_label("Cream 35 %, amount").type_text("2oo");
            harness.run_steps(WAIT);
            save(&mut harness, &format!("{folder}/unreadable-{theme:?}.png"));
            harness.get_by_label("temperature").focus();
            harness.get_by_label("form V limit ±1.0 29.8 °C").hover();
            harness.run_steps(WAIT);
            save(&mut harness, &format!("{folder}/explained-{theme:?}.png"));
            harness.get_by_label_contains("make this a target").focus();
            harness.run_steps(WAIT);
            save(&mut harness, &format!("{folder}/action-{theme:?}.png"));
            harness.get_by_label("Fat crystals").focus();
            harness.hover_at(pos2(300.0, 270.0));
            harness.run_steps(WAIT);
            save(&mut harness, &format!("{folder}/segment-{theme:?}.png"));
        }
    }
}

#[expect(clippy::unwrap_used, reason = "only where pictures are asked for; a failure is the answer")]
fn save(harness: &mut Harness<'_, Seen>, path: &str) {
    harness.render().unwrap().save(path).unwrap();
}
