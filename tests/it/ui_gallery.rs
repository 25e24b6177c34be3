//! The pieces of the window, each drawn and used alone.

use egui::{Id, Key, Modifiers, Theme, pos2, vec2};
use egui_kittest::{
    Harness, HarnessBuilder,
    kittest::{NodeT, Queryable},
};
use nibwright::ui::{
    theme,
    theme::{Hue, Palette, space},
    widgets::{
        Card, Chip, Explanation, FigureNumber, FindingCard, FindingLevel, Leave, NumberCell, NumberEvent, RangeRow,
        Segment, SegmentBar, Thermometer, ThermometerMarks, figures_ui, number_cell, range_rows_ui, tabs_ui,
    },
};

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

/// The gallery: every widget in a state in which it is seen in the window.
mod gallery {
    use super::*;

    fn parse(text: &str) -> Result<f64, String> {
        text.replace(',', ".").parse().map_err(|_| format!("“{text}” is not a number"))
    }

    fn sheet_ui(ui: &mut egui::Ui) {
        let palette = Palette::of(ui);
        ui.label(egui::RichText::new("Dark cut ganache").font(theme::heading()));
        ui.label(theme::quiet(ui, "ganache for cutting · batch 685 g · cocoa butter West African"));
        ui.add_space(space::NEAR);
        let rows =
            [("Dark couverture 64 %", "400", "58.4"), ("Cream 35 %", "200", "29.2"), ("Butter 82 %", "40", "5.8")];
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
        ui.horizontal(|ui| {
            Chip::new("evaporation", "0 g").ui(ui);
            Chip::new("transfer loss", "2 %").ui(ui);
            Chip::new("ready mass", "671 g").ui(ui);
        });
        ui.add_space(space::NEAR);
        let segments = phases();
        SegmentBar::new("phases", &segments).ui(ui);
        ui.label(theme::quiet(ui, "what it is at 20.0 °C, % of the mass"));
        ui.add_space(space::NEAR);
        let pinned = [0.20, 0.18, 0.40, 0.0, 0.20, 0.02];
        let lit = [0.05, 0.05, 0.2, 0.0, 0.0, 0.01];
        SegmentBar::new("phases and pin", &segments).ghost(Some(&pinned)).lit(Some(&lit)).ui(ui);
        ui.add_space(space::NEAR);
        FindingCard::new(
            Id::unique("a"),
            FindingLevel::Problem,
            "The emulsion will split: dispersed share 0.79 of 0.74",
        )
        .detail("Take 60 g of the couverture out, or add 30 g water.")
        .ui(ui);
        FindingCard::new(
            Id::unique("b"),
            FindingLevel::Caution,
            "Water activity 0.87, usual for a keeping ganache at most 0.85",
        )
        .detail("Replacing 15 g of the couverture’s sugar by dextrose brings it to 0.85; more sucrose would not.")
        .action("make this a target")
        .ui(ui);
        FindingCard::new(Id::unique("c"), FindingLevel::Note, "The emulsion has room").action("show").ui(ui);
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
        let explanation = Explanation {
            formula: Some("temperature at which the last form V crystals melt in this fat".to_owned()),
            range: Some("5 to 45 °C, cocoa butter at least 10 % of the fat".to_owned()),
            evidence: Some("2 of 5 inputs are class values".to_owned()),
            uncertainty: Some("±1.0 K; replace class values by your supplier’s data sheet".to_owned()),
            ..Explanation::new("form V limit", "Above it the crystals that you want melt.")
        };
        Card::new().ui(ui, |ui| {
            figures_ui(
                ui,
                &[
                    FigureNumber::new(Some("29.8"), "°C", "form V limit ±1.0").explanation(&explanation),
                    FigureNumber::new(Some("43"), "%", "solid fat at 20\u{a0}°C\u{a0}±5").ghost(Some("pinned 46 %")),
                    FigureNumber::new(None, "g", "seed: milk fat missing"),
                ],
            );
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
                let segments: Vec<_> =
                    bar.iter().map(|(label, share, hue)| Segment::new(*label, *share, *hue)).collect();
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
        Card::new().title("Usual for cutting").subtitle("% of the mass · trade habit").ui(ui, |ui| {
            let row = |label: &str, value: f64, usual: [f64; 2]| RangeRow {
                label: label.to_owned(),
                value: Some(value),
                value_text: format!("{value:.1} %"),
                usual: Some(usual),
                usual_text: format!("{} to {}", usual[0], usual[1]),
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
                        value: None,
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
            let panel =
                egui::Rect::from_min_max(pos2(rect.left() + 540.0, rect.top() - 20.0), rect.max + vec2(20.0, 20.0));
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
                let thermometer =
                    Thermometer::new(Id::unique("thermometer"), "temperature", seen.celsius, &text, &marks);
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
                    number_cell::focus(&harness.ctx, Id::unique(("amount", 1_usize)));
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
                harness.get_by_label("make this a target").focus();
                harness.get_by_label("transfer loss 2 %").hover();
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
}

mod segment_bar {
    use super::*;

    #[derive(Default)]
    struct Seen {
        hovered: Option<usize>,
        rects: Vec<egui::Rect>,
    }

    fn bar() -> Harness<'static, Seen> {
        let segments = gallery::phases();
        harness([500.0, 200.0], Theme::Light, Seen::default(), move |ui, seen| {
            let output = SegmentBar::new("phases", &segments).ui(ui);
            (seen.hovered, seen.rects) = (output.hovered, output.rects);
        })
    }

    #[test]
    fn the_segment_pointed_at_is_reported_and_explained() {
        let mut harness = bar();
        harness.run();
        assert_eq!(harness.state().hovered, None);
        let syrup = harness.state().rects[2].center();
        harness.hover_at(syrup);
        harness.run_steps(WAIT);
        assert_eq!(harness.state().hovered, Some(2));
        harness.get_by_label("water 20 %, sugars 26 %");
        harness.remove_cursor();
        harness.run();
        assert_eq!(harness.state().hovered, None);
    }

    #[test]
    fn its_words_say_what_it_shows() {
        let harness = bar();
        let words = "phases: fat crystals 17 %, liquid fat 22 %, syrup 46 %, cocoa 14 %, other particles 1 %";
        harness.get_by_label(words);
    }
}

mod thermometer {
    use super::*;

    const NAME: &str = "temperature";

    fn thermometer() -> Harness<'static, f64> {
        let marks = gallery::marks();
        harness([120.0, 700.0], Theme::Light, 20.0, move |ui, celsius| {
            let text = format!("{celsius:.1}");
            let output = Thermometer::new(Id::unique(NAME), NAME, *celsius, &text, &marks).ui(ui);
            *celsius = output.chosen_c.unwrap_or(*celsius);
        })
    }

    #[test]
    fn dragging_moves_it_and_stops_at_the_ends() {
        let mut harness = thermometer();
        let x = harness.get_by_label(NAME).rect().center().x;
        harness.drag_at(pos2(x, 600.0));
        harness.run();
        let low = *harness.state();
        assert!((5.0..15.0).contains(&low), "{low}");
        harness.hover_at(pos2(x, 300.0));
        harness.run();
        let high = *harness.state();
        assert!((20.0..35.0).contains(&high), "{high}");
        harness.hover_at(pos2(x, 0.0));
        harness.run();
        assert_eq!(*harness.state(), 45.0);
        harness.hover_at(pos2(x, 900.0));
        harness.run();
        assert_eq!(*harness.state(), 5.0);
        harness.drop_at(pos2(x, 900.0));
        harness.run();
        assert_eq!(*harness.state(), 5.0);
    }

    #[test]
    fn taken_by_the_handle_it_does_not_jump() {
        let mut harness = thermometer();
        let handle = pos2(harness.get_by_label(NAME).rect().left() + 20.0, 300.0);
        // A press beside the handle brings it there.
        harness.drag_at(handle);
        harness.run();
        harness.drop_at(handle);
        harness.run();
        let before = *harness.state();
        assert!(before > 25.0, "{before}");
        // A press a little off its middle takes it as it is.
        harness.drag_at(handle + vec2(0.0, 6.0));
        harness.run();
        assert_eq!(*harness.state(), before);
        harness.hover_at(handle + vec2(0.0, 6.0 - 40.0));
        harness.run();
        // 40 points up on a strip of some 640 points for 40 K.
        let risen = *harness.state() - before;
        assert!((2.0..3.0).contains(&risen), "{risen}");
    }

    #[test]
    fn arrow_keys_step_half_a_degree_and_shift_five() {
        let mut harness = thermometer();
        harness.get_by_label(NAME).focus();
        harness.run();
        for (modifiers, key, expected) in [
            (Modifiers::NONE, Key::ArrowUp, 20.5),
            (Modifiers::NONE, Key::ArrowUp, 21.0),
            (Modifiers::NONE, Key::ArrowDown, 20.5),
            (Modifiers::SHIFT, Key::ArrowUp, 25.5),
            (Modifiers::NONE, Key::PageDown, 20.5),
            (Modifiers::NONE, Key::End, 45.0),
            (Modifiers::NONE, Key::ArrowUp, 45.0),
            (Modifiers::NONE, Key::Home, 5.0),
        ] {
            harness.key_press_modifiers(modifiers, key);
            harness.run();
            assert_eq!(*harness.state(), expected, "after {modifiers:?} {key:?}");
            assert!(harness.get_by_label(NAME).is_focused());
        }
    }

    #[test]
    fn a_double_click_brings_room_temperature_back() {
        let mut harness = thermometer();
        harness.get_by_label(NAME).click();
        harness.run();
        assert_ne!(*harness.state(), 20.0);
        harness.run_steps(20);
        harness.get_by_label(NAME).click();
        harness.get_by_label(NAME).click();
        harness.run();
        assert_eq!(*harness.state(), 20.0);
    }

    #[test]
    fn an_assistive_technology_can_read_and_set_it() {
        let mut harness = thermometer();
        harness.get_by_label(NAME).increment_accesskit();
        harness.run();
        assert_eq!(*harness.state(), 20.5);
        harness.get_by_label(NAME).set_value_accesskit(90.0);
        harness.run();
        assert_eq!(*harness.state(), 45.0);
        assert_eq!(harness.get_by_label(NAME).value().as_deref(), Some("45.0 °C"));
        assert_eq!(harness.get_by_label(NAME).accesskit_node().data().role(), egui::accesskit::Role::Slider);
    }

    #[test]
    fn it_stands_without_any_limit() {
        let marks = ThermometerMarks { window_c: Some([30.0, 20.0]), form_v_c: Some(f64::NAN), ..Default::default() };
        let mut harness = harness([120.0, 300.0], Theme::Dark, (), move |ui, ()| {
            Thermometer::new(Id::unique(NAME), NAME, 20.0, "20.0", &marks).ui(ui);
        });
        harness.run();
        harness.get_by_label(NAME);
    }
}

mod tabs {
    use super::*;

    fn tabs() -> Harness<'static, usize> {
        harness([400.0, 100.0], Theme::Light, 0, |ui, selected| {
            let names = ["Make-up", "Emulsion", "Water"];
            *selected = tabs_ui(ui, Id::unique("tabs"), &names, *selected).unwrap_or(*selected);
            if ui.button("below").clicked() {
                *selected = 0;
            }
        })
    }

    #[test]
    fn a_click_selects() {
        let mut harness = tabs();
        harness.get_by_label("Water").click();
        harness.run();
        assert_eq!(*harness.state(), 2);
        assert_eq!(harness.get_by_label("Water").accesskit_node().data().is_selected(), Some(true));
        assert_eq!(harness.get_by_label("Make-up").accesskit_node().data().is_selected(), Some(false));
    }

    #[test]
    fn arrows_move_within_the_row_and_tab_leaves_it() {
        let mut harness = tabs();
        harness.key_press(Key::Tab);
        harness.run();
        assert!(harness.get_by_label("Make-up").is_focused());
        for (key, expected) in [
            (Key::ArrowRight, 1),
            (Key::ArrowRight, 2),
            (Key::ArrowRight, 0),
            (Key::ArrowLeft, 2),
            (Key::Home, 0),
            (Key::End, 2),
        ] {
            harness.key_press(key);
            harness.run();
            assert_eq!(*harness.state(), expected, "after {key:?}");
        }
        assert!(harness.get_by_label("Water").is_focused());
        harness.key_press(Key::Tab);
        harness.run();
        assert!(harness.get_by_label("below").is_focused());
    }
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

mod number_cell_tests {
    use super::*;
    use NumberEvent::{Committed, Typing};

    /// Two cells and the log of what they reported.
    #[derive(Default)]
    struct Amounts {
        values: [f64; 2],
        log: Vec<NumberEvent<f64>>,
        leave: Option<Leave>,
    }

    fn parse(text: &str) -> Result<f64, String> {
        match text.trim().replace(',', ".").parse::<f64>() {
            Ok(value) if value >= 0.0 => Ok(value),
            Ok(_) => Err("an amount cannot be negative".to_owned()),
            Err(_) => Err(format!("“{text}” is not a number")),
        }
    }

    fn amounts() -> Harness<'static, Amounts> {
        let state = Amounts { values: [200.0, 40.0], ..Default::default() };
        harness([300.0, 200.0], Theme::Light, state, |ui, state| {
            for idx in 0..2 {
                let name = format!("cell {idx}");
                let shown = state.values[idx].to_string();
                let output = NumberCell::new(id(idx), &name, &shown, &parse).ui(ui);
                match output.event {
                    NumberEvent::Nothing => continue,
                    NumberEvent::Typing(value) | NumberEvent::Committed(value) => state.values[idx] = value,
                    NumberEvent::Cancelled => state.values[idx] = [200.0, 40.0][idx],
                }
                state.log.push(output.event);
                state.leave = output.leave.or(state.leave);
            }
        })
    }

    fn id(idx: usize) -> Id {
        Id::unique(("cell", idx))
    }

    fn click(harness: &mut Harness<'_, Amounts>, name: &str) {
        harness.get_by_label(name).click();
        harness.run();
    }

    fn type_text(harness: &mut Harness<'_, Amounts>, name: &str, text: &str) {
        for character in text.chars() {
            harness.get_by_label(name).type_text(&character.to_string());
        }
        harness.run();
    }

    fn press(harness: &mut Harness<'_, Amounts>, key: Key) {
        harness.key_press(key);
        harness.run();
    }

    #[test]
    fn typing_reports_every_readable_state_and_enter_commits() {
        let mut harness = amounts();
        click(&mut harness, "cell 0");
        type_text(&mut harness, "cell 0", "12,5");
        // The click selected everything, so the first digit replaced 200; "12," already reads as 12.
        assert_eq!(harness.state().log, [Typing(1.0), Typing(12.0), Typing(12.0), Typing(12.5)]);
        assert_eq!(number_cell::edited_cell(&harness.ctx), Some(id(0)));
        press(&mut harness, Key::Enter);
        assert_eq!(harness.state().log.last(), Some(&Committed(12.5)));
        assert_eq!(harness.state().leave, Some(Leave::Down));
        assert!(!harness.get_by_label("cell 0").is_focused());
        assert_eq!(number_cell::edited_cell(&harness.ctx), None);
        assert_eq!(harness.get_by_label("cell 0").value().as_deref(), Some("12.5"));
    }

    #[test]
    fn shift_enter_goes_up() {
        let mut harness = amounts();
        click(&mut harness, "cell 1");
        type_text(&mut harness, "cell 1", "7");
        harness.key_press_modifiers(Modifiers::SHIFT, Key::Enter);
        harness.run();
        assert_eq!(harness.state().leave, Some(Leave::Up));
        assert_eq!(harness.state().values, [200.0, 7.0]);
    }

    #[test]
    fn tab_commits_and_goes_to_the_next_cell_with_its_text_selected() {
        let mut harness = amounts();
        click(&mut harness, "cell 0");
        type_text(&mut harness, "cell 0", "55");
        press(&mut harness, Key::Tab);
        assert_eq!(harness.state().log.last(), Some(&NumberEvent::Committed(55.0)));
        assert!(harness.get_by_label("cell 1").is_focused());
        type_text(&mut harness, "cell 1", "9");
        press(&mut harness, Key::Tab);
        assert_eq!(harness.state().values, [55.0, 9.0]);
    }

    #[test]
    fn clicking_elsewhere_commits() {
        let mut harness = amounts();
        click(&mut harness, "cell 0");
        type_text(&mut harness, "cell 0", "3");
        click(&mut harness, "cell 1");
        assert_eq!(harness.state().log.last(), Some(&NumberEvent::Committed(3.0)));
    }

    #[test]
    fn escape_brings_the_value_back_and_keeps_the_place() {
        let mut harness = amounts();
        click(&mut harness, "cell 0");
        type_text(&mut harness, "cell 0", "12");
        press(&mut harness, Key::Escape);
        assert_eq!(harness.state().log.last(), Some(&NumberEvent::Cancelled));
        assert_eq!(harness.state().values[0], 200.0);
        assert_eq!(harness.get_by_label("cell 0").value().as_deref(), Some("200"));
        assert!(harness.get_by_label("cell 0").is_focused());
        press(&mut harness, Key::Escape);
        assert!(!harness.get_by_label("cell 0").is_focused());
        assert_eq!(harness.state().values[0], 200.0);
    }

    #[test]
    fn nonsense_stays_with_its_reason_and_counts_for_nothing() {
        let mut harness = amounts();
        click(&mut harness, "cell 0");
        type_text(&mut harness, "cell 0", "1x");
        press(&mut harness, Key::Enter);
        assert!(harness.get_by_label("cell 0").is_focused(), "Enter does not leave text that cannot be read");
        harness.get_by_label("“1x” is not a number");
        press(&mut harness, Key::Tab);
        assert_eq!(harness.state().log.last(), Some(&NumberEvent::Cancelled));
        assert_eq!(harness.state().values[0], 200.0);
        let cell = harness.get_by_label("cell 0");
        assert_eq!(cell.value().as_deref(), Some("1x"));
        assert_eq!(cell.accesskit_node().data().invalid(), Some(egui::accesskit::Invalid::True));
        click(&mut harness, "cell 0");
        type_text(&mut harness, "cell 0", "8");
        press(&mut harness, Key::Enter);
        assert_eq!(harness.state().values[0], 8.0);
    }

    #[test]
    fn nonsense_goes_when_the_value_below_it_changes() {
        let mut harness = amounts();
        click(&mut harness, "cell 0");
        type_text(&mut harness, "cell 0", "x");
        press(&mut harness, Key::Tab);
        harness.state_mut().values[0] = 77.0;
        harness.run();
        assert_eq!(harness.get_by_label("cell 0").value().as_deref(), Some("77"));
    }

    #[test]
    fn arrows_step_the_last_digit_shown() {
        let mut harness = amounts();
        click(&mut harness, "cell 0");
        type_text(&mut harness, "cell 0", "12,5");
        press(&mut harness, Key::ArrowUp);
        assert_eq!(harness.state().values[0], 12.6);
        harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
        harness.run();
        assert_eq!(harness.state().values[0], 11.6);
        assert!(harness.get_by_label("cell 0").is_focused());
        press(&mut harness, Key::Enter);
        assert_eq!(harness.state().log.last(), Some(&NumberEvent::Committed(11.6)));
    }

    #[test]
    fn a_step_to_what_is_not_allowed_is_not_made() {
        let mut harness = amounts();
        click(&mut harness, "cell 0");
        type_text(&mut harness, "cell 0", "0");
        press(&mut harness, Key::ArrowDown);
        assert_eq!(harness.get_by_label("cell 0").value().as_deref(), Some("0"));
    }

    #[test]
    fn passing_through_reports_nothing() {
        let mut harness = amounts();
        click(&mut harness, "cell 0");
        press(&mut harness, Key::Tab);
        press(&mut harness, Key::Tab);
        assert_eq!(harness.state().log, []);
    }

    #[test]
    fn focus_selects_what_is_there() {
        let mut harness = amounts();
        number_cell::focus(&harness.ctx, id(1));
        harness.run();
        assert!(harness.get_by_label("cell 1").is_focused());
        type_text(&mut harness, "cell 1", "6");
        assert_eq!(harness.state().values[1], 6.0);
    }

    #[test]
    fn an_assistive_technology_can_set_the_value() {
        let mut harness = amounts();
        harness.get_by_label("cell 1").set_text_value_accesskit("31");
        harness.run();
        assert_eq!(harness.state().log, [NumberEvent::Committed(31.0)]);
    }
}
