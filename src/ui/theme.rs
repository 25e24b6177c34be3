//! Look as data: colours, text sizes, spacing, radii, for the light and the dark theme.
//!
//! This is the only file of the window that names raw colours; those of the groups come from [`crate::report::hue`].
//! A widget asks for [`Palette::of`] and for one of the fonts here ([`body`], [`small`], …), nothing else.
//! The contrast of every pair of text and ground that is used is computed by the tests below.
//!
//! The text family is Lato: its digits have equal width by default, which the toolkit could not switch on.
//! It comes in two weights; bold is a family of its own because the toolkit has no weights.

use std::sync::{Arc, LazyLock};

use egui::{
    Color32, Context, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, FontTweak, Margin, RichText, Shadow,
    Stroke, Style, TextStyle, Theme, ThemePreference, Ui, Vec2, Visuals, style::ScrollStyle, vec2,
};

use crate::ingredient::Component;
pub use crate::report::hue::Hue;

/// Distances and sizes in points.
pub mod space {
    /// Between things that belong together, such as a title and its subtitle.
    pub const TIGHT: f32 = 4.0;
    /// Between neighbours.
    pub const NEAR: f32 = 8.0;
    /// Between groups, and between a card's edge and its content.
    pub const GROUP: f32 = 16.0;
    /// Between the window's regions and their content.
    pub const REGION: f32 = 24.0;
    /// The least height and width of anything that is clicked or dragged.
    pub const TARGET: f32 = 24.0;
    /// Height of a row of the sheet.
    pub const ROW: f32 = 34.0;
    /// Rounding of cards.
    pub const CARD_RADIUS: u8 = 9;
    /// Rounding of fields, bars and buttons.
    pub const FIELD_RADIUS: u8 = 6;
    /// Rounding of small marks: swatches, short bars.
    pub const MARK_RADIUS: u8 = 3;
    /// Widest that an explanation gets: about 60 letters a line.
    pub const EXPLANATION_WIDTH: f32 = 380.0;
}

/// Every colour of one theme.
#[derive(Clone, Debug, PartialEq)]
pub struct Palette {
    /// Behind the sheet.
    pub ground: Color32,
    /// Behind shelf, readings, bars.
    pub panel: Color32,
    /// Cards, open fields, menus.
    pub card: Color32,
    /// Hairlines and outlines.
    pub rule: Color32,
    /// Ticks and outlines that have to be seen as marks.
    pub mark: Color32,
    /// Text.
    pub text: Color32,
    /// Text that steps back: units, captions, details.
    pub quiet: Color32,
    /// The one accent: actions, focus, selection.
    pub accent: Color32,
    /// Behind selected rows and hovered actions.
    pub accent_ground: Color32,
    /// Behind selected text.
    pub selection: Color32,
    /// Text on [`Palette::accent`] as a ground.
    pub on_accent: Color32,
    /// The band of a window or usual range, drawn solid.
    pub window: Color32,
    /// The band of a window behind a plot's lines.
    pub window_ground: Color32,
    /// The band of a second window behind a plot's lines.
    pub second_window_ground: Color32,
    /// A line of a plot in the hue of water: its own blue is too dark on a dark card.
    pub water_line: Color32,
    /// Text and marks of a caution.
    pub caution: Color32,
    /// Behind them.
    pub caution_ground: Color32,
    /// Text and marks of a problem and of invalid input.
    pub problem: Color32,
    /// Behind them.
    pub problem_ground: Color32,
    /// Wells: tracks of bars, quiet fields.
    pub well: Color32,
    /// Shadow under menus and explanations.
    pub shadow: Color32,
}

impl Palette {
    /// A quiet, well-lit workshop.
    pub const LIGHT: Self = Self {
        ground: rgb(0xF4F2EE),
        panel: rgb(0xFBFAF8),
        card: rgb(0xFFFFFF),
        rule: rgb(0xE3DFD8),
        mark: rgb(0x8F8A82),
        text: rgb(0x24211D),
        quiet: rgb(0x6B655C),
        accent: rgb(0x00664B),
        accent_ground: rgb(0xE4F1EC),
        selection: rgb(0xBFE0D3),
        on_accent: rgb(0xFFFFFF),
        window: rgb(0x6FA896),
        window_ground: rgb(0xD6EAE1),
        second_window_ground: rgb(0xEAF4F0),
        water_line: Hue::Water.fill(),
        caution: rgb(0x8A5A00),
        caution_ground: rgb(0xFBF1DC),
        problem: rgb(0xA3261B),
        problem_ground: rgb(0xFBE8E5),
        well: rgb(0xEFECE6),
        shadow: Color32::from_black_alpha(28),
    };

    /// The same room in the evening.
    pub const DARK: Self = Self {
        ground: rgb(0x191817),
        panel: rgb(0x201F1D),
        card: rgb(0x272523),
        rule: rgb(0x383531),
        mark: rgb(0x7D776E),
        text: rgb(0xECE8E1),
        quiet: rgb(0xA59E93),
        accent: rgb(0x4CC39A),
        accent_ground: rgb(0x1E352D),
        selection: rgb(0x2A5848),
        on_accent: rgb(0x12211B),
        window: rgb(0x3B7F69),
        window_ground: rgb(0x1D3C31),
        second_window_ground: rgb(0x262F2A),
        water_line: rgb(0x4E9FD6),
        caution: rgb(0xF0C36B),
        caution_ground: rgb(0x3A2F18),
        problem: rgb(0xFF9C8C),
        problem_ground: rgb(0x44231E),
        well: rgb(0x191817),
        shadow: Color32::from_black_alpha(110),
    };

    /// The colours of this place in the window.
    #[must_use]
    pub fn of(ui: &Ui) -> &'static Self {
        Self::for_theme(Theme::from_dark_mode(ui.visuals().dark_mode))
    }

    /// The colours of a theme.
    #[must_use]
    pub fn for_theme(theme: Theme) -> &'static Self {
        match theme {
            Theme::Light => &Self::LIGHT,
            Theme::Dark => &Self::DARK,
        }
    }

    /// The outline of cards and fields.
    #[must_use]
    pub fn rule_stroke(&self) -> Stroke {
        Stroke::new(1.0, self.rule)
    }

    /// The outline of what has the keyboard.
    #[must_use]
    pub fn focus_stroke(&self) -> Stroke {
        Stroke::new(2.0, self.accent)
    }
}

impl Palette {
    /// The colour of a line of a plot in this hue.
    #[must_use]
    pub fn line(&self, hue: Hue) -> Color32 {
        if hue == Hue::Water { self.water_line } else { hue.fill() }
    }
}

impl Hue {
    /// The colour of its areas and lines, the same in both themes.
    #[must_use]
    pub const fn fill(self) -> Color32 {
        let [red, green, blue] = self.rgb();
        Color32::from_rgb(red, green, blue)
    }

    /// The colour of text on [`Hue::fill`].
    #[must_use]
    pub const fn text(self) -> Color32 {
        let [red, green, blue] = self.text_rgb();
        Color32::from_rgb(red, green, blue)
    }
}

/// The colour group that a component is drawn in.
///
/// Ethanol is drawn with the water that it is mixed with; what is no fat, sugar, water or cocoa is "other solids".
#[must_use]
pub fn component_colour(component: Component) -> Hue {
    match component {
        Component::CocoaButter => Hue::CocoaButter,
        Component::MilkFat => Hue::MilkFat,
        Component::OtherFat => Hue::OtherFat,
        Component::Water | Component::Ethanol => Hue::Water,
        Component::FatFreeCocoaSolids => Hue::CocoaSolids,
        _ if Component::SUGARS.contains(&component) => Hue::Sugars,
        _ => Hue::OtherSolids,
    }
}

/// What the user chose.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum ThemeChoice {
    /// As the system says, and light where it says nothing.
    #[default]
    System,
    /// Always light.
    Light,
    /// Always dark.
    Dark,
}

/// Puts fonts and both styles into the context; call once, before the first frame.
pub fn install(ctx: &Context) {
    ctx.set_fonts(fonts());
    ctx.set_style_of(Theme::Light, style(Theme::Light));
    ctx.set_style_of(Theme::Dark, style(Theme::Dark));
    // No desktop on Linux tells the window its theme, and the toolkit would then choose dark.
    ctx.options_mut(|options| options.fallback_theme = Theme::Light);
}

/// Follows the user's choice from the next frame on.
pub fn choose(ctx: &Context, choice: ThemeChoice) {
    ctx.set_theme(match choice {
        ThemeChoice::System => ThemePreference::System,
        ThemeChoice::Light => ThemePreference::Light,
        ThemeChoice::Dark => ThemePreference::Dark,
    });
}

/// Running text, labels, buttons.
#[must_use]
pub fn body() -> FontId {
    FontId::new(14.5, FontFamily::Proportional)
}

/// Running text that carries the point.
#[must_use]
pub fn body_bold() -> FontId {
    FontId::new(14.5, bold())
}

/// Captions, column heads, axis figures.
#[must_use]
pub fn small() -> FontId {
    FontId::new(12.5, FontFamily::Proportional)
}

/// Labels on bars and marks.
#[must_use]
pub fn small_bold() -> FontId {
    FontId::new(12.5, bold())
}

/// The sheet's rows.
#[must_use]
pub fn table() -> FontId {
    FontId::new(15.5, FontFamily::Proportional)
}

/// The sheet's total.
#[must_use]
pub fn table_bold() -> FontId {
    FontId::new(15.5, bold())
}

/// Titles of dialogs.
#[must_use]
pub fn title() -> FontId {
    FontId::new(18.0, bold())
}

/// The name of the recipe.
#[must_use]
pub fn heading() -> FontId {
    FontId::new(23.0, bold())
}

/// The large quiet numbers.
#[must_use]
pub fn figure() -> FontId {
    FontId::new(25.0, bold())
}

/// The word that stands where a large number is not known.
#[must_use]
pub fn unknown_figure() -> FontId {
    FontId::new(25.0, FontFamily::Proportional)
}

/// Text that carries the point, in the colour of its place.
#[must_use]
pub fn strong(text: impl Into<String>) -> RichText {
    RichText::new(text).font(body_bold())
}

/// Text that steps back.
#[must_use]
pub fn quiet(ui: &Ui, text: impl Into<String>) -> RichText {
    RichText::new(text).font(body()).color(Palette::of(ui).quiet)
}

/// A caption: small and quiet.
#[must_use]
pub fn caption(ui: &Ui, text: impl Into<String>) -> RichText {
    RichText::new(text).font(small()).color(Palette::of(ui).quiet)
}

/// How far letters are moved down, as a part of their size.
///
/// Lato declares the room between its lines below the letters; the toolkit takes that literally and text would stand
/// too high in every button.
/// With this shift the middle of capitals and the middle of small letters lie evenly around the middle of the line.
pub(crate) const LATO_SHIFT: f32 = 0.115;

const fn rgb(hex: u32) -> Color32 {
    let [_, red, green, blue] = hex.to_be_bytes();
    Color32::from_rgb(red, green, blue)
}

/// The family of bold text.
#[must_use]
pub fn bold() -> FontFamily {
    static BOLD: LazyLock<FontFamily> = LazyLock::new(|| FontFamily::Name("bold".into()));
    BOLD.clone()
}

fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    // The toolkit's own fonts stay as a fallback for what Lato does not have; its monospaced one is not used.
    fonts.font_data.remove("Hack");
    let mut fallback = fonts.families.remove(&FontFamily::Proportional).unwrap_or_default();
    fallback.retain(|name| fonts.font_data.contains_key(name));
    let with = |first: &str| {
        let mut family = vec![first.to_owned()];
        family.extend(fallback.iter().cloned());
        family
    };
    fonts.families.insert(FontFamily::Proportional, with("Lato"));
    fonts.families.insert(FontFamily::Monospace, with("Lato"));
    fonts.families.insert(bold(), with("Lato bold"));
    let centred = FontTweak { y_offset_factor: LATO_SHIFT, ..FontTweak::default() };
    let mut add = |name: &str, data| {
        fonts.font_data.insert(name.to_owned(), Arc::new(FontData::from_static(data).tweak(centred.clone())));
    };
    add("Lato", include_bytes!("../../assets/fonts/Lato-Regular.ttf").as_slice());
    add("Lato bold", include_bytes!("../../assets/fonts/Lato-Bold.ttf").as_slice());
    fonts
}

fn style(theme: Theme) -> Style {
    let mut style = theme.default_style();
    style.text_styles = [
        (TextStyle::Small, small()),
        (TextStyle::Body, body()),
        (TextStyle::Button, body()),
        (TextStyle::Heading, heading()),
        (TextStyle::Monospace, FontId::new(14.5, FontFamily::Monospace)),
    ]
    .into();
    style.spacing.item_spacing = vec2(space::NEAR, 6.0);
    style.spacing.button_padding = vec2(10.0, 4.0);
    style.spacing.interact_size = Vec2::splat(space::TARGET);
    style.spacing.icon_width = 18.0;
    style.spacing.icon_width_inner = 10.0;
    style.spacing.icon_spacing = 6.0;
    style.spacing.window_margin = Margin::same(20);
    style.spacing.menu_margin = Margin::same(8);
    style.spacing.tooltip_width = space::EXPLANATION_WIDTH;
    style.spacing.scroll = ScrollStyle { bar_width: 8.0, ..ScrollStyle::floating() };
    style.interaction.tooltip_delay = 0.35;
    // Text is pointed at and clicked here, not selected; what is worth copying has a command.
    style.interaction.selectable_labels = false;
    // Short enough to feel immediate, and it ends by itself.
    style.animation_time = 0.08;
    style.visuals = visuals(theme);
    style
}

fn visuals(theme: Theme) -> Visuals {
    let palette = Palette::for_theme(theme);
    let mut visuals = theme.default_visuals();
    let field_radius = CornerRadius::same(space::FIELD_RADIUS);

    let widgets = &mut visuals.widgets;
    for (state, fill, outline, text) in [
        (&mut widgets.noninteractive, palette.panel, palette.rule, palette.text),
        (&mut widgets.inactive, palette.card, palette.rule, palette.text),
        (&mut widgets.hovered, palette.accent_ground, palette.accent, palette.text),
        (&mut widgets.active, palette.accent_ground, palette.accent, palette.text),
        (&mut widgets.open, palette.accent_ground, palette.accent, palette.text),
    ] {
        state.bg_fill = fill;
        state.weak_bg_fill = fill;
        state.bg_stroke = Stroke::new(1.0, outline);
        state.fg_stroke = Stroke::new(1.0, text);
        state.corner_radius = field_radius;
        state.expansion = 0.0;
    }
    // The boxes of check marks and radio buttons have to be seen as something to click.
    widgets.inactive.bg_fill = palette.well;
    widgets.active.fg_stroke = Stroke::new(1.5, palette.text);

    visuals.weak_text_color = Some(palette.quiet);
    visuals.selection.bg_fill = palette.selection;
    // The toolkit takes this for selected text and for the outline of focused fields.
    visuals.selection.stroke = Stroke::new(1.5, palette.text);
    visuals.hyperlink_color = palette.accent;
    visuals.faint_bg_color = palette.ground;
    visuals.extreme_bg_color = palette.well;
    visuals.text_edit_bg_color = Some(palette.card);
    visuals.code_bg_color = palette.well;
    visuals.warn_fg_color = palette.caution;
    visuals.error_fg_color = palette.problem;

    visuals.window_corner_radius = CornerRadius::same(space::CARD_RADIUS);
    visuals.menu_corner_radius = CornerRadius::same(space::CARD_RADIUS);
    visuals.window_fill = palette.card;
    visuals.window_stroke = palette.rule_stroke();
    visuals.panel_fill = palette.panel;
    let shadow = Shadow { offset: [0, 4], blur: 16, spread: 0, color: palette.shadow };
    visuals.window_shadow = shadow;
    visuals.popup_shadow = shadow;
    visuals.window_highlight_topmost = false;

    visuals.text_cursor.stroke = Stroke::new(1.5, palette.text);
    // A blinking caret would draw two frames a second for ever; an idle window draws none.
    visuals.text_cursor.blink = false;
    visuals.indent_has_left_vline = false;
    visuals.slider_trailing_fill = true;
    visuals
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast of two opaque colours, 1 to 21.
    ///
    /// (L₁ + 0.05) / (L₂ + 0.05) with the relative luminance L of sRGB.
    /// Source: W3C, Web Content Accessibility Guidelines 2.1, "contrast ratio" and "relative luminance".
    fn contrast(one: Color32, other: Color32) -> f64 {
        fn luminance(colour: Color32) -> f64 {
            let linear = |byte: u8| {
                let value = f64::from(byte) / 255.0;
                if value <= 0.03928 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
            };
            0.2126 * linear(colour.r()) + 0.7152 * linear(colour.g()) + 0.0722 * linear(colour.b())
        }
        let (one, other) = (luminance(one), luminance(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    #[track_caller]
    fn check_contrast(what: &str, one: Color32, other: Color32, least: f64) {
        let contrast = contrast(one, other);
        assert!(contrast >= least, "{what}: {contrast:.2} is less than {least}");
    }

    #[test]
    fn contrast_of_the_extremes_is_21_and_1() {
        // WCAG 2.1: black on white is 21 : 1.
        approx::assert_relative_eq!(contrast(Color32::BLACK, Color32::WHITE), 21.0, epsilon = 1e-9);
        approx::assert_relative_eq!(contrast(Color32::WHITE, Color32::WHITE), 1.0, epsilon = 1e-9);
        // #767676 is the well-known lightest grey that is allowed as text on white.
        approx::assert_relative_eq!(contrast(rgb(0x767676), Color32::WHITE), 4.54, epsilon = 0.005);
    }

    #[test]
    fn text_is_readable_on_every_ground() {
        for palette in [&Palette::LIGHT, &Palette::DARK] {
            for (name, ground) in [
                ("ground", palette.ground),
                ("panel", palette.panel),
                ("card", palette.card),
                ("well", palette.well),
                ("accent ground", palette.accent_ground),
                ("window ground", palette.window_ground),
                ("second window ground", palette.second_window_ground),
            ] {
                check_contrast(&format!("text on {name}"), palette.text, ground, 4.5);
                check_contrast(&format!("quiet on {name}"), palette.quiet, ground, 4.5);
                check_contrast(&format!("accent on {name}"), palette.accent, ground, 4.5);
            }
            for (name, ground) in [("ground", palette.ground), ("panel", palette.panel), ("card", palette.card)] {
                check_contrast(&format!("caution on {name}"), palette.caution, ground, 4.5);
                check_contrast(&format!("problem on {name}"), palette.problem, ground, 4.5);
                // Marks are graphics: 3 : 1 (WCAG 2.1, 1.4.11).
                check_contrast(&format!("mark on {name}"), palette.mark, ground, 3.0);
            }
            check_contrast("caution", palette.caution, palette.caution_ground, 4.5);
            check_contrast("problem", palette.problem, palette.problem_ground, 4.5);
            check_contrast("selected text", palette.text, palette.selection, 4.5);
            check_contrast("on accent", palette.on_accent, palette.accent, 4.5);
            check_contrast("handle", palette.panel, palette.text, 4.5);
        }
    }

    #[test]
    fn labels_are_readable_on_every_component_colour() {
        for hue in Hue::ALL {
            check_contrast(&format!("{hue:?}"), hue.text(), hue.fill(), 4.5);
        }
    }

    #[test]
    fn component_colours_differ() {
        for (idx, one) in Hue::ALL.into_iter().enumerate() {
            for other in &Hue::ALL[idx + 1..] {
                assert_ne!(one.fill(), other.fill(), "{one:?} and {other:?}");
            }
        }
    }

    #[test]
    fn the_five_sugars_share_a_colour_and_polyols_do_not() {
        for sugar in Component::SUGARS {
            assert_eq!(component_colour(sugar), Hue::Sugars);
        }
        assert_eq!(component_colour(Component::Polyols), Hue::OtherSolids);
        assert_eq!(component_colour(Component::Ethanol), Hue::Water);
    }

    #[test]
    fn digits_have_equal_width() {
        let ctx = Context::default();
        install(&ctx);
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            for font in [body(), body_bold(), table(), figure()] {
                let widths: Vec<f32> =
                    ui.fonts_mut(|fonts| ('0'..='9').map(|digit| fonts.glyph_width(&font, digit)).collect());
                for width in &widths {
                    assert!((width - widths[0]).abs() < 1e-3, "{font:?}: {widths:?}");
                }
            }
        });
        output.textures_delta.clear();
    }
}
