//! What must be true of every composition and every mix.

use super::super::*;
use super::{Tables, check};
use crate::analysis::fat::{FatGrams, FatPhase};
use crate::analysis::mixer::Mixer;
use crate::recipe::CocoaButter;
use crate::units::{Celsius, Grams, MassFraction};

impl Mixer {
    /// Some substances, every third one left out, from a milligram to a kilogram.
    fn thermal_contents(&mut self) -> Contents {
        let first = Substance::ALL.into_iter().map(|substance| {
            let grams = if self.next() < 0.33 { 0.0 } else { 10_f64.powf(self.next() * 6.0 - 3.0) };
            (substance, Grams(grams))
        });
        let amounts: Vec<_> = first.chain([(Substance::Water, Grams(0.01))]).collect();
        Contents::new(amounts).expect("some mass")
    }

    fn part(&mut self) -> Part {
        let at = Celsius(10.0 + 80.0 * self.next());
        let mut part = Part::new(&self.thermal_contents(), at).expect("a part");
        for fat in Fat::ALL {
            let crystals = Tables.solid(fat, at);
            part = part.with_crystals(fat, crystals).expect("a share");
        }
        part
    }

    fn mix(&mut self) -> Mix {
        Mix::new((0..4).map(|_| self.part()).collect::<Vec<_>>())
    }
}

const CASES: usize = 2_000;

#[test]
fn heat_rises_with_temperature() {
    let mut mixer = Mixer(1);
    for _ in 0..CASES {
        let contents = mixer.thermal_contents();
        let mut before = f64::NEG_INFINITY;
        for step in 0..=110 {
            let at = Celsius(f64::from(step));
            let mut part = Part::new(&contents, at).expect("a part");
            for fat in Fat::ALL {
                part = part.with_crystals(fat, Tables.solid(fat, at)).expect("a share");
            }
            let heat = part.heat().0;
            assert!(heat > before, "{contents:?} at {step} °C");
            before = heat;
        }
        check(
            "liquid at zero",
            Enthalpy::of(&contents).at(Celsius(0.0)).0,
            contents.grams(Substance::DissolvedSugar).0 * 1.566375,
            1e-9,
        );
    }
}

#[test]
fn conductivity_lies_between_its_bounds() {
    let mut mixer = Mixer(2);
    for _ in 0..CASES {
        let (contents, at) = (mixer.thermal_contents(), Celsius(110.0 * mixer.next()));
        let (low, high) = (contents.conductivity_in_series(at).0, contents.conductivity_in_parallel(at).0);
        for phase in [ContinuousPhase::Fat, ContinuousPhase::Water] {
            let k = contents.conductivity(phase, at).0;
            assert!(low - 1e-12 <= k && k <= high + 1e-12, "{low} {k} {high}: {contents:?}");
        }
        let volumes: f64 = Substance::ALL.into_iter().map(|substance| contents.volume_share(substance, at).0).sum();
        check("volumes", volumes, 1.0, 1e-12);
    }
}

#[test]
fn energy_is_conserved_and_neither_order_nor_size_matters() {
    let mut mixer = Mixer(3);
    for _ in 0..CASES {
        let mix = mixer.mix();
        let mixed = match mix.mixed(&Tables) {
            Ok(mixed) => mixed,
            Err(error) => {
                assert_eq!(error, HeatError::BelowFreezing);
                continue;
            }
        };
        let scale: f64 = mix.parts().iter().map(|part| part.heat().0.abs()).sum::<f64>() + 1.0;
        for (outcome, sugar) in
            [(&mixed.at_once, mixing::Dissolving::NotYet), (&mixed.after_dissolving, mixing::Dissolving::Done)]
        {
            let merged = mix.merged(sugar);
            let after = merged.with_vessel.at(outcome.temperature).0 - enthalpy::latent(&outcome.crystals).0;
            check("energy", (after - mix.heat().0) / scale, 0.0, 1e-9);
            for fat in Fat::ALL {
                let idx = fat as usize;
                assert!(outcome.crystals[idx].0 >= 0.0 && outcome.crystals[idx] <= merged.crystals[idx]);
            }
        }
        assert!(mixed.by_melting().0 <= 1e-9);
        let end = mixed.after_dissolving.temperature.0;
        let end_of =
            |parts: Vec<Part>| Mix::new(parts).mixed(&Tables).expect("a temperature").after_dissolving.temperature.0;
        check("order", end_of(mix.parts().iter().rev().cloned().collect()), end, 1e-8);
        check("size", end_of(mix.parts().iter().map(|part| part.scaled(37.0)).collect()), end, 1e-8);
    }
}

#[test]
fn the_curve_is_asked_at_most_two_hundred_times_for_a_temperature() {
    let mut mixer = Mixer(6);
    let mut most = 0;
    for _ in 0..CASES {
        let count = std::cell::Cell::new(0);
        let counting = |fat: Fat, at: Celsius| {
            count.set(count.get() + u32::from(fat == Fat::CocoaButter));
            Tables.solid(fat, at)
        };
        let _ = mixer.mix().mixed(&counting);
        most = most.max(count.get());
    }
    // Two temperatures: at once and after dissolving.
    assert!((10..=2 * 200).contains(&most), "{most}");
}

#[test]
fn mixing_first_two_and_then_the_third_ends_alike_where_nothing_melts_or_dissolves() {
    let mut mixer = Mixer(7);
    for _ in 0..CASES {
        let mut part = || {
            let at = Celsius(10.0 + 80.0 * mixer.next());
            let contents = mixer.thermal_contents();
            let amounts = Substance::ALL.into_iter().filter(|&s| s != Substance::CrystallineSugar);
            let contents = Contents::new(amounts.map(|s| (s, contents.grams(s)))).expect("some mass");
            (contents.clone(), Part::new(&contents, at).expect("a part"))
        };
        let ((one, first), (two, second), (_, third)) = (part(), part(), part());
        let end = |parts: Vec<Part>| {
            let mixed = Mix::new(parts).mixed(&Tables).expect("a temperature");
            assert_eq!(mixed.at_once, mixed.after_dissolving);
            mixed.at_once.temperature
        };
        let both = Substance::ALL.into_iter().map(|s| (s, one.grams(s) + two.grams(s)));
        let both = Contents::new(both).expect("some mass");
        let both = Part::new(&both, end(vec![first.clone(), second.clone()])).expect("a part");
        check("end", end(vec![both, third.clone()]).0, end(vec![first, second, third]).0, 1e-8);
    }
}

#[test]
fn forward_and_backward_agree() {
    let mut mixer = Mixer(4);
    let mut compared = 0;
    for _ in 0..CASES {
        let mix = mixer.mix();
        let Ok(mixed) = mix.mixed(&Tables) else { continue };
        let end = mixed.after_dissolving.temperature;
        // A part that makes up too little of the mass is not determined by the end.
        let share = mix.parts()[0].mass() / mix.parts().iter().map(Part::mass).sum::<Grams>();
        if share.0 < 0.01 {
            continue;
        }
        let start = start_temperature(&mix, 0, end, &Tables).expect("a start");
        check("start", start.0, mix.parts()[0].temperature().0, 1e-6);
        compared += 1;
    }
    assert!(compared > CASES / 2, "{compared}");
}

#[test]
fn the_blend_of_the_fat_model_serves_as_curve() {
    let mut mixer = Mixer(5);
    for _ in 0..60 {
        let mut grams = || Grams(100.0 * mixer.next());
        let fats = FatGrams { cocoa_butter: grams(), milk_fat: grams(), liquid_oil: grams(), ..FatGrams::default() };
        let phase = FatPhase::new(&fats, CocoaButter::WestAfrican).expect("fat");
        let curve = BlendCurve::new(Some(phase.clone()));
        let mut before = [f64::INFINITY; 3];
        for step in 0..=45 {
            let at = Celsius(f64::from(step));
            let solid = Fat::ALL.map(|fat| curve.solid(fat, at).0);
            let sum = solid[0] * fats.cocoa_butter.0 + solid[1] * (fats.milk_fat.0 + fats.liquid_oil.0);
            check("sum", sum / fats.total().0, phase.solid_fat(at).total().0, 1e-9);
            for (now, then) in solid.into_iter().zip(before) {
                assert!((0.0..=1.0).contains(&now) && now <= then + 1e-9, "{fats:?} at {step} °C");
            }
            before = solid;
        }
    }
    // Real curve, real ganache: the crystals of the chocolate melt below the end, so the table's end is met.
    let grams = FatGrams { cocoa_butter: Grams(187.5), milk_fat: Grams(175.0), ..FatGrams::default() };
    let curve = BlendCurve::new(FatPhase::new(&grams, CocoaButter::WestAfrican).ok());
    let cream = Part::new(&super::contents(500.0, super::CREAM), Celsius(80.0)).expect("cream");
    let dark = Part::new(&super::contents(500.0, super::DARK), Celsius(20.0))
        .and_then(|part| part.with_crystals(Fat::CocoaButter, MassFraction(0.78)))
        .expect("dark");
    let mixed = Mix::new([cream, dark]).mixed(&curve).expect("a temperature");
    check("end", mixed.after_dissolving.temperature.0, 48.244, 0.002);
    assert_eq!(BlendCurve::new(None).solid(Fat::CocoaButter, Celsius(10.0)), MassFraction::ZERO);
}
