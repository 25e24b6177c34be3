//! Heat of crystals in closed form.
//!
//! * [`time_with_crystals`]: at equilibrium; [`left_with_heat`]: given off in time; both for a body of one temperature.
//! * [`plank`], [`neumann`] and [`front`]: at a single temperature.

use crate::analysis::cooling::estimate::{Inside, MINUTE, PER_CUBIC_METRE, positive, time_to};
use crate::units::{
    Celsius, GramsPerMillilitre, JoulesPerGram, JoulesPerGramKelvin, Kelvin, Metres, Millilitres, Minutes,
    SquareMetresPerSecond, WattsPerKelvin, WattsPerMetreKelvin, WattsPerSquareMetreKelvin,
};

/// Halvings until nothing changes in a double.
const HALVINGS: u32 = 80;

/// Volume over surface of a body, in metres.
pub fn volume_per_surface(inside: Inside) -> Metres {
    match inside {
        Inside::Slab(length) => length,
        Inside::Sphere(radius) => Metres(radius.0 / 3.0),
        Inside::Cylinder(radius) => Metres(radius.0 / 2.0),
    }
}

/// The time constant of a body of one temperature by its volume: τ = ρ·c_p·V/(Σ U·A).
///
/// `None` for what is not positive and finite.
#[must_use]
pub fn constant_of(
    volume: Millilitres,
    density: GramsPerMillilitre,
    specific_heat: JoulesPerGramKelvin,
    conductance: WattsPerKelvin,
) -> Option<Minutes> {
    let capacity = positive(volume.0)? * positive(density.0)? * positive(specific_heat.0)?;
    positive(capacity / positive(conductance.0)? / MINUTE).map(Minutes)
}

/// The time with the heat of crystals at equilibrium: t = τ/c_p · Σ (c_p + Δq/ΔT) · ln((T_i − T_a)/(T_(i+1) − T_a)).
///
/// τ time constant without crystals, c_p specific heat without crystals; the sum goes over the pieces of `heats`, the heat
/// q that crystals have given off at each temperature (straight between, constant beyond), from the start to the target.
///
/// Source: balance of heat with the effective specific heat c_p + dq/dT. Of bodies with Bi up to 2 the time is right within
/// 3 %. `None` unless the target lies between air and start, figures are positive and finite, and the nodes of `heats`
/// rise in temperature and fall in heat.
#[must_use]
pub fn time_with_crystals(
    constant: Minutes,
    specific_heat: JoulesPerGramKelvin,
    heats: &[(Celsius, JoulesPerGram)],
    start: Celsius,
    target: Celsius,
    air: Celsius,
) -> Option<Minutes> {
    let is_falling = heats.windows(2).all(|pair| pair[0].0 < pair[1].0 && pair[0].1 >= pair[1].1);
    if !is_falling || !heats.iter().all(|(_, heat)| heat.0.is_finite()) {
        return None;
    }
    let per_heat = positive(constant.0)? / positive(specific_heat.0)?;
    let mut time = time_to(constant, start, target, air)?.0;
    let [cold, warm] = [start.min(target), start.max(target)];
    for pair in heats.windows(2) {
        let [(colder, more), (warmer, less)] = [pair[0], pair[1]];
        let [from, to] = [colder.max(cold), warmer.min(warm)];
        if from < to {
            let slope = (more.0 - less.0) / (warmer - colder).0;
            time += per_heat * slope * ((to - air).0 / (from - air).0).ln().abs();
        }
    }
    positive(time).map(Minutes)
}

/// How much warmer than the air a body of one temperature is, while crystals give off heat with a time constant.
///
/// θ = (θ₀ − B)·e^(−t/t_c) + B·e^(−t/τ), B = (q/c_p)·t_c/(τ − t_c)
///
/// θ difference to the air, t_c time constant of cooling, τ of crystals, q heat that they give off in the end, by mass.
/// Where the two constants are as good as equal: θ = (θ₀ + (q/c_p)·t/τ)·e^(−t/τ).
///
/// Source: closed solution of dθ/dt = −θ/t_c + (q/(c_p·τ))·e^(−t/τ), derived. `None` unless constants and specific heat are
/// positive, and heat and time are not negative.
#[must_use]
pub fn left_with_heat(
    first: Kelvin,
    cooling: Minutes,
    growth: Minutes,
    heat: JoulesPerGram,
    specific_heat: JoulesPerGramKelvin,
    time: Minutes,
) -> Option<Kelvin> {
    /// Relative difference of the constants below which their quotient would only be noise.
    const AS_GOOD_AS_EQUAL: f64 = 1e-7;
    let rise = heat.0 / positive(specific_heat.0)?;
    let [cool, grow] = [positive(cooling.0)?, positive(growth.0)?];
    if !(rise >= 0.0 && time.0 >= 0.0) {
        return None;
    }
    let left = if (cool / grow - 1.0).abs() < AS_GOOD_AS_EQUAL {
        (first.0 + rise * time.0 / grow) * (-time.0 / grow).exp()
    } else {
        let share = rise * cool / (grow - cool);
        (first.0 - share) * (-time.0 / cool).exp() + share * (-time.0 / grow).exp()
    };
    left.is_finite().then_some(Kelvin(left))
}

/// The time until all has crystallised, its sensible heat left out: t = ρ·L/ΔT · (P·D/h + R·D²/k).
///
/// ρ density, L heat of all crystals by mass, ΔT melting point above the air, D thickness or diameter, h surface
/// coefficient, k conductivity of the solid; P 1/2 and R 1/8 for a slab cooled on both faces, 1/6 and 1/24 for a sphere,
/// 1/4 and 1/16 for a cylinder.
///
/// Source: `plank-1913`. A lower bound: with a Stefan number c·ΔT/L of 0.1 the true time is 2 to 7 % longer.
/// `None` for what is not positive and finite. `inside` holds half of the thickness or diameter.
#[must_use]
pub fn plank(
    inside: Inside,
    density: GramsPerMillilitre,
    heat: JoulesPerGram,
    colder: Kelvin,
    coefficient: WattsPerSquareMetreKelvin,
    conductivity: WattsPerMetreKelvin,
) -> Option<Minutes> {
    // With half of D: P·D is V/A, and R·D² is V/A times half of the half thickness.
    let surface = positive(volume_per_surface(inside).0)?;
    let (Inside::Slab(half) | Inside::Sphere(half) | Inside::Cylinder(half)) = inside;
    let hindrance = surface / positive(coefficient.0)? + surface * half.0 / 2.0 / positive(conductivity.0)?;
    let heat = positive(density.0)? * positive(heat.0)? * PER_CUBIC_METRE;
    positive(heat / positive(colder.0)? * hindrance / MINUTE).map(Minutes)
}

/// The constant λ of a front that starts at a suddenly cold wall: √π · λ · e^(λ²) · erf λ = Ste.
///
/// Ste = c·ΔT/L Stefan number: specific heat of the solid, how much colder than the melting point the wall is, heat of
/// melting.
///
/// Source: `crank-1984`. For liquid that is at its melting point.
/// `None` unless the Stefan number is from 1e-6 to 1000.
#[must_use]
pub fn neumann(stefan: f64) -> Option<f64> {
    if !(1e-6..=1e3).contains(&stefan) {
        return None;
    }
    let left = |lambda: f64| std::f64::consts::PI.sqrt() * lambda * lambda.powi(2).exp() * libm::erf(lambda);
    let (mut low, mut high) = (0.0, 3.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if left(middle) < stefan {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(f64::midpoint(low, high))
}

/// How far the front has come, in metres: s = 2·λ·√(α·t).
///
/// λ of [`neumann`], α diffusivity of the solid, t time. Source and range as there; `None` for what is not positive.
#[must_use]
pub fn front(stefan: f64, diffusivity: SquareMetresPerSecond, time: Minutes) -> Option<Metres> {
    let path = positive(diffusivity.0 * positive(time.0)? * MINUTE)?;
    Some(Metres(2.0 * neumann(stefan)? * path.sqrt()))
}

mod tests {
    use super::*;
    use crate::analysis::cooling::estimate::with_inside;
    use crate::analysis::heat::tests::{Tables, check};
    use crate::analysis::heat::{Fat, SolidFatCurve};

    /// By the closed form computed apart, 8302 s within 1 s (5.5): a framed ganache of 10 mm from 34 to 20 °C in 17 °C.
    #[test]
    fn heat_of_crystals_lengthens_the_time() {
        let inside = Inside::Slab(Metres(0.01));
        let u = with_inside(WattsPerSquareMetreKelvin(10.0), inside, WattsPerMetreKelvin(0.3)).expect("positive");
        let specific_heat = JoulesPerGramKelvin(2.6);
        // One square metre.
        let constant = constant_of(Millilitres(10_000.0), GramsPerMillilitre(1.15), specific_heat, WattsPerKelvin(u.0))
            .expect("one");
        let heats = [0.0, 15.0, 20.0, 25.0, 30.0, 32.5, 35.0].map(Celsius).map(|at| {
            let solid = Tables.solid(Fat::CocoaButter, at).0;
            (at, JoulesPerGram(0.19 * 157.0 * solid))
        });
        let time = |heats: &[(Celsius, JoulesPerGram)], target| {
            time_with_crystals(constant, specific_heat, heats, Celsius(34.0), Celsius(target), Celsius(17.0))
        };
        check("seconds", time(&heats, 20.0).expect("reached").0 * MINUTE, 8302.0, 1.0);
        assert_eq!(time(&[], 20.0), time_to(constant, Celsius(34.0), Celsius(20.0), Celsius(17.0)));
        assert_eq!(time(&heats, 16.0), None);
        let mut rising = heats;
        rising.reverse();
        assert_eq!(time(&rising, 20.0), None);
    }

    /// By hand: 21.5675 °C with 45 J/g, and 12 + 19·e^(−2) °C without heat; constants that are equal are the limit of constants that nearly are.
    #[test]
    fn crystals_that_grow_keep_a_body_warm() {
        let left = |heat, growth| {
            let [cooling, growth, time] = [10.0, growth, 20.0].map(Minutes);
            left_with_heat(Kelvin(19.0), cooling, growth, JoulesPerGram(heat), JoulesPerGramKelvin(1.65), time)
        };
        check("with", 12.0 + left(45.0, 15.0).expect("positive").0, 21.5675, 1e-3);
        check("without", 12.0 + left(0.0, 15.0).expect("positive").0, 14.5714, 1e-3);
        let [equal, nearly] = [10.0, 10.001].map(|growth| left(45.0, growth).expect("positive").0);
        check("equal constants", equal, nearly, 1e-3);
        assert_eq!(left(-1.0, 15.0), None);
        assert_eq!(left(45.0, 0.0), None);
    }

    /// Roots of Crank's equation 3.14 computed apart, within 2e-6.
    #[test]
    fn the_constant_of_a_front_is_crank_s() {
        for (stefan, lambda) in [
            (0.05, 0.156821),
            (0.1, 0.220016),
            (0.3, 0.36988),
            (0.5, 0.464786),
            (0.7, 0.536512),
            (1.0, 0.620063),
            (1.5, 0.723211),
            (3.0, 0.913751),
            (5.0, 1.059687),
        ] {
            check(&format!("{stefan}"), neumann(stefan).expect("in range"), lambda, 2e-6);
        }
        for stefan in [0.0, -1.0, f64::NAN, 1e4] {
            assert_eq!(neumann(stefan), None);
        }
    }

    /// Ste 0.5, 0.25 W/(m K), 1200 kg/m³, 1600 J/(kg K), 888.8 s: 10 mm within 0.01.
    #[test]
    fn a_front_is_ten_millimetres_deep_after_a_quarter_of_an_hour() {
        let diffusivity = SquareMetresPerSecond(0.25 / (1200.0 * 1600.0));
        let depth = front(0.5, diffusivity, Minutes(888.8 / MINUTE)).expect("positive");
        check("mm", depth.0 * 1000.0, 10.0, 0.01);
        assert_eq!(front(0.5, diffusivity, Minutes(0.0)), None);
    }

    /// Plank (from memory): 20 mm cooled on both faces, 320 kJ/kg, 10 K, 25 W/(m² K): 23040 s. By hand for a sphere of 20 mm:
    /// 1200·320000/10·(0.02/150 + 0.0004/6) = 7680 s.
    #[test]
    fn plank_gives_the_time_of_latent_heat_alone() {
        let time = |inside| {
            let [density, heat, colder] = [1.2, 320.0, 10.0];
            plank(
                inside,
                GramsPerMillilitre(density),
                JoulesPerGram(heat),
                Kelvin(colder),
                WattsPerSquareMetreKelvin(25.0),
                WattsPerMetreKelvin(0.25),
            )
        };
        check("slab", time(Inside::Slab(Metres(0.01))).expect("positive").0 * MINUTE, 23_040.0, 1.0);
        check("sphere", time(Inside::Sphere(Metres(0.01))).expect("positive").0 * MINUTE, 7680.0, 1.0);
        assert_eq!(time(Inside::Slab(Metres(0.0))), None);
    }
}
