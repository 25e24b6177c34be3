//! The window: what is seen and touched.
//!
//! Everything here draws data and reports what a person did; it computes no model, opens no file and never changes
//! a document by itself.
//! Colours, text sizes and spacing come from [`theme`] alone; the pieces that panels are built of are in [`widgets`].

pub mod theme;
pub mod widgets;
