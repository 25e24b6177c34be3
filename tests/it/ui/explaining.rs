//! Every number says what it is: name, meaning, formula, range, source, evidence, uncertainty.

use nibwright::analysis::emulsion::Emulsion;
use nibwright::analysis::fat_crystals::{FatCrystals, Limits};
use nibwright::analysis::make_up::MakeUp;
use nibwright::analysis::seeding::Seeding;
use nibwright::analysis::water::activity::Equation;
use nibwright::analysis::water::keeping::{GROWTH_LIMITS, Handling};
use nibwright::analysis::water::state::{Holder, Water};
use nibwright::analysis::{Analysis, analyse, fat::Form, parts::Group};
use nibwright::document::Document;
use nibwright::ingredient::{Component, Library};
use nibwright::number::DecimalSign;
use nibwright::production::day::{Note, Work};
use nibwright::production::order::Order;
use nibwright::production::weighing::Scales;
use nibwright::recipe::{Heating, MassUnit};
use nibwright::reformulate::{Measured, target::shares};
use nibwright::report::words::batch::BatchFigure;
use nibwright::store::load_recipe;
use nibwright::ui::dialogs::WeighField;
use nibwright::ui::explanations::{
    composition, cost, emulsion, fat, finding, food, mixing, plan, setting, sheet, targets, texture, water, weighing,
    weighing_fields,
};
use nibwright::ui::theme::Hue;
use nibwright::ui::view::Scene;
use nibwright::ui::widgets::Explanation;
use nibwright::units::{Celsius, Grams, GramsPerMillilitre, MassFraction};

use super::*;

/// Every explanation that the window can give of a recipe.
fn all_of(scene: &Scene<'_>, sign: DecimalSign) -> Vec<Explanation> {
    // Taken apart without `..`: a new figure does not compile until it stands here, and its explanation below.
    let Analysis {
        at: _,
        make_up,
        energy: _,
        sweetness: _,
        emulsion: _,
        water: _,
        fat,
        seeding: _,
        plan: _,
        mixing: _,
        phase_bar: _,
        usual,
        findings,
        class_values: _,
    } = scene.analysis;
    let MakeUp { weighed: _, evaporating: _, evaporated: _, before_evaporation: _, bowl: _, lines: _, finished: _ } =
        make_up;
    let _ = |Emulsion { fat: _, water_phase: _, insoluble: _, fat_to_water: _ }: Emulsion| ();
    let _ = |Water {
                 contents: _,
                 rest: _,
                 band: _,
                 band_of_inputs: _,
                 band_of_cook: _,
                 doubts: _,
                 at_room: _,
                 in_store: _,
                 clear: _,
                 sandy: _,
                 effects: _,
             }: Water| ();
    let _ = |Seeding { bowl: _, limits: _, window: _, unmixed: _, habit: _, equal_time: _, seed: _, crystals: _ }: Seeding| ();
    let mut all = vec![
        composition::unassigned(scene, sign),
        emulsion::dispersed_share(scene, sign),
        emulsion::fat_to_water(scene, sign),
        cost::batch(scene),
        cost::kilogram(scene),
        cost::piece(scene),
        cost::line("a line"),
        food::energy(scene, sign),
        food::energy_left_open(scene, sign),
        food::sweetness(scene, sign),
        fat::crystals(scene, sign),
        fat::dose(scene, sign),
        fat::share_of_fat("cocoa butter", scene),
        fat::seed_by_habit(scene, sign),
        fat::seed_crystals(scene, sign),
        fat::seed_equal_time(scene, sign),
        fat::put_in(scene, sign),
        fat::seed_cream(),
        fat::window(scene, sign),
        fat::unmixed_window(scene, sign),
        plan::after_mixing(scene, sign),
        plan::amount(scene, sign),
        plan::changes(scene),
        plan::cream_share(),
        plan::crystals_apart(scene),
        plan::crystals_left(scene, sign),
        plan::in_sheet(scene.analysis.make_up.finished, sign),
        plan::kept(scene, sign),
        plan::need(scene),
        plan::own_amount(sign),
        plan::seed_temperature(),
        mixing::bowl(sign),
        mixing::crystals(scene),
        mixing::dissolving(scene, sign),
        mixing::end(scene, sign),
        mixing::melting(scene),
        mixing::sensible(scene),
        mixing::stirring(sign),
        mixing::unsaid(sign),
        mixing::one_line("Cream at 50 °C instead of 85 °C", sign),
        mixing::wanted(sign),
        mixing::wanted_end(sign),
        water::activity(scene, sign),
        water::dissolved_solids(scene, sign),
        water::dissolved_sucrose(scene, sign),
        water::drying(scene, sign),
        water::effect(scene),
        water::isotherm(scene),
        water::lactose_saturation(sign),
        water::listeria(scene, sign),
        water::low_acid(scene),
        water::ph(),
        water::stages(sign),
        water::sucrose_saturation(scene, sign),
        texture::condensation(sign),
        texture::contraction(scene),
        texture::firmness(scene, sign),
        texture::flow(scene, sign),
        texture::flow_against_pin(scene, sign),
        texture::relative_firmness(scene, sign),
        setting::cooled(sign),
        setting::cooling(scene),
        setting::dew_point(sign),
        setting::half_way(sign),
        setting::liquid(scene),
        setting::size(sign),
        setting::softens(scene),
        setting::solid_at_rest(scene),
        setting::solid_in_store(scene),
        setting::start(sign),
        setting::store(sign),
        setting::surroundings(sign),
        setting::unseeded(),
        setting::begun(scene),
        setting::workable(scene),
        sheet::class_values(scene),
        sheet::alcohol_lost(),
        sheet::boiled_off(scene, sign),
        sheet::cook_height(sign),
        sheet::cook_temperature(scene, sign),
        sheet::estimated_evaporation(Heating::Boiled, sign),
        sheet::estimated_evaporation(Heating::Warmed, sign),
        sheet::evaporation(sign),
        sheet::finished(),
        sheet::line_share(),
        sheet::line_total(),
        sheet::phase_bar(scene),
        sheet::thermometer(scene, sign),
        sheet::together(),
        sheet::transfer_loss(),
        targets::allowance(),
        targets::edge(),
        targets::effect(Grams(10.0), sign),
        targets::limit(),
        targets::proposed_amount("down for water activity at most a bound", sign),
        targets::proposed_total(),
    ];
    let results = [
        Measured::FatToWater,
        Measured::CocoaButterInFat,
        Measured::MilkFatInFat,
        Measured::OtherFatInFat,
        Measured::FatVolume,
        Measured::DispersedVolume,
        Measured::WaterActivity,
        Measured::SucroseSupersaturation,
        Measured::LactoseSupersaturation,
        Measured::SolidFat(Celsius(20.5)),
        Measured::Crystals(Celsius(20.5)),
        Measured::Contraction,
        Measured::SolidsVolume,
        Measured::FormVLimit,
        Measured::Energy,
        Measured::Sweetness,
        Measured::Cost,
        Measured::FinishedMass,
    ];
    for of in shares().chain(results) {
        all.extend([targets::result(of, scene, sign), targets::bound(of, sign)]);
    }
    if let Ok(state) = nibwright::analysis::setting::setting(&scene.document.recipe, scene.analysis) {
        let least = setting::least_growth(scene, sign);
        all.extend([setting::set(scene, &state, sign), setting::growth(scene, &state), least]);
    }
    all.extend(Group::ALL.map(|group| composition::group(group, scene, sign)));
    all.extend(Group::ALL.map(|group| composition::difference(group, scene, sign)));
    all.extend(Component::ALL.map(|component| composition::component(component, scene)));
    all.extend(Hue::ALL.map(|hue| composition::brought(hue, "a line", scene)));
    let phases = [emulsion::Phase::Fat, emulsion::Phase::Particles, emulsion::Phase::Water];
    all.extend(phases.map(|phase| emulsion::volume(phase, scene, sign)));
    all.extend(Holder::all().map(|holder| water::held_by(holder, scene, sign)));
    all.extend((0..GROWTH_LIMITS.len()).map(|place| water::growth(place, scene, sign)));
    all.extend([Handling::Open, Handling::HeatedAndPackaged].map(|handling| water::food_code(handling, scene)));
    all.extend(Equation::ALL.map(|equation| water::equation(equation, scene, sign)));
    all.extend(usual.iter().map(|range| emulsion::usual(range, scene, sign)));
    all.extend(findings.iter().filter_map(|found| finding::finding(found, scene, sign)));
    for line in &scene.document.recipe.lines {
        for unit in MassUnit::ALL {
            let mut line = line.clone();
            line.amount = line.amount.in_unit(unit);
            all.push(sheet::amount(&line, sign));
        }
        all.push(mixing::start(line, sign));
    }
    all.extend(of_weighing(&scene.document.recipe, sign));
    if let Ok(crystals) = fat {
        let FatCrystals {
            blended: _,
            unmixed: _,
            unmixed_share: _,
            grams: _,
            limits: Limits { form_iv: _, form_v: _, form_vi: _ },
            curve: _,
            at: _,
            solid_at: _,
            solid_fat_uncertainty_points: _,
            limit_uncertainty: _,
            form_iv_limit_uncertainty: _,
            form_vi_limit_uncertainty: _,
        } = crystals;
        all.push(fat::solid_fat(crystals, scene, sign));
        all.extend(Form::ALL.map(|form| fat::limit(form, crystals, scene, sign)));
    }
    all
}

/// Those of the weighing list.
fn of_weighing(recipe: &Recipe, sign: DecimalSign) -> Vec<Explanation> {
    let scales = Scales { step: Grams(5.0), fine_step: None };
    let work = Work::new(recipe, &Order::default(), scales, Some(Grams(300.0))).expect("a list");
    let mut all = vec![
        weighing::together(sign),
        weighing::bowls(sign),
        weighing::left(),
        weighing::rounding_moves(sign),
        weighing::cost(),
        weighing::cost_of_kilogram(),
        weighing::cost_of_piece(),
        weighing::seed_of_the_day(sign),
    ];
    for bowls in &work.weighing.bowls {
        let lines = recipe.lines.iter().zip(&bowls.weighed.lines);
        all.extend(lines.map(|(line, weighed)| weighing::line(&line.ingredient.name, &[*weighed], sign)));
        all.extend(bowls.seed.map(|seed| weighing::seed(&[seed], sign)));
    }
    all.extend(BatchFigure::ALL.map(|figure| weighing::batch(figure, sign)));
    all.extend([weighing_fields::own_step(sign), weighing_fields::also_mass(sign)]);
    all.extend(WeighField::ALL.map(|field| weighing_fields::field(field, sign)));
    let density = GramsPerMillilitre(1.2);
    let kinds = [
        Note::TooLittleChocolate { shell: MassFraction(0.1) },
        Note::ComputedDensity { melted: density, set: (density, density) },
        Note::EvaporationNotKnown,
    ];
    all.extend(work.notes.iter().chain(&kinds).map(|note| weighing::note(note, sign)));
    all
}

#[test]
fn no_number_leaves_a_part_of_its_explanation_open() {
    for entry in std::fs::read_dir(samples()).expect("the samples") {
        let path = entry.expect("a file").path();
        if path.extension().is_none_or(|extension| extension != "ron") {
            continue;
        }
        let sample = load_recipe(&path, Library::built_in()).expect("a sample");
        for sign in [DecimalSign::Comma, DecimalSign::Point] {
            let document = Document { recipe: sample.clone() };
            let analysis = analyse(&sample, Celsius(20.0));
            let prices = nibwright::production::price_list::PriceList::default();
            let cost = nibwright::production::cost::cost(&sample, &analysis.make_up, &prices);
            let costs = nibwright::ui::view::Costs { now: Some(&cost), pinned: None, problem: None };
            let scene = Scene { document: &document, analysis: &analysis, finding_words: &[], pin: None, costs };
            let all = all_of(&scene, sign);
            assert!(all.len() > 60, "{}", all.len());
            for explanation in all {
                assert!(!explanation.title.is_empty() && explanation.what.len() > 10, "{explanation:?}");
                for (head, words) in explanation.parts() {
                    assert!(words.len() > 3, "{head} of {} is “{words}”", explanation.title);
                    assert!(!words.contains("NaN") && !words.contains("inf "), "{words}");
                    // A source is quoted as it calls itself.
                    let is_quoted = head == nibwright::ui::widgets::text::SOURCE;
                    let has_point = words
                        .as_bytes()
                        .windows(3)
                        .any(|three| three[1] == b'.' && three[0].is_ascii_digit() && three[2].is_ascii_digit());
                    assert!(!(has_point && sign == DecimalSign::Comma) || is_quoted, "a decimal point in “{words}”");
                }
            }
        }
    }
}

#[test]
fn numbers_of_the_sheet_explain_themselves_in_their_rows() {
    let mut window = first_start();
    for (label, words) in [
        ("58.4", "Its part of all that is weighed in"),
        ("Cream, 35 % fat, amount", "What is weighed in"),
        ("671 g", "What can be filled, piped or cut"),
    ] {
        window.get_by_label(label).hover();
        window.run_steps(WAIT);
        assert!(window.has_text(words), "{label}");
        window.remove_cursor();
        window.run_steps(WAIT);
    }
}

#[test]
fn figures_inside_a_plot_and_on_the_thermometer_explain_themselves() {
    let mut window = first_start();
    window.show(Key::Num4);
    let plot = window.get_by_label("43 % solid at 20.0 °C").rect();
    // The limit stands at 29.8 of 45 °C; the axes leave some of the width to their figures.
    let mut found = std::collections::BTreeSet::new();
    for step in 0..60_u8 {
        window.hover_at(plot.lerp_inside(egui::vec2(f32::from(step) / 60.0, 0.3)));
        window.run_steps(WAIT);
        for words in ["the last form V crystal melts", "How much of the fat is crystallised"] {
            if window.has_text(words) {
                found.insert(words);
            }
        }
    }
    assert_eq!(found.len(), 1, "the line of the limit: {found:?}");
    window.remove_cursor();
    let strip = window.get_by_label("thermometer").rect();
    let mut titles = std::collections::BTreeSet::new();
    for step in 0..70_u8 {
        window.hover_at(egui::pos2(strip.center().x + 4.0, strip.top() + strip.height() * f32::from(step) / 70.0));
        window.run_steps(WAIT);
        titles.extend(
            window
                .texts()
                .into_iter()
                .filter(|text| text.starts_with("form ") && text.contains(" limit ") && !text.contains('±')),
        );
    }
    assert_eq!(titles.len(), 3, "{titles:?}");
}

#[test]
fn a_finding_explains_its_figure() {
    let mut window = first_start();
    window.get_by_label_contains("caution: Water activity").hover();
    window.run_steps(WAIT);
    assert!(window.has_text("Held against the data of single sugars"));
}
