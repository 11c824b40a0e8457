//! Rebuilds the crate when a built-in rule or a demo spec changes: they are embedded in it.

fn main() {
    println!("cargo::rerun-if-changed=../../rules");
    println!("cargo::rerun-if-changed=../../specs");
}
