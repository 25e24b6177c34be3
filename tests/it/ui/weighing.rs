//! What to weigh today: the list follows what is typed, goes out as text, and the sheet can be scaled to it.

use std::fs;
use std::time::Instant;

use egui::accesskit::Role;
use egui::{Key, OutputCommand};
use nibwright::ingredient::Library;
use nibwright::recipe::{Kind, Quantity, TransferLoss};

use super::*;

/// A praline of 1 kg: 600 g of hazelnuts, 350 g of couverture, 50 g of milk powder; 2 % stay behind.
fn praline() -> Recipe {
    let mut recipe = Recipe { name: "Hazelnut praline".to_owned(), kind: Kind::Praline, ..Recipe::default() };
    for (id, grams) in [("hazelnut-paste", 600.0), ("couverture-dark-64", 350.0), ("milk-powder-whole", 50.0)] {
        let ingredient = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id} is built in")).clone();
        recipe.push(ingredient, Quantity::from_grams(grams).expect("an amount"));
    }
    recipe.losses.transfer = TransferLoss::from_percent(2.0).expect("a loss");
    recipe
}

/// The form, with fields typed into it.
fn weigh(window: &mut Window, fields: &[(&str, &str)]) {
    window.press_with(CTRL, Key::D);
    assert!(window.has_text("What to weigh today"));
    type_fields(window, fields);
}

fn type_fields(window: &mut Window, fields: &[(&str, &str)]) {
    for (field, text) in fields {
        window.type_into(field, text);
    }
}

/// The list as it is copied.
fn copied(window: &mut Window) -> String {
    let enter = Event::Key { key: Key::Enter, physical_key: None, pressed: true, repeat: false, modifiers: CTRL };
    window.event(enter);
    window.step();
    let copied = window.output().platform_output.commands.iter().find_map(|command| match command {
        OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    });
    let copied = copied.expect("a text on the clipboard");
    window.run();
    copied
}

/// Chooses from the menu that has this name, by its arrow keys.
fn choose(window: &mut Window, menu: &str, choice: &str) {
    for _ in 0..8 {
        let node = window.get_by(|node| node.role() == Role::ComboBox && node.label().as_deref() == Some(menu));
        if node.value().as_deref() == Some(choice) {
            return;
        }
        node.focus();
        window.run();
        window.press(Key::ArrowDown);
    }
    panic!("there is no {choice} in {menu}");
}

/// The story: 1,400 pieces, a bowl of 8 kg, a scale of 5 g.
///
/// By hand: 1400 · 8.3 g = 11620 g; with 2 % behind them 11857.14 g are weighed in, in steps of 5 g 11855; two bowls of 5930 and 5925 g.
#[test]
fn a_praline_for_1400_pieces_is_told_for_a_bowl_and_a_scale() {
    let mut window = with_recipe(&praline());
    weigh(&mut window, &[]);
    assert_eq!(window.focused().as_deref(), Some("how much finished mass"), "the keyboard is in the first field");
    choose(&mut window, "asked for", "pieces");
    type_fields(&mut window, &[("number of pieces", "1400")]);
    assert!(window.has_text("type what a piece weighs, such as 8.3 g"), "{:#?}", window.texts());
    type_fields(
        &mut window,
        &[("what a piece weighs", "8,3"), ("what a bowl holds", "8 kg"), ("step of the scale", "5 g")],
    );
    assert!(window.has_text("Weigh for 2 bowls"), "{:#?}", window.texts());
    assert!(window.has_text("together: 5930 g, 11\u{202f}860 g"), "{:#?}", window.texts());
    assert!(window.has_text("weighed in: 11\u{202f}860 g; 11\u{202f}857 g were asked for"));
    assert!(window.has_text("Dark couverture, 64 % cocoa: 2075 g, 4150 g"));
    assert!(window.has_text("pieces: 1400 of 8.3 g"));
    // By how much the steps of 5 g move the mass, as the text says it.
    let told = copied(&mut window);
    let told = told.lines().find_map(|line| line.trim().strip_prefix("rounding moves")).expect("it is told").trim();
    weigh(&mut window, &[]);
    assert!(window.has_text(&format!("rounding moves: {told}")), "{told}: {:#?}", window.texts());
    // In the same frame as it is typed.
    window.get_by_label("number of pieces").focus();
    window.run();
    window.press_with(CTRL, Key::A);
    window.type_letter('7');
    assert!(window.has_text("pieces: 7 of 8.3 g"), "{:#?}", window.texts());
    assert!(window.state().is_saved(), "nothing has changed in the sheet");
}

/// By hand: 1 kg at 10 EUR of which 980 g are left is 10.20 EUR for 1 kg; a piece of 8 g with a quarter of shell has 6 g of
/// that, 0.0612, and 2 g of couverture at 10 EUR, 0.020.
#[test]
fn a_piece_costs_its_filling_and_its_shell() {
    let opening = Opening::of_recipe(&praline());
    fs::create_dir(opening.folder.path().join("data")).expect("a folder");
    let ids = ["hazelnut-paste", "couverture-dark-64", "milk-powder-whole", "couverture-milk-36"];
    let rows = ids.map(|id| format!("{id},10,EUR\n")).concat();
    let list = opening.folder.path().join("data/prices.csv");
    fs::write(list, format!("ingredient,price,currency\n{rows}")).expect("a list");
    let mut window = opening.open();
    weigh(&mut window, &[]);
    choose(&mut window, "made of it", "pieces or deposits by weight");
    type_fields(&mut window, &[("what a piece weighs", "8 g")]);
    assert!(window.has_text("10.20 EUR") && window.has_text("0.082 EUR"), "{:#?}", window.texts());
    type_fields(&mut window, &[("shell or coat, %", "25")]);
    assert!(window.has_text("0.081 EUR: 0.061 of filling, 0.020 of shell or coat"), "{:#?}", window.texts());
    choose(&mut window, "shell of", "not counted in the cost");
    assert!(window.has_text("at least 0.061 EUR; its shell has no price that counts"), "{:#?}", window.texts());
    // The text has the same.
    let copied = copied(&mut window);
    assert!(copied.contains("10.20 EUR"), "{copied}");
}

/// Two recipes of the shelf, asked for in the same way: a list of each, and the seed for both.
#[test]
fn another_recipe_of_the_shelf_is_made_on_the_same_day() {
    let mut window = first_start();
    window.settle();
    weigh(&mut window, &[("how much finished mass", "2 kg")]);
    assert!(!window.has_text("Seed of the day"));
    let name = "Gianduja for cutting";
    window.click("+ a recipe of the shelf");
    window.get_all_by_label(name).last().expect("an entry").click();
    window.run();
    assert!(window.has_text("Seed of the day"), "{:#?}", window.texts());
    let text = copied(&mut window);
    for part in ["Dark cut ganache\n", "Gianduja for cutting\n", "Seed of the day"] {
        assert!(text.contains(part), "{part}: {text}");
    }
    assert_eq!(text.matches("2000 g").count().min(2), 2, "each of them: {text}");
    // Or with its own mass.
    type_fields(&mut window, &[("finished mass of Gianduja for cutting", "much")]);
    assert!(window.has_text("finished mass of Gianduja for cutting: "), "{:#?}", window.texts());
    type_fields(&mut window, &[("finished mass of Gianduja for cutting", "3 kg")]);
    let text = copied(&mut window);
    assert!(text.contains("3000 g") && text.contains("2000 g"), "{text}");
    window.get_by_label_contains("remove from today").click();
    window.run();
    assert!(!window.has_text("Seed of the day"));
}

/// Gives an ingredient a scale of its own, by the menu; then its field has the keyboard.
fn give_own_scale(window: &mut Window, ingredient: &str) {
    window.click("+ an ingredient");
    window.get_all_by_label(ingredient).last().expect("an entry").click();
    window.remove_cursor();
    window.run();
}

fn has_row(window: &Window, ingredient: &str, weight: &str) -> bool {
    window.texts().iter().any(|text| text.starts_with(ingredient) && text.ends_with(&format!(": {weight}")))
}

/// By hand: 987 g behind 2 % are 1007.143 g weighed in, of which 5 % are 50.357 g: 50 g in steps of 1 g, 50.4 g in steps of 0.1.
#[test]
fn an_ingredient_has_a_scale_of_its_own_in_the_list_and_in_the_text() {
    const MILK_POWDER: &str = "Whole milk powder, 26 % fat";
    let mut window = with_recipe(&praline());
    weigh(&mut window, &[("how much finished mass", "987 g")]);
    assert!(has_row(&window, MILK_POWDER, "50 g"), "{:#?}", window.texts());
    give_own_scale(&mut window, MILK_POWDER);
    let field = format!("step of the scale for {MILK_POWDER}");
    assert_eq!(window.focused().as_deref(), Some(field.as_str()), "its step can be typed at once");
    window.type_text("0.1 g");
    assert!(has_row(&window, MILK_POWDER, "50.4 g"), "{:#?}", window.texts());
    type_fields(&mut window, &[(&field, "0.05 g")]);
    assert!(has_row(&window, MILK_POWDER, "50.35 g"), "{:#?}", window.texts());
    // It has one: the menu offers the others.
    let offers = |window: &Window| {
        [MILK_POWDER, "Hazelnut paste, 100 %"]
            .map(|name| window.query_all_by_role_and_label(Role::Button, name).count())
    };
    let [powder, paste] = offers(&window);
    window.click("+ an ingredient");
    assert_eq!(offers(&window), [powder, paste + 1]);
    window.press(Key::Escape);

    let text = copied(&mut window);
    let file = window.folder.path().join("recipe.ron");
    let command = std::process::Command::new(env!("CARGO_BIN_EXE_nibwright"))
        .args(["scale", &file.display().to_string(), "--mass", "987 g", "--step-of", "milk-powder-whole=0.05 g"])
        .output()
        .expect("it runs");
    assert_eq!(String::from_utf8_lossy(&command.stdout).trim_end(), text.trim_end());

    for (wrong, reason) in
        [("fine", "there is no number"), ("0", "give a weight above 0"), ("9 kg", "would be left out")]
    {
        type_fields(&mut window, &[(&field, wrong)]);
        let node = window.get_by_label(&field);
        assert!(node.accesskit_node().data().invalid().is_some(), "{wrong} is marked");
        let said = node.accesskit_node().data().description().unwrap_or_default().to_owned();
        assert!(said.contains(reason) && window.has_text(&format!("{field}: {said}")), "{wrong}: {said}");
    }
    type_fields(&mut window, &[(&field, "")]);
    assert!(has_row(&window, MILK_POWDER, "50 g"), "nothing typed is no step: {:#?}", window.texts());
    type_fields(&mut window, &[(&field, "0.1 g")]);
    window.click(&format!("weigh on the usual scale: {MILK_POWDER}"));
    assert!(has_row(&window, MILK_POWDER, "50 g") && window.query_by_label(&field).is_none());
}

/// It is of the bench: it holds for all recipes of the day, and waits while none of them has the ingredient.
#[test]
fn a_scale_of_its_own_holds_for_every_recipe_that_has_the_ingredient() {
    const COUVERTURE: &str = "Dark couverture, 64 % cocoa";
    let opening = Opening::of_recipe(&praline());
    let mut dry = Recipe { name: "Sugared hazelnuts".to_owned(), kind: Kind::Praline, ..Recipe::default() };
    for (id, grams) in [("hazelnut-paste", 601.3), ("sucrose", 399.2)] {
        let ingredient = Library::built_in().by_id(id).expect("built in").clone();
        dry.push(ingredient, Quantity::from_grams(grams).expect("an amount"));
    }
    save_recipe(&opening.folder.path().join("dry.ron"), &dry).expect("it can be written");
    let mut window = opening.open();
    weigh(&mut window, &[("how much finished mass", "987 g")]);
    for ingredient in [COUVERTURE, "Hazelnut paste, 100 %"] {
        give_own_scale(&mut window, ingredient);
        window.type_text("0.1 g");
    }
    // By hand: 60 % of 1007.143 g are 604.286 g.
    assert!(has_row(&window, "Hazelnut paste", "604.3 g"), "{:#?}", window.texts());
    window.click("+ a recipe of the shelf");
    window.get_all_by_label("Sugared hazelnuts").last().expect("an entry").click();
    window.run();
    // By hand: 601.3 of 1000.5 parts of 987 g are 593.19 g.
    assert!(has_row(&window, "Hazelnut paste", "593.2 g"), "{:#?}", window.texts());
    let field = format!("step of the scale for {COUVERTURE}");
    type_fields(&mut window, &[(&field, "much")]);
    assert!(window.has_text("No list yet"));
    window.press(Key::Escape);

    window.click("Sugared hazelnuts");
    window.settle();
    weigh(&mut window, &[]);
    assert!(window.query_by_label(&field).is_none(), "no recipe of the day has it");
    assert!(has_row(&window, "Hazelnut paste", "601.3 g") && !window.has_text("No list yet"), "{:#?}", window.texts());
    window.press(Key::Escape);
    window.click("Hazelnut praline");
    window.settle();
    weigh(&mut window, &[]);
    assert_eq!(window.get_by_label(&field).value().as_deref(), Some("much"), "it has waited");
}

/// As everywhere: what a figure is can be asked with the keyboard.
#[test]
fn a_field_explains_itself_by_keys() {
    let mut window = with_recipe(&praline());
    weigh(&mut window, &[]);
    assert!(!window.has_text("Room for stirring") && !window.has_text("rounded up; they are as even"));
    window.get_by_label("what a bowl holds").focus();
    window.run();
    window.press_with(egui::Modifiers::SHIFT, Key::F1);
    window.run_steps(WAIT);
    assert!(window.has_text("rounded up; they are as even as the scale allows"), "{:?}", window.texts());
    assert!(window.has_text("What to weigh today"), "the form stays");
    give_own_scale(&mut window, "Dark couverture, 64 % cocoa");
    window.press_with(egui::Modifiers::SHIFT, Key::F1);
    window.run_steps(WAIT);
    assert!(window.has_text("in every recipe of the day that takes it"), "{:?}", window.texts());
}

#[test]
fn nonsense_is_refused_in_its_field_with_a_sentence() {
    let mut window = with_recipe(&praline());
    weigh(&mut window, &[]);
    for (field, wrong, right, words) in [
        ("how much finished mass", "much", "2.5 kg", "much"),
        ("how much finished mass", "0", "2.5 kg", "give a weight above 0"),
        ("further losses, %", "100", "", "0 or more and below 100"),
        ("further losses, %", "4; x", "", "does not belong in a number"),
        ("what a bowl holds", "-1", "", "give"),
        ("what a bowl holds", "0.4 g", "", "has no room for one step of the scale"),
        ("step of the scale", "0", "1 g", "give a weight above 0"),
        ("step of the scale", "9 kg", "1 g", "less than one step of the scale"),
        ("step of a finer scale", "2 g", "", "it is not finer than the other scale"),
        ("seed that is ready", "lots", "", "lots"),
    ] {
        let place = |window: &Window| window.get_by_label("seed that is ready").rect();
        let before = place(&window);
        type_fields(&mut window, &[(field, wrong)]);
        assert_eq!(place(&window), before, "nothing moves when {field} is wrong");
        let node = window.get_by_label(field);
        assert!(node.accesskit_node().data().invalid().is_some(), "{field} with {wrong} is marked");
        let said = node.accesskit_node().data().description().unwrap_or_default().to_owned();
        assert!(window.has_text(&said) && !said.is_empty(), "{said}");
        assert!(said.contains(words) || words == wrong, "{field}: {said}");
        assert!(window.has_text("No list yet"));
        window.press_with(CTRL, Key::Enter);
        assert!(window.has_text("What to weigh today"), "there is nothing to copy");
        type_fields(&mut window, &[(field, right)]);
        assert!(!window.has_text("No list yet"), "{field}: {:#?}", window.texts());
    }
    choose(&mut window, "made of it", "a slab in a frame");
    assert!(window.has_text("type how long the frame is inside"));
    let sides =
        [("length of the frame, mm", "340"), ("width of the frame, mm", "340"), ("height of the frame, mm", "10")];
    type_fields(&mut window, &sides);
    type_fields(&mut window, &[("a piece along the length, mm", "400")]);
    assert!(window.has_text("gives no whole piece"), "{:#?}", window.texts());
    type_fields(&mut window, &[("a piece along the length, mm", "22.5"), ("trimmed on every side, mm", "5")]);
    assert!(window.has_text("cut: 14 × 14 from a frame, 14.2 % is cut off"), "{:#?}", window.texts());
    choose(&mut window, "asked for", "full frames");
    type_fields(&mut window, &[("number of frames", "1.5")]);
    assert!(window.has_text("give a whole number above 0"));
    type_fields(&mut window, &[("number of frames", "2"), ("shell or coat, %", "10")]);
    assert!(window.has_text("full frames: 2 of") && window.has_text("pieces: 392 of"), "{:#?}", window.texts());
    assert!(window.has_text("this one must not"), "a thin coat must not carry the names");
}

#[test]
fn a_mould_needs_a_cavity_and_an_ingredient_at_hand_decides() {
    let mut window = first_start();
    weigh(&mut window, &[]);
    choose(&mut window, "made of it", "pieces in a mould");
    assert!(window.has_text("type what a cavity holds, such as 10 ml"));
    type_fields(&mut window, &[("what a cavity holds, ml", "10.2"), ("shell or coat, %", "35")]);
    assert!(window.has_text("of shell") && window.has_text("is computed for melted fat"), "{:#?}", window.texts());
    choose(&mut window, "asked for", "what an ingredient gives");
    choose(&mut window, "of", CREAM);
    type_fields(&mut window, &[("what there is of it", "1300 g")]);
    assert!(window.has_text("times the recipe: 6.5"), "{:#?}", window.texts());
    assert!(
        window.texts().iter().any(|text| text.starts_with(CREAM) && text.ends_with(": 1300 g")),
        "{:#?}",
        window.texts()
    );
}

/// The text is that of the command line; the form stays, and what was typed comes back with it.
#[test]
fn the_list_is_copied_and_saved_as_the_text_of_the_command_line() {
    let mut window = with_recipe(&praline());
    weigh(
        &mut window,
        &[("how much finished mass", "2 kg"), ("what a bowl holds", "1 kg"), ("further losses, %", "4")],
    );
    let copied = copied(&mut window);
    assert!(window.has_text("Weighing list copied"));
    assert!(copied.starts_with("Hazelnut praline\n") && copied.contains("In all 3 bowls together"), "{copied}");
    let file = window.folder.path().join("recipe.ron");
    let command = std::process::Command::new(env!("CARGO_BIN_EXE_nibwright"))
        .args(["scale", &file.display().to_string(), "--mass", "2 kg", "--bowl", "1 kg", "--loss", "4"])
        .output()
        .expect("it runs");
    assert_eq!(String::from_utf8_lossy(&command.stdout).trim_end(), copied.trim_end());

    window.click("Save as text…");
    assert!(window.has_text("Save the weighing list"));
    let path = window.folder.path().join("friday");
    window.give_path(&path);
    let file = path.with_extension("txt");
    assert_eq!(fs::read_to_string(&file).expect("it is there"), copied);
    assert!(window.has_text("What to weigh today"), "the form is there again");
    window.click("Save as text…");
    window.give_path(&file);
    assert!(window.has_text("would be replaced by this list"));
    window.click("Cancel");
    assert!(window.has_text("What to weigh today"));
    window.press(Key::Escape);
    assert!(!window.has_text("What to weigh today"));
    window.press_with(CTRL, Key::D);
    assert_eq!(window.get_by_label("what a bowl holds").value().as_deref(), Some("1 kg"), "what was typed comes back");
}

#[test]
fn scaling_the_sheet_is_one_step_and_undo_brings_all_of_it_back() {
    let mut window = with_recipe(&praline());
    let before = window.recipe().clone();
    weigh(&mut window, &[("how much finished mass", "1960 g")]);
    window.click("Scale the sheet");
    assert!(!window.has_text("What to weigh today"), "it is done");
    assert!((window.recipe().weighed().0 - 2000.0).abs() < 1e-9, "2 % of 2000 g stay behind");
    assert!(window.has_text("Sheet scaled") && !window.state().is_saved());
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe(), &before);
    assert!(window.state().is_saved());
}

#[test]
fn a_sheet_that_has_the_weight_already_is_not_said_to_be_scaled() {
    let mut window = with_recipe(&praline());
    let before = window.recipe().clone();
    weigh(&mut window, &[]);
    window.click("Scale the sheet");
    assert!(window.has_text("The sheet has this weight already"), "{:#?}", window.texts());
    assert!(!window.has_text("Sheet scaled") && window.state().is_saved());
    assert_eq!(window.recipe(), &before);
}

/// A menu that is open has the keys: Enter in it must not copy the list behind it.
#[test]
fn enter_in_an_open_menu_does_not_reach_the_dialog() {
    let mut window = first_start();
    window.settle();
    weigh(&mut window, &[("how much finished mass", "2 kg")]);
    window.click("+ a recipe of the shelf");
    window.type_letter('g');
    for modifiers in [egui::Modifiers::NONE, CTRL] {
        window.press_with(modifiers, Key::Enter);
        assert!(!window.has_text("Weighing list copied"), "{modifiers:?}");
        assert!(window.has_text("What to weigh today"));
    }
    window.press(Key::Escape);
    assert!(window.has_text("What to weigh today"), "the first Esc closes the menu alone");
    copied(&mut window);
}

#[test]
fn the_fields_start_from_what_the_recipe_says_and_enter_goes_on() {
    let mut recipe = praline();
    recipe.pieces = Some(120);
    recipe.setting = Some(nibwright::recipe::Setting::usual(Some(nibwright::recipe::Use::Cut)));
    let opening = Opening::of_recipe(&recipe);
    let other = Recipe { name: "Another praline".to_owned(), ..praline() };
    save_recipe(&opening.folder.path().join("other.ron"), &other).expect("it can be written");
    let mut window = opening.open();
    weigh(&mut window, &[]);
    assert_eq!(window.get_by_label("number of pieces").value().as_deref(), Some("120"));
    assert!(window.has_text("times the recipe: 1") && window.has_text("The recipe's own 2 %"), "{:#?}", window.texts());
    window.press(Key::Enter);
    assert_eq!(window.focused().as_deref(), Some("further losses, %"), "Enter goes on to the next figure");
    choose(&mut window, "made of it", "a slab in a frame");
    assert_eq!(window.get_by_label("height of the frame, mm").value().as_deref(), Some("10"));
    // Another recipe begins anew, but for the bowls and scales.
    type_fields(&mut window, &[("what a bowl holds", "8 kg")]);
    window.press(Key::Escape);
    window.click("Another praline");
    window.settle();
    weigh(&mut window, &[]);
    assert_eq!(window.get_by_label("what a bowl holds").value().as_deref(), Some("8 kg"));
    assert_eq!(window.get_by_label("how much finished mass").value().as_deref(), Some(""));
}

/// Far more than a hand types in a second: every letter is a list computed anew.
#[test]
fn typing_does_not_stall() {
    let mut window = with_recipe(&praline());
    weigh(&mut window, &[("what a bowl holds", "8 kg"), ("step of a finer scale", "0.1 g")]);
    window.get_by_label("how much finished mass").focus();
    window.run();
    let since = Instant::now();
    for _ in 0..20 {
        window.press_with(CTRL, Key::A);
        window.type_text("987654 kg");
    }
    assert!(since.elapsed() < Duration::from_secs(20), "{:?}", since.elapsed());
    assert!(window.has_text("together"), "{:#?}", window.texts());
}

/// A recipe without amounts has no list, and says what to do.
#[test]
fn what_cannot_be_scaled_says_why() {
    let mut empty = praline();
    for line in &mut empty.lines {
        line.amount = Quantity::default();
    }
    let mut window = with_recipe(&empty);
    weigh(&mut window, &[]);
    assert!(window.has_text("give its lines amounts first"), "{:#?}", window.texts());
    window.press(Key::Escape);
    let mut window = with_recipe(&Recipe::default());
    window.press_with(CTRL, Key::D);
    assert!(window.has_text("The recipe has no lines yet"));
}

/// Tab order: from a menu to the field that belongs to its choice, to the list and to the buttons.
#[test]
fn the_keyboard_reaches_everything_in_its_order() {
    let mut window = with_recipe(&praline());
    weigh(&mut window, &[]);
    window.press_with(Modifiers::SHIFT, Key::Tab);
    assert_eq!(window.focused().as_deref(), Some("asked for"));
    window.press(Key::ArrowDown);
    window.press(Key::Tab);
    assert_eq!(window.focused().as_deref(), Some("number of pieces"));
    window.type_text("1400");
    window.press(Key::Tab);
    assert_eq!(window.focused().as_deref(), Some("made of it"));
    window.press(Key::Tab);
    window.type_text("8.3");
    let mut reached = Vec::new();
    for _ in 0..40 {
        window.press(Key::Tab);
        reached.extend(window.focused());
    }
    let places = [
        "further losses, %",
        "seed that is ready",
        "Dark couverture, 64 % cocoa: 4150 g",
        "pieces: 1400 of 8.3 g",
        "Copy the list",
        "Close",
    ];
    let place =
        |name: &&str| reached.iter().position(|it| it == name).unwrap_or_else(|| panic!("{name}: {reached:#?}"));
    let places: Vec<usize> = places.iter().map(place).collect();
    assert!(places.is_sorted(), "{places:?} in {reached:#?}");
    window.press(Key::Escape);
    assert!(!window.has_text("What to weigh today"));
}
