//! Every figure of an analysis by name: those that do not depend on the size of the batch, and those that grow with it.

use super::mixing;
use nibwright::analysis::Analysis;
use nibwright::analysis::cooking::Cooking;
use nibwright::analysis::emulsion::{Emulsion, EmulsionState};
use nibwright::analysis::fat::{FatGrams, Form, SolidFat};
use nibwright::analysis::fat_crystals::{CurvePoint, FatCrystals, Limits};
use nibwright::analysis::make_up::MakeUp;
use nibwright::analysis::parts::Group;
use nibwright::analysis::phase_bar::PhaseBar;
use nibwright::analysis::plan::Plan;
use nibwright::analysis::seeding::{Dose, DoseClip, Seeding, Window};
use nibwright::analysis::sweetness::Sweetness;
use nibwright::analysis::water::equilibrium::Equilibrium;
use nibwright::analysis::water::state::{Supersaturation, Water};
use nibwright::ingredient::Component;
use nibwright::units::MassFraction;

/// Figures by name; `None` is not known.
pub(super) type Figures = Vec<(String, Option<f64>)>;

// Results are taken apart without `..`: a new figure does not compile until both lists have decided about it.

/// Every figure of an analysis that does not depend on the size of the batch.
pub(super) fn intensive(analysis: &Analysis) -> Figures {
    let Analysis {
        at: _,
        make_up,
        energy,
        sweetness,
        emulsion,
        water,
        fat,
        seeding,
        plan,
        mixing,
        phase_bar,
        usual: _,
        findings: _,
        class_values: _,
    } = analysis;
    let MakeUp { weighed: _, evaporating, evaporated: _, before_evaporation: _, bowl, lines: _, finished: _ } = make_up;
    let mut figures = Figures::new();
    let mut put = |name: &str, value: Option<f64>| figures.push((name.to_owned(), value));
    for component in Component::ALL {
        put(component.key(), bowl.share(component).map(MassFraction::to_percent));
    }
    for group in Group::ALL {
        put(group.key(), bowl.group_share(group).map(MassFraction::to_percent));
    }
    let unassigned = bowl.unassigned().filter(|_| bowl.total().0 > 0.0);
    put("unassigned", unassigned.map(|grams| (grams / bowl.total()).to_percent()));
    put("energy, kJ", energy.map(|energy| energy.kilojoules.0));
    put("energy, kcal", energy.map(|energy| energy.kilocalories.0));
    put("least energy, kJ", energy.map(|energy| energy.low.0));
    put("most energy, kJ", energy.map(|energy| energy.high.0));
    if let Some(Sweetness { value, low, high }) = *sweetness {
        put("sweetness", Some(value));
        put("least sweetness", Some(low));
        put("most sweetness", Some(high));
    }
    if let EmulsionState::Emulsion(emulsion) = emulsion {
        let Emulsion { fat: _, water_phase: _, insoluble: _, fat_to_water } = emulsion;
        put("phi_fat", Some(emulsion.fat_share().0));
        put("phi_dispersed", Some(emulsion.dispersed_share().0));
        put("fat_to_water", Some(*fat_to_water));
    }
    if let Some(Cooking { temperature: _, height: _, outcome, possible }) = evaporating.cooking() {
        put("boils from", possible.map(|(from, _)| from.0));
        put("hottest", possible.map(|(_, to)| to.0));
        put("can be cooked", outcome.ok().map(|cooked| cooked.at_the_sea.0));
    }
    put("water activity", water.activity().map(|activity| activity.0));
    put("water activity, low", water.low().map(|activity| activity.0));
    put("water activity, high", water.high().map(|activity| activity.0));
    if let Some(water) = water.water() {
        // What a line does depends on the round amount that is added.
        let Water {
            contents: _,
            rest,
            band,
            band_of_inputs,
            band_of_cook,
            doubts: _,
            at_room,
            in_store,
            clear,
            sandy,
            effects: _,
        } = water;
        assert!(*band_of_inputs > 0.0 && *band_of_cook >= 0.0, "{band_of_inputs} {band_of_cook}");
        assert_eq!(*band, water.band_at(rest.activity));
        let Equilibrium { solute_fraction, others_per_water, .. } = rest;
        put("solutes in the syrup", *solute_fraction);
        put("other sugars per water", Some(*others_per_water));
        put("band", Some(*band));
        put("clear", clear.map(|activity| activity.0));
        put("sandy", sandy.map(|activity| activity.0));
        for Supersaturation { sucrose, lactose } in [at_room, in_store] {
            put("sucrose saturation", *sucrose);
            put("lactose saturation", *lactose);
        }
    }
    if let Some(bar) = phase_bar {
        let PhaseBar {
            fat_crystals,
            liquid_fat,
            syrup,
            undissolved_sugar,
            cocoa_particles,
            other_particles,
            is_dry: _,
        } = bar;
        put("bar: crystals", Some(fat_crystals.0));
        put("bar: liquid fat", Some(liquid_fat.0));
        put("bar: syrup", Some(syrup.0));
        put("bar: sugar", Some(undissolved_sugar.0));
        put("bar: cocoa", Some(cocoa_particles.0));
        put("bar: other", Some(other_particles.0));
    }
    if let Ok(fat) = fat {
        figures.extend(intensive_of_fat(fat));
        figures.push(("crystals of mass".to_owned(), Some(fat.crystals_of_mass(bowl.total()).0)));
    }
    if let Some(seeding) = seeding {
        figures.extend(intensive_of_seeding(seeding));
    }
    if let Ok(plan) = plan {
        figures.extend(intensive_of_plan(plan));
    }
    if let Some(Ok(mixing)) = mixing {
        figures.extend(mixing::intensive(mixing));
    }
    figures
}

fn intensive_of_fat(fat: &FatCrystals) -> Figures {
    let FatCrystals {
        blended,
        unmixed,
        unmixed_share,
        grams: _,
        limits: Limits { form_iv, form_v, form_vi },
        curve,
        at: _,
        solid_at: SolidFat { form_v: form_v_at, other: other_at },
        solid_fat_uncertainty_points,
        limit_uncertainty,
        form_iv_limit_uncertainty,
        form_vi_limit_uncertainty,
    } = fat;
    let mut figures = Figures::new();
    let mut put = |name: &str, value: Option<f64>| figures.push((name.to_owned(), value));
    let unmixed_limit = unmixed.as_ref().and_then(|phase| phase.melting_limit(Form::V));
    put("cocoa butter in the fat", Some(blended.cocoa_butter_share().0));
    put("fat outside globules", Some(unmixed_share.0));
    for (name, limit) in [("IV", *form_iv), ("V", *form_v), ("VI", *form_vi), ("V, unmixed", unmixed_limit)] {
        put(&format!("form {name} limit"), limit.map(|celsius| celsius.0));
    }
    put("limit uncertainty", limit_uncertainty.map(|kelvin| kelvin.0));
    put("form IV limit uncertainty", form_iv_limit_uncertainty.map(|kelvin| kelvin.0));
    put("form VI limit uncertainty", form_vi_limit_uncertainty.map(|kelvin| kelvin.0));
    put("solid fat uncertainty", *solid_fat_uncertainty_points);
    put("form V", Some(form_v_at.0));
    put("other crystals", Some(other_at.0));
    for CurvePoint { celsius, solid: SolidFat { form_v, other } } in curve {
        put(&format!("form V at {}", celsius.0), Some(form_v.0));
        put(&format!("other crystals at {}", celsius.0), Some(other.0));
    }
    figures
}

fn intensive_of_plan(plan: &Plan) -> Figures {
    let Plan {
        choice: _,
        chocolate: _,
        mix_end: _,
        warm_up: _,
        has_hot_liquid: _,
        bowl: _,
        is_emulsion: _,
        is_whipped: _,
        window: _,
        fresh: _,
        limits: _,
        start,
        seed,
        kept: _,
        too_thick,
        steps,
    } = plan;
    let mut figures = Figures::new();
    let mut put = |name: &str, value: Option<f64>| figures.push((name.to_owned(), value));
    put("start of cooling", Some(start.0));
    put("crystals that make it too thick", too_thick.map(MassFraction::to_percent));
    for step in steps {
        put(step.kind.key(), step.temperature.map(|temperature| temperature.to.0));
    }
    let after = seed.as_ref().and_then(|seed| seed.after);
    put("after mixing", after.map(|after| after.at.0));
    put("crystals after mixing", after.map(|after| after.crystals.to_percent()));
    figures
}

fn intensive_of_seeding(seeding: &Seeding) -> Figures {
    let Seeding { bowl: _, limits: _, window, unmixed, habit, equal_time, seed: _, crystals } = seeding;
    let mut figures = Figures::new();
    let mut put = |name: &str, figure: &str, value: Option<f64>| figures.push((format!("{name}: {figure}"), value));
    for (name, window) in [("window", Some(window)), ("unmixed", unmixed.as_ref())] {
        let Some(Window { min, recommended, max }) = window else { continue };
        put(name, "min", Some(min.0));
        put(name, "recommended", Some(recommended.0));
        put(name, "max", Some(max.0));
    }
    for (name, dose) in [("habit", Some(habit)), ("equal time", equal_time.as_ref())] {
        let Some(Dose { share, clip }) = dose else { continue };
        put(name, "seed", Some(share.to_percent()));
        // What is asked for has no bound.
        put(name, "held at", clip.map(|DoseClip { asked: _, held_at }| held_at.to_percent()));
    }
    put("seed", "crystals", Some(crystals.to_percent()));
    figures
}

/// Every figure of an analysis that grows with the batch, in grams and millilitres.
pub(super) fn extensive(analysis: &Analysis) -> Figures {
    let Analysis {
        at: _,
        make_up,
        energy: _,
        sweetness: _,
        emulsion,
        water,
        fat,
        seeding,
        plan,
        mixing,
        phase_bar: _,
        usual: _,
        findings: _,
        class_values: _,
    } = analysis;
    let MakeUp { weighed, evaporating, evaporated, before_evaporation: _, bowl, lines: _, finished } = make_up;
    let mut figures = Figures::new();
    let mut put = |name: &str, value: Option<f64>| figures.push((name.to_owned(), value));
    put("weighed", Some(weighed.0));
    put("evaporated", evaporating.grams().map(|_| evaporated.0));
    put("water left", evaporating.cooked().map(|cooked| cooked.water_left.0));
    put("bowl", Some(bowl.total().0));
    put("finished", Some(finished.0));
    for component in Component::ALL {
        put(&format!("{} g", component.key()), bowl.grams(component).map(|grams| grams.0));
    }
    if let EmulsionState::Emulsion(Emulsion { fat, water_phase, insoluble, fat_to_water: _ }) = emulsion {
        put("fat ml", Some(fat.0));
        put("water phase ml", Some(water_phase.0));
        put("particles ml", Some(insoluble.0));
    }
    if let Some(water) = water.water() {
        let Equilibrium {
            activity: _,
            syrup_water,
            dissolved_sucrose,
            undissolved_sucrose,
            dissolved_lactose,
            crystal_water,
            held,
            solute_fraction: _,
            others_per_water: _,
        } = water.rest;
        for grams in [syrup_water, dissolved_sucrose, undissolved_sucrose, dissolved_lactose, crystal_water] {
            put("of the water", Some(grams.0));
        }
        for grams in held {
            put("held water", Some(grams.0));
        }
    }
    if let Ok(fat) = fat {
        let FatGrams { cocoa_butter, milk_fat, liquid_oil, coconut, palm_kernel, palm } = fat.grams;
        for grams in [cocoa_butter, milk_fat, liquid_oil, coconut, palm_kernel, palm] {
            put("a fat", Some(grams.0));
        }
    }
    if let Some(seeding) = seeding {
        put("seed", Some(seeding.seed.0));
        put("seed, equal time", seeding.equal_time_seed(seeding.bowl).map(|grams| grams.0));
        put("mass to seed", Some(seeding.bowl.0));
    }
    if let Ok(plan) = plan {
        for step in &plan.steps {
            put(step.kind.key(), step.weight.map(|grams| grams.0));
        }
    }
    if let Some(Ok(mixing)) = mixing {
        figures.extend(mixing::extensive(mixing));
    }
    figures
}
