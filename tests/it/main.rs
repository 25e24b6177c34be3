//! Tests of the program from outside, by module.

mod store;
