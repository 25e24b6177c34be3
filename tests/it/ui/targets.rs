//! The reading Targets: what is asked, the answer of the worker, accepting it, keeping it, what contradicts itself.

use nibwright::analysis::parts::Group;
use nibwright::recipe::{Kind, Quantity, Use};
use nibwright::reformulate::{Bound, Measured, Move, Place, Rule, measured::Mass};
use nibwright::report::words::reformulation::{ReformulationWords, measured};
use nibwright::store::load_recipe;
use nibwright::ui::targets::Targets;
use nibwright::units::{Celsius, Grams};

use super::*;
use crate::support::{made_for, recipe};

/// So tall that every card is in sight: what is out of sight cannot be clicked.
const TALL: [f32; 2] = [1280.0, 3200.0];

/// A passion-fruit ganache for cutting that keeps a few days: the water of the purée is hardly bound. Invented.
pub(super) fn passion_fruit() -> Recipe {
    let mut ganache = recipe(&[
        ("passion-fruit-puree", 120.0),
        ("cream-35", 60.0),
        ("glucose-syrup-de60", 40.0),
        ("invert-syrup", 20.0),
        ("couverture-dark-64", 360.0),
        ("cocoa-butter", 15.0),
        ("butter-82", 45.0),
        ("salt", 1.0),
    ]);
    "Passion-fruit cut ganache".clone_into(&mut ganache.name);
    for line in
        ganache.lines.iter_mut().filter(|line| ["passion-fruit-puree", "salt"].contains(&line.ingredient.id.as_str()))
    {
        line.is_locked = true;
    }
    made_for(ganache, Kind::Ganache, Use::Cut)
}

fn tall(recipe: &Recipe) -> Window {
    Opening { size: TALL, ..Opening::of_recipe(recipe) }.open()
}

/// The window with its reading Targets open and answered.
pub(super) fn reformulating(recipe: &Recipe) -> Window {
    let mut window = tall(recipe);
    open_targets(&mut window);
    window
}

fn open_targets(window: &mut Window) {
    window.press_with(CTRL, Key::J);
    window.settle();
}

pub(super) fn targets(window: &Window) -> &Targets {
    window.state().view().targets.as_ref().expect("the reading is open")
}

/// Adds a target by the menu.
pub(super) fn add_target(window: &mut Window, group: &str, result: &str) {
    window.click("+ add a target");
    window.get_by_label_contains(group).click();
    window.run();
    window.get_all_by_label(result).last().expect("an entry").click();
    window.run();
    window.settle();
}

pub(super) fn type_bound(window: &mut Window, field: &str, text: &str) {
    window.type_into(field, text);
    window.press(Key::Enter);
    window.settle();
}

/// Allows an ingredient in, no more than so many grams of it.
fn allow(window: &mut Window, words: &str, most: &str) {
    window.type_into("Find an ingredient to allow", words);
    window.press(Key::Enter);
    window.settle();
    // How much of it is what is said next.
    assert!(window.focused().is_some_and(|name| name.ends_with(", at most, grams")), "{:?}", window.focused());
    window.type_text(most);
    window.press(Key::Enter);
    window.settle();
}

/// The ganache asked to have a water activity of at most 0.85 with up to 30 g of sorbitol and 40 g of dextrose.
fn keeping_longer() -> Window {
    let mut window = tall(&passion_fruit());
    ask_to_keep_longer(&mut window);
    window
}

/// The window that is to ask for it.
pub(super) fn keeping_longer_opening() -> Opening {
    Opening::of_recipe(&passion_fruit())
}

pub(super) fn ask_to_keep_longer(window: &mut Window) {
    open_targets(window);
    add_target(window, "Water and keeping", "Water activity");
    type_bound(window, "water activity, at most", "0.85");
    allow(window, "sorbitol powder", "30");
    allow(window, "dextrose monohydrate", "40");
}

fn water_activity_high(window: &mut Window) -> f64 {
    let analysis = window.state_mut().analysis();
    analysis.water.high().expect("it is known").0
}

#[test]
fn the_reading_is_there_only_while_it_is_used() {
    let mut window = tall(&passion_fruit());
    assert!(window.query_by_label("Targets").is_none());
    open_targets(&mut window);
    assert!(window.query_by_label("Targets").is_some());
    assert!(window.has_text("Everything that is asked for holds already"), "{:?}", window.texts());
    assert!(window.has_text("the amounts before and after come in above"));
    // It stands in front of the others and stays there while another one is read.
    window.show(Key::Num3);
    assert!(window.query_by_label("Targets").is_some());
    open_targets(&mut window);
    window.click("Done");
    assert!(window.query_by_label("Targets").is_none());
    assert!(window.state().view().targets.is_none() && window.state().is_saved());
    open_targets(&mut window);
    window.press_with(CTRL_SHIFT, Key::J);
    assert!(window.query_by_label("Targets").is_none());
}

#[test]
fn what_is_usual_and_holds_is_asked_for_and_seasoning_may_not_grow() {
    let mut spiced = passion_fruit();
    for line in &mut spiced.lines {
        line.is_locked = false;
    }
    let mut window = reformulating(&spiced);
    window.click("Usual for the use: 6 of 9 asked for, all met");
    let asked = &targets(&window).asked;
    let is_on = |of: Measured| asked.targets.iter().find(|row| row.target.of == of).map(|row| row.is_on);
    assert_eq!(is_on(Measured::Group(Group::CocoaButter)), Some(true));
    assert_eq!(is_on(Measured::Group(Group::Water)), Some(false), "23.9 % is outside now");
    assert!(window.has_text("not asked for · now 23.9 %, outside"));
    let salt = window.line("Salt").id;
    assert!(asked.limits.is_empty(), "the rule on seasoning is said once, for all of it");
    assert_eq!(asked.held_seasoning(window.recipe()), [salt], "of the seasoning alone");
    assert!(window.has_text("· salt"));
}

/// Salt binds water: let rise, it is the cheapest way to a low water activity. The rule goes with the sheet, a limit of its own
/// counts instead, and what is given up does not come back by another door.
#[test]
fn seasoning_is_held_until_it_is_let_rise() {
    let mut spiced = passion_fruit();
    for line in &mut spiced.lines {
        line.is_locked = line.ingredient.id != "salt";
    }
    let mut window = reformulating(&spiced);
    add_target(&mut window, "Water and keeping", "Water activity");
    type_bound(&mut window, "water activity, at most", "0.9");
    let salt = |window: &Window| {
        let worked = targets(window).worked.clone().expect("an answer");
        worked.answer().map(|answer| answer.moves[7].after.0)
    };
    // The others are locked: with a batch that may get heavier the salt alone can do it.
    window.click("stays at 661 g");
    window.click("may change its weight");
    window.settle();
    assert!(salt(&window).is_none_or(|grams| grams <= 1.0), "it is held: {:?}", salt(&window));
    window.click("give this up: salt at most 1 g");
    window.settle();
    assert!(salt(&window).is_some_and(|grams| grams > 1.0), "{:?}", salt(&window));
    assert!(window.has_text("· none is left"));
    assert_eq!(targets(&window).asked.held_seasoning(window.recipe()), []);
}

/// What is allowed besides and stands in a line already is said of that line.
#[test]
fn seasoning_that_is_allowed_is_the_line_of_the_recipe() {
    let mut spiced = passion_fruit();
    for line in &mut spiced.lines {
        line.is_locked = false;
    }
    let mut window = reformulating(&spiced);
    add_target(&mut window, "Water and keeping", "Water activity");
    type_bound(&mut window, "water activity, at most", "0.87");
    allow(&mut window, "salt", "3");
    window.settle();
    let worked = targets(&window).worked.clone().expect("an answer");
    let salt = window.line("Salt").id;
    assert!(worked.problem.allowed.is_empty() && worked.rows.held.is_empty());
    let limit = worked.problem.limits.iter().find(|limit| limit.place == Place::Line(salt)).expect("its limit");
    assert_eq!(limit.rule, Rule::AtMost(Grams(3.0)));
    assert!(targets(&window).asked.held_seasoning(window.recipe()).is_empty());
}

/// 19.99 % of liquid oil is shown as 20.0 %, and 20 to 35 % are usual: what the findings call usual is asked for.
#[test]
fn what_is_usual_as_it_is_shown_is_asked_for() {
    let grams = [("oil-hazelnut", 199.93), ("sucrose", 480.07), ("cocoa-butter", 150.0), ("cocoa-powder-10-12", 170.0)];
    let praline = Recipe { kind: Kind::Praline, ..recipe(&grams) };
    let window = reformulating(&praline);
    let oil = Measured::Group(Group::LiquidOil);
    let row = targets(&window).asked.targets.iter().find(|row| row.target.of == oil).copied().expect("it is usual");
    assert!(row.is_on && row.target.bound == Bound::Between(19.99, 35.0), "{row:?}");
    assert!(targets(&window).worked.as_ref().expect("an answer").document.is_none(), "nothing has to move");
}

/// "The passion-fruit one keeps five days, it must keep four weeks and still cut cleanly."
#[test]
fn the_passion_fruit_ganache_keeps_longer_and_still_cuts() {
    let mut window = keeping_longer();
    add_target(&mut window, "Fat and texture", "Solid fat at 20 °C");
    type_bound(&mut window, "solid fat at 20 °C, at least", "40");
    assert!(window.has_text("The nearest recipe that does it"), "{:?}", window.texts());
    // Why each line moves, and what comes in.
    assert!(window.has_text("for water activity at most 0.85"));
    assert!(window.has_text("comes in: up for water activity at most 0.85"));
    assert!(window.has_text("at its limit"));
    let (before, saved) = (water_activity_high(&mut window), window.recipe().clone());
    assert!(before > 0.9);
    window.click("Accept");
    window.settle();
    assert!(water_activity_high(&mut window) <= 0.85, "by the models, as it is weighed");
    for locked in ["passion-fruit-puree", "salt"] {
        let amount =
            |recipe: &Recipe| recipe.lines.iter().find(|line| line.ingredient.id == locked).map(|line| line.amount);
        assert_eq!(amount(window.recipe()), amount(&saved), "{locked}");
    }
    let by = (window.recipe().weighed().0 - saved.weighed().0).abs();
    assert!(by <= 1.0, "the batch stays within the step of the scale: {by}");
    assert!(window.ingredients().iter().any(|name| name.starts_with("Sorbitol")));
    let analysis = window.state_mut().analysis();
    let mass = Mass::new(window.recipe(), &analysis.make_up.bowl);
    let solid = mass.figure(Measured::SolidFat(Celsius(20.0))).expect("it is known");
    assert!(solid.value >= 40.0, "it still cuts");
    assert!(window.has_text("Everything that is asked for holds already"));
    // All of it is one step.
    window.press_with(CTRL, Key::Z);
    window.settle();
    assert_eq!(window.recipe(), &saved);
    assert!(window.state().is_saved());
}

#[test]
fn a_finding_becomes_a_target() {
    let mut window = tall(&passion_fruit());
    let finding = window.get_by_label_contains("make this a target: Water 23.9 %");
    finding.click();
    window.run();
    window.settle();
    let water = Measured::Group(Group::Water);
    let rows: Vec<_> = targets(&window).asked.targets.iter().filter(|row| row.target.of == water).collect();
    assert_eq!(rows.len(), 1, "in the place of the usual one");
    assert!(rows[0].is_on && window.has_text("for water between 16 % and 20 %"));
    assert_eq!(window.focused().as_deref(), Some("water, from"), "its bound can be typed at once");
    assert_eq!(measured(water, DecimalSign::Point), "water");
}

#[test]
fn the_proposal_is_shown_in_the_plots_and_the_sheet_stays() {
    let mut window = keeping_longer();
    window.click("Show in the plots");
    window.settle();
    window.show(Key::Num3);
    assert!(window.has_text("dashed: the recipe as it is"));
    assert!(
        window.figure("water activity, 20 °C").contains("pinned 0.88"),
        "{}",
        window.figure("water activity, 20 °C")
    );
    assert_eq!(window.amount("Cream, 35 % fat"), 60.0);
    assert_eq!(window.cell(BUTTER), "45");
    assert!(window.state().is_saved());
    window.click("show the recipe");
    assert!(window.figure("water activity, 20 °C").starts_with("0.88"), "{}", window.figure("water activity, 20 °C"));
}

/// What is typed in a reading while it shows the proposal belongs to no recipe yet.
#[test]
fn what_the_plots_show_is_not_edited() {
    let mut window = keeping_longer();
    window.click("Show in the plots");
    window.show(Key::Num4);
    window.type_into("own amount of seed", "8");
    window.press(Key::Enter);
    assert_eq!(window.recipe().seeding.amount, None::<Quantity>);
    assert!(window.has_text("accept it first"));
}

#[test]
fn the_proposal_is_kept_as_a_copy_and_the_open_recipe_stays() {
    let mut window = keeping_longer();
    window.type_amount(BUTTER, "44");
    window.press(Key::Enter);
    window.settle();
    assert!(!window.state().is_saved());
    let before = window.recipe().clone();
    window.click("Keep as a copy…");
    let path = window.folder.path().join("kept.ron");
    window.give_path(&path);
    let kept = load_recipe(&path, nibwright::ingredient::Library::built_in()).expect("it was written");
    assert_eq!(kept.name, "Passion-fruit cut ganache, reformulated");
    assert!(kept.lines.iter().any(|line| line.ingredient.id == "sorbitol-powder"));
    assert_eq!(window.recipe(), &before);
    assert!(!window.state().is_saved(), "unsaved work is still there, and still unsaved");
    assert!(window.state().title().contains("Passion-fruit cut ganache –"));
}

#[test]
fn what_contradicts_itself_is_told_and_given_up() {
    let mut window = reformulating(&passion_fruit());
    add_target(&mut window, "Water and keeping", "Water activity");
    type_bound(&mut window, "water activity, at most", "0.6");
    assert!(window.has_text("It cannot be done as asked"), "{:?}", window.texts());
    assert!(window.has_text("come nearest") && window.has_text("misses"));
    window.get_by_label_contains("give this up: water activity at most 0.6").click();
    window.run();
    window.settle();
    assert!(window.has_text("Everything that is asked for holds already"));
    assert!(window.recipe() == &passion_fruit_as_saved(&window), "nothing was changed");
}

/// Everything that can be clicked or typed into, by its role, its name and its place.
fn clickable(window: &Window) -> Vec<(egui::accesskit::Role, String, egui::Rect)> {
    use egui::accesskit::Role;
    let roles = [Role::Button, Role::CheckBox, Role::TextInput, Role::MenuItem, Role::Tab];
    let of = |node: egui_kittest::Node<'_>| {
        let role = node.accesskit_node().role();
        roles.contains(&role).then(|| (role, node.accesskit_node().label().unwrap_or_default(), node.rect()))
    };
    window.root().children_recursive().filter_map(of).collect()
}

/// What is there before and after at another place.
fn moved(window: &Window, before: &[(egui::accesskit::Role, String, egui::Rect)]) -> Vec<String> {
    let after = clickable(window);
    let is_at_another_place = |one: &&(egui::accesskit::Role, String, egui::Rect)| {
        let same: Vec<_> = after.iter().filter(|other| (other.0, &other.1) == (one.0, &one.1)).collect();
        !same.is_empty() && same.iter().all(|other| (other.2.min - one.2.min).length() > 0.5)
    };
    before
        .iter()
        .filter(is_at_another_place)
        .map(|one| {
            let now = after.iter().find(|other| (other.0, &other.1) == (one.0, &one.1));
            format!("{} from {:?} to {:?}", one.1, one.2, now.map(|now| now.2))
        })
        .collect()
}

/// Nothing jumps away under the hand because an answer comes, whatever it says.
#[test]
fn nothing_that_can_be_clicked_moves_while_an_answer_comes() {
    let mut window = Opening::of_recipe(&passion_fruit()).open();
    open_targets(&mut window);
    add_target(&mut window, "Single components", "Fructose");
    let title = |window: &Window| window.texts().iter().filter(|text| text.contains("cannot be done")).count();
    // The purée alone, which is locked, brings some fructose.
    for (bound, is_impossible) in [("1.5", false), ("0.05", true), ("1.6", false), ("9", false)] {
        window.type_into("fructose, at most", bound);
        window.press(Key::Enter);
        // The frame in which it is asked, with the answer before.
        let before = clickable(&window);
        window.settle();
        assert_eq!(title(&window) > 0, is_impossible, "{bound}");
        assert_eq!(moved(&window, &before), Vec::<String>::new(), "at most {bound}");
    }
}

#[test]
fn ends_the_wrong_way_round_and_absurd_figures_are_refused_with_a_sentence() {
    let mut window = reformulating(&passion_fruit());
    window.click("Usual for the use: 6 of 9 asked for, all met");
    let bound = |window: &Window| {
        let water = Measured::Group(Group::Water);
        targets(window).asked.targets.iter().find(|row| row.target.of == water).map(|row| row.target.bound)
    };
    let before = bound(&window);
    let is_refused = |window: &mut Window, field: &str, text: &str, words: &str| {
        window.type_into(field, text);
        window.press(Key::Enter);
        window.run();
        let node = window.get_by_label(field);
        assert!(node.accesskit_node().data().invalid().is_some(), "{field}: {text}");
        let said = node.accesskit_node().data().description().unwrap_or_default().to_owned();
        assert!(said.contains(words) && window.has_text(&said), "{field}: {said}");
        window.press(Key::Escape);
    };
    is_refused(&mut window, "water, from", "30", "the lower end stands above the upper one");
    is_refused(&mut window, "water, to", "3", "the lower end stands above the upper one");
    is_refused(&mut window, "water, to", "180", "water lies between 0 and 100 %");
    assert_eq!(bound(&window), before, "neither end has changed");
    add_target(&mut window, "Water and keeping", "Water activity");
    is_refused(&mut window, "water activity, at most", "85", "a water activity lies between 0 and 1: 0.85?");
    window.type_into("Find an ingredient to allow", "sorbitol powder");
    window.press(Key::Enter);
    window.settle();
    let most = window.focused().expect("the field of the most");
    is_refused(&mut window, &most, "1e9", "more than a tonne");
    is_refused(&mut window, &most, "0", "or leave it empty");
    assert!(targets(&window).asked.allowed[0].allowed.most.is_none());
}

/// What falls to nothing does not stay in the sheet; one step back brings it again.
#[test]
fn a_line_that_falls_to_nothing_is_left_out() {
    let mut sweet = passion_fruit();
    for line in &mut sweet.lines {
        line.is_locked = false;
    }
    let mut window = reformulating(&sweet);
    add_target(&mut window, "What it is made of", "Cocoa butter");
    add_target(&mut window, "Single components", "Fructose");
    type_bound(&mut window, "fructose, at most", "0.3");
    let worked = targets(&window).worked.clone().expect("an answer");
    let answer = worked.answer().expect("another recipe");
    let gone: Vec<_> = answer.moves.iter().filter(|moved| moved.before.0 > 0.0 && moved.after.0 <= 0.0).collect();
    assert!(!gone.is_empty() && window.has_text("is left out: down for fructose"));
    // The verdict says what moves most, in the same words.
    let most = answer.moves.iter().max_by(|left, right| {
        let by = |moved: &Move| (moved.after.0 - moved.before.0).abs();
        by(left).total_cmp(&by(right))
    });
    let told = ReformulationWords::new(&worked.problem, DecimalSign::Point).moved(most.expect("several"));
    let told = format!("amounts change, most of all: {told}.");
    assert!(
        window.texts().iter().any(|text| text.replace('\u{a0}', " ").contains(&told)),
        "{told}: {:#?}",
        window.texts()
    );
    let told = ReformulationWords::new(&worked.problem, DecimalSign::Point).moved(gone[0]);
    assert!(told.ends_with(" is left out"), "{told}");
    let before = window.recipe().clone();
    window.get_by_label_contains("Accept").click();
    window.run();
    window.settle();
    assert_eq!(window.recipe().lines.len(), before.lines.len() - gone.len());
    assert!(window.recipe().lines.iter().all(|line| line.amount.grams().0 > 0.0));
    window.press_with(CTRL, Key::Z);
    window.settle();
    assert_eq!(window.recipe(), &before);
}

/// The words that say so, with their Undo, stand beside the buttons of the verdict and not on them.
#[test]
fn what_was_accepted_is_said_beside_the_verdict() {
    let mut window = Opening::of_recipe(&passion_fruit()).open();
    open_targets(&mut window);
    add_target(&mut window, "Single components", "Fructose");
    type_bound(&mut window, "fructose, at most", "1.5");
    window.click("Accept");
    let (undo, verdict) = (window.get_by_label("Undo").rect(), window.get_by_label("Show in the plots").rect());
    assert!(undo.right() < verdict.left(), "{undo:?} beside {verdict:?}");
}

/// What misses is not what one is led to: it has the look of any other button.
#[test]
fn the_nearest_of_what_misses_is_no_main_button() {
    let mut window = reformulating(&passion_fruit());
    add_target(&mut window, "Water and keeping", "Water activity");
    type_bound(&mut window, "water activity, at most", "0.6");
    assert!(window.query_by_label("Accept the nearest").is_some() && window.query_by_label("Accept").is_none());
}

#[test]
fn the_habit_above_the_limit_becomes_a_target() {
    let mut praline = recipe(&[("hazelnut-paste", 600.0), ("couverture-milk-36", 300.0), ("cocoa-butter", 50.0)]);
    "Hazelnut praline".clone_into(&mut praline.name);
    let mut window = tall(&made_for(praline, Kind::Praline, Use::Moulded));
    window.get_by_label_contains("make this a target: The habit of seeding").click();
    window.run();
    window.settle();
    let asked = &targets(&window).asked.targets;
    let row = asked.iter().find(|row| row.target.of == Measured::FormVLimit).expect("a row");
    assert_eq!(row.target.bound, nibwright::reformulate::Bound::AtLeast(29.0));
    assert_eq!(window.focused().as_deref(), Some("form V limit, at least"));
}

#[test]
fn solid_fat_is_asked_for_at_any_temperature() {
    let mut window = reformulating(&passion_fruit());
    window.click("+ add a target");
    for words in ["Fat and texture", "Solid fat at another temperature", "at 25 °C"] {
        window.get_all_by_label_contains(words).last().expect("an entry").click();
        window.run();
    }
    window.settle();
    let asked = &targets(&window).asked.targets;
    assert!(asked.iter().any(|row| row.target.of == Measured::SolidFat(Celsius(25.0))));
    assert_eq!(window.focused().as_deref(), Some("solid fat at 25 °C, at least"));
}

#[test]
fn crystals_are_asked_for_where_a_finding_misses_them_and_at_any_temperature() {
    let soft = recipe(&[("couverture-dark-64", 400.0), ("cream-35", 400.0), ("glucose-syrup-de40", 60.0)]);
    let mut window = tall(&made_for(soft, Kind::Ganache, Use::Cut));
    window.get_by_label_contains("make this a target: Fat crystals 13.1 %").click();
    window.run();
    window.settle();
    let of = |window: &Window| targets(window).asked.targets.iter().map(|row| row.target).collect::<Vec<_>>();
    let bound = nibwright::reformulate::Bound::AtLeast(15.0);
    assert!(of(&window).iter().any(|it| it.of == Measured::Crystals(Celsius(20.0)) && it.bound == bound));
    window.click("+ add a target");
    for words in ["Fat and texture", "Fat crystals at another temperature", "at 25 °C"] {
        window.get_all_by_label_contains(words).last().expect("an entry").click();
        window.run();
    }
    window.settle();
    assert!(of(&window).iter().any(|it| it.of == Measured::Crystals(Celsius(25.0))));
    assert_eq!(window.focused().as_deref(), Some("share of fat crystals at 25 °C, at least"));
}

fn passion_fruit_as_saved(window: &Window) -> Recipe {
    load_recipe(&window.folder.path().join("recipe.ron"), nibwright::ingredient::Library::built_in())
        .expect("it is there")
}

#[test]
fn the_answer_follows_the_sheet() {
    let mut window = keeping_longer();
    let of = |window: &Window| targets(window).worked.as_ref().expect("an answer").problem.recipe.weighed().0;
    assert!((of(&window) - 661.0).abs() < 1e-9);
    window.type_amount(BUTTER, "55");
    window.press(Key::Enter);
    window.settle();
    assert!((of(&window) - 671.0).abs() < 1e-9);
    window.press_with(CTRL, Key::Z);
    window.settle();
    assert!((of(&window) - 661.0).abs() < 1e-9 && targets(&window).is_current);
}

#[test]
fn the_likely_value_decides_where_the_switch_is_off() {
    let mut window = keeping_longer();
    let after = |window: &Window| {
        let targets = targets(window);
        let row = targets.asked.targets.iter().find(|row| row.target.of == Measured::WaterActivity).expect("a row");
        targets.worked.as_ref().and_then(|worked| worked.reached(row.number).copied()).expect("a figure").after
    };
    assert!(after(&window).high() <= 0.85 + 1e-9);
    window.click("band of water activity: the upper end decides");
    window.settle();
    assert!(after(&window).high() > 0.85 && after(&window).value <= 0.85 + 1e-9);
}

#[test]
fn limits_are_set_changed_and_removed() {
    let mut window = keeping_longer();
    window.click("+ limit a line");
    window.click("Cream");
    window.settle();
    window.get_by_label_contains("kind of limit, Cream").click();
    window.run();
    window.click("stays as it is");
    window.settle();
    let cream = |window: &Window| {
        let worked = targets(window).worked.clone().expect("an answer");
        worked.answer().expect("another recipe").moves[1].after.0
    };
    assert!((cream(&window) - 60.0).abs() < 1e-9, "{}", cream(&window));
    window.get_by_label_contains("remove limit: Cream").click();
    window.run();
    window.settle();
    assert!(cream(&window) < 60.0);
}

#[test]
fn it_is_worked_with_keys_alone() {
    let mut window = reformulating(&passion_fruit());
    assert_eq!(window.focused().as_deref(), Some("Targets"));
    let mut reached = Vec::new();
    for _ in 0..14 {
        window.press(Key::Tab);
        reached.extend(window.focused());
    }
    for stop in ["Done", "+ add a target", "Usual for the use: 6 of 9 asked for, all met"] {
        assert!(reached.iter().any(|name| name == stop), "{stop} in {reached:?}");
    }
}
