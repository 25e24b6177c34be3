//! The lines of the sheet by pointer: chosen, moved, locked, removed.

use egui::{Key, Pos2, pos2, vec2};
use nibwright::document::Document;
use nibwright::recipe::MassUnit;
use nibwright::ui::explanations::emulsion::Phase;
use nibwright::ui::theme::Hue;
use nibwright::ui::view::{Pointed, Scene, View};

use super::*;

/// Drags the handle of a line by this many rows.
fn drag(window: &mut Window, ingredient: &str, rows: f32) {
    let from = window.get_by_label(&format!("{ingredient}, move")).rect().center();
    // Rows with a note under the name are higher than others: a little more than one of them.
    drag_to(window, from, from + vec2(0.0, rows * 44.0));
}

fn drag_to(window: &mut Window, from: Pos2, to: Pos2) {
    window.hover_at(from);
    window.drag_at(from);
    window.run();
    // Slowly, as a hand does.
    for part in 1..=8_u8 {
        window.hover_at(from + (to - from) * (f32::from(part) / 8.0));
    }
    window.run();
    window.drop_at(to);
    window.run();
}

#[test]
fn a_line_is_dragged_to_another_place() {
    let mut window = first_start();
    let before: Vec<String> = window.ingredients().into_iter().map(str::to_owned).collect();
    drag(&mut window, COUVERTURE, 2.0);
    assert_eq!(window.ingredients()[..3], [CREAM, BUTTER, COUVERTURE]);
    drag(&mut window, COUVERTURE, -2.0);
    assert_eq!(window.ingredients(), before);
    drag(&mut window, CREAM, 0.3);
    assert_eq!(window.ingredients(), before, "a little is nothing");
    drag(&mut window, CREAM, 30.0);
    assert_eq!(window.ingredients().last(), Some(&CREAM), "beyond the end is the end");
    drag(&mut window, CREAM, -30.0);
    assert_eq!(window.ingredients().first(), Some(&CREAM));
    window.press_with(CTRL, Key::Z);
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.ingredients(), before);
}

#[test]
fn a_line_is_dragged_to_where_it_is_let_go_whatever_the_height_of_rows() {
    let mut window = first_start();
    window.press_with(CTRL, Key::P);
    let from = window.get_by_label(&format!("{COUVERTURE}, move")).rect().center();
    let to = window.line_name(BUTTER).rect().center() + vec2(0.0, 16.0);
    drag_to(&mut window, from, pos2(from.x, to.y));
    assert_eq!(window.ingredients()[..3], [CREAM, BUTTER, COUVERTURE]);
}

#[test]
fn an_ingredient_is_dragged_from_the_shelf_to_its_place() {
    const DRAGGED: &str = "Dark couverture, 70 % cocoa";
    let mut window = first_start();
    let from = window.get_by_label(DRAGGED).rect().center();
    let cream = window.line_name(CREAM).rect().center();
    drag_to(&mut window, from, cream - vec2(0.0, 8.0));
    assert_eq!(window.ingredients()[..3], [COUVERTURE, DRAGGED, CREAM]);
    assert_eq!(window.focused(), Some(format!("{DRAGGED}, amount")), "its amount is typed next");
    window.press_with(CTRL, Key::Z);
    assert!(!window.ingredients().contains(&DRAGGED));
    let outside = window.get_by_label("Make-up").rect().center();
    let from = window.get_by_label(DRAGGED).rect().center();
    drag_to(&mut window, from, outside);
    assert!(!window.ingredients().contains(&DRAGGED), "let go elsewhere it stays on the shelf");
    window.press_with(CTRL, Key::N);
    let from = window.get_by_label(DRAGGED).rect().center();
    let together = window.get_by_label("Together").rect().center();
    drag_to(&mut window, from, together);
    assert_eq!(window.ingredients(), [DRAGGED], "into an empty recipe");
}

#[test]
fn the_menu_of_a_line_removes_and_locks_it() {
    let mut window = first_start();
    for is_handle in [true, false] {
        if is_handle {
            window.get_by_label("Cream, 35 % fat, move").click_secondary();
        } else {
            window.line_name(CREAM).click_secondary();
        }
        window.run();
        window.click("Lock amount");
        assert!(window.line(CREAM).is_locked);
        window.press_with(CTRL, Key::Z);
    }
    window.line_name(CREAM).click_secondary();
    window.run();
    window.click("Remove line");
    assert!(!window.ingredients().contains(&CREAM));
    window.click("Undo");
    assert!(window.ingredients().contains(&CREAM));
    assert!(window.state().is_saved());
}

#[test]
fn the_unit_of_a_line_changes_and_its_mass_stays() {
    let mut window = first_start();
    let grams = window.line(CREAM).amount.grams();
    window.click("Cream, 35 % fat, unit g");
    window.click("kg");
    assert_eq!(window.line(CREAM).amount.unit(), MassUnit::Kilogram);
    assert_eq!(window.line(CREAM).amount.grams(), grams);
    assert_eq!(window.cell(CREAM), "0.2");
}

#[test]
fn a_locked_amount_cannot_be_edited_until_it_is_unlocked() {
    let mut window = first_start();
    window.click("Cream, 35 % fat, lock");
    assert!(window.line(CREAM).is_locked);
    assert!(window.query_by_label("Cream, 35 % fat, amount").is_none(), "there is nothing to type into");
    // Scaling keeps the recipe, so it moves locked lines too.
    window.click("batch, grams");
    window.type_text("1370");
    window.press(Key::Enter);
    assert_eq!(window.amount(CREAM), 400.0);
    window.click("Cream, 35 % fat, unlock");
    window.type_amount(CREAM, "210");
    window.press(Key::Enter);
    assert_eq!(window.amount(CREAM), 210.0);
}

#[test]
fn an_amount_that_is_locked_while_it_is_typed_keeps_what_was_typed() {
    let mut window = first_start();
    window.type_amount(CREAM, "240");
    window.press_with(CTRL, Key::L);
    assert!(window.line(CREAM).is_locked);
    assert_eq!(window.amount(CREAM), 240.0);
    window.press_with(CTRL, Key::Z);
    assert!(!window.line(CREAM).is_locked);
    assert_eq!(window.cell(CREAM), "240");
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.amount(CREAM), 200.0);
}

#[test]
fn pointing_at_a_line_and_at_a_figure_lights_up_what_belongs_to_it() {
    let mut window = first_start();
    let bar = window.get_by_label("batch, grams").rect();
    window.hover_at(pos2(bar.right() + 1.0, bar.bottom() + 200.0));
    window.run();
    window.get_by_label("Cream, 35 % fat, amount").hover();
    window.run();
    let cream = window.line(CREAM).id;
    assert_eq!(window.state().view().pointed, Some(nibwright::ui::view::Pointed::Line(cream)));
    window.remove_cursor();
    window.run();
    assert_eq!(window.state().view().pointed, None);
}

/// Glucose syrup is syrup: it brings "other solids", but nothing to the other particles.
#[test]
fn pointing_at_a_part_of_the_bar_lights_up_the_lines_that_bring_it() {
    let recipe =
        crate::support::recipe(&[("cream-35", 200.0), ("hazelnut-paste", 100.0), ("glucose-syrup-de40", 50.0)]);
    let analysis = crate::support::analysis_of(&recipe);
    let document = Document { recipe: recipe.clone() };
    let scene = Scene {
        document: &document,
        analysis: &analysis,
        finding_words: &[],
        pin: None,
        costs: nibwright::ui::view::Costs::default(),
    };
    let mut view = View::new(DecimalSign::Point);
    for (pointed, lit) in [
        (Pointed::Hue(Hue::OtherSolids), [true, true, true]),
        (Pointed::PhaseBar(5), [true, true, false]),
        (Pointed::PhaseBar(2), [true, true, true]),
        (Pointed::Volume(Phase::Particles), [false, true, false]),
        (Pointed::Volume(Phase::Water), [true, false, true]),
        (Pointed::Fat, [true, true, false]),
    ] {
        view.pointed = Some(pointed);
        let lines = [0, 1, 2].map(|place| view.is_line_lit(&scene, recipe.lines[place].id));
        assert_eq!(lines, lit, "{pointed:?}");
    }
}

#[test]
fn a_click_into_a_note_chooses_its_line() {
    let mut window = wide();
    window.click("Butter, unsalted, 82 % fat, note");
    assert_eq!(window.state().view().selected, Some(window.line(BUTTER).id));
    window.press_with(CTRL, Key::L);
    assert!(window.line(BUTTER).is_locked);
}
