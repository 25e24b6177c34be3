//! What is put into a mass as seed, by the way that was chosen, and what becomes of it.

use super::material::{SeedMaterial, is_nearly_all};
use super::{ToSeed, lines};
use crate::analysis::fat::{FatPhase, Form};
use crate::analysis::fat_crystals::{Limits, fat_grams};
use crate::analysis::heat::{BlendCurve, Contents, Fat, Mix, Part, SolidFatCurve, SugarState, start_temperature};
use crate::analysis::parts::{Group, Parts};
use crate::analysis::seeding::{DoseClip, Window, habit_dose_of};
use crate::analysis::survival::{Fate, THERMOMETER_ERROR, cream_at, crystal_distance, fate};
use crate::analysis::{ROOM, is_below};
use crate::recipe::{CocoaButter, Quantity, SeedTemperature, SeedingWay};
use crate::units::{Celsius, Grams, MassFraction};

/// Chopped chocolate for each gram of mass: one third goes into two thirds (common practice, no published source).
pub const CHOPPED_PER_MASS: MassFraction = MassFraction(0.5);

/// How warm grated butter and chopped chocolate are unless it is said: a cool room (common practice, no published source).
pub const COLD_SEED: Celsius = ROOM;

/// Any mass will do where only shares are asked for.
pub(super) const SOME: Grams = Grams(100.0);

/// Small and large crystals of seed, m; from memory: 2 to 20 µm. Hardly ever known.
const CRYSTAL_DIAMETERS: [f64; 2] = [2e-6, 20e-6];

/// What changes by the seed: the groups that are shown.
const SHOWN_GROUPS: [Group; 4] = [Group::TotalFat, Group::CocoaButter, Group::Water, Group::Sugars];

/// What is put in, and what becomes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Seed {
    /// In which way.
    pub way: SeedingWay,
    /// What it is; `None` where the sheet does not say which chocolate is chopped.
    pub ingredient: Option<SeedIngredient>,
    /// How much of it is cocoa butter, which alone brings crystals of form V; `None` where that is not known.
    pub cocoa_butter: Option<MassFraction>,
    /// The mass is made of nothing else: some of it can be held back instead.
    pub is_the_mass: bool,
    /// How much is suggested; `None` where the crystals that it has are not known.
    pub suggested: Option<Grams>,
    /// The suggestion was held at an end of its range.
    pub clip: Option<DoseClip>,
    /// How much goes in; `None` where nobody says it and nothing can be suggested.
    pub grams: Option<Grams>,
    /// Who says so.
    pub amount_from: AmountFrom,
    /// How warm it is when it goes in.
    pub at: Celsius,
    /// Where cocoa butter is a cream of that share of crystals, in form V and in form VI; of a cream only.
    pub cream: Option<[Celsius; 2]>,
    /// Its crystals as a share of its fat, before, of a cream those of its cocoa butter; `None` where its fat is not known.
    pub solid: Option<MassFraction>,
    /// It is so warm that nothing of it is solid.
    pub is_melted: bool,
    /// How warm the mass is when it goes in; of chopped chocolate `None` where that is not known.
    pub put_in: Option<Window>,
    /// What becomes of it, put in at the best temperature; `None` where a figure is not known.
    pub after: Option<AfterMixing>,
    /// Limits and window of the mass once it is in, where a thermometer tells them from those without it.
    pub with_it: Option<WithSeed>,
    /// What the mass is made of without and with it.
    pub changes: Vec<Change>,
}

/// What counts once the seed is in: its fat has changed that of the mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WithSeed {
    /// Where the forms melt then.
    pub limits: Limits,
    /// Where it is worked then.
    pub window: Window,
}

impl Seed {
    /// Whether it is cocoa butter, which alone can be a cream of crystals.
    #[must_use]
    pub fn is_cocoa_butter(&self) -> bool {
        self.cocoa_butter.is_some_and(is_nearly_all)
    }

    /// Whether it is known to bring no crystals of form V, cold or warm: it holds no cocoa butter.
    #[must_use]
    pub fn has_no_cocoa_butter(&self) -> bool {
        self.cocoa_butter == Some(MassFraction::ZERO)
    }
}

/// What is put in.
#[derive(Clone, Debug, PartialEq)]
pub struct SeedIngredient {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
}

/// Who says how much seed goes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmountFrom {
    /// The suggestion.
    Suggestion,
    /// The maker's own amount.
    Maker,
    /// The line of the sheet.
    Sheet,
}

/// What becomes of seed that is stirred in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AfterMixing {
    /// The temperature once it is even.
    pub at: Celsius,
    /// The crystals that are left, as a share of all fat.
    pub crystals: MassFraction,
    /// The share of the seed's crystals that melts; `None` where it brings none.
    pub melted: Option<MassFraction>,
    /// What becomes of those that are left in time.
    pub fate: Option<Fate>,
    /// How far crystals are apart, m, for small and for large ones; `None` without crystals, and of chopped chocolate, whose
    /// crystals are not spread while they sit in the pieces.
    pub apart: Option<[f64; 2]>,
}

/// A share of the mass without and with the seed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// Of what.
    pub group: Group,
    /// Without.
    pub before: Option<MassFraction>,
    /// With.
    pub after: Option<MassFraction>,
}

/// The seed of a way; `None` for the way that needs none.
///
/// Weight: so much cocoa butter as the habit asks for, with the crystals that are in it where it works
/// (`seeding::habit_dose_of`), in as much seed as holds it; of chopped chocolate half of the mass, so that it is a third of the
/// whole. What becomes of it: the heat balance of `heat::Mix` with the fat of mass and seed blended; melting counts as immediate, crystallisation as too slow to matter.
///
/// Source: the models of this program; the amounts are common practice, no published source.
#[must_use]
pub fn seed(of: &ToSeed<'_>, way: SeedingWay, melt_out: (Celsius, Celsius)) -> Option<Seed> {
    let choice = of.recipe.seeding;
    let is_chosen = choice.way == way;
    let material = SeedMaterial::of(of.recipe, way)?;
    let (suggested, clip) = match way {
        SeedingWay::KeepTempered => return None,
        SeedingWay::ChoppedChocolate => (Some(of.seeding.bowl * CHOPPED_PER_MASS), None),
        SeedingWay::Cream | SeedingWay::Grated => match at_work(of, way, &material) {
            Some(AtWork { cocoa_butter, crystals }) => {
                let dose = habit_dose_of(of.fat_share(), of.recipe.intended_use, crystals);
                (Some(of.seeding.bowl * dose.share * (1.0 / cocoa_butter.0)), dose.clip)
            }
            None => (None, None),
        },
    };
    let own = choice.amount.map(Quantity::grams).filter(|amount| is_chosen && amount.0 > 0.0);
    let (grams, amount_from) = match (of.recipe.seed_in_sheet().filter(|_| is_chosen), own) {
        (Some(in_sheet), _) => (Some(in_sheet), AmountFrom::Sheet),
        (None, Some(own)) => (Some(own), AmountFrom::Maker),
        (None, None) => (suggested, AmountFrom::Suggestion),
    };
    let cocoa_butter = of.recipe.cocoa_butter;
    // Chocolate is no cream of crystals, but as warm as what it goes into.
    let is_chocolate =
        way == SeedingWay::Cream && material.cocoa_butter().is_some_and(|share| share.0 > 0.0 && !is_nearly_all(share));
    let is_cream = way == SeedingWay::Cream && !is_chocolate;
    let cream = is_cream.then(|| cream_of(cocoa_butter, choice.cream.share())).flatten();
    let usual = match cream {
        Some([five, six]) => Celsius(f64::midpoint(five.0, six.0)),
        None if is_chocolate => of.seeding.window.recommended,
        None => COLD_SEED,
    };
    let at = choice.temperature.filter(|_| is_chosen).map_or(usual, SeedTemperature::celsius);
    let own_fat = material.fat(cocoa_butter);
    let is_melted = own_fat
        .as_ref()
        .and_then(|fat| fat.melting_limit(Form::VI))
        .is_some_and(|limit| !crate::analysis::is_below(at.0, limit.0));
    let solid = match &own_fat {
        Some(_) if is_melted => Some(MassFraction::ZERO),
        Some(fat) => Some(solid_of(&material, fat, choice.cream.share(), way, at)),
        // Without any fat there are no crystals.
        None if material.has_no_cocoa_butter() => Some(MassFraction::ZERO),
        None => None,
    };
    let mut seed = Seed {
        way,
        ingredient: material.name(),
        cocoa_butter: material.cocoa_butter(),
        is_the_mass: material.is_all_of(lines(of.recipe)),
        suggested,
        clip,
        grams,
        amount_from,
        at,
        cream,
        solid,
        is_melted,
        put_in: (way != SeedingWay::ChoppedChocolate).then_some(of.seeding.window),
        after: None,
        with_it: None,
        changes: Vec::new(),
    };
    if let Some(grams) = grams.filter(|_| material.is_known()) {
        let mut whole = of.bowl.clone();
        material.add_to(&mut whole, grams);
        seed.changes = changes(of.bowl, &whole);
        let blend = Blend::of(&whole, cocoa_butter);
        if !material.has_no_cocoa_butter() {
            seed.with_it = blend.as_ref().and_then(|blend| with_seed(of, blend.limits));
        }
        let stirred = blend.and_then(|blend| Stirred::of(of, &material, blend, own_fat.as_ref(), &seed));
        if let Some(stirred) = stirred {
            if way == SeedingWay::ChoppedChocolate && !material.has_no_cocoa_butter() {
                seed.put_in = stirred.put_in(melt_out);
            }
            seed.after = seed.put_in.and_then(|put_in| stirred.after(put_in.recommended));
        }
    }
    Some(seed)
}

/// Crystals of a seed that is not melted, as a share of its fat: of a cream those that it was stated to have in its cocoa
/// butter, otherwise what is solid at its temperature. Without cocoa butter none of them are of form V.
fn solid_of(
    material: &SeedMaterial<'_>,
    fat: &FatPhase,
    cream: MassFraction,
    way: SeedingWay,
    at: Celsius,
) -> MassFraction {
    match way {
        _ if material.has_no_cocoa_butter() => MassFraction::ZERO,
        SeedingWay::Cream => MassFraction(cream.0 * fat.cocoa_butter_share().0),
        _ => fat.solid_fat(at).total(),
    }
}

/// Limits and window of the whole, where a thermometer tells them from those of the mass without seed.
fn with_seed(of: &ToSeed<'_>, limits: Limits) -> Option<WithSeed> {
    let (with, without) = (limits.form_v?, of.seeding.limits.form_v?);
    let is_seen = !is_below((with - without).0.abs(), THERMOMETER_ERROR.0);
    is_seen.then(|| WithSeed { limits, window: Window::below(with) })
}

/// The fat of mass and seed together.
struct Blend {
    phase: FatPhase,
    limits: Limits,
    fat: Grams,
}

impl Blend {
    fn of(whole: &Parts, cocoa_butter: CocoaButter) -> Option<Self> {
        let phase = FatPhase::new(&fat_grams(whole)?, cocoa_butter).ok()?;
        Some(Self { limits: Limits::of(&phase), phase, fat: whole.group(Group::TotalFat)? })
    }
}

/// What a seed is where it works.
struct AtWork {
    /// Its share of cocoa butter.
    cocoa_butter: MassFraction,
    /// Crystals for each gram of that.
    crystals: MassFraction,
}

/// What a seed is where it works: it has no more crystals than can live in its fat at the best temperature. `None` where that
/// is not known; where the seed has no cocoa butter, or nobody knows, tempered cocoa butter, which is suggested then.
fn at_work(of: &ToSeed<'_>, way: SeedingWay, material: &SeedMaterial<'_>) -> Option<AtWork> {
    let choice = of.recipe.seeding;
    let pure = SeedMaterial::cocoa_butter_of(of.recipe);
    let has_some = material.cocoa_butter().is_some_and(|share| share.0 > 0.0);
    let material = if has_some { material } else { &pure };
    let fat_share = material.parts(SOME).group_share(Group::TotalFat)?;
    let fat = material.fat(of.recipe.cocoa_butter)?;
    let cold = choice.temperature.filter(|_| choice.way == way).map_or(COLD_SEED, SeedTemperature::celsius);
    let solid = solid_of(material, &fat, choice.cream.share(), way, cold.max(of.seeding.window.recommended));
    let cocoa_butter = material.cocoa_butter().filter(|share| share.0 > 0.0)?;
    Some(AtWork { cocoa_butter, crystals: MassFraction(solid.0 * fat_share.0 / cocoa_butter.0) })
}

/// Where a cocoa butter is a cream of this share of crystals, in form V and in form VI.
fn cream_of(cocoa_butter: CocoaButter, solid: MassFraction) -> Option<[Celsius; 2]> {
    let cream = |form| cream_at(cocoa_butter, solid, form);
    Some([cream(Form::V)?, cream(Form::VI)?])
}

fn changes(bowl: &Parts, whole: &Parts) -> Vec<Change> {
    SHOWN_GROUPS
        .into_iter()
        .map(|group| Change { group, before: bowl.group_share(group), after: whole.group_share(group) })
        .filter(|change| change.after != Some(MassFraction::ZERO))
        .collect()
}

/// Mass and seed, ready to be stirred together.
struct Stirred {
    bowl: Contents,
    seed: Part,
    curve: BlendCurve,
    limits: Limits,
    window: Window,
    fat: Grams,
    brought: Grams,
    is_spread: bool,
}

impl Stirred {
    /// `None` where a figure of mass or seed is not known, or nothing goes in.
    fn of(
        of: &ToSeed<'_>,
        material: &SeedMaterial<'_>,
        blend: Blend,
        own_fat: Option<&FatPhase>,
        seed: &Seed,
    ) -> Option<Self> {
        let solid = seed.solid?;
        let parts = material.parts(seed.grams?);
        let contents = Contents::from_parts(&parts, SugarState::usual(&parts)?).ok()?;
        let mut part = Part::new(&contents, seed.at).ok()?;
        match own_fat {
            // What is no cocoa butter brings none of form V, and a melted seed none at all.
            Some(own_fat) if solid.0 > 0.0 && seed.way == SeedingWay::Cream => {
                let share = MassFraction(solid.0 / own_fat.cocoa_butter_share().0);
                part = part.with_crystals(Fat::CocoaButter, share).ok()?;
            }
            Some(own_fat) if solid.0 > 0.0 => {
                let own = BlendCurve::new(Some(own_fat.clone()));
                for fat in Fat::ALL {
                    part = part.with_crystals(fat, own.solid(fat, seed.at)).ok()?;
                }
            }
            _ => {}
        }
        let brought = Fat::ALL.into_iter().map(|fat| part.crystals(fat)).sum();
        Some(Self {
            bowl: Contents::from_parts(of.bowl, SugarState::usual(of.bowl)?).ok()?,
            seed: part,
            curve: BlendCurve::new(Some(blend.phase)),
            limits: blend.limits,
            window: seed.with_it.map_or(of.seeding.window, |with| with.window),
            fat: blend.fat,
            brought,
            is_spread: seed.way != SeedingWay::ChoppedChocolate,
        })
    }

    fn after(&self, bowl_at: Celsius) -> Option<AfterMixing> {
        let bowl = Part::new(&self.bowl, bowl_at).ok()?;
        let end = Mix::new([bowl, self.seed.clone()]).mixed(&self.curve).ok()?.at_once;
        let left: Grams = end.crystals.into_iter().sum();
        let crystals = left / self.fat;
        let apart = |diameter| crystal_distance(crystals, diameter, end.temperature);
        Some(AfterMixing {
            at: end.temperature,
            crystals,
            melted: end.melted,
            fate: (self.brought.0 > 0.0).then(|| fate(&self.limits, &self.window, end.temperature)).flatten(),
            apart: match CRYSTAL_DIAMETERS.map(apart) {
                [Some(small), Some(large)] if self.is_spread => Some([small, large]),
                _ => None,
            },
        })
    }

    /// How warm the mass is when cold chocolate goes in: at the lower end the whole comes to the best temperature of the window,
    /// at the upper as near to the limit as a thermometer allows, but the mass no hotter than it was melted.
    fn put_in(&self, melt_out: (Celsius, Celsius)) -> Option<Window> {
        let mix = Mix::new([Part::new(&self.bowl, self.window.recommended).ok()?, self.seed.clone()]);
        let start = |end: Celsius| start_temperature(&mix, 0, end, &self.curve).ok();
        let most = start(self.limits.form_v? - THERMOMETER_ERROR)?.min(melt_out.1);
        let least = start(self.window.recommended)?.min(most);
        Some(Window { min: least, recommended: Celsius(f64::midpoint(least.0, most.0)), max: most })
    }
}
