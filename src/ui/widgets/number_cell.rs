//! The one place where numbers are typed.
//!
//! A cell keeps the text as it is typed and hands every readable state of it to the caller as [`NumberEvent::Typing`],
//! so that the program can show what would follow; Enter, Tab or leaving makes it [`NumberEvent::Committed`], Esc takes
//! it back with [`NumberEvent::Cancelled`].
//! Text that cannot be read stays where it is, outlined and with the reason beside it, and counts for nothing.
//!
//! How text becomes a number is the caller's business (a function), as is how a number becomes text.

mod typing;

pub use typing::type_ahead;

use egui::{
    Align2, Color32, Context, CornerRadius, Event, EventFilter, FontId, Frame, Id, Key, Margin, Modifiers, Response,
    Shape, Stroke, StrokeKind, TextEdit, Tooltip, Ui,
    accesskit::Invalid,
    epaint::RectShape,
    text::{CCursor, CCursorRange},
    text_edit::TextEditState,
    vec2,
};

use super::paint;
use crate::ui::theme::{self, Palette, space};

/// Between a number and the edge of its cell.
const MARGIN: Margin = Margin::symmetric(6, 2);

/// Reads a number from text, or says in the user's words why it cannot.
pub type Parse<'a, T> = &'a dyn Fn(&str) -> Result<T, String>;

/// What was done to a cell in this frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NumberEvent<T> {
    /// Nothing that concerns the value.
    Nothing,
    /// The text reads as this number, and typing goes on: show it, do not close the step.
    Typing(T),
    /// The number is meant: Enter, Tab, or the cell was left.
    Committed(T),
    /// What was typed does not count: go back to the value before.
    Cancelled,
}

/// Where the user wants to go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leave {
    /// Enter, or Down in a column: to the cell below.
    Down,
    /// Shift and Enter, or Up in a column: to the cell above.
    Up,
}

/// What a cell answers.
#[derive(Debug)]
pub struct NumberCellOutput<T> {
    /// For hover texts, menus, places.
    pub response: Response,
    /// What happened to the value.
    pub event: NumberEvent<T>,
    /// Where to go on; the caller knows what is there and calls [`focus_cell`].
    pub leave: Option<Leave>,
}

/// A number in a table or a form, quiet until it is pointed at.
#[must_use = "call `ui` to show it"]
pub struct NumberCell<'a, T> {
    id: Id,
    name: &'a str,
    shown: &'a str,
    parse: Parse<'a, T>,
    width: f32,
    font: FontId,
    colour: Option<Color32>,
    rest: Rest,
    at_rest: Option<&'a str>,
    place: Place,
    unreadable: Unreadable,
}

/// What stands around a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    Alone,
    Column,
}

/// What becomes of text that cannot be read when its cell is left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Unreadable {
    Stays,
    Goes,
}

/// What a cell looks like while nobody points at it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Rest {
    Bare,
    Framed,
}

/// What a cell remembers between frames.
#[derive(Clone, Debug, Default)]
struct Editing {
    text: String,
    /// The text before the first change, to go back to.
    before: String,
    /// What the caller showed in the last frame.
    last_shown: String,
    is_touched: bool,
    was_focused: bool,
    selection: Selection,
    last_pass: u64,
}

/// What is to be done with the selection of a cell that was just reached.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Selection {
    /// It is the user's.
    #[default]
    Settled,
    /// The press that gave the focus is still down; if it ends as a click, everything gets selected.
    Pressing,
    /// Everything gets selected before the cell is drawn next.
    SelectAll,
}

/// Whether this is the id of a number cell that has been drawn.
///
/// A cell hands every change to the caller, who keeps the history: the toolkit's own undo of the text must not have
/// the keys.
#[must_use]
pub fn is_number_cell(ctx: &Context, id: Id) -> bool {
    ctx.data(|data| data.get_temp::<Editing>(Editing::key(id))).is_some()
}

impl Editing {
    /// A change of the text that stands for what the caller showed last.
    fn touch_shown(&mut self) {
        let shown = std::mem::take(&mut self.last_shown);
        self.touch(&shown);
        self.last_shown = shown;
    }

    fn key(id: Id) -> Id {
        id.with("number cell")
    }

    fn load(ctx: &Context, id: Id) -> Self {
        ctx.data_mut(|data| data.get_temp(Self::key(id))).unwrap_or_default()
    }

    fn store(self, ctx: &Context, id: Id) {
        ctx.data_mut(|data| data.insert_temp(Self::key(id), self));
    }

    fn touch(&mut self, shown: &str) {
        if !self.is_touched {
            shown.clone_into(&mut self.before);
            self.is_touched = true;
        }
    }

    /// Forgets an edit that the world has moved on from.
    fn drop_stale(&mut self, shown: &str, pass: u64) {
        // The cell was not drawn for a while: its line went away or another recipe was opened meanwhile.
        let was_away = self.was_focused && pass > self.last_pass + 1;
        // Text that could not be read waits for correction, but not after the value below it has changed.
        let is_overtaken = !self.was_focused && shown != self.before && shown != self.last_shown;
        if was_away || is_overtaken {
            self.is_touched = false;
            self.was_focused = false;
        }
    }
}

impl<'a, T> NumberCell<'a, T> {
    /// A cell; `name` is what assistive technologies read ("Cream 35 %, amount"), `shown` the value as text.
    pub fn new(id: Id, name: &'a str, shown: &'a str, parse: Parse<'a, T>) -> Self {
        Self {
            id,
            name,
            shown,
            parse,
            width: 64.0,
            font: theme::table(),
            colour: None,
            rest: Rest::Bare,
            at_rest: None,
            place: Place::Alone,
            unreadable: Unreadable::Stays,
        }
    }

    /// What it shows while nobody types: the same number with group signs, which are in the way of the cursor.
    pub fn at_rest(mut self, words: &'a str) -> Self {
        self.at_rest = Some(words);
        self
    }

    /// It stands in a column: Up and Down leave it for the cells above and below.
    pub fn in_column(mut self) -> Self {
        self.place = Place::Column;
        self
    }

    /// Text that cannot be read goes when it is left, and the value before stands there again.
    pub fn forgetting(mut self) -> Self {
        self.unreadable = Unreadable::Goes;
        self
    }

    /// Its width in points.
    pub fn width(mut self, width: f32) -> Self {
        self.width = width;
        self
    }

    /// Its font; the table's if not called.
    pub fn font(mut self, font: FontId) -> Self {
        self.font = font;
        self
    }

    /// The colour of its text while it is readable.
    pub fn colour(mut self, colour: Color32) -> Self {
        self.colour = Some(colour);
        self
    }

    /// Shows its outline at all times: for forms, where nothing else says that it is a field.
    pub fn framed(mut self) -> Self {
        self.rest = Rest::Framed;
        self
    }

    /// Draws the cell and answers what was done to it.
    pub fn ui(self, ui: &mut Ui) -> NumberCellOutput<T> {
        let (id, ctx) = (self.id, ui.ctx().clone());
        let pass = ctx.cumulative_pass_nr();
        let mut editing = Editing::load(&ctx, id);
        if editing.is_touched {
            editing.drop_stale(self.shown, pass);
        }
        if !editing.is_touched {
            self.shown.clone_into(&mut editing.text);
        }

        let mut was_focused = editing.was_focused;
        let is_focused = ctx.memory(|memory| memory.has_focus(id));
        let mut event = NumberEvent::Nothing;
        let mut is_changed = false;
        let mut arrow = None;
        if is_focused {
            if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
                event = NumberEvent::Cancelled;
                self.take_back(&ctx, &mut editing);
            }
            is_changed |= self.step(ui, &mut editing);
            arrow = self.arrow(ui);
            if arrow.is_some() {
                ctx.memory_mut(|memory| memory.surrender_focus(id));
                was_focused = true;
            }
            if editing.selection == Selection::SelectAll {
                editing.selection = Selection::Settled;
                select_all(&ctx, id, &editing.text);
            }
        }

        let (response, frame) = self.text_edit_ui(ui, &mut editing);
        let has_focus = ctx.memory(|memory| memory.has_focus(id));
        if response.changed() {
            editing.touch(self.shown);
            is_changed = true;
        }

        let enter = arrow.or_else(|| if was_focused { enter_pressed(ui) } else { None });
        let is_left = !has_focus && (was_focused || is_changed);
        let mut leave = None;
        if is_left && !matches!(event, NumberEvent::Cancelled) {
            (event, leave) = self.finish(ui, &mut editing, enter);
        } else if is_changed && let Ok(value) = (self.parse)(&editing.text) {
            event = NumberEvent::Typing(value);
        }

        let has_focus = ctx.memory(|memory| memory.has_focus(id));
        select_on_arrival(ui, &response, &mut editing, has_focus);
        self.frame_ui(ui, &response, frame, &editing, has_focus);
        editing.was_focused = has_focus;
        self.shown.clone_into(&mut editing.last_shown);
        editing.last_pass = pass;
        editing.store(&ctx, id);
        NumberCellOutput { response, event, leave }
    }

    /// Esc: the first one brings the value back and keeps the place, the next one leaves.
    fn take_back(&self, ctx: &Context, editing: &mut Editing) {
        if editing.is_touched {
            editing.is_touched = false;
            editing.text = editing.before.clone();
            editing.selection = Selection::SelectAll;
            forget_typing(ctx, self.id);
        } else {
            ctx.memory_mut(|memory| memory.surrender_focus(self.id));
        }
    }

    /// Shift and an arrow key: one unit of the last digit shown.
    ///
    /// Not the arrow key alone: who means the next line must not change a number.
    fn step(&self, ui: &Ui, editing: &mut Editing) -> bool {
        let steps = ui.input_mut(|input| {
            let mut count = |key| i64::try_from(input.count_and_consume_key(Modifiers::SHIFT, key)).unwrap_or(0);
            count(Key::ArrowUp) - count(Key::ArrowDown)
        });
        if steps == 0 {
            return false;
        }
        match stepped(&editing.text, steps) {
            Some(text) if (self.parse)(&text).is_ok() => {
                editing.touch(self.shown);
                editing.text = text;
                editing.selection = Selection::SelectAll;
                true
            }
            _ => false,
        }
    }

    /// An arrow key in a column.
    fn arrow(&self, ui: &Ui) -> Option<Leave> {
        if self.place == Place::Alone {
            return None;
        }
        ui.input_mut(|input| {
            let mut is_pressed = |key| input.consume_key(Modifiers::NONE, key);
            // Both are taken: the text below has no lines to go through.
            match (is_pressed(Key::ArrowUp), is_pressed(Key::ArrowDown)) {
                (_, true) => Some(Leave::Down),
                (true, false) => Some(Leave::Up),
                (false, false) => None,
            }
        })
    }

    fn text_edit_ui(&self, ui: &mut Ui, editing: &mut Editing) -> (Response, egui::layers::ShapeIdx) {
        let palette = Palette::of(ui);
        let is_unreadable = editing.is_touched && (self.parse)(&editing.text).is_err();
        let colour = if is_unreadable { palette.problem } else { self.colour.unwrap_or(palette.text) };
        let frame = ui.painter().add(Shape::Noop);
        let is_at_rest = !editing.is_touched && !ui.memory(|memory| memory.has_focus(self.id));
        if is_at_rest && let Some(words) = self.at_rest {
            words.clone_into(&mut editing.text);
        }
        // A figure that is cut off would be another one: its letters shrink, and where that is not enough, it says so.
        let room = self.width - MARGIN.sum().x;
        let whole = editing.text.clone();
        let font = paint::fitting_font(ui, &whole, self.font.clone(), room);
        let is_cut = is_at_rest && paint::text_width(ui, &whole, font.clone()) > room;
        let response = TextEdit::singleline(&mut editing.text)
            .id(self.id)
            .font(font.clone())
            .text_color(if is_cut { Color32::TRANSPARENT } else { colour })
            .frame(Frame::NONE.inner_margin(MARGIN))
            .align(Align2::RIGHT_CENTER)
            .desired_width(self.width)
            .min_size(vec2(self.width, space::TARGET))
            .event_filter(EventFilter { horizontal_arrows: true, vertical_arrows: true, escape: true, tab: false })
            .show(ui)
            .response
            .response
            .accessible_name(self.name);
        if !is_cut {
            return (response, frame);
        }
        paint::clipped_text(ui, &whole, font, colour, response.rect.shrink2(vec2(MARGIN.leftf(), 0.0)));
        (response.on_hover_text(whole), frame)
    }

    /// The cell was left: the text counts, or it stays as it is and counts for nothing.
    fn finish(&self, ui: &Ui, editing: &mut Editing, enter: Option<Leave>) -> (NumberEvent<T>, Option<Leave>) {
        if !editing.is_touched {
            return (NumberEvent::Nothing, enter);
        }
        // Esc reaches the toolkit itself in the very first frame of a focus.
        if ui.input(|input| input.key_pressed(Key::Escape)) {
            editing.is_touched = false;
            return (NumberEvent::Cancelled, None);
        }
        match (self.parse)(&editing.text) {
            Ok(value) => {
                editing.is_touched = false;
                forget_typing(ui.ctx(), self.id);
                (NumberEvent::Committed(value), enter)
            }
            Err(_) if enter.is_some() => {
                ui.memory_mut(|memory| memory.request_focus(self.id));
                (NumberEvent::Nothing, None)
            }
            Err(_) => {
                if self.unreadable == Unreadable::Goes {
                    editing.is_touched = false;
                    forget_typing(ui.ctx(), self.id);
                }
                (NumberEvent::Cancelled, None)
            }
        }
    }

    fn frame_ui(
        &self,
        ui: &Ui,
        response: &Response,
        frame: egui::layers::ShapeIdx,
        editing: &Editing,
        has_focus: bool,
    ) {
        let palette = Palette::of(ui);
        let reason = if editing.is_touched { (self.parse)(&editing.text).err() } else { None };
        let (fill, stroke) = if reason.is_some() {
            (palette.card, Stroke::new(2.0, palette.problem))
        } else if has_focus {
            (palette.card, palette.focus_stroke())
        } else if response.hovered() {
            (palette.card, Stroke::new(1.0, palette.mark))
        } else if self.rest == Rest::Framed {
            (palette.card, palette.rule_stroke())
        } else {
            (Color32::TRANSPARENT, Stroke::NONE)
        };
        let radius = CornerRadius::same(space::FIELD_RADIUS);
        ui.painter().set(frame, RectShape::new(response.rect, radius, fill, stroke, StrokeKind::Inside));

        let Some(reason) = reason else { return };
        ui.ctx().accesskit_node_builder(self.id, |node| {
            node.set_invalid(Invalid::True);
            node.set_description(reason.clone());
        });
        if has_focus || response.hovered() {
            let mut tooltip = Tooltip::for_widget(response);
            tooltip.popup = tooltip.popup.open(true);
            tooltip.show(|ui| ui.label(egui::RichText::new(reason).color(Palette::of(ui).problem)));
        }
    }
}

/// Moves the keyboard to a cell and selects its text, as if it had been reached by Tab.
pub fn focus_cell(ctx: &Context, id: Id) {
    ctx.memory_mut(|memory| memory.request_focus(id));
    let mut editing = Editing::load(ctx, id);
    editing.selection = Selection::SelectAll;
    editing.store(ctx, id);
}

/// The cell in which something is being typed that is not committed yet.
///
/// While there is one, undo belongs to its text and not to the document.
#[must_use]
pub fn edited_cell(ctx: &Context) -> Option<Id> {
    let id = ctx.memory(egui::Memory::focused)?;
    let editing: Option<Editing> = ctx.data_mut(|data| data.get_temp(Editing::key(id)));
    editing.filter(|editing| editing.is_touched).map(|_| id)
}

/// Arriving by key or by a click selects everything, so that typing replaces; a drag selects what it crosses.
fn select_on_arrival(ui: &Ui, response: &Response, editing: &mut Editing, has_focus: bool) {
    let is_down = ui.input(|input| input.pointer.any_down());
    if has_focus && !editing.was_focused {
        editing.selection = if is_down { Selection::Pressing } else { Selection::SelectAll };
    } else if editing.selection == Selection::Pressing {
        if response.clicked() {
            editing.selection = Selection::SelectAll;
        } else if response.dragged() || !is_down {
            editing.selection = Selection::Settled;
        }
    }
    if editing.selection == Selection::SelectAll && has_focus {
        // Once: the next frame settles it.
        ui.ctx().request_repaint();
    }
}

/// Selects the text of a field, so that typing replaces it.
pub fn select_all(ctx: &Context, id: Id, text: &str) {
    let mut state = TextEditState::load(ctx, id).unwrap_or_default();
    let range = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
    state.cursor.set_char_range(Some(range));
    state.store(ctx, id);
}

/// Puts the cursor behind the text of a field.
pub fn put_cursor_at_end(ctx: &Context, id: Id, text: &str) {
    let mut state = TextEditState::load(ctx, id).unwrap_or_default();
    let end = CCursor::new(text.chars().count());
    state.cursor.set_char_range(Some(CCursorRange::one(end)));
    state.store(ctx, id);
}

/// Forgets the undo of a text field: it would bring back what was committed or cancelled, or what another recipe had.
pub fn forget_typing(ctx: &Context, id: Id) {
    if let Some(mut state) = TextEditState::load(ctx, id) {
        state.clear_undoer();
        state.store(ctx, id);
    }
}

fn enter_pressed(ui: &Ui) -> Option<Leave> {
    ui.input(|input| {
        input.events.iter().find_map(|event| match event {
            Event::Key { key: Key::Enter, pressed: true, modifiers, .. } if !modifiers.command && !modifiers.alt => {
                Some(if modifiers.shift { Leave::Up } else { Leave::Down })
            }
            _ => None,
        })
    })
}

/// The number in `text` moved by `steps` units of its last digit, written the same way.
///
/// Works on the digits, so that 0.1 stays 0.1; `None` for anything but one plain number.
fn stepped(text: &str, steps: i64) -> Option<String> {
    let text = text.trim();
    let unsigned = text.strip_prefix(['-', '\u{2212}']);
    let mut digits: i64 = 0;
    let mut has_digits = false;
    let mut decimals: Option<(char, usize)> = None;
    for character in unsigned.unwrap_or(text).chars() {
        match character {
            '0'..='9' => {
                has_digits = true;
                digits = digits.checked_mul(10)?.checked_add(i64::from(character.to_digit(10)?))?;
                if let Some((_, count)) = &mut decimals {
                    *count += 1;
                }
            }
            ',' | '.' if decimals.is_none() => decimals = Some((character, 0)),
            ' ' | '\u{a0}' | '\u{202f}' | '\'' if decimals.is_none() => {}
            _ => return None,
        }
    }
    if !has_digits {
        return None;
    }
    let value = if unsigned.is_some() { -digits } else { digits }.checked_add(steps)?;
    let sign = if value < 0 { "\u{2212}" } else { "" };
    let value = value.unsigned_abs();
    Some(match decimals {
        Some((separator, count)) if count > 0 => {
            let padded = format!("{value:0width$}", width = count + 1);
            let (whole, fraction) = padded.split_at(padded.len() - count);
            format!("{sign}{whole}{separator}{fraction}")
        }
        _ => format!("{sign}{value}"),
    })
}

#[cfg(test)]
mod tests {
    use super::stepped;

    #[track_caller]
    fn check_stepped(text: &str, steps: i64, expected: Option<&str>) {
        assert_eq!(stepped(text, steps).as_deref(), expected, "{text} by {steps}");
    }

    #[test]
    fn a_step_moves_the_last_digit_shown() {
        check_stepped("200", 1, Some("201"));
        check_stepped("12,5", 1, Some("12,6"));
        check_stepped("12.95", 10, Some("13.05"));
        check_stepped("0,9", 1, Some("1,0"));
        check_stepped("1,0", -1, Some("0,9"));
    }

    #[test]
    fn group_signs_are_read_over() {
        check_stepped("1\u{202f}999", 1, Some("2000"));
        check_stepped("12 000,0", -1, Some("11999,9"));
    }

    #[test]
    fn a_step_goes_through_zero() {
        check_stepped("0.05", -10, Some("\u{2212}0.05"));
        check_stepped("\u{2212}1", 1, Some("0"));
        check_stepped("-0.5", 1, Some("\u{2212}0.4"));
    }

    #[test]
    fn what_is_no_plain_number_is_left_alone() {
        for text in ["", "abc", "3*125", "1.234,5", ",", "99999999999999999999"] {
            check_stepped(text, 1, None);
        }
    }
}
