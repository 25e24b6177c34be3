//! Drawings as files: well-formed, complete, readable by other programs.

use crate::analysis::{ROOM, analyse};
use crate::ingredient::{Component, Composition, Library};
use crate::number::DecimalSign;
use crate::recipe::{Quantity, Recipe};
use crate::report::figure::{AxisRange, Curve, Figure, Level, Mark, Region, Role, Rule, Side};
use crate::report::{figures, svg};
use crate::units::Grams;

use super::*;

fn figure() -> Figure {
    let x = AxisRange { label: "temperature, °C", from: 5.0, to: 40.0, step: 5.0 };
    let y = AxisRange { label: "solid fat, % of fat", from: 0.0, to: 100.0, step: 25.0 };
    Figure {
        hue: Hue::CocoaButter,
        regions: vec![Region::band("seeding window", Role::Window, 25.8, 29.6, &y)],
        curves: vec![
            Curve::new("cocoa butter alone", Role::Reference, [[0.0, 95.0], [34.0, 0.0]]),
            Curve::new("this <mass> & \"others\"", Role::Now, [[5.0, 80.0], [30.0, 0.0]]),
            Curve::new("pinned", Role::Pinned, [[5.0, 70.0], [28.0, 0.0]]),
        ],
        levels: vec![Level { label: "half & half".to_owned(), at: 50.0, is_label_left: true, is_label_below: true }],
        rules: vec![Rule { label: "form V limit 29.8".to_owned(), role: Role::Limit, at: 29.8 }],
        marks: vec![Mark {
            label: "44 % at 20.0 °C".to_owned(),
            role: Role::Now,
            at: [20.0, 44.0],
            side: Side::LeftBelow,
        }],
        in_words: "44 % solid at 20.0 °C".to_owned(),
        x,
        y,
    }
}

struct Element {
    name: String,
    attributes: Vec<(String, String)>,
    text: String,
}

/// The elements of a well-formed document with their attributes and text, in order; panics at the first fault.
///
/// Only what the writer can write: no comments, no CDATA, no document type.
fn elements(xml: &str) -> Vec<Element> {
    let text_of = |raw: &str| {
        assert!(!raw.contains('>'), "{raw}");
        for after in raw.split('&').skip(1) {
            assert!(["amp;", "lt;", "gt;", "quot;"].iter().any(|name| after.starts_with(name)), "&{after}");
        }
        raw.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&")
    };
    let mut rest = xml.strip_prefix("<?xml version=\"1.0\" encoding=\"UTF-8\"?>").expect("a head");
    let (mut open, mut found) = (Vec::<usize>::new(), Vec::<Element>::new());
    while let Some(start) = rest.find('<') {
        let text = text_of(&rest[..start]);
        if let Some(&inner) = open.last() {
            found[inner].text += &text;
        } else {
            assert!(text.trim().is_empty(), "text outside: {text}");
        }
        let end = start + rest[start..].find('>').expect("a tag has an end");
        let tag = &rest[start + 1..end];
        rest = &rest[end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            let place = open.pop().expect("something is open");
            assert_eq!(found[place].name, name);
            continue;
        }
        assert!(!open.is_empty() || found.is_empty(), "two roots");
        let (tag, is_empty) = tag.strip_suffix('/').map_or((tag, false), |tag| (tag, true));
        let (name, mut rest) = tag.split_once(' ').unwrap_or((tag, ""));
        let mut attributes = Vec::new();
        while !rest.trim().is_empty() {
            let (key, value) = rest.trim_start().split_once("=\"").expect("an attribute");
            let (value, after) = value.split_once('"').expect("a value has an end");
            assert!(attributes.iter().all(|(other, _)| other != key), "{key} twice");
            attributes.push((key.to_owned(), text_of(value)));
            rest = after;
        }
        if !is_empty {
            open.push(found.len());
        }
        found.push(Element { name: name.to_owned(), attributes, text: String::new() });
    }
    assert!(open.is_empty() && rest.trim().is_empty(), "{rest}");
    found
}

fn texts(xml: &str) -> Vec<String> {
    elements(xml).into_iter().filter(|element| element.name == "text").map(|element| element.text).collect()
}

#[test]
fn a_plot_is_a_well_formed_file_with_every_name_in_it() {
    let drawing = of_figure("Dark <cut> & \"ganache\"", "Solid fat", &figure(), DecimalSign::Point);
    let file = svg::write(&drawing);
    let elements = elements(&file);
    let attributes = &elements[0].attributes;
    assert_eq!(elements[0].name, "svg");
    for (key, value) in [
        ("xmlns", "http://www.w3.org/2000/svg"),
        ("version", "1.1"),
        ("width", "760"),
        ("height", "596"),
        ("viewBox", "0 0 760 596"),
        ("font-family", "Lato, sans-serif"),
    ] {
        assert!(attributes.contains(&(key.to_owned(), value.to_owned())), "{key}: {attributes:?}");
    }
    assert_eq!(
        (elements[1].name.as_str(), elements[1].text.as_str()),
        ("title", "Dark <cut> & \"ganache\" – Solid fat")
    );
    assert_eq!((elements[2].name.as_str(), elements[2].text.as_str()), ("desc", "44 % solid at 20.0 °C"));
    let texts = texts(&file);
    for words in [
        "Dark <cut> & \"ganache\"",
        "Solid fat",
        "temperature, °C",
        "solid fat, % of fat",
        "seeding window",
        "cocoa butter alone",
        "this <mass> & \"others\"",
        "pinned",
        "form V limit 29.8",
        "44 % at 20.0 °C",
        "5",
        "40",
        "75",
    ] {
        assert!(texts.iter().any(|text| text == words), "{words}: {texts:?}");
    }
}

/// Without colours, as on a black-and-white printer, lines still differ.
#[test]
fn lines_of_different_roles_have_different_dashes() {
    let file = svg::write(&of_figure("", "", &figure(), DecimalSign::Point));
    let dashes: Vec<String> = elements(&file)
        .into_iter()
        .filter(|element| element.name == "polyline")
        .map(|element| {
            let dashes = element.attributes.into_iter().find(|(key, _)| key == "stroke-dasharray");
            dashes.map_or(String::new(), |(_, value)| value)
        })
        .collect();
    for dash in ["5 3", "9 7", "1.5 3", ""] {
        assert!(dashes.iter().any(|other| other == dash), "{dash}: {dashes:?}");
    }
}

/// On the screen as on paper: where an emulsion holds is green, what is usual is grey and dashed.
#[test]
fn what_is_usual_looks_different_from_where_an_emulsion_holds() {
    let mut figure = figure();
    figure.regions = vec![
        Region::rectangle("oil-in-water holds", Role::Window, [10.0, 30.0], [20.0, 60.0]),
        Region::rectangle("usual", Role::Usual, [15.0, 20.0], [30.0, 40.0]),
    ];
    (figure.curves, figure.rules) = (Vec::new(), Vec::new());
    let drawing = of_figure("", "", &figure, DecimalSign::Point);
    let fills = |shapes: &[Shape]| -> Vec<Colour> {
        shapes
            .iter()
            .filter_map(|shape| if let Shape::Area { colour, .. } = shape { Some(*colour) } else { None })
            .collect()
    };
    let dashes = |shapes: &[Shape]| {
        shapes.iter().filter(|shape| matches!(shape, Shape::Line { pen, .. } if pen.dashes == Some([5.0, 3.0]))).count()
    };
    let inside = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Clipped { shapes, .. } => Some(shapes.as_slice()),
        _ => None,
    });
    // In the plot and in the legend.
    for shapes in [inside.expect("a plot"), &drawing.shapes] {
        assert_eq!(fills(shapes), [Colour::GREEN, Colour::QUIET]);
        assert_eq!(dashes(shapes), 1);
    }
}

#[test]
fn what_is_no_number_does_not_reach_the_file() {
    let mut figure = figure();
    figure.rules[0].at = f64::NAN;
    figure.marks[0].at = [f64::INFINITY, 1.0];
    figure.x.to = figure.x.from;
    let file = svg::write(&of_figure("", "", &figure, DecimalSign::Point));
    assert!(!file.contains("NaN") && !file.contains("inf"), "{file}");
    assert!(!texts(&file).iter().any(|text| text.contains("form V limit")));
    elements(&file);
}

#[test]
fn signs_that_a_file_cannot_hold_become_blanks() {
    let file = svg::write(&of_figure("a\u{0}b\u{1b}c\u{ffff}d", "", &figure(), DecimalSign::Point));
    assert_eq!(elements(&file)[1].text, "a b c d – ");
}

fn ganache() -> Recipe {
    let library = Library::built_in();
    let mut recipe = Recipe { name: "Ganache".to_owned(), ..Recipe::default() };
    for (id, grams) in [("couverture-dark-64", 400.0), ("cream-35", 200.5)] {
        let ingredient = library.by_id(id).expect("it is built in").clone();
        recipe.push(ingredient, Quantity::from_grams(grams).expect("an amount"));
    }
    recipe
}

/// By hand: cream with 35 % fat, 200.5 g, brings 70.175 g of milk fat.
#[test]
fn bars_show_every_line_with_its_parts() {
    let recipe = ganache();
    let analysis = analyse(&recipe, ROOM);
    let pinned = [Some(Grams(380.0)), None];
    let bars = figures::composition_by_line(&recipe, &analysis, Some(&pinned), DecimalSign::Comma).expect("bars");
    let cream = &bars.bars[1];
    assert_eq!(cream.figure, "201 g, pinned –");
    let fat = cream.parts.iter().find(|part| part.hue == Hue::MilkFat).expect("cream has fat");
    assert!((fat.value - 70.175).abs() < 0.01 && fat.figure == "70,2", "{fat:?}");
    for bar in &bars.bars {
        let sum: f64 = bar.parts.iter().map(|part| part.value).sum();
        assert!((sum - bar.total).abs() < 1e-9, "{bar:?}");
    }
    let file = svg::write(&of_bars("Ganache", "Who brings what", &bars, DecimalSign::Comma));
    let texts = texts(&file);
    for line in &recipe.lines {
        assert!(texts.contains(&line.ingredient.name), "{texts:?}");
    }
    for words in ["400 g, pinned 380 g", "70,2", "fat-free cocoa", "pinned", "grams in the batch"] {
        assert!(texts.iter().any(|text| text == words), "{words}: {texts:?}");
    }
    assert!(bars.in_words.contains("milk fat 70,2 g"), "{}", bars.in_words);
}

#[test]
fn nothing_weighed_gives_no_bars_and_what_is_not_known_is_said() {
    let empty = Recipe::default();
    assert_eq!(figures::composition_by_line(&empty, &analyse(&empty, ROOM), None, DecimalSign::Point), None);
    let mut recipe = ganache();
    let mut unknown = (*recipe.lines[1].ingredient).clone();
    unknown.composition = Composition::new([(Component::MilkFat, 35.0)], [Component::Water], 0.0).expect("it closes");
    recipe.lines[1].ingredient = unknown.into();
    let bars = figures::composition_by_line(&recipe, &analyse(&recipe, ROOM), None, DecimalSign::Point).expect("bars");
    assert_eq!(bars.bars[1].figure, "201 g · not known: water, other solids");
    assert!(bars.bars[1].parts.iter().all(|part| part.hue != Hue::Water));
}

#[test]
fn words_that_are_too_long_are_cut_and_marked() {
    assert_eq!(shortened("cream", 10.0, 100.0), "cream");
    let long = shortened(&"couverture ".repeat(20), 10.0, 100.0);
    assert!(long.starts_with("couverture") && long.ends_with('…') && width_of(&long, 10.0) <= 100.0, "{long}");
}

#[test]
fn a_legend_breaks_its_rows_inside_the_paper() {
    let mut figure = figure();
    for place in 0..20 {
        figure.curves.push(Curve::new(format!("a curve with the number {place}"), Role::Reference, []));
    }
    let drawing = of_figure("", "", &figure, DecimalSign::Point);
    for shape in &drawing.shapes {
        if let Shape::Words(words) = shape {
            assert!(words.at[1] < drawing.size[1], "{words:?}");
            let is_at_start = words.anchor == Anchor::Start;
            assert!(!is_at_start || words.at[0] + width_of(&words.text, words.size) <= WIDTH, "{words:?}");
        }
    }
}
