//! What panels make of the text in a field for a figure: the number behind it, and the edit that follows.
//!
//! Which figures are possible is decided by the types of the recipe; amounts with their unit are read by
//! [`super::lines::parse_quantity`].

use crate::document::Edit;
use crate::number::parse_expression;
use crate::ui::view::Action;
use crate::ui::widgets::number_cell::NumberEvent;

/// How a temperature may be typed.
pub(super) const DEGREES: &[&str] = &["°C", "°"];

/// A number, or a small sum, that may have one of these units behind it.
pub(super) fn number_with_unit(text: &str, units: &[&str]) -> Result<f64, String> {
    // Blanks in front stay: the reasons count characters from the first.
    let text = text.trim_end();
    let number = units.iter().find_map(|unit| text.strip_suffix(unit)).unwrap_or(text);
    parse_expression(number).map_err(|error| error.to_string())
}

/// What is read; nothing typed is none.
pub(super) fn unless_empty<T>(text: &str, read: impl FnOnce(&str) -> Result<T, String>) -> Result<Option<T>, String> {
    if text.trim().is_empty() { Ok(None) } else { read(text).map(Some) }
}

/// What follows from typing into a cell: an edit for every readable state of it.
pub(super) fn typed_into<T>(event: NumberEvent<T>, actions: &mut Vec<Action>, edit: impl Fn(T) -> Edit) {
    let set = |value| Action::Edit(edit(value));
    match event {
        NumberEvent::Nothing => {}
        NumberEvent::Typing(value) => actions.push(set(value)),
        NumberEvent::Committed(value) => actions.extend([set(value), Action::EndGesture]),
        NumberEvent::Cancelled => actions.push(Action::CancelGesture),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_may_stand_behind_a_number() {
        for (text, units, expected) in [
            ("31,5", DEGREES, Some(31.5)),
            (" 31.5 °C ", DEGREES, Some(31.5)),
            ("31.5°", DEGREES, Some(31.5)),
            ("2*5 mm", &["mm"], Some(10.0)),
            ("60%", &["%"], Some(60.0)),
            ("10 cm", &["mm"], None),
            ("°C", DEGREES, None),
            ("", &["mm"], None),
        ] {
            assert_eq!(number_with_unit(text, units).ok(), expected, "{text:?}");
        }
        assert!(
            number_with_unit("  12x°C", DEGREES).is_err_and(|why| !why.contains('°')),
            "the unit is none of the number"
        );
    }

    #[test]
    fn nothing_typed_is_none() {
        let read = |text: &str| number_with_unit(text, &["g"]);
        assert_eq!(unless_empty("  ", read), Ok(None));
        assert_eq!(unless_empty("5 g", read), Ok(Some(5.0)));
        assert!(unless_empty("g", read).is_err());
    }
}
