//! The pieces in which masses set, as bodies that lose heat.

use super::coefficient;
use crate::analysis::cooling::body::{Face, Geometry};
use crate::analysis::cooling::bowl::{STANDING_M2, STILL_AIR, surface_m2};
use crate::analysis::cooling::estimate::{HalfSphere, Inside};
use crate::recipe::{Air, Base, Piece, Setting};
use crate::units::{Grams, Metres, Millilitres, WattsPerKelvin, WattsPerMetreKelvin, WattsPerSquareMetreKelvin};

/// The wall of a mould: 2.5 mm of polycarbonate, in m²·K/W (from memory, 0.010 to 0.015).
const MOULD_WALL: f64 = 0.0125;

/// A board of 10 mm: with the still air under it 4 to 5 W/(m²·K) in all, in m²·K/W (from memory).
const BOARD: f64 = 0.1;

/// A thick slab of stone after half an hour: √(k·ρ·c/(π·t)) for granite. More before, less after.
const STONE: WattsPerSquareMetreKelvin = WattsPerSquareMetreKelvin(33.0);

/// The body of a piece. Cup, half-sphere and bowl count as of one temperature; of cup and half-sphere the inner resistance lies on
/// their faces, a bowl is stirred.
///
/// Inner resistance of the mean temperature: [`Inside`], of a cup that of a cylinder at its side and that of a slab of half
/// its height at its top and bottom. Within 4 % of a computation in two dimensions for a
/// half-sphere in air of 8 to 25 W/(m²·K).
pub(super) fn geometry(
    setting: &Setting,
    conductivity: WattsPerMetreKelvin,
    volume: Millilitres,
    mass: Grams,
) -> Geometry {
    use std::f64::consts::PI;
    const MILLILITRES_IN_CUBIC_METRE: f64 = 1e6;
    let open = coefficient(setting.air);
    let air = setting.surroundings.celsius();
    let behind = |resistance: f64| WattsPerSquareMetreKelvin((open.0.recip() + resistance).recip());
    let face = |coefficient| Face { coefficient, air };
    let slab = |thickness: Metres, below, above| Geometry::Slab { thickness, faces: [face(below), face(above)] };
    let inner = |inside: Inside| inside.layer().0 / conductivity.0;
    let of_one = |cubic_metres: f64, watts_per_kelvin: f64| Geometry::OneTemperature {
        volume: Millilitres(cubic_metres * MILLILITRES_IN_CUBIC_METRE),
        conductance: WattsPerKelvin(watts_per_kelvin),
        air,
    };
    match setting.piece {
        Piece::Frame { thickness, base } => {
            let below = match base {
                Base::Board => behind(BOARD),
                Base::Rack => open,
                Base::Stone => STONE,
            };
            slab(thickness.metres(), below, open)
        }
        Piece::Bar { thickness } => slab(thickness.metres(), behind(MOULD_WALL), open),
        Piece::Coat { thickness } => slab(thickness.metres(), WattsPerSquareMetreKelvin(0.0), open),
        Piece::Ball { diameter } => Geometry::Sphere { radius: Metres(diameter.metres().0 / 2.0), surface: face(open) },
        Piece::HalfSphere { diameter } => {
            let radius = Metres(diameter.metres().0 / 2.0);
            let half = HalfSphere { radius, dome: behind(MOULD_WALL), flat: open };
            // A figure that is none is refused with the body.
            let conductance = half.conductance(conductivity).unwrap_or(WattsPerKelvin(0.0));
            Geometry::OneTemperature { volume: half.volume(), conductance, air }
        }
        Piece::Cup { diameter, height } => {
            let (radius, height) = (diameter.metres().0 / 2.0, height.metres().0);
            let to_end = inner(Inside::Slab(Metres(height / 2.0)));
            let end = PI * radius.powi(2);
            let side = 2.0 * PI * radius * height * behind(MOULD_WALL + inner(Inside::Cylinder(Metres(radius)))).0;
            of_one(end * height, side + end * (behind(to_end).0 + behind(MOULD_WALL + to_end).0))
        }
        Piece::Bowl => {
            let surface = surface_m2(STANDING_M2, mass);
            // Stirred now and then, it loses more than a piece at rest, as in the plan.
            let taken = if setting.air == Air::Still { STILL_AIR } else { open.0 };
            Geometry::OneTemperature { volume, conductance: WattsPerKelvin(surface * taken), air }
        }
    }
}
