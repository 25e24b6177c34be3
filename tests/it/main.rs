#[test]
fn a() {}
