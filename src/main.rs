//! Arguments in, drawing out.

fn main() {}
