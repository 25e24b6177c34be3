//! Whether fat and water hold together: volumes hot, before setting.
//!
//! Counting happens at 40 °C, where the emulsion is made: all fat is melted there. Densities of the water phase are
//! those of 20 °C; both phases expand, and the tables behind the limits are no finer than that.
//! The model knows no emulsifier, no droplet size and no stirrer: it says how crowded the mass is, nothing more.

use super::parts::{Group, Parts};
use super::syrup::{Syrup, is_dry};
use super::{is_above, is_below};
use crate::ingredient::{Component, PolyolKind};
use crate::recipe::Kind;
use crate::units::{Celsius, Grams, GramsPerMillilitre, MassFraction, Millilitres, VolumeFraction};

/// The temperature at which the phases are counted.
pub const HOT: Celsius = Celsius(40.0);

/// Random close packing of equal spheres: droplets begin to jam.
///
/// Source: `bernal-mason-1960` (from memory).
pub const JAMMING: VolumeFraction = VolumeFraction(0.64);

/// Closest packing of equal spheres, π/(3·√2) rounded: above it an oil-in-water emulsion tends to split or invert.
///
/// A guide, not a wall: very uneven droplets pack closer (source: `kwok-2020`).
pub const CLOSEST_PACKING: VolumeFraction = VolumeFraction(0.74);

/// Below this dispersed share a ganache is soft and has much room (common practice, no published source).
pub const SOFT: VolumeFraction = VolumeFraction(0.55);

/// Fat over water by mass from which on an emulsion is usual (common practice, no published source).
pub const FAT_TO_WATER_LEAST: f64 = 0.8;
/// Fat over water by mass up to which an emulsion is easy (common practice, no published source).
pub const FAT_TO_WATER_EASY: f64 = 1.6;
/// Fat over water by mass beyond which an emulsion is likely to split (common practice, no published source).
pub const FAT_TO_WATER_LIMIT: f64 = 2.2;

/// Working an emulsion below this temperature can separate it.
///
/// Source: `notter-2011`: the fat no longer disperses between 23.3 and 29.4 °C; common practice says 30 °C.
pub const STIRRING_LIMIT: Celsius = Celsius(30.0);

/// Melted fat at about 40 °C (from memory).
pub const FAT_DENSITY: GramsPerMillilitre = GramsPerMillilitre(0.89);
/// Fat-free cocoa, protein, starch, fibre (from memory).
pub const INSOLUBLE_DENSITY: GramsPerMillilitre = GramsPerMillilitre(1.45);
/// Crystalline sucrose, which has not dissolved (handbook value, from memory).
pub const SUCROSE_CRYSTAL_DENSITY: GramsPerMillilitre = GramsPerMillilitre(1.587);
/// Water at 20 °C (source: `crc-solutions`).
pub const WATER_DENSITY: GramsPerMillilitre = GramsPerMillilitre(0.9982);

/// The volume that 1 g of a solute takes in a solution at 20 °C, which changes with the strength of the solution.
struct SpecificVolume {
    /// Of a polynomial in w, the mass fraction of dissolved solids in the water phase: ml/g for w^0, w^1 and w^2.
    coefficients: [f64; 3],
    /// Upper end of the solutions to which they were fitted; w is held there.
    fitted_up_to: MassFraction,
}

impl SpecificVolume {
    /// In ml/g, at so many dissolved solids in the water phase.
    fn at(&self, solids: MassFraction) -> f64 {
        let w = solids.0.min(self.fitted_up_to.0);
        self.coefficients[0] + self.coefficients[1] * w + self.coefficients[2] * w * w
    }
}

/// Sucrose, fitted to solutions of 5 to 84 % (`crc-solutions`; density within 0.0005 g/ml).
const SUCROSE: SpecificVolume =
    SpecificVolume { coefficients: [0.6153, 0.0106, 0.0176], fitted_up_to: MassFraction(0.84) };
/// Glucose, fitted to solutions of 5 to 60 % (`crc-solutions`; density within 0.001 g/ml).
const GLUCOSE: SpecificVolume =
    SpecificVolume { coefficients: [0.6209, 0.0128, 0.0205], fitted_up_to: MassFraction(0.60) };
/// Fructose, fitted to solutions of 5 to 48 % (`crc-solutions`; density within 0.0001 g/ml).
const FRUCTOSE: SpecificVolume =
    SpecificVolume { coefficients: [0.6094, 0.0309, 0.0], fitted_up_to: MassFraction(0.48) };
/// Glycerol, fitted to solutions of 5 to 84 % (`crc-solutions`; density within 0.0002 g/ml).
const GLYCEROL: SpecificVolume =
    SpecificVolume { coefficients: [0.7749, -0.0168, 0.0351], fitted_up_to: MassFraction(0.84) };

/// Lactose in water, ml/g (`makinen-2010`).
const LACTOSE_ML_PER_G: f64 = 0.608;
/// Maltose and the higher saccharides of glucose syrup in water, ml/g (`makinen-2010`).
const MALTOSE_AND_SYRUP_ML_PER_G: f64 = 0.622;
/// Sorbitol in water, ml/g (`makinen-2010`).
const SORBITOL_ML_PER_G: f64 = 0.652;
/// Maltitol, isomalt and lactitol in water, ml/g (from memory).
const DISACCHARIDE_POLYOLS_ML_PER_G: f64 = 0.62;
/// Xylitol in water, ml/g (from memory).
const XYLITOL_ML_PER_G: f64 = 0.67;
/// Erythritol in water, ml/g (from memory).
const ERYTHRITOL_ML_PER_G: f64 = 0.71;
/// Ethanol in water, ml/g; holds below 15 % (from memory).
const ETHANOL_ML_PER_G: f64 = 1.17;
/// Minerals of milk in water, ml/g (from memory).
const MILK_MINERALS_ML_PER_G: f64 = 0.4;
/// Sodium chloride in water, ml/g (from memory).
const SALT_ML_PER_G: f64 = 0.33;
/// Milk protein in water, ml/g (from memory).
const MILK_PROTEIN_ML_PER_G: f64 = 0.75;
/// Acids and the like, ml/g: counted as maltose for want of a figure (judged).
const ACIDS_ML_PER_G: f64 = MALTOSE_AND_SYRUP_ML_PER_G;

/// What is known of the mass as an emulsion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EmulsionState {
    /// There is water enough: the mass is judged as an oil-in-water emulsion.
    Emulsion(Emulsion),
    /// Under 2 % water: fat is the continuous phase, and there is nothing to hold together.
    FatContinuous,
    /// Under 2 % water and no fat: there is no continuous phase at all.
    Dry,
    /// A figure that the judgement needs is not known, or there is no mass.
    Unknown,
}

/// What the oldest rule of thumb of a ganache says about fat over water.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FatToWater {
    /// Below [`FAT_TO_WATER_LEAST`]: less fat than usual.
    Low,
    /// Up to [`FAT_TO_WATER_EASY`].
    Easy,
    /// Up to [`FAT_TO_WATER_LIMIT`]: firm, and wants care.
    Firm,
    /// Above.
    LikelyToSplit,
}

impl FatToWater {
    /// Where a ratio by mass lies; `None` for the kinds of mass for which the rule does not hold.
    ///
    /// It is a rule for ganache. A cooked caramel holds far more fat in its thick syrup; praline and chocolate should
    /// have no water at all. Common practice, no published source.
    #[must_use]
    pub fn of(ratio: f64, kind: Kind) -> Option<Self> {
        let is_for = match kind {
            Kind::Ganache | Kind::MousseBase | Kind::Other => true,
            Kind::Praline | Kind::Chocolate | Kind::Caramel => false,
        };
        is_for.then(|| {
            if is_below(ratio, FAT_TO_WATER_LEAST) {
                Self::Low
            } else if !is_above(ratio, FAT_TO_WATER_EASY) {
                Self::Easy
            } else if is_above(ratio, FAT_TO_WATER_LIMIT) {
                Self::LikelyToSplit
            } else {
                Self::Firm
            }
        })
    }
}

/// The volumes of an emulsion at 40 °C and their ratios.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Emulsion {
    /// Melted fat.
    pub fat: Millilitres,
    /// Water with all that is dissolved in it.
    pub water_phase: Millilitres,
    /// Particles that dissolve in neither.
    pub insoluble: Millilitres,
    /// Fat over water, by mass.
    pub fat_to_water: f64,
}

/// The shares of the volumes of an emulsion that one line brings, each from 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brought {
    /// Of the melted fat.
    pub fat: VolumeFraction,
    /// Of the particles.
    pub insoluble: VolumeFraction,
    /// Of the water phase.
    pub water_phase: VolumeFraction,
}

impl EmulsionState {
    /// Whether there is water to emulsify, as far as that is known: a fibre that nobody has measured makes no chocolate of a
    /// ganache.
    #[must_use]
    pub fn is_watery(self, bowl: &Parts) -> bool {
        match self {
            Self::Emulsion(_) => true,
            Self::FatContinuous | Self::Dry => false,
            Self::Unknown => {
                bowl.group_share(Group::Water).is_some_and(|water| !is_below(water.0, super::syrup::LEAST_WATER.0))
            }
        }
    }

    /// The emulsion, if it is one.
    #[must_use]
    pub fn emulsion(self) -> Option<Emulsion> {
        match self {
            Self::Emulsion(emulsion) => Some(emulsion),
            Self::FatContinuous | Self::Dry | Self::Unknown => None,
        }
    }
}

impl Emulsion {
    /// Fat over fat and water phase, by volume.
    #[must_use]
    pub fn fat_share(&self) -> VolumeFraction {
        self.fat / (self.fat + self.water_phase)
    }

    /// Fat and particles over everything, by volume.
    #[must_use]
    pub fn dispersed_share(&self) -> VolumeFraction {
        (self.fat + self.insoluble) / self.total()
    }

    /// All three volumes together.
    #[must_use]
    pub fn total(&self) -> Millilitres {
        self.fat + self.insoluble + self.water_phase
    }
}

/// Volumes of fat, water phase and particles at 40 °C.
///
/// V = m/ρ for each; `phi_fat` = V_fat/(V_fat + V_aq); `phi_dispersed` = (V_fat + V_ins)/(V_fat + V_ins + V_aq)
///
/// V in ml, m in g, ρ in g/ml: [`FAT_DENSITY`], cocoa and other particles [`INSOLUBLE_DENSITY`], undissolved sucrose
/// [`SUCROSE_CRYSTAL_DENSITY`], water phase by [`water_phase_volume`]. The water phase is the syrup at 40 °C ([`Syrup`])
/// with the milk protein.
///
/// Source: phase-volume arithmetic of emulsions; densities from memory where they say so.
/// Range: at least 2 % water; below, the mass is [`EmulsionState::FatContinuous`] or, without fat, [`EmulsionState::Dry`].
///
/// Worked example: 100 g of a 70 % chocolate (fat 42, sugar 30, dry fat-free cocoa 28) with 100 g of cream (fat 35,
/// water 58, lactose 3) hold 77 g fat, 91 g water phase of 1.16 g/ml, 28 g particles: `phi_fat` 0.5245,
/// `phi_dispersed` 0.5743, fat : water 1.328. The density of the water phase stands there with two decimals, so that the
/// shares are known no better than to 0.003.
///
/// ```
/// # use nibwright::analysis::emulsion::emulsion;
/// # use nibwright::analysis::parts::Parts;
/// # use nibwright::ingredient::{Component, Composition, CompositionError, Ingredient};
/// # use nibwright::units::Grams;
/// let mut chocolate = Ingredient::unknown("chocolate", "Chocolate, 70 %");
/// let of_chocolate =
///     [(Component::CocoaButter, 42.0), (Component::Sucrose, 30.0), (Component::FatFreeCocoaSolids, 28.0)];
/// chocolate.composition = Composition::new(of_chocolate, [], 0.0)?;
/// let mut cream = Ingredient::unknown("cream", "Cream, 35 %");
/// let of_cream = [(Component::MilkFat, 35.0), (Component::Water, 58.0), (Component::Lactose, 3.0)];
/// cream.composition = Composition::new(of_cream, [], 4.0)?;
///
/// let mut mass = Parts::default();
/// mass.add(&chocolate, Grams(100.0));
/// mass.add(&cream, Grams(100.0));
/// let ganache = emulsion(&mass).emulsion().unwrap();
/// assert!((ganache.fat_share().0 - 0.5245).abs() < 0.003);
/// assert!((ganache.dispersed_share().0 - 0.5743).abs() < 0.003);
/// assert!((ganache.fat_to_water - 1.328).abs() < 0.0005);
/// # Ok::<(), CompositionError>(())
/// ```
#[must_use]
pub fn emulsion(parts: &Parts) -> EmulsionState {
    let Some(water_share) = parts.share(Component::Water) else { return EmulsionState::Unknown };
    if is_dry(water_share) {
        let fats = Component::FATS.map(|fat| parts.grams(fat));
        return if fats.iter().flatten().any(|fat| fat.0 > 0.0) {
            EmulsionState::FatContinuous
        } else if fats.iter().all(Option::is_some) {
            EmulsionState::Dry
        } else {
            EmulsionState::Unknown
        };
    }
    volumes(parts).map_or(EmulsionState::Unknown, EmulsionState::Emulsion)
}

fn volumes(parts: &Parts) -> Option<Emulsion> {
    let syrup = Syrup::of(parts, HOT)?;
    let water_phase = water_phase_volume(parts, syrup.sucrose)?;
    let fat = parts.group(Group::TotalFat)?;
    Some(Emulsion {
        fat: fat / FAT_DENSITY,
        water_phase,
        insoluble: insoluble_volume(parts, &syrup)?,
        fat_to_water: (fat / syrup.water).0,
    })
}

fn insoluble_volume(parts: &Parts, syrup: &Syrup) -> Option<Millilitres> {
    let grams = |component| parts.grams(component);
    let particles = grams(Component::FatFreeCocoaSolids)?
        + grams(Component::OtherProtein)?
        + grams(Component::Starch)?
        + grams(Component::Fibre)?;
    Some(particles / INSOLUBLE_DENSITY + syrup.undissolved / SUCROSE_CRYSTAL_DENSITY)
}

/// Which share of each volume of an emulsion one line of it brings; zero of a volume that is not there.
///
/// `line` is what the bowl has of it ([`super::make_up::MakeUp::left_of`]), `whole` the bowl. The shares of all lines sum
/// to 1. `None` if a figure is not known, or if the mass is no emulsion.
#[must_use]
pub fn brought_by(line: &Parts, whole: &Parts) -> Option<Brought> {
    let all = emulsion(whole).emulsion()?;
    let in_whole = Syrup::of(whole, HOT)?;
    let syrup = in_whole.brought_by(line, whole)?;
    // In a mixture a gram takes the volume that it takes in the solution of the whole.
    let solids = solids_of_water_phase(whole, in_whole.sucrose)?;
    let share = |brought: Millilitres, all: Millilitres| {
        if all.0 > 0.0 { VolumeFraction((brought / all).0.clamp(0.0, 1.0)) } else { VolumeFraction(0.0) }
    };
    Some(Brought {
        fat: share(line.group(Group::TotalFat)? / FAT_DENSITY, all.fat),
        insoluble: share(insoluble_volume(line, &syrup)?, all.insoluble),
        water_phase: share(water_phase_volume_at(line, syrup.sucrose, solids)?, all.water_phase),
    })
}

/// The volume of the water phase: water, `dissolved_sucrose` and everything else of a mass that dissolves, with the milk
/// protein; `None` where one of these is not known.
///
/// 1/ρ = w_water/0.9982 + Σ w_i·v_i, so V = m_water/0.9982 + Σ m_i·v_i(w)
///
/// ρ in g/ml at 20 °C; w_i mass fraction of a solute in the water phase; v_i its specific volume in ml/g, for sucrose,
/// glucose, fructose and glycerol a function of w, the share of all dissolved solids in the water phase (ethanol is part
/// of the water phase, but none of its solids).
///
/// Source: `crc-solutions` (fitted: sucrose 5–84 %, glucose 5–60 %, fructose 5–48 %, glycerol 5–84 %); `makinen-2010` for
/// lactose, maltose and sorbitol; the others from memory, acids as maltose for want of a figure. Above the ranges w is
/// held at their upper end; below their lower end the formulas go on to w = 0, where they give the volume at infinite
/// dilution.
///
/// By hand: 58 g water, 60 g sucrose, 3 g lactose: w = 63/121 = 0.5207, v_sucrose = 0.62559,
/// V = 58/0.9982 + 60·0.62559 + 3·0.608 = 97.46 ml, ρ = 1.2415.
///
/// ```
/// # use nibwright::analysis::emulsion::water_phase_volume;
/// # use nibwright::analysis::parts::Parts;
/// # use nibwright::ingredient::{Component, Composition, CompositionError, Ingredient};
/// # use nibwright::units::Grams;
/// let per_100g = |grams: f64| grams / 121.0 * 100.0;
/// let of_syrup = [(Component::Water, 58.0), (Component::Sucrose, 60.0), (Component::Lactose, 3.0)];
/// let mut syrup = Ingredient::unknown("syrup", "Syrup");
/// syrup.composition = Composition::new(of_syrup.map(|(component, grams)| (component, per_100g(grams))), [], 0.0)?;
/// let mut parts = Parts::default();
/// parts.add(&syrup, Grams(121.0));
/// let volume = water_phase_volume(&parts, Grams(60.0)).unwrap();
/// assert!((volume.0 - 97.46).abs() < 0.005);
/// assert!((121.0 / volume.0 - 1.2415).abs() < 0.0001);
/// # Ok::<(), CompositionError>(())
/// ```
#[must_use]
pub fn water_phase_volume(parts: &Parts, dissolved_sucrose: Grams) -> Option<Millilitres> {
    water_phase_volume_at(parts, dissolved_sucrose, solids_of_water_phase(parts, dissolved_sucrose)?)
}

/// The share of all dissolved solids in the water phase, with the milk protein.
fn solids_of_water_phase(parts: &Parts, dissolved_sucrose: Grams) -> Option<MassFraction> {
    const BESIDE_SUCROSE: [Component; 10] = [
        Component::Glucose,
        Component::Fructose,
        Component::Lactose,
        Component::Maltose,
        Component::HigherSaccharides,
        Component::Polyols,
        Component::MilkMinerals,
        Component::Salt,
        Component::AcidsAshOther,
        Component::MilkProtein,
    ];
    let mut solids = dissolved_sucrose;
    for component in BESIDE_SUCROSE {
        solids += parts.grams(component)?;
    }
    let all = solids + parts.grams(Component::Water)? + parts.grams(Component::Ethanol)?;
    Some(if all.0 > 0.0 { solids / all } else { MassFraction::ZERO })
}

/// The volume of what goes into a water phase with `w` of dissolved solids.
fn water_phase_volume_at(parts: &Parts, dissolved_sucrose: Grams, w: MassFraction) -> Option<Millilitres> {
    let grams = |component| parts.grams(component).map(|grams| grams.0);
    let water = grams(Component::Water)?;
    let sucrose = dissolved_sucrose.0;
    let glucose = grams(Component::Glucose)?;
    let fructose = grams(Component::Fructose)?;
    let lactose = grams(Component::Lactose)?;
    let polyols = grams(Component::Polyols)?;
    let syrup = grams(Component::Maltose)? + grams(Component::HigherSaccharides)?;
    let ethanol = grams(Component::Ethanol)?;
    let milk_minerals = grams(Component::MilkMinerals)?;
    let salt = grams(Component::Salt)?;
    let acids = grams(Component::AcidsAshOther)?;
    let milk_protein = grams(Component::MilkProtein)?;
    let glycerol = parts.polyols_of_kind(Some(PolyolKind::Glycerol)).0;
    let disaccharides: Grams = [PolyolKind::Maltitol, PolyolKind::Isomalt, PolyolKind::Lactitol]
        .into_iter()
        .map(|kind| parts.polyols_of_kind(Some(kind)))
        .sum();
    let xylitol = parts.polyols_of_kind(Some(PolyolKind::Xylitol)).0;
    let erythritol = parts.polyols_of_kind(Some(PolyolKind::Erythritol)).0;
    // Sorbitol and its isomer mannitol, and polyols of which the kind is not known: sorbitol is what the trade uses most.
    let sorbitol = polyols - glycerol - disaccharides.0 - xylitol - erythritol;
    Some(Millilitres(
        water / WATER_DENSITY.0
            + sucrose * SUCROSE.at(w)
            + glucose * GLUCOSE.at(w)
            + fructose * FRUCTOSE.at(w)
            + glycerol * GLYCEROL.at(w)
            + lactose * LACTOSE_ML_PER_G
            + syrup * MALTOSE_AND_SYRUP_ML_PER_G
            + sorbitol * SORBITOL_ML_PER_G
            + disaccharides.0 * DISACCHARIDE_POLYOLS_ML_PER_G
            + xylitol * XYLITOL_ML_PER_G
            + erythritol * ERYTHRITOL_ML_PER_G
            + ethanol * ETHANOL_ML_PER_G
            + milk_minerals * MILK_MINERALS_ML_PER_G
            + salt * SALT_ML_PER_G
            + milk_protein * MILK_PROTEIN_ML_PER_G
            + acids * ACIDS_ML_PER_G,
    ))
}

/// How much fat a mass with a given water share holds before its droplets jam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RoomForFat {
    /// They begin to jam at this share of fat.
    UpTo(MassFraction),
    /// They never do: fat may fill all that water leaves.
    Any,
    /// The particles jam without any fat.
    None,
}

/// The fat share at which droplets begin to jam, for masses with a given water share and otherwise the solids of
/// this one.
///
/// The part that is neither fat nor water keeps its own proportions and fills the rest. Solved by false position, to a
/// billionth of the dispersed share.
/// `None` where figures are not known, where the mass has no fat, no water or nothing else, or where so little water
/// leaves no emulsion.
#[must_use]
pub fn jamming_fat_share(parts: &Parts, water_share: MassFraction) -> Option<RoomForFat> {
    const TOLERANCE: f64 = 1e-9;
    /// Bisection alone would need half as many.
    const MOST_STEPS: usize = 60;
    let water = parts.share(Component::Water)?;
    let fat = parts.group_share(Group::TotalFat)?;
    let rest = MassFraction(1.0) - water - fat;
    if water.0 <= 0.0 || fat.0 <= 0.0 || rest.0 <= 0.0 || is_dry(water_share) {
        return None;
    }
    let dispersed_at = |fat_share: f64| {
        let scaled =
            parts.with_factors(water_share.0 / water.0, fat_share / fat.0, (1.0 - water_share.0 - fat_share) / rest.0);
        volumes(&scaled).map(|emulsion| emulsion.dispersed_share())
    };
    let beyond = |fat_share: f64| dispersed_at(fat_share).map(|dispersed| dispersed.0 - JAMMING.0);
    let (mut low, mut high) = (0.0, 1.0 - water_share.0);
    let (mut at_low, mut at_high) = (beyond(low)?, beyond(high)?);
    if at_low >= 0.0 {
        return Some(RoomForFat::None);
    }
    if at_high <= 0.0 {
        return Some(RoomForFat::Any);
    }
    // False position; an end that stays twice loses half its weight, so that both ends close in (Illinois method).
    let mut stayed = None;
    for _ in 0..MOST_STEPS {
        let middle = (low * at_high - high * at_low) / (at_high - at_low);
        let at_middle = beyond(middle)?;
        if at_middle.abs() <= TOLERANCE || high - low <= TOLERANCE {
            return Some(RoomForFat::UpTo(MassFraction(middle)));
        }
        let is_low = at_middle < 0.0;
        if is_low {
            (low, at_low) = (middle, at_middle);
            at_high *= if stayed == Some(is_low) { 0.5 } else { 1.0 };
        } else {
            (high, at_high) = (middle, at_middle);
            at_low *= if stayed == Some(is_low) { 0.5 } else { 1.0 };
        }
        stayed = Some(is_low);
    }
    Some(RoomForFat::UpTo(MassFraction(f64::midpoint(low, high))))
}
