//! Published figures, exact solutions, and what must be true of every body.

mod laws;
mod published;

use super::*;
use crate::analysis::heat::tests::Tables;
use crate::analysis::heat::{Fat, SolidFatCurve};

fn material(density: f64, conductivity: f64, specific_heat: f64) -> Material {
    Material::new(GramsPerMillilitre(density / 1000.0), WattsPerMetreKelvin(conductivity), |_| {
        JoulesPerGramKelvin(specific_heat)
    })
    .expect("a material")
}

fn face(coefficient: f64, air: f64) -> Face {
    Face { coefficient: WattsPerSquareMetreKelvin(coefficient), air: Celsius(air) }
}

fn slab(millimetres: f64, coefficients: [f64; 2], air: f64, material: Material) -> Body {
    let faces = coefficients.map(|coefficient| face(coefficient, air));
    Body::new(Geometry::Slab { thickness: Metres(millimetres / 1000.0), faces }, material).expect("a slab")
}

fn sphere(millimetres: f64, coefficient: f64, air: f64, material: Material) -> Body {
    let radius = Metres(millimetres / 2000.0);
    Body::new(Geometry::Sphere { radius, surface: face(coefficient, air) }, material).expect("a sphere")
}

/// Crystals of so much cocoa butter and milk fat in the mass, by the tables of the tests of heat.
fn crystals(cocoa_butter: f64, milk_fat: f64, rate: Rate, started: f64) -> Crystals {
    let nodes = [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 32.5, 35.0, 38.0].map(Celsius);
    let solid = |at: Celsius| {
        let parts = [(Fat::CocoaButter, cocoa_butter), (Fat::MilkFat, milk_fat)];
        let sum = |weight: fn(Fat) -> f64| -> f64 {
            parts.iter().map(|(fat, share)| share * weight(*fat) * Tables.solid(*fat, at).0).sum()
        };
        let heat = JoulesPerGram(sum(|fat| fat.heat_of_fusion().0));
        Solid { heat, share: MassFraction(sum(|_| 1.0) / (cocoa_butter + milk_fat)) }
    };
    Crystals::from_nodes(nodes.map(|at| (at, solid(at))).to_vec(), rate, MassFraction(started)).expect("crystals")
}

fn given(seconds: f64) -> Length {
    Length::Given(Minutes(seconds / 60.0))
}

#[track_caller]
fn course(body: &Body, start: f64, crystals: &Crystals, length: Length) -> Course {
    let course = run(body, Celsius(start), crystals, length).expect("a course");
    assert!(course.energy_error < 1e-10, "heat is lost: {}", course.energy_error);
    course
}

fn last(course: &Course) -> Moment {
    *course.moments.last().expect("moments")
}
