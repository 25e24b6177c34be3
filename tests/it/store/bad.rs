//! One file for each thing that can be wrong in it, with the sentence that it gets.

use std::fs;
use std::path::Path;

use super::{FILES, load};

#[test]
fn every_bad_file_gets_its_sentence_and_stays_as_it_is() {
    let folder = Path::new(FILES).join("bad");
    for (name, sentence) in SENTENCES {
        let path = folder.join(name).with_extension("ron");
        let before = fs::read(&path).expect("the sample is there");
        assert_eq!(load(&path).err().as_deref(), Some(format!("{name}.ron:{sentence}").as_str()));
        assert_eq!(fs::read(&path).expect("the sample is there"), before);
    }
}

#[test]
fn every_bad_file_has_its_sentence_here() {
    let mut names: Vec<String> = fs::read_dir(Path::new(FILES).join("bad"))
        .expect("the folder is there")
        .map(|entry| entry.expect("an entry").path().file_stem().expect("a name").to_string_lossy().into_owned())
        .collect();
    names.sort();
    assert_eq!(names, SENTENCES.map(|(name, _)| name));
}

/// File (without `.ron`) and sentence (without the file), by name of file.
const SENTENCES: [(&str, &str); 111] = [
    ("after-the-end", "2:1: `)` closes nothing; remove it or add the opening bracket"),
    ("amount-empty", "6:43: write a number here instead of `)`"),
    ("amount-infinite", "6:43: the amount is not a finite number; give a weight such as 250"),
    ("amount-missing", "6:9: the field `amount` is missing in the entry that begins here; add `amount: …`"),
    ("amount-nan", "6:43: the amount is not a finite number; give a weight such as 250"),
    ("amount-negative", "6:43: the amount -20 is negative; give a weight of 0 or more"),
    ("amount-negative-tiny", "6:43: the amount -1e-300 is negative; give a weight of 0 or more"),
    ("amount-overflows", "6:43: the amount is not a finite number; give a weight such as 250"),
    ("amount-text", r#"6:43: write a number here instead of `"20"`"#),
    ("amount-too-large", "6:43: the amount is over 1,000 tonnes; check the number and its unit"),
    ("amount-twice", "6:47: the field `amount` is given twice; remove one of them"),
    ("bowl-mass-missing", "7:20: the field `amount` is missing in the entry that begins here; add `amount: …`"),
    ("bowl-mass-negative", "7:46: the amount -300 is negative; give a weight of 0 or more"),
    (
        "bowl-material-unknown",
        "7:31: `copper` is not known here; known are `steel`, `aluminium`, `glass`, `polycarbonate` and `polypropylene`",
    ),
    ("bowl-too-hot", "7:60: nothing is mixed at 200 °C; give a temperature from 0 to 110 °C"),
    ("bracket-missing", "7:5: `]` closes nothing here; first close the `(` that was opened at 6:9"),
    ("bracket-too-many", "6:46: `)` closes nothing here; first close the `[` that was opened at 4:12"),
    (
        "cocoa-butter-field-unknown",
        "3:32: there is no field `pops` here, `pop` is nearest; known are `pop`, `pos`, `sos`, `soa`, `trisaturated`, `other`, `diglycerides_percent` and `free_fatty_acids_percent`",
    ),
    ("cocoa-butter-figure-missing", "3:22: the field `sos` is missing in the entry that begins here; add `sos: …`"),
    ("cocoa-butter-negative", "3:46: sos is -27; it must be a number that is not negative"),
    (
        "cocoa-butter-too-large",
        "3:19: the triglycerides are too large to be added up; enter them in a common unit such as wt%",
    ),
    ("colon-missing", "6:42: write a colon after the name of the field here instead of `=`"),
    ("comma-missing", "6:34: a comma or the closing bracket is missing before `amount`; add it"),
    ("comma-missing-between-lines", "7:9: a comma or the closing bracket is missing before `(`; add it"),
    ("comma-twice", "6:46: there is nothing before this comma; remove it"),
    ("comment-open", "6:9: the file ends before the comment opened here is closed; add `*/`"),
    (
        "composition-does-not-sum",
        r#"9:43: ingredient "b": the parts sum to 95.00 g per 100 g, not 100 ± 0.2; correct them, name what is not known in `unknown`, or state what the data sheet leaves open as `unassigned`"#,
    ),
    (
        "composition-far-too-much",
        r#"9:43: ingredient "b": the parts sum to 2e300 g per 100 g, not 100 ± 0.2; correct them, name what is not known in `unknown`, or state what the data sheet leaves open as `unassigned`"#,
    ),
    (
        "composition-known-and-unknown",
        r#"9:61: ingredient "b": salt has a figure and stands in `unknown` too; keep one of them"#,
    ),
    (
        "composition-missing",
        "9:9: the field `composition` is missing in the entry that begins here; add `composition: …`",
    ),
    ("composition-nan", r#"9:51: ingredient "b": water is not a finite number; correct it"#),
    ("composition-negative", r#"14:23: ingredient "b": salt is -1 g per 100 g; it cannot be negative"#),
    (
        "composition-part-unknown",
        "9:44: there is no field `watr` here, `water` is nearest; known are `water`, `cocoa_butter`, `milk_fat`, `other_fat`, `sucrose`, `glucose`, `fructose`, `lactose`, `maltose`, `higher_saccharides`, `polyols`, `fat_free_cocoa_solids`, `milk_protein`, `milk_minerals`, `other_protein`, `starch`, `fibre`, `ethanol`, `salt`, `acids_ash_other`, `unassigned` and `unknown`",
    ),
    (
        "composition-too-much",
        r#"9:43: ingredient "b": the known parts already sum to 115.00 g per 100 g; correct them"#,
    ),
    ("composition-unassigned", r#"9:56: ingredient "b": unassigned is 101 g per 100 g; it must lie between 0 and 100"#),
    ("composition-unknown-names-nothing", r#"9:74: `unknown` names "milkfat", which is no component; correct it"#),
    ("composition-unknown-twice", r#"9:89: `unknown` names "fibre" twice; correct it"#),
    ("cook-and-estimate", "8:14: `liquid_is` and `cook_to` both say what evaporates; keep one of them"),
    ("cook-and-water", "8:23: `cook_to` and `evaporated_water` both say what evaporates; keep one of them"),
    ("cook-celsius-missing", "7:14: the field `celsius` is missing in the entry that begins here; add `celsius: …`"),
    ("cook-height", "7:41: no kitchen lies at 8848 m; give a height above the sea from -430 to 5100 m"),
    ("cook-nan", "7:24: a mass is not cooked to NaN °C; give a temperature from 0 to 200 °C"),
    ("cook-too-hot", "7:24: a mass is not cooked to 250 °C; give a temperature from 0 to 200 °C"),
    ("decimal-comma", "6:45: write a decimal point here instead of a comma"),
    ("empty", "1:1: the file is empty; it should begin with `(format: 1,`"),
    ("escape-unknown", r"6:54: a backslash sequence in this text is not known; write `\\` for a backslash itself"),
    ("estimate-unknown", "7:16: `hot` is not known here; known are `boiled` and `warmed`"),
    ("extension-unknown", "1:11: the extension `explicit_everything` is not known; remove it from this line"),
    (
        "field-unknown",
        "6:35: there is no field `ammount` here, `amount` is nearest; known are `ingredient`, `recipe`, `amount`, `unit`, `note`, `locked`, `seed`, `celsius` and `fat`",
    ),
    (
        "field-unknown-far",
        "6:47: there is no field `price_per_kilogram` here; known are `ingredient`, `recipe`, `amount`, `unit`, `note`, `locked`, `seed`, `celsius` and `fat`",
    ),
    (
        "format-far-newer",
        "2:13: the file has format 99999999999999999999, this version knows up to format 1; open it with a newer version",
    ),
    ("format-missing", "2:1: the file does not say its format; add `format: 1,` after the first bracket"),
    ("format-newer", "2:13: the file has format 2, this version knows up to format 1; open it with a newer version"),
    ("format-word", r#"1:10: the format `"1"` does not exist; write `format: 1`"#),
    ("format-zero", "1:10: the format `0` does not exist; write `format: 1`"),
    (
        "ingredient-category-unknown",
        "9:40: `milk` is not known here; known are `couverture`, `gianduja`, `cocoa`, `dairy`, `egg`, `sugar`, `polyol`, `fibre`, `nut`, `nut_paste`, `fat_oil`, `fruit`, `fruit_sugared`, `fruit_dried`, `spirit`, `coffee_tea`, `spice`, `additive`, `cereal`, `water` and `own`",
    ),
    ("ingredient-density-zero", r#"9:75: ingredient "b": density_g_per_ml is 0; it must be a number above zero"#),
    (
        "ingredient-figure-infinite",
        r#"9:68: ingredient "b": energy_kj is inf; it must be a number that is not negative"#,
    ),
    ("ingredient-figure-negative", r#"9:61: ingredient "b": ph is -7; it must be a number that is not negative"#),
    ("ingredient-figure-tiny", r#"9:61: ingredient "b": ph is -1e-300; it must be a number that is not negative"#),
    ("ingredient-id-empty", r#"9:14: ingredient " ": its id is empty; give it one, lower-case words with hyphens"#),
    (
        "ingredient-id-letters",
        r#"9:14: ingredient "Q q!": an id is made of lower-case letters, digits and single hyphens between them; write "q-q""#,
    ),
    ("ingredient-twice", r#"9:14: the ingredient "a" is given twice; remove one of them or change its id"#),
    (
        "ingredient-unknown",
        r#"8:25: the ingredient "craem-30" is neither in this file nor built in; nearest are "cream-30", "cream-35" and "cream-36", write one of them or add it under `ingredients`"#,
    ),
    ("ingredient-unquoted", "6:22: write a text in quotes here instead of `butter-82`"),
    (
        "kind-unknown",
        "3:11: `ganashe` is not known here, `ganache` is nearest; known are `ganache`, `praline`, `chocolate`, `caramel`, `mousse_base` and `other`",
    ),
    ("latin-1", "3:13: this is not UTF-8 text; save the file as UTF-8 in your editor"),
    ("line-celsius", "5:56: nothing is mixed at 180 °C; give a temperature from 0 to 110 °C"),
    ("line-double", "6:43: the line names both an ingredient and a recipe; keep one of them"),
    ("line-empty", r#"6:9: the line names nothing; add `ingredient: "…"` or `recipe: "….ron"`"#),
    (
        "line-fat-unknown",
        "5:65: `frozen` is not known here; known are `by_temperature`, `solid`, `melted` and `tempered`",
    ),
    ("line-number", "6:9: write an entry in `(` and `)` here instead of `20`"),
    ("line-recipe-blank", r#"6:18: the line names nothing; add `ingredient: "…"` or `recipe: "….ron"`"#),
    ("line-without-names", r#"6:10: write the name of a field and a colon here instead of `"butter-82"`"#),
    ("lines-missing", "1:1: the field `lines` is missing in the entry that begins here; add `lines: …`"),
    ("locked-word", "6:55: write `true` or `false` here instead of `yes`"),
    ("loss-nan", "7:28: the transfer loss is NaN %; give 0 or more, below 100"),
    ("loss-whole", "7:28: the transfer loss is 100 %; give 0 or more, below 100"),
    (
        "mixing-field-unknown",
        "7:14: there is no field `wanted` here; known are `wanted_celsius`, `bowl` and `stirred_minutes`",
    ),
    ("mixing-stirred-for-hours", "7:31: a mix is not stirred for 600 minutes; give a number from 0 to 120"),
    ("mixing-wanted-nan", "7:30: nothing is mixed at NaN °C; give a temperature from 0 to 110 °C"),
    ("name-number", "3:11: write a text in quotes here instead of `5`"),
    ("nested-deeply", "3:75: brackets are nested more than 64 deep here; a recipe needs five levels, remove the rest"),
    ("no-brackets", "1:1: write a recipe, `(format: 1, …)`, here instead of `format`"),
    ("only-a-comment", "1:1: the file is empty; it should begin with `(format: 1,`"),
    ("other-struct", "1:1: write an entry in `(` and `)` here instead of `Cake`"),
    ("ph-too-high", "7:9: a pH of 15 does not occur in food; give a number from 0 to 14"),
    ("pieces-half", "7:15: only a whole number can stand here; remove `.5`"),
    ("pieces-negative", "7:13: write a whole number from 0 to 4294967295 here instead of `-12`"),
    ("prose", "1:1: write a recipe, `(format: 1, …)`, here instead of `Dark`"),
    ("quote-missing", r#"6:21: the file ends before the text opened here is closed; add `"`"#),
    ("quote-missing-before-another", "4:53: a comma is missing before `cold`, or a quote before that; add it"),
    ("seeding-cream-too-thick", "7:33: cocoa butter with 60 % crystals is no cream; give 5 to 50"),
    ("seeding-seed-too-warm", "7:37: no seed is kept at 99 °C; give a temperature from 0 to 60"),
    ("setting-air-missing", "7:14: the field `air_c` is missing in the entry that begins here; add `air_c: …`"),
    (
        "setting-piece-unknown",
        "7:22: `fram` is not known here, `frame` is nearest; known are `frame`, `bar`, `half_sphere`, `cup`, `ball`, `coat` and `bowl`",
    ),
    ("setting-thickness", "7:42: no piece measures 500 mm; give a length from 0.5 to 300 mm"),
    ("setting-too-hot", "7:37: 85 °C is outside of what is computed; give a temperature from 0 to 60 °C"),
    (
        "shell-unknown",
        r#"7:82: the ingredient "couverture-darck" is neither in this file nor built in; nearest are "couverture-dark-55", "couverture-dark-60" and "couverture-dark-64", write one of them or add it under `ingredients`"#,
    ),
    ("step-before", "8:33: the time of -1 minutes does not exist; give 0 or more"),
    ("step-too-cold", "9:33: the temperature -300 °C does not exist; give a number from -273.15 on"),
    ("storage-humidity", "7:58: air has no humidity of 130 %; give a number above 0, up to 100"),
    (
        "top-field-unknown",
        "7:5: there is no field `yield` here; known are `format`, `name`, `kind`, `use`, `cocoa_butter`, `note`, `lines`, `evaporated_water`, `liquid_is`, `cook_to`, `transfer_loss_percent`, `mixing`, `ph`, `seeding`, `pieces`, `steps`, `setting`, `storage` and `ingredients`",
    ),
    ("two-recipes", "2:1: nothing may follow the last bracket; remove `(` and what comes after it"),
    ("unit-in-amount", "6:46: a comma or the closing bracket is missing before `g`; add it"),
    ("unit-quoted", r#"6:53: write a word without quotes here instead of `"kg"`"#),
    ("unit-unknown", "6:53: `Kg` is not known here, `kg` is nearest; known are `g`, `kg`, `oz` and `lb`"),
    (
        "use-unknown",
        "3:10: `table_decoration` is not known here; known are `cut`, `moulded`, `piped`, `spread`, `whipped`, `bar`, `thick_bar`, `shell` and `thin_coat`",
    ),
    ("utf-16", "1:1: this is not UTF-8 text; save the file as UTF-8 in your editor"),
    ("water-negative", "7:32: the amount -1 is negative; give a weight of 0 or more"),
    ("water-number", "7:23: write an entry in `(` and `)` here instead of `20`"),
];
