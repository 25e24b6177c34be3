use approx::{assert_abs_diff_eq, assert_relative_eq};
use proptest::prelude::*;

use super::*;
use crate::ingredient::{Composition, Ingredient, Library};
use crate::production::order::ShellOf;
use crate::recipe::{CookTemperature, Evaporation, Heating, Height, Quantity, TransferLoss};
use crate::units::{GramsPerMillilitre, Millilitres};

fn grams(value: f64) -> Quantity {
    Quantity::from_grams(value).expect("an amount")
}

fn loss(percent: f64) -> TransferLoss {
    TransferLoss::from_percent(percent).expect("a loss")
}

/// A ganache of 600 g, of which 12 g boil off and 2 % stay in bowls: 576.24 g are left.
fn ganache() -> Recipe {
    let library = Library::built_in();
    let mut recipe = Recipe::default();
    for (id, amount) in [("couverture-dark-64", 350.0), ("cream-35", 220.0), ("invert-syrup", 30.0)] {
        recipe.push(library.by_id(id).expect("it is built in").clone(), grams(amount));
    }
    recipe.losses.evaporation = Evaporation::Weighed(grams(12.0));
    recipe.losses.transfer = loss(2.0);
    recipe
}

const FINISHED: f64 = (600.0 - 12.0) * 0.98;

fn order(wanted: Wanted) -> Order {
    Order { wanted, ..Order::default() }
}

fn made_of(wanted: Wanted, form: Form, losses: &[f64], density: f64) -> (Batch, Made) {
    let losses = losses.iter().map(|&percent| loss(percent)).collect();
    let order = Order { wanted, form: Some(form), losses, density: Some(GramsPerMillilitre(density)) };
    let batch = scale(&ganache(), &order).expect("it can be scaled");
    let made = batch.made.expect("something is made");
    (batch, made)
}

fn frame() -> Frame {
    Frame { length: Millimetres(340.0), width: Millimetres(340.0), height: Millimetres(10.0) }
}

fn cut(side: f64) -> Cut {
    Cut { trim: Millimetres(5.0), along: Millimetres(side), across: Millimetres(side) }
}

#[test]
fn as_it_stands_nothing_changes() {
    let batch = scale(&ganache(), &Order::default()).expect("it can be scaled");
    assert_eq!((batch.recipe, batch.factor), (ganache(), 1.0));
    assert_relative_eq!(batch.finished.expect("known").0, FINISHED, max_relative = 1e-12);
    assert_eq!(batch.made, None);
}

/// By hand: 1153 g behind a loss of 4 % and one of 8 % are 1153/0.8832 = 1305.48 g of finished mass, of which a recipe gives
/// 576.24 g.
#[test]
fn losses_multiply() {
    let losses = vec![loss(4.0), loss(8.0)];
    let batch = scale(&ganache(), &Order { losses, ..order(Wanted::Mass(Grams(1153.0))) }).expect("it can be scaled");
    assert_relative_eq!(batch.factor, 1153.0 / 0.8832 / FINISHED, max_relative = 1e-12);
    assert_relative_eq!(batch.output().expect("known").0, 1153.0, max_relative = 1e-12);
    // The water that was weighed off scales along.
    assert_relative_eq!(batch.analysis.make_up.evaporated.0, 12.0 * batch.factor, max_relative = 1e-12);
}

/// Worked example, by hand: 168 cavities of 10.2 ml with a shell of 35 % take 1388.797 g, with a loss of 4 % 1446.664 g, and
/// 747.814 g of chocolate.
#[test]
fn moulds_take_filling_and_shell() {
    let shell = ShellOf { share: MassFraction(0.35), density: GramsPerMillilitre(1.30) };
    let form = Form::Cavity { volume: Millilitres(10.2), shell: Some(shell) };
    let (batch, made) = made_of(Wanted::Pieces(168), form, &[4.0], 1.22);
    assert_relative_eq!(batch.finished.expect("known").0, 1446.664, max_relative = 1e-6);
    assert_relative_eq!(batch.output().expect("known").0, 1388.797, max_relative = 1e-6);
    let Product::Piece(piece) = made.product else { panic!("it is a piece") };
    assert_relative_eq!(made.shells().expect("there are shells").0, 747.814, max_relative = 1e-6);
    assert_eq!(made.piece(), Some(piece));
    assert_eq!((made.count, made.pieces(), batch.recipe.pieces), (168, Some(168), Some(168)));
    assert_abs_diff_eq!(made.spare.0, 0.0, epsilon = 1e-6);
}

/// Worked example, by hand: a frame of 340 × 340 × 10 mm holds 1445 g of 1.25 g/ml, 196 pieces of 6.328125 g.
#[test]
fn frames_are_filled_and_cut() {
    let form = Form::Frame { frame: frame(), cut: Some(cut(22.5)), coat: MassFraction::ZERO };
    let (batch, made) = made_of(Wanted::Frames(2), form, &[], 1.25);
    assert_relative_eq!(batch.finished.expect("known").0, 2890.0, max_relative = 1e-12);
    assert_eq!((made.count, made.pieces(), batch.recipe.pieces), (2, Some(392), Some(392)));
    assert_relative_eq!(made.piece().expect("it is cut").piece.0, 6.328_125, max_relative = 1e-12);
    // As many frames as the pieces need.
    let (_, made) = made_of(Wanted::Pieces(197), form, &[], 1.25);
    assert_eq!((made.count, made.pieces()), (2, Some(392)));
    let (_, made) = made_of(Wanted::Pieces(196), form, &[], 1.25);
    assert_eq!(made.count, 1);
}

/// Worked example, by hand: a centre of 6.328125 g with a coat of a quarter is a piece of 8.4375 g.
#[test]
fn cut_pieces_may_have_a_coat() {
    let form = Form::Frame { frame: frame(), cut: Some(cut(22.5)), coat: MassFraction(0.25) };
    let (batch, made) = made_of(Wanted::Frames(1), form, &[], 1.25);
    assert_relative_eq!(batch.finished.expect("known").0, 1445.0, max_relative = 1e-12);
    let piece = made.piece().expect("it is cut");
    assert_relative_eq!(piece.piece.0, 8.4375, max_relative = 1e-12);
    assert_relative_eq!(made.shells().expect("it has a coat").0, 196.0 * 2.109_375, max_relative = 1e-12);
}

/// Worked example, by hand: 2000 g of 1.24 g/ml stand 13.952 mm high in 340 × 340 mm; full at 10 mm they are one frame.
#[test]
fn a_mass_says_how_high_it_stands() {
    let form = Form::Frame { frame: frame(), cut: None, coat: MassFraction::ZERO };
    let (_, made) = made_of(Wanted::Mass(Grams(2000.0)), form, &[], 1.24);
    let Product::Slab { all_in_one, slab, .. } = made.product else { panic!("it is a slab") };
    assert_abs_diff_eq!(all_in_one.expect("there is an area").0, 13.952, epsilon = 5e-4);
    assert_eq!((made.count, made.pieces()), (1, None));
    assert_relative_eq!((made.spare + slab).0, 2000.0, max_relative = 1e-12);
}

/// Worked example, by hand: 3200 g less 3.5 % are 417 deposits of 7.4 g, 2.2 g are left over.
#[test]
fn a_mass_gives_whole_deposits() {
    let form = Form::Piece { mass: Grams(7.4), shell: MassFraction::ZERO };
    let (batch, made) = made_of(Wanted::Mass(Grams(3088.0)), form, &[3.5], 1.2);
    assert_relative_eq!(batch.finished.expect("known").0, 3200.0, max_relative = 1e-12);
    assert_eq!(made.count, 417);
    assert_relative_eq!(made.spare.0, 3088.0 - 417.0 * 7.4, max_relative = 1e-9);
}

#[test]
fn an_ingredient_at_hand_decides() {
    for name in ["cream-35", "Cream, 35 % fat", "cream", "CREAM, 35 % FAT"] {
        let wanted = Wanted::AtHand { ingredient: name.to_owned(), amount: Grams(1300.0) };
        let batch = scale(&ganache(), &order(wanted)).expect("there is cream in it");
        assert_relative_eq!(batch.recipe.lines[1].amount.grams().0, 1300.0, max_relative = 1e-12);
        assert_relative_eq!(batch.factor, 1300.0 / 220.0, max_relative = 1e-12);
    }
}

/// What is in two lines is shared out over both.
#[test]
fn an_ingredient_of_two_lines_counts_with_both() {
    let mut recipe = ganache();
    let cream = recipe.lines[1].ingredient.clone();
    recipe.push(cream, grams(80.0));
    let wanted = Wanted::AtHand { ingredient: "cream-35".to_owned(), amount: Grams(600.0) };
    let batch = scale(&recipe, &order(wanted)).expect("there is cream in it");
    assert_eq!((batch.factor, batch.recipe.lines[3].amount.grams().0), (2.0, 160.0));
}

#[test]
fn pieces_of_the_recipe_itself_are_counted() {
    let recipe = Recipe { pieces: Some(60), ..ganache() };
    let batch = scale(&recipe, &order(Wanted::Pieces(140))).expect("it says how many it makes");
    assert_relative_eq!(batch.factor, 140.0 / 60.0, max_relative = 1e-12);
    assert_eq!(batch.recipe.pieces, Some(140));
    // With a loss of 10 % the batch has to be larger.
    let losses = vec![loss(10.0)];
    let batch = scale(&recipe, &Order { losses, ..order(Wanted::Pieces(140)) }).expect("it can be scaled");
    assert_relative_eq!(batch.factor, 140.0 / 60.0 / 0.9, max_relative = 1e-12);
    let doubled = Wanted::AtHand { ingredient: "cream-35".to_owned(), amount: Grams(440.0) };
    assert_eq!(scale(&recipe, &order(doubled)).expect("it can be scaled").recipe.pieces, Some(120));
}

/// What is estimated and what is cooked follow the mass.
#[test]
fn every_way_of_evaporation_is_in_proportion() {
    let cooked = Evaporation::CookedTo {
        temperature: CookTemperature::new(crate::units::Celsius(110.0)).expect("a temperature"),
        height: Height::SEA_LEVEL,
    };
    for evaporation in [Evaporation::Weighed(grams(12.0)), Evaporation::Estimated(Heating::Boiled), cooked] {
        let mut recipe = ganache();
        recipe.losses.evaporation = evaporation;
        let one = scale(&recipe, &Order::default()).expect("it can be scaled");
        assert!(one.analysis.make_up.evaporated.0 > 1.0, "{evaporation:?}");
        let output = one.output().expect("known");
        let three = scale(&recipe, &order(Wanted::Mass(output * 3.0))).expect("it can be scaled");
        assert_relative_eq!(three.factor, 3.0, max_relative = 1e-9);
        let evaporated = |batch: &Batch| batch.analysis.make_up.evaporated.0;
        assert_relative_eq!(evaporated(&three), 3.0 * evaporated(&one), max_relative = 1e-9);
    }
}

/// A syrup of which the water is not known.
fn of_unknown_water() -> Recipe {
    let composition = Composition::new([(Component::Sucrose, 30.0)], [Component::Water], 0.0).expect("a composition");
    let mut recipe = Recipe::default();
    recipe.push(Ingredient { composition, ..Ingredient::unknown("herb", "Herb syrup") }.into(), grams(100.0));
    recipe.losses.evaporation = Evaporation::Estimated(Heating::Boiled);
    recipe
}

#[test]
fn what_cannot_be_done_says_why() {
    let at_hand = |ingredient: &str| Wanted::AtHand { ingredient: ingredient.to_owned(), amount: Grams(100.0) };
    let form = |wanted, form| Order { form: Some(form), ..order(wanted) };
    let slab = |cut| Form::Frame { frame: frame(), cut, coat: MassFraction::ZERO };
    let mut twice = ganache();
    twice.push(Library::built_in().by_id("cream-36").expect("it is built in").clone(), grams(10.0));
    let mut none_of_it = ganache();
    none_of_it.lines[1].amount = grams(0.0);
    for (recipe, order, words) in [
        (Recipe::default(), Order::default(), "weighs nothing"),
        (ganache(), order(at_hand("purée")), "\"purée\" is not in the recipe; its ingredients are Dark couverture"),
        (ganache(), order(at_hand(" ")), "is not in the recipe"),
        (
            twice,
            order(at_hand("cream")),
            "\"cream\" can mean Cream, 35 % fat (cream-35); Cream, heavy whipping, 36 % fat (cream-36); write one",
        ),
        (none_of_it, order(at_hand("cream-35")), "takes 0 g of Cream, 35 % fat"),
        (ganache(), order(Wanted::Mass(Grams(0.0))), "nothing is asked for"),
        (ganache(), order(Wanted::Mass(Grams(f64::NAN))), "nothing is asked for"),
        (ganache(), order(Wanted::Mass(Grams(2e9))), "over 1,000 tonnes"),
        (ganache(), order(Wanted::Pieces(10)), "does not say how many pieces"),
        (ganache(), order(Wanted::Frames(1)), "how large a frame is"),
        (ganache(), form(Wanted::Pieces(10), slab(None)), "how the frame is cut"),
        (
            ganache(),
            form(Wanted::Pieces(10), slab(Some(cut(400.0)))),
            "340 × 340 mm, 5 mm trimmed on every side, gives no whole piece of 400 × 400 mm",
        ),
        (
            ganache(),
            form(Wanted::Pieces(10), Form::Piece { mass: Grams(8.0), shell: MassFraction(1.0) }),
            "such a piece takes nothing of the mass",
        ),
        (of_unknown_water(), order(Wanted::Mass(Grams(50.0))), "how much water evaporates is not known"),
        (
            of_unknown_water(),
            form(Wanted::AsItStands, Form::Cavity { volume: Millilitres(10.0), shell: None }),
            "the density is not known, because water is not",
        ),
    ] {
        let why = scale(&recipe, &order).expect_err(words).to_string();
        assert!(why.contains(words) && why.contains("; "), "{words}: {why}");
    }
}

/// An ingredient at hand does not ask what evaporates.
#[test]
fn what_is_not_known_stays_not_known() {
    let wanted = Wanted::AtHand { ingredient: "herb".to_owned(), amount: Grams(250.0) };
    let batch = scale(&of_unknown_water(), &order(wanted)).expect("it can be scaled");
    assert_eq!((batch.factor, batch.finished, batch.output()), (2.5, None, None));
}

proptest! {
    /// What is asked for comes out, whatever the losses; shares do not change on the way, and scaling back is identity.
    #[test]
    fn what_is_asked_for_comes_out(
        wanted in 1.0..1e6,
        percents in prop::collection::vec(0.0..50.0, 0..4),
    ) {
        let losses: Vec<TransferLoss> = percents.into_iter().map(loss).collect();
        let recipe = ganache();
        let batch = scale(&recipe, &Order { losses, ..order(Wanted::Mass(Grams(wanted))) }).expect("it can be scaled");
        let output = batch.output().expect("known").0;
        prop_assert!((output - wanted).abs() < 1e-9 * wanted, "{output} of {wanted}");
        let back = scale(&batch.recipe, &order(Wanted::Mass(Grams(FINISHED)))).expect("it can be scaled back");
        for (line, other) in recipe.lines.iter().zip(&back.recipe.lines) {
            prop_assert!((line.amount.value() - other.amount.value()).abs() < 1e-9 * line.amount.value());
        }
    }
}
