//! The usual cautions: shown where the work can hurt someone, with the words of the law where it has some.

use nibwright::analysis::finding::Finding;
use nibwright::ingredient::Component;
use nibwright::number::DecimalSign;
use nibwright::recipe::Kind;
use nibwright::report::words;

use crate::support::{analysis_of, codes, finding, made_for, own, recipe, recipe_of};

fn said(finding: &Finding) -> String {
    words::finding(finding, DecimalSign::Point).joined()
}

/// Regulation (EU) 1169/2011, Annex II: the wording of the allergens. Each stands once, in the order of the recipe.
#[test]
fn allergens_are_named_in_the_words_of_the_law() {
    let mass =
        recipe(&[("couverture-milk-40", 300.0), ("hazelnut-paste", 100.0), ("cream-35", 100.0), ("egg-yolk", 0.0)]);
    let analysis = analysis_of(&mass);
    let words = said(finding(&analysis, "caution.allergens"));
    assert!(words.contains("Contains allergens: Milk, Soybeans, Nuts (hazelnuts)."), "{words}");
    assert!(!words.contains("Not known") && !words.contains("Eggs"), "{words}");
    assert!(!codes(&analysis_of(&recipe(&[("sucrose", 100.0)]))).contains(&"caution.allergens"));
}

#[test]
fn allergens_that_are_not_known_are_not_none() {
    let mass = recipe_of(&[(own("paste", &[(Component::Sucrose, 100.0)]), 100.0)]);
    let words = said(finding(&analysis_of(&mass), "caution.allergens"));
    assert!(words.contains("not known of every ingredient") && words.contains("Not known: paste"), "{words}");
}

/// Regulation (EU) 1169/2011, Annex III: more than 10 % added polyols.
#[test]
fn polyols_are_told_above_ten_percent() {
    for (sorbitol, is_told) in [(10.0, false), (10.2, true), (30.0, true)] {
        let mass = recipe_of(&[
            (own("polyol", &[(Component::Polyols, 100.0)]), sorbitol),
            (own("rest", &[(Component::Sucrose, 100.0)]), 100.0 - sorbitol),
        ]);
        assert_eq!(codes(&analysis_of(&mass)).contains(&"caution.polyols"), is_told, "{sorbitol} %");
    }
}

#[test]
fn whole_nuts_raw_egg_alcohol_and_hot_sugar_have_their_caution() {
    let all = made_for(
        recipe(&[("hazelnut-roasted", 50.0), ("egg-yolk", 20.0), ("rum-40", 20.0), ("sucrose", 100.0)]),
        Kind::Caramel,
        None,
    );
    let of_all = codes(&analysis_of(&all));
    for code in ["caution.choking", "caution.raw_egg", "caution.alcohol", "caution.hot_sugar"] {
        assert!(of_all.contains(&code), "{code}");
    }
    let none = codes(&analysis_of(&recipe(&[("hazelnut-paste", 100.0), ("sucrose", 100.0)])));
    assert!(!none.iter().any(|code| code.starts_with("caution.") && *code != "caution.allergens"), "{none:?}");
}
